// Solids: posed, culled, lit, sorted and painted, as viz/stage/solid does it.
const numbers = (text, Kind) => new Kind(Uint8Array.from(atob(text), letter => letter.charCodeAt(0)).buffer);

function solid(data) {
  const at = Float64Array.from(numbers(data.corners, Int16Array), mm => mm / 1000);
  const faces = numbers(data.faces, Uint16Array), kind = numbers(data.kind, Uint8Array);
  const hinges = Object.fromEntries(Object.entries(data.hinges).map(([name, hinge]) =>
    [name, { ...hinge, corners: numbers(hinge.corners, Uint16Array) }]));
  const rods = Float64Array.from(numbers(data.rods, Int16Array), mm => mm / 1000);
  return { at, faces, kind, kinds: data.kinds, rods, rod: data.rod, hinges, edges: edges(faces),
    posed: new Float64Array(at.length), flat: new Float64Array(at.length / 3 * 2), far: new Float64Array(kind.length + data.rod.length),
    front: new Int32Array(kind.length) };
}

// Every edge once: two corners and the faces beside it, -1 at a rim; what more than two faces share is no edge.
function edges(faces) {
  const found = new Map();
  for (let place = 0; place < faces.length; place++) {
    const one = faces[place], other = faces[place % 4 === 3 ? place - 3 : place + 1], face = place >> 2;
    if (one === other) continue;
    const key = one < other ? one * 65536 + other : other * 65536 + one, known = found.get(key);
    if (known) { known[4]++; known[3] = face; } else found.set(key, [one, other, face, -1, 1]);
  }
  return [...found.values()].filter(edge => edge[4] < 3);
}

const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const times = (m, v) => [dot(m[0], v), dot(m[1], v), dot(m[2], v)];
const transposed = m => [0, 1, 2].map(j => m.map(row => row[j]));
const product = (a, b) => { const c = transposed(b); return a.map(row => c.map(column => dot(row, column))); };
const less = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const unit = v => { const size = Math.hypot(...v); return v.map(part => part / size); };
const STILL = [[1, 0, 0], [0, 1, 0], [0, 0, 1]], HERE = [0, 0, 0];

function about(axis, angle) {
  const [x, y, z] = unit(axis), s = Math.sin(angle), c = Math.cos(angle), k = 1 - c;
  return [[c + k * x * x, k * x * y - s * z, k * x * z + s * y], [k * x * y + s * z, c + k * y * y, k * y * z - s * x],
    [k * x * z - s * y, k * y * z + s * x, c + k * z * z]];
}

// The rows north, east, down of the matrix that turns body into earth components.
function toEarth([e0, e1, e2, e3]) {
  return [[1 - 2 * (e2 * e2 + e3 * e3), 2 * (e1 * e2 - e0 * e3), 2 * (e1 * e3 + e0 * e2)],
    [2 * (e1 * e2 + e0 * e3), 1 - 2 * (e1 * e1 + e3 * e3), 2 * (e2 * e3 - e0 * e1)],
    [2 * (e1 * e3 - e0 * e2), 2 * (e2 * e3 + e0 * e1), 1 - 2 * (e1 * e1 + e2 * e2)]];
}

// A camera has basis (ahead, right, down as rows), eye, focal and centre in pixels.
function project(camera, place) {
  const seen = times(camera.basis, less(place, camera.eye));
  return [camera.centre[0] + camera.focal * seen[1] / seen[0], camera.centre[1] + camera.focal * seen[2] / seen[0], seen[0]];
}

function pose(body, camera, turn, place, angles) {
  const { at, posed, flat } = body;
  posed.set(at);
  for (const [name, angle] of Object.entries(angles)) {
    const hinge = body.hinges[name];
    if (!hinge || !angle) continue;
    const m = about(hinge.axis, angle), [ox, oy, oz] = hinge.origin;
    for (const corner of hinge.corners) {
      const k = 3 * corner, moved = times(m, [at[k] - ox, at[k + 1] - oy, at[k + 2] - oz]);
      posed[k] = moved[0] + ox; posed[k + 1] = moved[1] + oy; posed[k + 2] = moved[2] + oz;
    }
  }
  const [[a, b, c], [d, e, f], [g, h, i]] = product(camera.basis, turn), [o, p, q] = times(camera.basis, less(place, camera.eye));
  for (let k = 0, j = 0; k < posed.length; k += 3, j += 2) {
    const x = posed[k], y = posed[k + 1], z = posed[k + 2], near = camera.focal / Math.max(a * x + b * y + c * z + o, 0.05);
    flat[j] = camera.centre[0] + (d * x + e * y + f * z + p) * near;
    flat[j + 1] = camera.centre[1] + (g * x + h * y + i * z + q) * near;
  }
}

// Colours are packed into a number, and the text of each is made once.
const TEXTS = new Map();
function textOf(packed) {
  let text = TEXTS.get(packed);
  if (!text) { if (TEXTS.size > 20000) TEXTS.clear(); text = `#${packed.toString(16).padStart(6, '0')}`; TEXTS.set(packed, text); }
  return text;
}

const part = x => x > 255 ? 255 : x & 248;

// What a face of a kind gives back: its normal (nx, ny, nz) and the way to the eye (ex, ey, ez) of unit length.
function inkOf(kind, nx, ny, nz, ex, ey, ez, sun, up) {
  const base = DATA.palette[kind[0]], finish = kind[1], { warm, sky, earth, through, sharp, glint } = DATA.light;
  if (finish === 3) return base[0] << 16 | base[1] << 8 | base[2];
  const facing = nx * sun[0] + ny * sun[1] + nz * sun[2], high = 0.5 + 0.5 * (nx * up[0] + ny * up[1] + nz * up[2]);
  const lit = facing > 0 ? facing : 0, behind = finish === 0 && facing < 0 ? -facing : 0, hx = ex + sun[0], hy = ey + sun[1], hz = ez + sun[2];
  const shine = (nx * hx + ny * hy + nz * hz) / Math.sqrt(hx * hx + hy * hy + hz * hz), bright = shine > 0.7 ? 255 * shine ** sharp * glint[finish] : 0;
  let packed = 0;
  for (let k = 0; k < 3; k++) packed = packed << 8 | part(base[k] * (high * sky[k] + (1 - high) * earth[k] + lit * warm[k] + behind * through[k]) + bright * warm[k]);
  return packed;
}

const darker = packed => part((packed >> 16) * 0.42) << 16 | part((packed >> 8 & 255) * 0.42) << 8 | part((packed & 255) * 0.42);
const css = (ink, share = 1) => `rgb(${ink[0] * share | 0},${ink[1] * share | 0},${ink[2] * share | 0})`;
const role = (name, share = 1) => css(DATA.palette[name], share);

function paint(g, body, camera, { turn = STILL, place: away = HERE, angles = {}, ground = null } = {}) {
  pose(body, camera, turn, away, angles);
  const { posed, faces, kind, kinds, far, front, rods } = body, back = transposed(turn);
  const eye = times(back, less(camera.eye, away)), sun = times(back, DATA.light.sun), up = times(back, [0, 0, -1]);
  const order = [], inks = [], lines = [];
  front.fill(-1);
  for (let face = 0; face < kind.length; face++) {
    const p = 3 * faces[4 * face], q = 3 * faces[4 * face + 1], r = 3 * faces[4 * face + 2], s = 3 * faces[4 * face + 3];
    const ax = posed[r] - posed[p], ay = posed[r + 1] - posed[p + 1], az = posed[r + 2] - posed[p + 2];
    const bx = posed[s] - posed[q], by = posed[s + 1] - posed[q + 1], bz = posed[s + 2] - posed[q + 2];
    const nx = ay * bz - az * by, ny = az * bx - ax * bz, nz = ax * by - ay * bx;
    const ex = eye[0] - (posed[p] + posed[q] + posed[r] + posed[s]) / 4, ey = eye[1] - (posed[p + 1] + posed[q + 1] + posed[r + 1] + posed[s + 1]) / 4,
      ez = eye[2] - (posed[p + 2] + posed[q + 2] + posed[r + 2] + posed[s + 2]) / 4;
    const what = kinds[kind[face]];
    if (nx * ex + ny * ey + nz * ez <= 0 || (what[3] !== null && eye[0] <= what[3])) continue;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1, deep = Math.sqrt(ex * ex + ey * ey + ez * ez);
    front[face] = order.length;
    far[face] = deep - what[2];
    inks[face] = inkOf(what, nx / size, ny / size, nz / size, ex / deep, ey / deep, ez / deep, sun, up);
    order.push(face);
  }
  for (let rod = 0; rod < body.rod.length; rod++) {
    const k = 6 * rod;
    far[kind.length + rod] = Math.hypot(eye[0] - (rods[k] + rods[k + 3]) / 2, eye[1] - (rods[k + 1] + rods[k + 4]) / 2, eye[2] - (rods[k + 2] + rods[k + 5]) / 2) - 0.02;
    order.push(kind.length + rod);
  }
  order.sort((one, other) => far[other] - far[one]);
  for (const [a, b, one, other] of body.edges) {
    const first = front[one] >= 0, second = other >= 0 && front[other] >= 0;
    if (first !== second) { const owner = first ? one : other; (lines[owner] ??= []).push(2 * a, 2 * b); }
  }
  g.lineJoin = g.lineCap = 'round';
  if (ground) laid(g, body, order, ground);
  let place = 0;
  while (place < order.length) {
    const first = order[place];
    if (first >= kind.length) { paintRod(g, body, first - kind.length, camera, turn, away); place++; continue; }
    let end = place + 1;
    while (end < order.length && inks[order[end]] === inks[first]) end++;
    paintFaces(g, body, order, place, end, inks[first], lines, !ground);
    place = end;
  }
}

function corner(g, { flat, faces }, face) {
  const k = 4 * face, p = 2 * faces[k], q = 2 * faces[k + 1], r = 2 * faces[k + 2], s = 2 * faces[k + 3];
  g.moveTo(flat[p], flat[p + 1]); g.lineTo(flat[q], flat[q + 1]); g.lineTo(flat[r], flat[r + 1]); g.lineTo(flat[s], flat[s + 1]);
  g.closePath();
}

// All faces in one colour beneath: between two of them nothing brighter shines through, and none needs a line about it.
function laid(g, body, order, name) {
  g.beginPath();
  for (const item of order) if (item < body.kind.length) corner(g, body, item);
  g.fillStyle = role(name, 0.6); g.fill();
}

// Faces that follow each other in one colour are one shape, their edges one line.
function paintFaces(g, body, order, from, to, ink, lines, edged) {
  const { flat } = body, dark = [];
  g.beginPath();
  for (let k = from; k < to; k++) { corner(g, body, order[k]); if (lines[order[k]]) dark.push(...lines[order[k]]); }
  g.fillStyle = textOf(ink); g.fill();
  if (edged) { g.strokeStyle = textOf(ink); g.lineWidth = 0.8; g.stroke(); }
  if (!dark.length) return;
  g.beginPath();
  for (let k = 0; k < dark.length; k += 2) { g.moveTo(flat[dark[k]], flat[dark[k] + 1]); g.lineTo(flat[dark[k + 1]], flat[dark[k + 1] + 1]); }
  g.strokeStyle = textOf(darker(ink)); g.lineWidth = 1.2; g.stroke();
}

function paintRod(g, body, rod, camera, turn, place) {
  const [one, other] = ends(body, rod, camera, turn, place), [name, width] = body.rod[rod];
  g.beginPath(); g.moveTo(one[0], one[1]); g.lineTo(other[0], other[1]);
  g.strokeStyle = role(name, 0.8);
  g.lineWidth = Math.max(0.9, width * camera.focal / one[2]);
  g.stroke();
}

function ends({ rods }, rod, camera, turn, place) {
  return [0, 3].map(from => { const k = 6 * rod + from, at = times(turn, [rods[k], rods[k + 1], rods[k + 2]]); return project(camera, at.map((part, j) => part + place[j])); });
}

// A solid as a faint shape with its silhouette.
function outline(g, body, camera, { turn = STILL, place = HERE, angles = {}, ink }) {
  pose(body, camera, turn, place, angles);
  const { flat, faces, front } = body;
  g.beginPath();
  for (let face = 0; face < front.length; face++) {
    const k = 4 * face, p = 2 * faces[k], q = 2 * faces[k + 1], r = 2 * faces[k + 2], s = 2 * faces[k + 3];
    front[face] = (flat[r] - flat[p]) * (flat[s + 1] - flat[q + 1]) - (flat[r + 1] - flat[p + 1]) * (flat[s] - flat[q]) < 0 ? 1 : -1;
    if (front[face] < 0) continue;
    corner(g, body, face);
  }
  g.globalAlpha = 0.25; g.fillStyle = role(ink); g.fill(); g.globalAlpha = 1;
  g.beginPath();
  for (const [a, b, one, other] of body.edges) {
    if ((front[one] > 0) === (other >= 0 && front[other] > 0)) continue;
    g.moveTo(flat[2 * a], flat[2 * a + 1]); g.lineTo(flat[2 * b], flat[2 * b + 1]);
  }
  for (let rod = 0; rod < body.rod.length; rod++) if (body.rod[rod][1] > 0.02) {
    const [one, other] = ends(body, rod, camera, turn, place);
    g.moveTo(one[0], one[1]); g.lineTo(other[0], other[1]);
  }
  g.lineCap = 'round';
  for (const [name, width] of [['keyline', 4], [ink, 2]]) { g.strokeStyle = role(name); g.lineWidth = width; g.stroke(); }
}
