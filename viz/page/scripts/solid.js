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

function inkOf(kind, normal, toEye, sun, up) {
  const [role, finish] = kind, base = DATA.palette[role], light = DATA.light;
  if (finish === 3) return base;
  const facing = dot(normal, sun), high = 0.5 + 0.5 * dot(normal, up), lit = Math.max(facing, 0);
  const behind = finish === 0 ? Math.max(-facing, 0) : 0;
  const half = unit([toEye[0] + sun[0], toEye[1] + sun[1], toEye[2] + sun[2]]);
  const glint = Math.max(dot(normal, half), 0) ** light.sharp * light.glint[finish];
  return base.map((part, k) => Math.min(255, part * (high * light.sky[k] + (1 - high) * light.earth[k] + lit * light.warm[k] +
    behind * light.through[k]) + 255 * glint * light.warm[k]));
}

const css = (ink, share = 1) => `rgb(${ink[0] * share | 0},${ink[1] * share | 0},${ink[2] * share | 0})`;
const role = (name, share = 1) => css(DATA.palette[name], share);

function paint(g, body, camera, { turn = STILL, place = HERE, angles = {}, ground = null } = {}) {
  pose(body, camera, turn, place, angles);
  const { posed, flat, faces, kind, kinds, far, front, rods } = body, back = transposed(turn);
  const eye = times(back, less(camera.eye, place)), sun = times(back, DATA.light.sun), up = times(back, [0, 0, -1]);
  const order = [], inks = [], lines = [];
  front.fill(-1);
  for (let face = 0; face < kind.length; face++) {
    const [p, q, r, s] = [3 * faces[4 * face], 3 * faces[4 * face + 1], 3 * faces[4 * face + 2], 3 * faces[4 * face + 3]];
    const ax = posed[r] - posed[p], ay = posed[r + 1] - posed[p + 1], az = posed[r + 2] - posed[p + 2];
    const bx = posed[s] - posed[q], by = posed[s + 1] - posed[q + 1], bz = posed[s + 2] - posed[q + 2];
    const nx = ay * bz - az * by, ny = az * bx - ax * bz, nz = ax * by - ay * bx;
    const ex = eye[0] - (posed[p] + posed[q] + posed[r] + posed[s]) / 4, ey = eye[1] - (posed[p + 1] + posed[q + 1] + posed[r + 1] + posed[s + 1]) / 4,
      ez = eye[2] - (posed[p + 2] + posed[q + 2] + posed[r + 2] + posed[s + 2]) / 4;
    const what = kinds[kind[face]];
    if (nx * ex + ny * ey + nz * ez <= 0 || (what[3] !== null && eye[0] <= what[3])) continue;
    const size = Math.hypot(nx, ny, nz) || 1, away = Math.hypot(ex, ey, ez);
    front[face] = order.length;
    far[face] = away - what[2];
    inks[face] = inkOf(what, [nx / size, ny / size, nz / size], [ex / away, ey / away, ez / away], sun, up);
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
  for (const item of order) item < kind.length ? paintFace(g, body, item, inks[item], lines[item], !ground) : paintRod(g, body, item - kind.length, camera, turn, place);
}

function corner(g, { flat, faces }, face) {
  const k = 4 * face, [p, q, r, s] = [2 * faces[k], 2 * faces[k + 1], 2 * faces[k + 2], 2 * faces[k + 3]];
  g.moveTo(flat[p], flat[p + 1]); g.lineTo(flat[q], flat[q + 1]); g.lineTo(flat[r], flat[r + 1]); g.lineTo(flat[s], flat[s + 1]);
  g.closePath();
}

// All faces in one colour beneath: between two of them nothing brighter shines through, and none needs a line about it.
function laid(g, body, order, name) {
  g.beginPath();
  for (const item of order) if (item < body.kind.length) corner(g, body, item);
  g.fillStyle = role(name, 0.6); g.fill();
}

function paintFace(g, body, face, ink, lines, edged) {
  const { flat } = body;
  g.beginPath(); corner(g, body, face);
  g.fillStyle = css(ink); g.fill();
  if (edged) { g.strokeStyle = css(ink); g.lineWidth = 0.8; g.stroke(); }
  if (!lines) return;
  g.beginPath();
  for (let line = 0; line < lines.length; line += 2) { g.moveTo(flat[lines[line]], flat[lines[line] + 1]); g.lineTo(flat[lines[line + 1]], flat[lines[line + 1] + 1]); }
  g.strokeStyle = css(ink, 0.42);
  g.lineWidth = 1.2;
  g.stroke();
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
    const k = 4 * face, [p, q, r, s] = [2 * faces[k], 2 * faces[k + 1], 2 * faces[k + 2], 2 * faces[k + 3]];
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
