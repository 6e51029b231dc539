// What turns, what stands: both noses, cowls off, seen from ahead.
const ASIDE = 0.35, ABOVE = 0.13, STUDIO_HALF = 17 * Math.PI / 180;

let PACE = DATA.paces.indexOf(0.01);

class Engines {
  constructor() {
    this.both = DATA.engines.map(one => ({ ...one, still: solid(one.still), turning: solid(one.turning), angle: 0 }));
    this.turn = about([0, 0, 1], Math.PI + ASIDE); this.hold = new Hold(); this.now = 0;
  }
  advance(elapsed) { for (const one of this.both) one.angle = modulo(one.angle + one.spin * elapsed * DATA.paces[PACE], 2 * Math.PI); this.now += elapsed; }
  fast(one) { return Math.abs(one.spin) * DATA.paces[PACE] / (2 * Math.PI) * one.passages > 3; }
  sentence() { return this.hold.take(this.both.every(one => this.fast(one)) ? say('caption.engine_fast') : say(DATA.ratio.key, { ratio: DATA.ratio.value }), this.now); }
  draw(g, w, h) {
    const upright = h > 1.1 * w;
    sheet(g, 'shed', own => {
      const wall = own.createLinearGradient(0, 0, 0, h);
      wall.addColorStop(0, role('wall', 0.55)); wall.addColorStop(1, role('wall')); own.fillStyle = wall; own.fillRect(0, 0, w, h);
      this.both.forEach((one, place) => {
        const room = this.room(place, w, h, upright), floor = room.y + (room.h > room.w ? 0.6 : 0.78) * room.h;
        own.fillStyle = role('floor'); own.fillRect(room.x, floor, room.w, room.y + room.h - floor);
        paint(own, one.still, this.camera(room), { turn: this.turn, place: this.place(one) });
      });
    });
    this.both.forEach((one, place) => {
      const room = this.room(place, w, h, upright), camera = this.camera(room);
      if (this.fast(one)) this.blurred(g, camera, one);
      else paint(g, one.turning, camera, { turn: this.turn, place: this.place(one), angles: { shaft: one.angle, engine: one.angle } });
      this.arrows(g, camera, one);
      tag(g, [room.x + room.w / 2, room.y + 1.3 * g.letters], say(`engine.${one.kind}`), { ground: one.kind, most: room.w - 12 });
      this.inside(g, one, room);
    });
  }
  room(place, w, h, upright) { const aside = place ? 0.42 : 0.58; return upright ? { x: 0, y: place * h / 2, w, h: h / 2, aside } : { x: place * w / 2, y: 0, w: w / 2, h, aside }; }
  place(one) { return times(this.turn, one.hub).map(part => -part); }
  camera(room) {
    const wide = Math.max(2.9, 2.75 * room.w / room.h), c = Math.cos(ABOVE), s = Math.sin(ABOVE), away = 0.5 * wide / Math.tan(STUDIO_HALF);
    return { basis: [[c, 0, s], [0, 1, 0], [-s, 0, c]], eye: [-away * c, 0, -away * s], focal: 0.5 * room.w / Math.tan(STUDIO_HALF), centre: [room.x + room.w * (room.h > room.w ? 0.5 : room.aside), room.y + (room.h > room.w ? 0.42 : 0.56) * room.h] };
  }
  ring(camera, radius, angle) { return project(camera, times(this.turn, [0.12, radius * Math.sin(angle), -radius * Math.cos(angle)])).slice(0, 2); }
  blurred(g, camera, one) {
    g.globalAlpha = 0.3; polygon(g, Array.from({ length: 40 }, (_, k) => this.ring(camera, one.radius, k * Math.PI / 20)), 'blade');
    if (one.kind === 'rotary') polygon(g, Array.from({ length: 40 }, (_, k) => this.ring(camera, one.reach, k * Math.PI / 20)), 'fin_light');
    g.globalAlpha = 1;
  }
  arrows(g, camera, one) {
    const radius = one.kind === 'rotary' ? 1.14 * one.reach : 0.3, way = Math.sign(one.spin);
    for (const start of [0, Math.PI]) arrow(g, Array.from({ length: 12 }, (_, k) => this.ring(camera, radius, start + way * (k / 11 - 0.5) * 1.5)), 'turning', Math.max(4, g.letters / 3));
  }
  // Inside: crank, rods and pistons; what turns is yellow.
  inside(g, one, room) {
    const size = room.h > room.w ? Math.min(0.3 * room.h, 0.6 * room.w) : Math.min(0.44 * room.h, 0.3 * room.w), x = one.kind === 'rotary' ? room.x + 8 + size / 2 : room.x + room.w - 8 - size / 2, y = room.y + room.h - size / 2 - 8;
    const rotary = one.kind === 'rotary', reach = 1.32 * (one.crank + one.rod), scale = 0.47 * size / reach, inner = 0.95 * (one.rod - one.crank), out = [0];
    const at = (radius, angle, across = 0) => [x - scale * (radius * Math.sin(angle) + across * Math.cos(angle)), y - scale * (radius * Math.cos(angle) - across * Math.sin(angle))];
    const box = (from, to, half, angle, ink) => polygon(g, [[from, -half], [to, -half], [to, half], [from, half]].map(([along, across]) => at(along, angle, across)), ink);
    g.fillStyle = role('tag'); g.fillRect(x - size / 2, y - size / 2, size, size); g.strokeStyle = role('panel_edge'); g.lineWidth = 1; g.strokeRect(x - size / 2, y - size / 2, size, size);
    const turns = rotary ? 'turning' : 'still', cranks = rotary ? 'still' : 'turning', shaft = this.fast(one) ? 0 : one.angle;
    const axes = rotary ? Array.from({ length: one.cylinders }, (_, k) => shaft + 2 * Math.PI * k / one.cylinders) : [Math.PI / 2, -Math.PI / 2];
    const throws = axes.map((_, k) => rotary ? 0 : shaft + (k % 2 ? Math.PI : 0));
    for (const axis of axes) box(0.9 * inner, 0.97 * reach, 0.18 * one.rod, axis, turns);
    disc(g, [x, y], inner * scale, 'track'); ringAt(g, [x, y], inner * scale, turns, 2);
    axes.forEach((axis, k) => {
      const piston = PISTON[rotary ? 0 : 1]([axis - throws[k]], out)[0], pin = at(one.crank, throws[k]);
      line(g, [pin, at(piston, axis)], 'steel', Math.max(1.5, size / 70)); box(piston - 0.07 * one.rod, piston + 0.14 * one.rod, 0.15 * one.rod, axis, 'piston');
      line(g, [[x, y], pin], cranks, Math.max(4, size / 26)); disc(g, pin, Math.max(3, size / 36), cranks);
    });
    disc(g, [x, y], Math.max(4, size / 28), cranks);
  }
}
