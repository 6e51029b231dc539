// Two airplanes flown by the traced equations: the same fixed Runge-Kutta step, the same pilots and the same changes of
// hands as sim/live/flight.py and viz/stage/worlds/turning.py.
const LENGTH = 22, STATES = 14, INTEGRALS = 18;

function stepper(kernel) {
  const sum = new Float64Array(LENGTH), slopes = [0, 1, 2, 3].map(() => new Float64Array(LENGTH)), given = new Float64Array(LENGTH + STATES + 1);
  const rates = new Float64Array(STATES), hands = new Float64Array(LENGTH - STATES);
  const f = (y, law, bank, out) => {
    kernel.motion(y, rates);
    given.set(y); given.set(rates, LENGTH); given[LENGTH + STATES] = bank;
    law(given, hands);
    out.set(rates); out.set(hands, STATES);
  };
  return (y, law, bank, dt) => {
    const [k1, k2, k3, k4] = slopes;
    f(y, law, bank, k1);
    for (let i = 0; i < LENGTH; i++) sum[i] = y[i] + 0.5 * dt * k1[i];
    f(sum, law, bank, k2);
    for (let i = 0; i < LENGTH; i++) sum[i] = y[i] + 0.5 * dt * k2[i];
    f(sum, law, bank, k3);
    for (let i = 0; i < LENGTH; i++) sum[i] = y[i] + dt * k3[i];
    f(sum, law, bank, k4);
    const later = y.map((x, i) => x + dt / 6 * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]));
    const norm = Math.sqrt(later[3] * later[3] + later[4] * later[4] + later[5] * later[5] + later[6] * later[6]);
    for (let i = 3; i < 7; i++) later[i] /= norm;
    return later;
  };
}

const remainder = (angle, period) => angle - period * Math.round(angle / period);
const bounded = (x, most) => Math.min(Math.max(x, -most), most);
const headingOf = state => { const m = toEarth(state.slice(3, 7)); return Math.atan2(m[1][0], m[0][0]); };

const noseOf = state => toEarth(state.slice(3, 7)).map(row => row[0]);

class Flown {
  constructor(kernel, start) { this.kernel = kernel; this.start = Float64Array.from(start); this.later = stepper(kernel); this.restart(); }
  restart() { this.state = this.before = this.start.slice(); this.hand = 'pilot'; this.seen = new Float64Array(7); this.look(); }
  take(hand) {
    if (hand === this.hand) return;
    if (hand === 'recovery' || this.hand === 'recovery') { this.state = this.state.slice(); this.state.fill(0, INTEGRALS); }
    this.hand = hand;
  }
  step(bank) {
    this.before = this.state;
    this.state = this.later(this.state, this.kernel[this.hand], bank, DATA.flight.step);
    this.look();
  }
  look() { this.kernel.outlook(this.state, this.seen); }
  get heading() { return headingOf(this.state); }
  upset() { const [bank, descent, speed, , beyond] = this.seen; return Math.abs(bank) > DATA.flight.upset_bank || Math.abs(descent) > DATA.flight.upset_path * speed || beyond > 0; }
  level() { const [bank, descent, , , beyond] = this.seen; return Math.abs(bank) < DATA.flight.level_bank && Math.abs(descent) < DATA.flight.level_descent && beyond <= 0; }
  lost() { return this.state[2] > 0 || !this.state.every(Number.isFinite); }
}

class Pair {
  constructor() { this.both = DATA.flight.starts.map((start, place) => new Flown(KERNELS[place], start)); this.restart(); }
  restart() {
    for (const one of this.both) one.restart();
    this.hand = 'pilot'; this.asked = this.told = this.steps = this.back = 0; this.apart = [0, 0, 0];
  }
  take(hand) { this.hand = hand; for (const one of this.both) one.take(hand); }
  letGo() { if (this.hand === 'pilot') { this.take('nobody'); this.back = this.time + DATA.flight.let_go; } }
  get time() { return this.steps * DATA.flight.step; }
  step() {
    const { step, bank_rate, most_bank, together, most_together, apart } = DATA.flight, [rotary, fixed] = this.both;
    const wished = this.hand === 'recovery' ? 0 : this.asked * most_bank;
    this.told += bounded(wished - this.told, bank_rate * step);
    const gap = bounded(together * remainder(fixed.heading - rotary.heading, 2 * Math.PI), most_together);
    rotary.step(this.told + gap);
    fixed.step(this.told - gap);
    this.steps++;
    for (let i = 0; i < 3; i++) this.apart[i] = (1 - step / apart) * this.apart[i] + (fixed.state[i] - fixed.before[i]) - (rotary.state[i] - rotary.before[i]);
    this.handOver();
    if (this.both.some(one => one.lost())) this.restart();
  }
  handOver() {
    if (this.hand === 'nobody' && this.time >= this.back) this.take('pilot');
    if (this.hand !== 'recovery') { if (this.both.some(one => one.upset())) this.take('recovery'); return; }
    for (const one of this.both) {
      if (one.hand === 'recovery' && one.level()) one.take('pilot');
      else if (one.hand === 'pilot' && one.upset()) one.take('recovery');
    }
    if (this.both.every(one => one.hand === 'pilot')) this.take('pilot');
  }
}
