// Between the blades: over the cowl, the gun behind the propeller, its cam, and where the blade will be.
const REACH = 1.1, FAR = 2.4, DASHES = 8, HOOP = 0.11, MET = { close: 'wait', held: 'steel', clear: 'now', through: 'now', hit: 'strike', none: 'steel' };
const GHOSTS = { close: ['wait_dark', 1], held: ['steel', 0.2], clear: ['now', 0.5] };
const CAMS = { now: 'now', not_now: 'wait', turns: 'ink', none: 'strike' };
const MEETS = { close: 'blades.close', held: 'blades.held', clear: 'blades.clear', through: 'blades.through', hit: 'blades.hit' };

class Blades {
  constructor() {
    const { solids } = DATA;
    this.gun = new Gun(); this.trigger = false; this.hold = new Hold(); this.now = 0;
    this.nose = solid(solids.nose); this.stern = solid(solids.stern); this.mount = solid(solids.gun); this.propeller = solid(solids.propeller);
    this.cam = solid(solids.cam); this.followers = { now: solid(solids.follower_now), wait: solid(solids.follower_wait) };
  }
  advance(elapsed) { this.gun.watch(elapsed, this.trigger); this.now += elapsed; }
  sentence() {
    const { gun } = this, { state, last, geared } = gun, free = geared ? '' : '_free';
    if (state === 'fires') return this.hold.take(say(`caption.lead${free}`), this.now);
    if (state === 'waits') return this.hold.take(say('caption.holding'), this.now);
    if (!last || state === 'rests') return this.hold.take(say(`caption.rest${free}`), this.now);
    return this.hold.take(say(`caption.${last.struck ? 'struck' : 'through'}${free}`), this.now);
  }
  turned(angle) { return DATA.gun.bore + DATA.gun.sense * angle; }
  camera(w, h, letters) {
    const { eye, basis, radius, bore_m, bore } = DATA.gun, rough = { basis, eye, focal: 1, centre: [0, 0] };
    const seen = [...Array.from({ length: 60 }, (_, k) => around(0, REACH * radius, k * Math.PI / 30)), [-2.2, bore_m * Math.sin(bore), -bore_m * Math.cos(bore) - 0.1], [-2.3, 0, 0.5]].map(at => project(rough, at));
    const [left, right, high, low] = [Math.min(...seen.map(p => p[0])), Math.max(...seen.map(p => p[0])), Math.min(...seen.map(p => p[1])), Math.max(...seen.map(p => p[1]))];
    const top = (h > w ? 4.4 : 2.2) * letters, room = { y: top, h: h - top - 2.2 * letters }, focal = Math.min((w - 16) / (right - left), room.h / (low - high));
    return { basis, eye, focal, centre: [w / 2 - focal * (left + right) / 2, room.y + room.h / 2 - focal * (high + low) / 2] };
  }
  onDisc(camera, radius, angle) { return project(camera, around(0, radius, angle)).slice(0, 2); }
  onLine(camera, x) { const { bore, bore_m } = DATA.gun; return project(camera, [x, bore_m * Math.sin(bore), -bore_m * Math.cos(bore)]).slice(0, 2); }
  draw(g, w, h) {
    const camera = this.camera(w, h, g.letters), { gun } = this, { muzzle } = DATA.gun;
    sheet(g, 'stern', own => {
      own.fillStyle = role('back'); own.fillRect(0, 0, w, h);
      line(own, Array.from({ length: 73 }, (_, k) => this.onDisc(camera, DATA.gun.radius, k * Math.PI / 36)), 'groove', 1.5); paint(own, this.stern, camera);
    });
    const shots = this.shots(), meets = this.meets();
    this.beyond(g, camera, meets);
    for (const x of shots) if (x > 0) this.round(g, camera, x);
    if (GHOSTS[meets]) this.ghost(g, camera, meets);
    paint(g, this.propeller, camera, { angles: { propeller: this.turned(gun.angle) } });
    sheet(g, 'nose', own => paint(own, this.nose, camera));
    if (gun.geared) {
      paint(g, this.cam, camera, { angles: { cam: DATA.gun.sense * gun.angle / DATA.gun.turns } });
      paint(g, this.followers[this.lift(gun.angle) > 0 ? 'now' : 'wait'], camera, { place: [0, 0, -DATA.gun.lift * this.lift(gun.angle)] });
    }
    sheet(g, 'mount', own => paint(own, this.mount, camera));
    if (gun.geared) this.chain(g, camera);
    const ends = [this.onLine(camera, muzzle), this.onLine(camera, 0)], hoop = this.hoop(camera), edged = (chain, ink) => { line(g, chain, 'keyline', 7); line(g, chain, ink, 4); };
    line(g, ends, 'keyline', 5); line(g, ends, 'round', 2); edged(hoop, MET[meets]);
    if (meets === 'close') edged([hoop[3], hoop[15]], MET.close);
    this.flash(g, camera);
    for (const x of shots) if (x <= 0) this.round(g, camera, x);
    this.splinters(g, camera);
    this.tags(g, camera, w, h, meets);
  }
  lift(angle) {
    const { windows, action, period, ramp, impulse } = DATA.gun;
    const high = Math.min(1, Math.max(0, ...windows.map(([opens, closes]) => ((action === 'impulse' ? impulse + ramp : (closes - opens) / 2) - Math.abs(remainder(angle - (opens + closes) / 2, period))) / ramp)));
    return high * high * (3 - 2 * high);
  }
  get raised() { return this.gun.geared && this.lift(this.gun.angle) > 0; }
  // What the trigger shows, and what is told of the cam, as viz/stage/gun_states.py tells it.
  get fires() {
    const { state, geared } = this.gun;
    if (state === 'loads') return 'not_now';
    if (!geared) return 'none';
    return state === 'fires' || this.raised ? 'now' : 'not_now';
  }
  get cam_told() {
    const { state, geared } = this.gun;
    if (!geared) return 'none';
    if (state === 'loads' || (state === 'fires' && !this.raised)) return 'turns';
    return this.raised ? 'now' : 'not_now';
  }
  // Push rod and link in the colour of what the cam says, and the light along them while a round is let go.
  chain(g, camera) {
    const { chain: [low, high] } = DATA.gun, { gun } = this, lift = this.lift(gun.angle), unit = g.letters / 20, ink = lift > 0 ? 'now' : 'wait', wide = (lift > 0 ? 11 : 6) * unit;
    const way = low.map((point, k) => project(camera, point.map((part, axis) => part + lift * (high[k][axis] - part))).slice(0, 2)), rods = way.slice(0, 3);
    line(g, rods, 'keyline', wide + 6 * unit); line(g, rods, ink, wide);
    for (const joint of rods.slice(1)) { disc(g, joint, 12 * unit, 'keyline'); disc(g, joint, 9 * unit, ink); }
    for (const { release, muzzle } of gun.flying) if (gun.time < muzzle) {
      const long = way.slice(1).map((to, k) => Math.hypot(to[0] - way[k][0], to[1] - way[k][1]));
      let left = (gun.time - release) / (muzzle - release) * long.reduce((sum, each) => sum + each, 0), k = 0;
      while (k < 2 && left > long[k]) left -= long[k++];
      const place = [0, 1].map(axis => way[k][axis] + left / long[k] * (way[k + 1][axis] - way[k][axis]));
      disc(g, place, 12 * unit, 'keyline'); disc(g, place, 9 * unit, 'tape');
    }
  }
  // How a round and the blades meet, as viz/stage/gun_states.py tells it.
  meets() {
    const { gun } = this, { flying, last, time } = gun, [first] = flying;
    if (first) return first.struck ? 'close' : 'clear';
    if (last && time >= last.pass && time - last.pass <= DATA.gun.flight) return last.struck ? 'hit' : 'through';
    if (gun.state === 'loads' || !Number.isFinite(gun.wait(gun.angle))) return 'none';
    if (gun.passage(gun.angle, 0).struck) return 'close';
    return gun.geared && this.lift(gun.angle) === 0 ? 'held' : 'clear';
  }
  beyond(g, camera, meets) {
    if (meets !== 'clear' && meets !== 'through') return;
    const at = k => this.onLine(camera, FAR * k / (2 * DASHES - 1));
    for (let k = 1; k < 2 * DASHES - 3; k += 2) line(g, [at(k), at(k + 1)], 'now', 2);
    arrow(g, [at(2 * DASHES - 3), at(2 * DASHES - 1)], 'now', 4);
  }
  hoop(camera) {
    const { bore, bore_m } = DATA.gun;
    return Array.from({ length: 25 }, (_, k) => { const [, y, z] = around(0, HOOP, k * Math.PI / 12); return project(camera, [0, bore_m * Math.sin(bore) + y, z - bore_m * Math.cos(bore)]).slice(0, 2); });
  }
  // Blades as they will stand, hatched where one is too close, and an arrow to the nearest from where it stands now.
  ghost(g, camera, meets) {
    const { gun } = this, { radius, blades, bore, sense, ghost } = DATA.gun;
    for (let number = 0; number < blades; number++) {
      const m = about([1, 0, 0], this.turned(gun.arrival) + 2 * Math.PI * number / blades), flat = points => points.map(point => project(camera, times(m, point)).slice(0, 2));
      const edge = flat(ghost.outline), bars = flat(ghost.bars);
      g.globalAlpha = GHOSTS[meets][1]; polygon(g, edge, GHOSTS[meets][0]); g.globalAlpha = 1;
      if (meets === 'close') for (let k = 0; k < bars.length; k += 4) polygon(g, bars.slice(k, k + 4), 'wait');
      line(g, [...edge, edge[0]], 'keyline', 5); line(g, [...edge, edge[0]], MET[meets], 2.5);
    }
    const lead = Math.min(modulo(gun.arrival - gun.angle, 2 * Math.PI), 1.9 * Math.PI), end = remainder(gun.arrival, 2 * Math.PI / blades), steps = Math.max(8, Math.round(16 * lead));
    if (lead > 0.1) arrow(g, Array.from({ length: steps + 1 }, (_, k) => this.onDisc(camera, 0.8 * radius, bore + sense * (end - lead + lead * k / steps))), 'ghost', 4);
  }
  shots() {
    const { gun } = this, { flight, muzzle } = DATA.gun, found = gun.flying.filter(round => gun.time >= round.muzzle).map(round => (gun.time - round.pass) / flight * -muzzle);
    const beyond = gun.last && !gun.last.struck ? (gun.time - gun.last.pass) / flight : -1;
    return beyond >= 0 && beyond <= 1 ? [...found, beyond * -muzzle] : found;
  }
  // A round with the trace of its way: from the muzzle, or from the disc where it is beyond it.
  round(g, camera, x) {
    const unit = g.letters / 20, at = this.onLine(camera, x), start = this.onLine(camera, x > 0 ? 0 : DATA.gun.muzzle), back = this.onLine(camera, x - 0.1), front = this.onLine(camera, x + 0.1);
    line(g, [start, at], 'keyline', 9 * unit); line(g, [start, at], 'round', 5 * unit);
    const along = Math.atan2(front[1] - back[1], front[0] - back[0]), middle = [0, 1].map(axis => (back[axis] + front[axis]) / 2);
    const side = [[-0.5, 0.5], [0.05, 0.5], [0.28, 0.36], [0.42, 0.18], [0.5, 0]], shape = [...side, ...side.slice(0, -1).reverse().map(([far, aside]) => [far, -aside])];
    for (const [ink, more] of [['keyline', 6], ['tape', 0]]) {
      const [long, wide] = [(30 + more) * unit, (13 + more) * unit];
      polygon(g, shape.map(([far, aside]) => [middle[0] + long * far * Math.cos(along) - wide * aside * Math.sin(along), middle[1] + long * far * Math.sin(along) + wide * aside * Math.cos(along)]), ink);
    }
  }
  flash(g, camera) {
    const { flight, muzzle } = DATA.gun, { flying: [first], time } = this.gun;
    if (!first || time < first.muzzle || time - first.muzzle >= flight / 4) return;
    const [x, y] = this.onLine(camera, muzzle), unit = g.letters / 20;
    for (const [ink, share] of [['keyline', 1.2], ['wait', 1], ['tape', 0.6]]) {
      polygon(g, Array.from({ length: 18 }, (_, k) => { const far = share * unit * (k % 2 ? 17 : 40); return [x + far * Math.sin(k * Math.PI / 9), y - far * Math.cos(k * Math.PI / 9)]; }), ink);
    }
  }
  splinters(g, camera) {
    const { last, time } = this.gun, gone = last?.struck ? (time - last.pass) / DATA.gun.flight : -1;
    if (gone < 0 || gone > 1) return;
    const [x, y] = this.onLine(camera, 0);
    for (let number = 0; number < 22; number++) {
      const angle = number * 2.39996, away = g.letters / 16 * (4 + 150 * gone * (0.15 + 0.85 * (0.37 * number % 1))), size = g.letters / 16 * (5 + 4 * (0.61 * number % 1)), spin = angle + 5 * gone;
      const middle = [x + away * Math.cos(angle), y + away * Math.sin(angle) + 26 * gone * gone];
      polygon(g, [[0, 1.6], [2.4, 0.7], [3.9, 0.7]].map(([at, far]) => [middle[0] + size * far * Math.cos(spin + at), middle[1] + size * far * Math.sin(spin + at)]), number % 3 ? 'brass' : 'linen');
    }
    for (const way of [-1, 1]) { line(g, [[x - 14, y - 14 * way], [x + 14, y + 14 * way]], 'keyline', 10); line(g, [[x - 14, y - 14 * way], [x + 14, y + 14 * way]], 'strike', 6); }
  }
  tags(g, camera, w, h, meets) {
    const { gun } = this, { radius, blades, cam_x, roller, lift } = DATA.gun, [x] = this.onLine(camera, 0), size = 0.9 * g.letters;
    const tip = this.onDisc(camera, 0.93 * radius, this.turned(remainder(gun.arrival, 2 * Math.PI / blades)));
    if (meets !== 'none') tag(g, [x, 1.5 * g.letters], say(MEETS[meets]), { ground: MET[meets], most: (h > w ? 0.9 : 0.45) * w, to: GHOSTS[meets] ? tip : this.hoop(camera)[0], size });
    const breech = this.onLine(camera, -1.9), told = this.cam_told;
    const does = say('blades.gun', { gun: say('blades.which_only'), doing: say(`blades.gun_${gun.state}`) });
    tag(g, [breech[0], breech[1] - 3.4 * g.letters], does, { to: [breech[0], breech[1] - 8], most: 0.42 * w, size });
    const at = project(camera, gun.geared ? [cam_x - 0.03, 0, roller - lift * this.lift(gun.angle)] : [cam_x, 0, 0]).slice(0, 2);
    tag(g, [at[0], h - 1.6 * g.letters], say(`blades.cam_${told}`), { ground: CAMS[told], to: at, size });
  }
}
