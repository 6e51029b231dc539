// It answers sideways: the airplane with the rotary, and as an outline the same one with the fixed engine.
const TILT = 9 * Math.PI / 180, HALF_WIDTH = 27 * Math.PI / 180, FIELD = [230, 150], CORNERS = [[0, 0], [1, 0], [1, 1], [0, 1]];

class Turning {
  constructor() {
    this.pair = new Pair(); this.backlog = 0; this.narrator = new Narrator();
    this.solid = solid(DATA.solids.airplane); this.ghost = solid(DATA.solids.ghost);
    this.camera = this.pair.both[0].heading;
  }
  advance(elapsed) {
    this.backlog = Math.min(this.backlog + elapsed, 0.1);
    for (; this.backlog >= DATA.flight.step; this.backlog -= DATA.flight.step) this.pair.step();
    const [rotary, fixed] = this.pair.both, mean = rotary.heading + 0.5 * remainder(fixed.heading - rotary.heading, 2 * Math.PI);
    this.camera += Math.min(1, elapsed / DATA.flight.camera) * remainder(mean - this.camera, 2 * Math.PI);
    this.narrator.now += elapsed;
  }
  pushes() { return this.pair.both.map(one => [one.seen[5] / DATA.flight.couple, one.seen[6] / DATA.flight.couple]); }
  // As they are on the picture, up and right.
  seenPushes() { return this.pushes().map(([up, right], place) => onPicture(this.pair.both[place].state, this.camera, up, right)); }
  sentence() { return this.narrator.tell(this); }
  // An airplane between its last two steps.
  between(one) {
    const share = this.backlog / DATA.flight.step, state = one.before.map((x, k) => x + share * (one.state[k] - x)), norm = Math.hypot(...state.slice(3, 7));
    for (let k = 3; k < 7; k++) state[k] /= norm;
    return { state, nose: () => noseOf(state) };
  }
  draw(g, w, h) {
    const [rotary, fixed] = this.pair.both.map(one => this.between(one)), { span, hub } = DATA.figure, sine = Math.sin(this.camera), cosine = Math.cos(this.camera);
    const c = Math.cos(TILT), s = Math.sin(TILT);
    const camera = { basis: [[c * cosine, c * sine, s], [-sine, cosine, 0], [-s * cosine, -s * sine, c]],
      eye: [-1.6 * span * cosine, -1.6 * span * sine, -0.42 * span], focal: 0.5 * Math.min(w, 1.35 * h) / Math.tan(HALF_WIDTH), centre: [w / 2, 0.46 * h] };
    this.country(g, w, h, camera, rotary);
    const turn = toEarth(rotary.state.slice(3, 7)), other = toEarth(fixed.state.slice(3, 7)), away = this.pair.apart, most = 0.5 * span;
    const apart = away.map(part => part * most / (most + Math.hypot(...away)));
    this.sight(g, camera, turn, fixed, 'fixed'); this.sight(g, camera, turn, rotary, 'rotary');
    outline(g, this.ghost, camera, { turn: other, place: apart, angles: surfaces(fixed.state), ink: 'fixed' });
    const behind = dot(camera.eye, transposed(turn)[0]) < hub[0];
    if (behind) this.propeller(g, camera, turn);
    paint(g, this.solid, camera, { turn, angles: surfaces(rotary.state), ground: 'linen' });
    if (!behind) this.propeller(g, camera, turn);
    const pushes = this.pushes();
    this.push(g, camera, other, apart, pushes[1], 'fixed'); this.push(g, camera, turn, HERE, pushes[0], 'rotary');
  }
  country(g, w, h, camera, { state }) {
    const horizon = camera.centre[1] - camera.focal * Math.tan(TILT), sky = g.createLinearGradient(0, 0, 0, horizon);
    for (const [share, ink] of DATA.country.sky) sky.addColorStop(1 - share, css(ink));
    g.fillStyle = sky; g.fillRect(0, 0, w, horizon + 1);
    g.fillStyle = css(DATA.country.crops[8]); g.fillRect(0, horizon, w, h - horizon);
    const high = -state[2], north = state[0] + camera.eye[0], east = state[1] + camera.eye[1], eye = -camera.eye[2] + high;
    const [fx, fy] = [camera.basis[1][1], -camera.basis[1][0]], reach = 3000;
    const wide = 0.62 * Math.max(1, w / Math.min(w, 1.35 * h)), crops = DATA.country.crops.map(() => new Path2D()), hedges = new Path2D();
    for (let i = Math.floor((north - reach) / FIELD[0]); i <= (north + reach) / FIELD[0]; i++) for (let j = Math.floor((east - reach) / FIELD[1]); j <= (east + reach) / FIELD[1]; j++) {
      const n = (i + 0.5) * FIELD[0] - north, e = (j + 0.5) * FIELD[1] - east, deep = n * fx + e * fy, side = Math.abs(e * fx - n * fy);
      if (deep < 0.5 * eye || deep > reach || side > wide * deep + 260) continue;
      const field = this.field(camera, i, j, [north, east, eye]);
      if (!field) continue;
      crops[Math.abs((i * 73856093) ^ (j * 19349663)) % 997 % crops.length].addPath(field);
      if (deep < 1500) hedges.addPath(field);
    }
    crops.forEach((path, place) => { g.fillStyle = css(DATA.country.crops[place]); g.fill(path); });
    g.strokeStyle = css(DATA.country.hedge); g.lineWidth = 1; g.stroke(hedges);
    const haze = g.createLinearGradient(0, horizon, 0, h);
    for (const [at, alpha] of [[0, 0.97], [0.1, 0.85], [0.3, 0.4], [0.7, 0.05], [1, 0]]) haze.addColorStop(at, `rgba(${DATA.country.haze},${alpha})`);
    g.fillStyle = haze; g.fillRect(0, horizon, w, h - horizon);
  }
  field(camera, i, j, [north, east, eye]) {
    const shift = 0.5 * FIELD[1] * (i & 1), path = new Path2D(), [ahead, right, down] = camera.basis;
    for (const [a, b] of CORNERS) {
      const n = (i + a) * FIELD[0] - north, e = (j + b) * FIELD[1] + shift - east, deep = ahead[0] * n + ahead[1] * e + ahead[2] * eye;
      if (deep < 30) return null;
      const x = camera.centre[0] + camera.focal * (right[0] * n + right[1] * e) / deep, y = camera.centre[1] + camera.focal * (down[0] * n + down[1] * e + down[2] * eye) / deep;
      a + b ? path.lineTo(x, y) : path.moveTo(x, y);
    }
    path.closePath();
    return path;
  }
  // A line from the hub of the rotary's airplane to where a nose points on the sky, with a mark there.
  sight(g, camera, turn, one, ink) {
    const far = times(camera.basis, one.nose()), [x, y] = project(camera, times(turn, DATA.figure.hub));
    if (far[0] < 0.2) return;
    const aim = [camera.centre[0] + camera.focal * far[1] / far[0], camera.centre[1] + camera.focal * far[2] / far[0]];
    line(g, [[x, y], aim], 'keyline', 4); line(g, [[x, y], aim], ink, 2);
    if (ink === HOLLOW) { ringAt(g, aim, 9, 'keyline', 6); ringAt(g, aim, 9, ink, 3); } else { disc(g, aim, 9, 'keyline'); disc(g, aim, 7, ink); }
  }
  propeller(g, camera, turn) {
    const { hub, radius } = DATA.figure;
    g.beginPath();
    for (let place = 0; place < 36; place++) { const at = around(0, radius, place * Math.PI / 18), [x, y] = project(camera, times(turn, [hub[0], hub[1] + at[1], hub[2] + at[2]])); place ? g.lineTo(x, y) : g.moveTo(x, y); }
    g.closePath(); g.globalAlpha = 0.25; g.fillStyle = role('blade'); g.fill(); g.globalAlpha = 0.6; g.strokeStyle = role('blade'); g.lineWidth = 1.5; g.stroke(); g.globalAlpha = 1;
  }
  push(g, camera, turn, place, [up, right], ink) {
    const share = Math.hypot(up, right), { hub, span } = DATA.figure;
    if (share < 0.04) return;
    const reach = 0.42 * span * Math.min(1, 1.2 / share);
    const points = [hub, [hub[0], hub[1] + right * reach, hub[2] - up * reach]].map(at => project(camera, times(turn, at).map((part, k) => part + place[k])));
    arrow(g, points.map(([x, y]) => [x, y]), ink, Math.max(7, g.letters / 2));
  }
}

function surfaces(state) {
  const share = (x, up, down) => x / (x < 0 ? up : down), { elevator, aileron, rudder, drawn } = DATA.flight.travel;
  const e = share(state[14], ...elevator), a = state[15] / aileron, r = state[16] / rudder, roll = -drawn.aileron * a;
  return { elevator: drawn.elevator * e, rudder: drawn.rudder * r, head: -drawn.head * a,
    ...Object.fromEntries([0, 1, 2, 3].flatMap(k => [[`aileron${k}l`, roll], [`aileron${k}r`, -roll]])) };
}

// How far up and right on the picture a move of the nose goes that is so far up and right in the body.
function onPicture(state, camera, up, right) {
  const [n, e, d] = toEarth(state.slice(3, 7)).map(row => right * row[1] - up * row[2]);
  return [-d, Math.cos(camera) * e - Math.sin(camera) * n];
}

// What is said of a flight, as viz/stage/worlds/narrator.py: never while it is false.
const WAYS = { nose_up: [1, 0], nose_down: [-1, 0], nose_right: [0, 1], nose_left: [0, -1] };
const word = ([up, right]) => Math.abs(up) >= Math.abs(right) ? (up > 0 ? 'nose_up' : 'nose_down') : right > 0 ? 'nose_right' : 'nose_left';
const still = (said, move) => move[0] * WAYS[said][0] + move[1] * WAYS[said][1] >= 0.5 * Math.hypot(...move) && Math.hypot(...move) > 0;

class Narrator {
  constructor() { this.now = 0; this.said = null; this.since = -Infinity; this.felt = Infinity; this.words = ''; }
  tell({ pair, camera }) {
    const [rotary, fixed] = pair.both, seen = rotary.seen, size = Math.hypot(seen[5], seen[6]), share = pair.hand === 'pilot' ? size / DATA.flight.couple : 0;
    const cause = onPicture(rotary.state, camera, rotary.state[11], rotary.state[12]), effect = onPicture(rotary.state, camera, seen[5], seen[6]), said = this.said;
    if (said?.words && share >= 0.5 * DATA.felt && still(said.words[0], cause) && still(said.words[1], effect)) return this.text();
    if (said?.words) this.felt = Infinity;
    else if (said && said.hand === pair.hand && this.now < this.since + DATA.hold) return this.text();
    const words = [word(cause), word(effect)];
    if (share < DATA.felt) this.felt = Infinity;
    else { this.felt = words.join() === this.words ? Math.min(this.felt, this.now) : this.now; this.words = words.join(); }
    const less = Math.hypot(fixed.seen[5], fixed.seen[6]), told = this.now >= this.felt + DATA.lasts;
    const wanted = told ? { words, ratio: less > 1 ? (size / less).toFixed(0) : '∞' } : { hand: pair.hand };
    if (JSON.stringify(wanted) !== JSON.stringify(said)) { this.said = wanted; this.since = this.now; }
    return this.text();
  }
  text() {
    const { words, ratio, hand } = this.said;
    return words ? say('caption.push', { cause: say(`cause.${words[0]}`), effect: say(`effect.${words[1]}`), ratio }) : say(hand === 'pilot' ? 'page.bank' : `caption.${hand}`);
  }
}
