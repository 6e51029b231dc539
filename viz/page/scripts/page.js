// The page itself: scenes, language, what is touched, and the frames.
const find = id => document.getElementById(id), canvas = find('picture'), g = canvas.getContext('2d', { alpha: false });
// A scene is made when it is first asked for, so that the first picture comes soon.
const MAKERS = { turning: () => new Turning(), engine: () => new Engines(), ...(DATA.gun ? { blades: () => new Blades() } : {}) }, made = {}, scenes = {};
for (const [name, maker] of Object.entries(MAKERS)) Object.defineProperty(scenes, name, { enumerable: true, get: () => made[name] ??= maker() });
let current = 'turning', running = !matchMedia('(prefers-reduced-motion: reduce)').matches, shown = 0, spoken = '';

function words() {
  document.documentElement.lang = say('language.code');
  document.title = say('page.title');
  for (const node of document.querySelectorAll('[data-say]')) node.textContent = say(node.dataset.say);
  for (const node of document.querySelectorAll('[data-name]')) node.setAttribute('aria-label', say(node.dataset.name));
  find('run').textContent = say(running ? 'button.pause' : 'button.go_on');
  DATA.engines.forEach(one => { find(`${one.kind}-spin`).textContent = say('engine.wheels', { wheels: one.wheels }); });
  if (DATA.gun) {
    find('chances').textContent = say(DATA.chances.key, DATA.chances.values);
    find('gear').textContent = say(geared() ? 'button.gear_on' : 'button.gear_off');
    find('gear').setAttribute('aria-pressed', geared());
  }
  for (const scene of Object.values(made)) (scene.hold ?? scene.narrator).since = -Infinity;
  spoken = ''; told = {};
}

const geared = () => made.blades?.gun.geared ?? true;

function show(name) {
  current = name;
  release();
  for (const each of Object.keys(MAKERS)) {
    find(`to-${each}`).setAttribute('aria-pressed', each === name);
    find(`with-${each}`).hidden = each !== name;
  }
  canvas.dataset.name = `page.sees_${name}`;
  canvas.setAttribute('aria-label', say(canvas.dataset.name));
  spoken = ''; told = {};
  draw();
}

function release() {
  if (made.blades) { made.blades.trigger = false; find('fire').setAttribute('aria-pressed', false); }
  lean(0);
}

function lean(share) { scenes.turning.pair.asked = share; find('bank').value = Math.round(100 * share); find('bank').setAttribute('aria-valuetext', `${Math.round(Math.abs(share) * DATA.flight.most_bank * 180 / Math.PI)}°`); }

function run(on) { running = on; find('run').textContent = say(on ? 'button.pause' : 'button.go_on'); find('run').setAttribute('aria-pressed', !on); }

// Readings are exchanged where they differ, so that a reader of the screen is told nothing twice.
let told = {};
function tell(id, text) { if (told[id] !== text) { told[id] = text; find(id).textContent = text; } }

function readings() {
  const sentence = scenes[current].sentence();
  if (sentence !== spoken) { spoken = sentence; find('sentence').textContent = sentence; }
  if (current === 'turning') scenes.turning.seenPushes().forEach(([up, right], place) => {
    const kind = place ? 'fixed' : 'rotary', size = Math.hypot(up, right);
    tell(`${kind}-push`, say(size < 0.04 ? 'turning.none' : `turning.${word([up, right])}`));
    find(`${kind}-bar`).style.width = `${Math.min(100, 100 * size / 1.2)}%`;
  });
  if (current === 'blades') {
    const { rounds, strikes } = scenes.blades.gun;
    tell('rounds', say('blades.rounds', { count: rounds })); tell('strikes', say('blades.strikes', { count: strikes }));
    find('strikes').classList.toggle('some', strikes > 0);
    if (find('fire').dataset.shown !== scenes.blades.fires) find('fire').dataset.shown = scenes.blades.fires;
  }
}

// Where frames come late the picture gets coarser, by a step every second, never below a dot a pixel of the page.
const SHARPNESS = [2, 1.5, 1.25, 1], LATE = 24;
let coarse = 0, late = 0, counted = 0;
function keepUp(gap) {
  late += gap > LATE ? 1 : 0;
  if (++counted < 60) return;
  if (late > 30 && coarse < SHARPNESS.length - 1) coarse++;
  late = counted = 0;
}

function fit() {
  const ratio = Math.max(Math.min(devicePixelRatio || 1, SHARPNESS[coarse]), 1), w = canvas.clientWidth, h = canvas.clientHeight;
  const [wide, tall] = [Math.max(1, Math.round(w * ratio)), Math.max(1, Math.round(h * ratio))];
  if (canvas.width !== wide || canvas.height !== tall) { canvas.width = wide; canvas.height = tall; }
  g.ratio = ratio; g.letters = Math.min(Math.max(15, Math.min(w / 30, h / 18)), 34);
  return [w, h];
}

function draw() {
  const [w, h] = fit();
  g.setTransform(g.ratio, 0, 0, g.ratio, 0, 0);
  scenes[current].draw(g, w, h);
  readings();
}

function frame(now) {
  const elapsed = Math.min(Math.max(now - shown, 0) / 1000, 0.1);
  if (running) keepUp(now - shown);
  shown = now;
  if (document.hidden) return;
  if (running) { scenes[current].advance(elapsed); draw(); }
  next = requestAnimationFrame(frame);
}

// One loop of frames, however often a tab is hidden and shown.
let next = 0;
function begin() { cancelAnimationFrame(next); shown = performance.now(); next = requestAnimationFrame(frame); }

function bind() {
  for (const name of Object.keys(MAKERS)) find(`to-${name}`).addEventListener('click', () => show(name));
  find('language').addEventListener('change', event => { LANGUAGE = event.target.value; words(); draw(); });
  find('run').addEventListener('click', () => run(!running));
  find('let-go').addEventListener('click', () => scenes.turning.pair.letGo());
  find('bank').addEventListener('input', event => lean(event.target.value / 100));
  for (const end of ['pointerup', 'pointercancel']) find('bank').addEventListener(end, () => lean(0));
  const drag = event => { const box = canvas.getBoundingClientRect(); lean(bounded(3 * ((event.clientX - box.left) / box.width - 0.5), 1)); };
  canvas.addEventListener('pointerdown', event => { if (current === 'turning') { canvas.setPointerCapture(event.pointerId); drag(event); } });
  canvas.addEventListener('pointermove', event => { if (current === 'turning' && canvas.hasPointerCapture(event.pointerId)) drag(event); });
  for (const end of ['pointerup', 'pointercancel']) canvas.addEventListener(end, () => lean(0));
  find('pace').addEventListener('input', event => { PACE = +event.target.value; find('pace-told').textContent = pace(); });
  if (DATA.gun) trigger();
  addEventListener('resize', draw);
  document.addEventListener('visibilitychange', () => { release(); if (!document.hidden) begin(); });
}

const pace = () => say(DATA.paces[PACE] === 1 ? 'pace.real' : 'pace.slow', { factor: Math.round(1 / DATA.paces[PACE]) });

function trigger() {
  const pull = on => { scenes.blades.trigger = on; find('fire').setAttribute('aria-pressed', on); };
  find('fire').addEventListener('pointerdown', event => { find('fire').setPointerCapture(event.pointerId); pull(true); });
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture']) find('fire').addEventListener(end, () => pull(false));
  find('fire').addEventListener('keydown', event => { if (event.key === ' ' || event.key === 'Enter') { pull(true); event.preventDefault(); } });
  for (const end of ['keyup', 'blur']) find('fire').addEventListener(end, () => pull(false));
  find('fire').addEventListener('contextmenu', event => event.preventDefault());
  find('gear').addEventListener('click', () => { scenes.blades.gun.change(); words(); draw(); });
}

function start() {
  for (const [name, table] of Object.entries(DATA.words)) find('language').append(Object.assign(document.createElement('option'), { value: name, textContent: table['language.code'].toUpperCase(), title: table['language.name'], lang: table['language.code'] }));
  const known = Object.entries(DATA.words).map(([name, table]) => [table['language.code'], name]);
  for (const asked of [...navigator.languages].reverse()) for (const [code, name] of known) if (asked.toLowerCase().split('-')[0] === code) LANGUAGE = name;
  find('language').value = LANGUAGE;
  const most = Math.max(...DATA.engines.map(one => one.share));
  DATA.engines.forEach(one => { find(`${one.kind}-share`).style.width = `${100 * one.share / most}%`; });
  find('pace').max = DATA.paces.length - 1; find('pace').value = PACE;
  bind(); run(running); words(); find('pace-told').textContent = pace();
  show('turning'); begin();
}

start();
