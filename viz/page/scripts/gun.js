// The timed gun at one speed of the propeller: as sim/live/gun.py, its closed forms traced, time slowed as
// viz/stage/worlds/slow.py slows it.
const gauss = () => Math.sqrt(-2 * Math.log(1 - Math.random())) * Math.cos(2 * Math.PI * Math.random());

class Gun {
  constructor() { this.geared = true; this.clear(); }
  clear() {
    this.time = this.angle = this.ready = this.waits = this.rounds = this.strikes = 0;
    this.flying = []; this.last = null; this.holding = false; this.pace = DATA.gun.pace; this.marks = [];
  }
  change() { const angle = this.angle; this.geared = !this.geared; this.clear(); this.angle = angle; }
  get kernel() { return this.geared ? TIMED : FREE; }
  wait(angle) { return this.kernel.wait([angle], [0])[0]; }
  passage(angle, normal) { const [late, at, struck] = this.kernel.passage([angle, normal], [0, 0, 0]); return { late, at, struck }; }
  advance(elapsed, trigger, normal = gauss) {
    const { spin, cycle, flight } = DATA.gun, start = this.time, end = start + elapsed, waited = this.holding;
    this.holding = this.holding && trigger;
    while (trigger) {
      const begin = Math.max(this.ready, start);
      if (begin > end) break;
      const release = begin + this.wait(this.angle + spin * (begin - start)) / spin;
      this.holding = release > end;
      if (this.holding) { if (!waited) this.waits = release - begin; break; }
      const from = modulo(this.angle + spin * (release - start), 2 * Math.PI), { late, at, struck } = this.passage(from, normal());
      this.flying.push({ release, muzzle: release + late - flight, pass: release + late, from, at, struck });
      this.ready = release + cycle;
      this.rounds++;
    }
    for (const round of this.flying) if (round.pass <= end) {
      this.last = round; this.strikes += round.struck ? 1 : 0;
      this.marks.push(round); if (this.marks.length > 200) this.marks.shift();
    }
    this.flying = this.flying.filter(round => round.pass > end);
    this.time = end;
    this.angle = modulo(this.angle + spin * elapsed, DATA.gun.period);
  }
  get wanted() {
    const { pace, link, flight_seen, after, wait_seen, loading, passages, spin, blades } = DATA.gun, last = this.last;
    if (this.flying.length) {
      const { release, muzzle, pass } = this.flying[0];
      return Math.min(pace, this.time < muzzle ? (muzzle - release) / link : (pass - muzzle) / flight_seen);
    }
    if (last && this.time < last.pass + after * (last.pass - last.muzzle)) return Math.min(pace, (last.pass - last.muzzle) / flight_seen);
    if (this.holding && Number.isFinite(this.waits)) return Math.min(pace, Math.max(this.waits, 1e-4) / wait_seen);
    return Math.max(pace, Math.min(loading * pace, passages / (spin * blades / (2 * Math.PI))));
  }
  watch(elapsed, trigger) {
    const wanted = this.wanted;
    this.pace = wanted * (this.pace / wanted) ** Math.exp(-elapsed / DATA.gun.ease);
    this.advance(elapsed * this.pace, trigger);
  }
  get arrival() { const { spin } = DATA.gun; return this.flying.length ? this.angle + spin * (this.flying[0].pass - this.time) : this.angle + spin * this.passage(this.angle, 0).late; }
  get state() { return this.flying.length ? 'fires' : this.holding ? 'waits' : this.time < this.ready ? 'loads' : 'rests'; }
}
