"""FIRE on the page, its labels and its bullet are those of the stage: same states and colours, true in every frame."""

import pytest

from viz.stage.palette import ROLES

LOOK = """(() => {
  show('blades'); run(false);
  const b = scenes.blades, gun = b.gun, seen = [];
  if (gun.geared !== %s) { gun.change(); words(); }
  for (let k = 0; k < 60 * 60; k++) {
    b.trigger = k %% 900 < 700;
    b.advance(1 / 60);
    if (k %% 10) continue;
    readings();
    const told = [];
    const fill = g.fillText, words_ = [];
    g.fillText = (text, ...rest) => { words_.push(text); fill.call(g, text, ...rest); };
    b.draw(g, 390, 400);
    g.fillText = fill;
    const free = gun.wait(gun.angle) === 0;
    seen.push([find('fire').dataset.shown, gun.flying.length > 0, gun.time >= gun.ready, free, b.trigger,
      words_.join(' ')]);
  }
  return seen;
})()"""


@pytest.mark.parametrize("geared", [True, False])
def test_fire_and_labels_are_true_in_every_frame(tab, geared):
    """Plain where the gun fires, or would if it were pressed; hatched wherever it would not; never of another state."""
    plain, found = "now" if geared else "none", set()
    for shown, flying, ready, may, pulled, words in tab.ask(LOOK % str(geared).lower()):
        fires = flying or (ready and may)
        assert shown == (plain if fires else "not_now")
        doing = "fires!" if flying else "loads the next bullet" if not ready else "waits" if pulled else "ready"
        assert f"Gun: {doing}" in words
        turns = not may if flying else not ready
        cam = "turns with the propeller" if turns else "its bump lets the gun fire" if may else "no bump here"
        assert (f"Cam: {cam}" if geared else "No synchronizer") in words
        found.add((shown, flying, ready))
    assert {shown for shown, *_ in found} == {plain, "not_now"}


def test_fire_has_the_colours_of_the_stage(tab):
    look = "(shown => { find('fire').dataset.shown = shown; return getComputedStyle(find('fire')).background; })"
    tab.ask("show('blades')")
    for shown, role in (("now", "now"), ("none", "strike"), ("not_now", "wait"), ("not_now", "wait_dark")):
        assert f"rgb{ROLES[role][0]}" in tab.ask(f"{look}('{shown}')")


def test_a_bullet_is_pointed_and_leaves_a_trail_from_the_muzzle(tab):
    """The outline is longer than wide and narrows towards the disc."""
    drawn = tab.ask(
        """(() => {
          show('blades'); run(false);
          const b = scenes.blades, gun = b.gun; b.trigger = true;
          while (!b.shots().some(x => x > -0.6 && x < -0.4)) b.advance(1 / 120);
          const [x] = b.shots(), camera = b.camera(390, 400, g.letters), lines = [], shapes = [];
          const fake = { letters: g.letters, points: [], closePath() {}, beginPath() { this.points = []; },
            moveTo(...p) { this.points.push(p); }, lineTo(...p) { this.points.push(p); },
            stroke() { lines.push(this.points); }, fill() { shapes.push(this.points); } };
          b.round(fake, camera, x);
          return [lines.at(-1), shapes.at(-1), b.onLine(camera, DATA.gun.muzzle), b.onLine(camera, 0)];
        })()"""
    )
    (start, _), outline, muzzle, disc = drawn
    assert start == pytest.approx(muzzle)
    along = [disc[0] - muzzle[0], disc[1] - muzzle[1]]
    size = (along[0] ** 2 + along[1] ** 2) ** 0.5
    places = [(x * along[0] + y * along[1]) / size for x, y in outline]
    across = [(y * along[0] - x * along[1]) / size for x, y in outline]
    assert max(places) - min(places) > 2.0 * (max(across) - min(across))
    tip, tail = max(places), min(places)
    assert sum(place > tip - 0.1 for place in places) == 1
    assert sum(place < tail + 0.1 for place in places) == 2
