"""What a browser computes is what Python computes: a flight of both airplanes, and the timing of rounds."""

import json
import math
from dataclasses import replace
from random import Random

import numpy as np
import pytest
from browsers import CHROMIUM

from sim.live.gun import GunState, advance, wait_rad
from sim.live.traced import gun_traces, piston_trace
from sim.numerics.javascript import javascript
from sim.rotor.cylinders import piston_radius
from sim.synchronizer.leak import Leak
from viz.stage.worlds.barrel import FREE
from viz.stage.worlds.turning import TurningWorld
from viz.stage.worlds.world import STEP_S

pytestmark = [pytest.mark.skipif(CHROMIUM is None, reason="needs Chromium"), pytest.mark.slow]

SECONDS = 30
WISHES = [(0.0, 0.0), (1.0, 0.9), (8.0, -1.0), (15.0, 0.3), (18.0, 0.0), (25.0, -0.6)]
"""Time and share of the greatest bank that a visitor wishes from then on."""
LET_GO_AT_S = 20.0
NEAR = 1e-9


def wish(time_s):
    return [share for since, share in WISHES if since <= time_s + 1e-9][-1]


@pytest.fixture(scope="module")
def flown(shown):
    """Return the states of both airplanes and who flew, once in half a second of a flight in Python."""
    world, found = TurningWorld(shown.rotary, shown.fixed), []
    for step in range(round(SECONDS / STEP_S)):
        world.stick(wish(step * STEP_S), 0.0)
        if step == round(LET_GO_AT_S / STEP_S):
            world.let_go()
        world.step()
        if step % 60 == 59:
            found.append((world.hand.value, *(list(one.state) for one in world._pair)))
    return found


FLY = """(() => {
  const pair = new Pair(), found = [], wishes = %s;
  for (let step = 0; step < %d; step++) {
    const time = step * DATA.flight.step;
    pair.asked = wishes.filter(([since]) => since <= time + 1e-9).at(-1)[1];
    if (step === %d) pair.letGo();
    pair.step();
    if (step %% 60 === 59) found.push([pair.hand, ...pair.both.map(one => [...one.state])]);
  }
  return found;
})()"""


def test_half_a_minute_of_both_airplanes_is_flown_alike(tab, flown):
    steps = round(SECONDS / STEP_S)
    seen = tab.ask(FLY % (json.dumps(WISHES), steps, round(LET_GO_AT_S / STEP_S)))
    assert [hand for hand, *_ in seen] == [hand for hand, *_ in flown]
    assert {"pilot", "nobody"} <= {hand for hand, *_ in seen}
    ours, theirs = (np.array([both for _, *both in one]) for one in (flown, seen))
    size = np.abs(ours).max(axis=0)
    assert (np.abs(theirs - ours) <= NEAR * np.maximum(size, 1e-3)).all()
    assert np.abs(ours[:, 0, 3:13] - ours[:, 1, 3:13]).max() > 0.01  # the engines make a difference


RECOVER = """(state => {
  const pair = new Pair(), found = [];
  for (const one of pair.both) { one.state = Float64Array.from(state); one.look(); }
  for (let step = 0; step < 480; step++) {
    pair.step();
    if (step % 60 === 59) found.push([pair.hand, ...pair.both.map(one => [...one.state])]);
  }
  return found;
})(%s)"""


def test_an_airplane_on_its_side_is_recovered_alike(tab, shown):
    start = list(shown.rotary.start)
    start[3:7] = [math.cos(0.75), math.sin(0.75), 0.0, 0.0]
    world, ours = TurningWorld(shown.rotary, shown.fixed), []
    for one in world._pair:
        one.state = tuple(start)
    for step in range(480):
        world.step()
        if step % 60 == 59:
            ours.append((world.hand.value, *(list(one.state) for one in world._pair)))
    seen = tab.ask(RECOVER.replace("%s", json.dumps(start)))
    assert [hand for hand, *_ in seen] == [hand for hand, *_ in ours]
    assert seen[0][0] == "recovery"
    ours, seen = (np.array([both for _, *both in one]) for one in (ours, seen))
    assert np.abs(seen - ours).max() <= NEAR * np.abs(ours).max()


class Given:
    """Stands for a source of random numbers that is told what to say."""

    def __init__(self, normal):
        self.normal = normal

    def gauss(self, mean, sd):
        return mean + sd * self.normal


def guns(gun):
    """Yield guns at ten speeds, tight and leaking, of both actions, timed and free."""
    leak = Leak(0.2 * gun.spin_rad_s, 0.02, 0.04)
    for place, share in enumerate(np.linspace(0.4, 2.5, 10).tolist()):
        action = "impulse" if place % 3 == 2 else "interrupter"
        line = replace(gun.line, action=action, leak=leak if place % 2 else gun.line.leak)
        if place % 3 == 1:
            line = replace(line, cam=FREE)
        yield replace(gun, line=line, spin_rad_s=share * gun.spin_rad_s)


def passed(gun, angle_rad, normal):
    """Return wait [rad], time to the disc [s], angle there [rad] and strike, by the gun of the viewer."""
    wait = wait_rad(gun, angle_rad)
    fired = GunState(angle_rad=angle_rad)
    fired = advance(fired, gun, wait / gun.spin_rad_s + 1e-9, Given(normal))
    (round_,) = fired.flying or fired.passed
    gone = advance(fired, gun, round_.pass_s - fired.time_s + 1e-9, Given(normal), trigger=False)
    (through,) = gone.passed
    return wait, through.pass_s - through.release_s, through.pass_rad, through.struck


def test_a_thousand_rounds_are_timed_alike(tab, shown):
    random, struck = Random(7), 0
    for gun in guns(shown.armed()):
        cases = [(random.uniform(0.0, gun.cam.period_rad), random.gauss(0.0, 1.5)) for _ in range(100)]
        traces = gun_traces(gun)
        script = f"""(() => {{ {javascript(traces.wait, "wait")} {javascript(traces.passage, "passage")}
          return {json.dumps(cases)}.map(([angle, normal]) => {{
            const ahead = wait([angle], [])[0];
            const [late, at, struck] = passage([(angle + ahead) % (2 * Math.PI), normal], []);
            return [ahead, late, at % (2 * Math.PI), struck];
          }}); }})()"""
        for (angle, normal), seen in zip(cases, tab.ask(script), strict=True):
            wait, late_s, at_rad, hit = passed(gun, angle, normal)
            assert seen[0] == pytest.approx(wait, rel=NEAR, abs=NEAR)
            assert seen[1] == pytest.approx(late_s, rel=NEAR)
            assert abs(math.remainder(seen[2] - at_rad, math.tau)) <= NEAR * math.tau
            assert seen[3] == hit
            struck += hit
    assert 50 < struck < 950


def test_pistons_are_where_they_are(tab, shown):
    angles = np.linspace(-7.0, 7.0, 50)
    for setup in (shown.rotary_engine, shown.fixed_engine):
        function = javascript(piston_trace(setup), "piston")
        script = f"(() => {{ {function} return {angles.tolist()}.map(x => piston([x], [])[0]); }})()"
        radius_m = piston_radius(angles, crank_radius_m=setup.crank_radius_m, rod_length_m=setup.rod_length_m)
        assert tab.ask(script) == pytest.approx(radius_m.tolist(), rel=NEAR)


def test_every_operation_is_written(tab):
    """Each function and operator of a recording, at arguments of both signs."""
    from sim.numerics.scalar_kernel import scalar_kernel
    from sim.numerics.trace import record

    def build(functions):
        def every(x):
            a, b, c = x
            return (
                a + b, a - b, a * b, a / b, abs(a) ** b, a % b, -a, abs(c), functions.sqrt(abs(a)), functions.sin(a),
                functions.cos(a), functions.tan(a), functions.atan(a), functions.atan2(a, b), functions.larger(a, b),
                functions.smaller(a, b), functions.either(a < b, a, c), functions.either(a > b, a, c), 1.5 - a, 2.0 / a,
                -3.0 * a,
            )  # fmt: skip

        return every

    trace = record(build, 3)
    kernel = scalar_kernel(trace)
    points = [(0.3, -0.7, 2.0), (-2.5, 0.4, -1.0), (4.0, 3.0, 0.0), (-0.1, -0.2, 7.0)]
    script = f"(() => {{ {javascript(trace, 'every')} return {json.dumps(points)}.map(x => every(x, [])); }})()"
    for point, seen in zip(points, tab.ask(script), strict=True):
        assert seen == pytest.approx(list(kernel(point)), rel=1e-14)
