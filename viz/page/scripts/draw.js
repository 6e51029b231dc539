// What the scenes share: sentences that stand long enough, arrows, labels, and pictures kept of what stands still.
const HOLLOW = 'fixed';
let LANGUAGE = 'english';

function say(key, values = {}) {
  const words = DATA.words[LANGUAGE];
  return words[key].replace(/\{(\w+)\}/g, (_, name) => numeral(String(values[name]), words));
}

// Thousands come apart by a thin space, whatever the language puts there.
function numeral(text, words) {
  return text.replace(/^-?\d+(\u202f\d{3})*(\.\d+)?/, number => number.replace('.', words['language.point']).replace(/\u202f/g, words['language.group']));
}

// One sentence at a time, each for at least DATA.hold seconds.
class Hold {
  constructor() { this.standing = ''; this.since = -Infinity; }
  take(due, now) {
    if (due !== this.standing && now - this.since >= DATA.hold) { this.standing = due; this.since = now; }
    return this.standing;
  }
  clear() { this.since = -Infinity; }
}

function line(g, points, ink, width) {
  g.beginPath();
  points.forEach(([x, y], place) => place ? g.lineTo(x, y) : g.moveTo(x, y));
  g.strokeStyle = role(ink); g.lineWidth = width; g.lineCap = g.lineJoin = 'round';
  g.stroke();
}

function polygon(g, points, ink) {
  g.beginPath();
  points.forEach(([x, y], place) => place ? g.lineTo(x, y) : g.moveTo(x, y));
  g.closePath(); g.fillStyle = role(ink); g.fill();
}

function disc(g, [x, y], radius, ink) { g.beginPath(); g.arc(x, y, radius, 0, 2 * Math.PI); g.fillStyle = role(ink); g.fill(); }

function ringAt(g, [x, y], radius, ink, width) { g.beginPath(); g.arc(x, y, radius, 0, 2 * Math.PI); g.strokeStyle = role(ink); g.lineWidth = width; g.stroke(); }

// A bent or straight arrow with a dark edge along a chain of points; of the fixed engine an outline, as all that is its.
function arrow(g, chain, ink, size) {
  const tip = chain.at(-1), from = chain.at(-2), long = Math.hypot(tip[0] - from[0], tip[1] - from[1]) || 1;
  const all = chain.slice(1).reduce((sum, point, place) => sum + Math.hypot(point[0] - chain[place][0], point[1] - chain[place][1]), 0);
  size = Math.min(size, all / 3);
  const u = [(tip[0] - from[0]) / long, (tip[1] - from[1]) / long], head = Math.min(2.8 * size, 0.7 * all), half = 0.6 * head;
  const neck = [tip[0] - u[0] * head, tip[1] - u[1] * head], shaft = [...chain.slice(0, -1), chain.length > 2 ? tip : neck];
  const corners = [tip, [neck[0] - u[1] * half, neck[1] + u[0] * half], [neck[0] + u[1] * half, neck[1] - u[0] * half]];
  if (chain.length > 2) shaft.pop();
  line(g, shaft, 'keyline', size + 5); line(g, [...corners, tip], 'keyline', 5);
  line(g, shaft, ink, size); polygon(g, corners, ink);
  if (ink !== HOLLOW || size < 6) return;
  line(g, shaft, 'keyline', size - 5);
  const core = k => [corners[k][0] * 0.5 + (tip[0] + 2 * neck[0]) / 6, corners[k][1] * 0.5 + (tip[1] + 2 * neck[1]) / 6];
  polygon(g, [core(0), core(1), core(2)], 'keyline');
}

function wrapped(g, text, most) {
  const lines = [''];
  for (const word of text.split(' ')) {
    const longer = lines.at(-1) ? `${lines.at(-1)} ${word}` : word;
    if (g.measureText(longer).width > most && lines.at(-1)) lines.push(word); else lines[lines.length - 1] = longer;
  }
  return lines;
}

// A label about a place, kept within the picture; `to` is what it means.
function tag(g, [x, y], text, { ground = 'ink', ink = 'on_colour', to = null, most = Infinity, size = g.letters } = {}) {
  g.font = `600 ${size}px system-ui, sans-serif`;
  const wide = g.canvas.width / g.ratio, tall = g.canvas.height / g.ratio;
  const lines = wrapped(g, text, Math.min(most, wide - 24)), w = Math.max(...lines.map(one => g.measureText(one).width)) + size, h = (1.25 * lines.length + 0.35) * size;
  const left = Math.min(Math.max(x - w / 2, 4), wide - w - 4), top = Math.min(Math.max(y - h / 2, 4), tall - h - 4);
  if (to) { line(g, [[Math.min(Math.max(to[0], left), left + w), top + h / 2], to], 'keyline', 4); line(g, [[Math.min(Math.max(to[0], left), left + w), top + h / 2], to], ground, 2); disc(g, to, 4, ground); }
  g.fillStyle = role(ground); g.fillRect(left, top, w, h);
  g.strokeStyle = role('keyline'); g.lineWidth = 1; g.strokeRect(left, top, w, h);
  g.fillStyle = role(ink); g.textAlign = 'center'; g.textBaseline = 'middle';
  lines.forEach((one, place) => g.fillText(one, left + w / 2, top + (0.8 + 1.25 * place) * size));
  return left + w;
}

// What never moves is painted once on a sheet of its own, until the size changes.
const SHEETS = new Map();
function sheet(g, name, draw) {
  const key = `${g.canvas.width}x${g.canvas.height}`, known = SHEETS.get(name);
  if (known?.key === key) { g.drawImage(known.canvas, 0, 0, g.canvas.width / g.ratio, g.canvas.height / g.ratio); return; }
  const canvas = Object.assign(document.createElement('canvas'), { width: g.canvas.width, height: g.canvas.height }), own = canvas.getContext('2d');
  own.scale(g.ratio, g.ratio); own.ratio = g.ratio; own.letters = g.letters;
  draw(own);
  SHEETS.set(name, { key, canvas });
  g.drawImage(canvas, 0, 0, g.canvas.width / g.ratio, g.canvas.height / g.ratio);
}

const around = (x, radius, angle) => [x, radius * Math.sin(angle), -radius * Math.cos(angle)];
