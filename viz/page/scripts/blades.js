// Between the blades: over the cowl, the gun behind the propeller, its cam, and where the blade will be.
const FAR = 4, ZONE = 1.12;

class Blades {
  constructor() {
    const { solids } = DATA;
    this.gun = new Gun(); this.trigger = false; this.hold = new Hold(); this.now = 0;
    this.nose = solid(solids.nose); this.stern = solid(solids.stern); this.mount = solid(solids.gun); this.propeller = solid(solids.propeller);
    this.cam = solid(solids.cam); this.follower = solid(solids.follower);
  }
  advance(elapsed) { this.gun.watch(elapsed, this.trigger); this.now += elapsed; }
  sentence() {
    const { gun } = this, { state, last, geared } = gun, free = geared ? '' : '_free', first = gun.flying[0];
    if (state === 'fires') return this.hold.take(say(`caption.lead${free}`, { lead: `${Math.round(DATA.gun.spin * (first.pass - first.release) * 180 / Math.PI)}°` }), this.now);
    if (state === 'waits') return this.hold.take(say('caption.holding'), this.now);
    if (!last || state === 'rests') return this.hold.take(say(`caption.rest${free}`), this.now);
    return this.hold.take(say(`caption.${last.struck ? 'struck' : 'through'}${free}`), this.now);
  }
  turned(angle) { return DATA.gun.bore + DATA.gun.sense * angle; }
  camera(w, h, letters) {
    const { eye, basis, radius, bore_m, bore } = DATA.gun, rough = { basis, eye, focal: 1, centre: [0, 0] };
    const seen = [...Array.from({ length: 60 }, (_, k) => around(0, (ZONE + 0.03) * radius, k * Math.PI / 30)), [-2.2, bore_m * Math.sin(bore), -bore_m * Math.cos(bore) - 0.1], [-2.3, 0, 0.5]].map(at => project(rough, at));
    const [left, right, high, low] = [Math.min(...seen.map(p => p[0])), Math.max(...seen.map(p => p[0])), Math.min(...seen.map(p => p[1])), Math.max(...seen.map(p => p[1]))];
    const top = (h > w ? 4.4 : 2.2) * letters, room = { y: top, h: h - top - 2.2 * letters }, focal = Math.min((w - 16) / (right - left), room.h / (low - high));
    return { basis, eye, focal, centre: [w / 2 - focal * (left + right) / 2, room.y + room.h / 2 - focal * (high + low) / 2] };
  }
  onDisc(camera, radius, angle) { return project(camera, around(0, radius, angle)).slice(0, 2); }
  onLine(camera, x) { const { bore, bore_m } = DATA.gun; return project(camera, [x, bore_m * Math.sin(bore), -bore_m * Math.cos(bore)]).slice(0, 2); }
  draw(g, w, h) {
    const camera = this.camera(w, h, g.letters), { gun } = this, { muzzle } = DATA.gun;
    sheet(g, `zones${gun.geared}`, own => { own.fillStyle = role('back'); own.fillRect(0, 0, w, h); this.zones(own, camera); paint(own, this.stern, camera); });
    const shots = this.shots();
    for (const x of shots) if (x > 0) this.round(g, camera, x);
    outline(g, this.propeller, camera, { angles: { propeller: this.turned(gun.arrival) }, ink: 'ghost' });
    paint(g, this.propeller, camera, { angles: { propeller: this.turned(gun.angle) } });
    sheet(g, 'nose', own => paint(own, this.nose, camera));
    if (gun.geared) {
      paint(g, this.cam, camera, { angles: { cam: DATA.gun.sense * gun.angle / DATA.gun.turns } });
      paint(g, this.follower, camera, { place: [0, 0, -DATA.gun.lift * this.lift(gun.angle)] });
    }
    sheet(g, 'mount', own => paint(own, this.mount, camera));
    const ends = [this.onLine(camera, muzzle), this.onLine(camera, 0)];
    line(g, ends, 'keyline', 5); line(g, ends, 'round', 2); ringAt(g, ends[1], 12, 'round', 2);
    for (const x of shots) if (x <= 0) this.round(g, camera, x);
    this.splinters(g, camera);
    this.tags(g, camera, w, h);
  }
  lift(angle) {
    const { windows, action, period, ramp, impulse } = DATA.gun;
    const high = Math.min(1, Math.max(0, ...windows.map(([opens, closes]) => ((action === 'impulse' ? impulse + ramp : (closes - opens) / 2) - Math.abs(remainder(angle - (opens + closes) / 2, period))) / ramp)));
    return high * high * (3 - 2 * high);
  }
  sector(camera, [inner, outer], [from, to]) {
    const steps = Math.max(8, Math.round(16 * (to - from))), angle = k => from + (to - from) * k / steps;
    return [...Array.from({ length: steps + 1 }, (_, k) => this.onDisc(camera, inner, angle(k))), ...Array.from({ length: steps + 1 }, (_, k) => this.onDisc(camera, outer, angle(steps - k)))];
  }
  zones(g, camera) {
    const { radius, bore, closed, arcs } = DATA.gun, inner = 0.1, rim = 1.03 * radius, outer = ZONE * radius, half = Math.min(closed / 2, Math.PI);
    polygon(g, this.sector(camera, [inner, outer], [bore - Math.PI, bore + Math.PI]), 'wait_dark'); this.hatch(g, camera, Math.PI, 0.14);
    for (const [from, to] of this.gun.geared ? arcs : [[-Math.PI, Math.PI]]) {
      polygon(g, this.sector(camera, [inner, rim], [bore + from, bore + to]), 'now_dark'); polygon(g, this.sector(camera, [rim, outer], [bore + from, bore + to]), 'now');
    }
    polygon(g, this.sector(camera, [inner, outer], [bore - half, bore + half]), 'wait_dark'); this.hatch(g, camera, half, 0.6);
    for (const side of [-half, half]) line(g, [this.onDisc(camera, inner, bore + side), this.onDisc(camera, outer, bore + side)], 'wait', 2);
    line(g, [this.onLine(camera, 0), this.onLine(camera, FAR)], 'round', 2);
  }
  hatch(g, camera, half, filled) {
    const { radius, bore } = DATA.gun, inner = 0.1, outer = ZONE * radius, slant = 22 * Math.PI / 180, count = Math.max(4, Math.round(5 * 2 * half / (30 * Math.PI / 180))), step = 2 * half / count;
    for (let bar = -Math.ceil(slant / step); bar < count; bar++) {
      const one = [], other = [];
      for (let k = 0; k < 24; k++) {
        const r = inner + (outer - inner) * k / 23, lean = slant * (r - inner) / outer, low = bounded(-half + bar * step + lean, half), high = bounded(-half + (bar + filled) * step + lean, half);
        if (high - low > 1e-6) { one.push(this.onDisc(camera, r, bore + low)); other.unshift(this.onDisc(camera, r, bore + high)); }
      }
      if (one.length > 1) polygon(g, [...one, ...other], 'wait');
    }
  }
  shots() {
    const { gun } = this, { flight, muzzle } = DATA.gun, found = gun.flying.filter(round => gun.time >= round.muzzle).map(round => (gun.time - round.pass) / flight * -muzzle);
    const beyond = gun.last && !gun.last.struck ? (gun.time - gun.last.pass) / flight : -1;
    return beyond >= 0 && beyond <= 1 ? [...found, beyond * -muzzle] : found;
  }
  round(g, camera, x) {
    const head = this.onLine(camera, x), tail = this.onLine(camera, Math.max(x - 0.25, DATA.gun.muzzle));
    line(g, [tail, head], 'keyline', 9); line(g, [tail, head], 'round', 5); disc(g, head, 10, 'keyline'); disc(g, head, 7.5, 'tape');
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
  tags(g, camera, w, h) {
    const { gun } = this, { radius, bore, arcs, blades, cam_x } = DATA.gun, top = this.onDisc(camera, ZONE * radius, bore);
    const edge = tag(g, [top[0], top[1] - g.letters], say('blades.wait'), { ground: 'wait' }), free = w - edge - 12;
    if (gun.geared && arcs.length && arcs[0][1] - arcs[0][0] < 6) {
      const spots = arcs.map(([from, to]) => this.onDisc(camera, 0.75 * radius, bore + (from + to) / 2)).sort((one, other) => one[0] - other[0]);
      tag(g, spots[0], say('blades.go'), { ground: 'now' });
    }
    const near = remainder(gun.arrival, 2 * Math.PI / blades), tip = this.onDisc(camera, 0.97 * radius, this.turned(near));
    const [x, most] = h > w ? [w, w - 2 * g.letters] : [edge + 8 + free / 2, free - g.letters];
    tag(g, [x, (h > w ? 0.9 : 1.5) * g.letters], say('blades.ghost'), { ground: 'ghost', most, to: tip });
    const breech = this.onLine(camera, -1.9), raised = this.lift(gun.angle) > 0;
    tag(g, [breech[0], breech[1] - 3.4 * g.letters], say(`blades.gun_${gun.state}`), { to: [breech[0], breech[1] - 8] });
    const at = project(camera, [cam_x - 0.04, -0.13, 0]).slice(0, 2);
    const word = gun.geared ? (raised ? 'blades.cam_now' : 'blades.cam_not_now') : 'blades.cam_none', ground = gun.geared ? (raised ? 'now' : 'wait') : 'strike';
    tag(g, [at[0], h - 1.3 * g.letters], say(word), { ground, to: at });
  }
}
