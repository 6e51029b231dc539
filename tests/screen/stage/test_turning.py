"""On the stage flies what the maneuver study flies; and what is shown is what is flown."""

import math

import numpy as np
import pytest

from sim.flight.actuation import closed_loop, initial_state
from sim.flight.maneuver import MANEUVERS, plan
from sim.flight.validity import measures, passed
from sim.live.assisted import MOST_BANK_RAD
from sim.live.flight import BANK_RAD, SCRIPTS, reading
from sim.numerics.ode import rk4_step, solve
from viz.stage.attitude import axes, bank, between
from viz.stage.bank_pad import BankPad
from viz.stage.controls import widgets
from viz.stage.layout import layout
from viz.stage.scenes.scene import draw
from viz.stage.shapes import texts
from viz.stage.worlds.world import STEP_S

LENGTH_S = 6.0


def equations(flyer, script):
    """Return the equations of a maneuver, where they start, and where the pilot's wish jumps."""
    name, sign = SCRIPTS[script]
    found, ready = flyer.flying, flyer.scripts[script]
    made = plan(
        name,
        found.airplane,
        found.travel,
        maneuver=MANEUVERS[name],
        sign=sign,
        bank_rad=BANK_RAD,
        state=ready.start[:14],
        controls=type(flyer.trim)(*ready.start[14:18]),
    )
    assert ready.start == initial_state(ready.start[:14], type(flyer.trim)(*ready.start[14:18]))
    return closed_loop(found.flown, found.travel, made.control_law), ready.start, made.breakpoints_s


def on_screen(session, script, seconds):
    """Return both attitudes that the scene shows after a maneuver."""
    session.turning.perform(script)
    for _ in range(round(seconds * 60)):
        session.tick(1.0 / 60.0)
    view = session.snapshot().view
    assert session.turning.time_s == pytest.approx(seconds)
    return np.array(view.rotary.attitude), np.array(view.fixed.attitude)


@pytest.mark.parametrize("script", SCRIPTS)
def test_on_screen_is_what_the_adaptive_maneuver_gives(stage, session, script):
    shown = on_screen(session, script, LENGTH_S)
    for flyer, attitude in zip((stage.rotary, stage.fixed), shown, strict=True):
        f, start, breakpoints_s = equations(flyer, script)
        exact = solve(f, start, [0.0, LENGTH_S], rtol=1e-9, atol=1e-9, breakpoints_s=breakpoints_s).states[-1]
        assert attitude == pytest.approx(exact[3:7], abs=1e-3)


@pytest.mark.parametrize("script", SCRIPTS)
def test_on_screen_is_what_the_same_steps_give(stage, session, script):
    shown = on_screen(session, script, LENGTH_S)
    for flyer, attitude in zip((stage.rotary, stage.fixed), shown, strict=True):
        f, state, _ = equations(flyer, script)
        for count in range(round(LENGTH_S / STEP_S)):
            end_s = math.nextafter((count + 1) * STEP_S, 0.0)
            state = rk4_step(lambda t, y, end_s=end_s, f=f: f(min(t, end_s), y), count * STEP_S, state, STEP_S)
        assert attitude == pytest.approx(state[3:7], abs=1e-6)


def test_level_flight_stays_level(session):
    before = session.snapshot().view
    for _ in range(120):
        session.tick(1.0 / 60.0)
    after = session.snapshot().view
    for who in ("rotary", "fixed"):
        one, other = getattr(before, who), getattr(after, who)
        assert other.attitude == pytest.approx(one.attitude, abs=1e-4)
        assert other.height_m == pytest.approx(one.height_m, abs=0.05)


@pytest.mark.parametrize(("name", "share", "sign"), [("rudder", 1.0, 1.0), ("rudder", 0.0, -1.0)])
def test_right_rudder_swings_the_nose_right_and_the_rotary_pushes_it_down(session, name, share, sign):
    session.turning.toggle_full()
    session.turning.set(name, share)
    for _ in range(60):
        session.tick(1.0 / 60.0)
    view = session.snapshot().view
    assert sign * view.fixed.heading_rad > 0.05
    assert sign * view.rotary.pitch_n_m < -50.0
    assert abs(view.rotary.pitch_n_m) > 3.0 * abs(view.fixed.pitch_n_m)


def test_pulled_the_nose_comes_up_and_the_rotary_pushes_it_right(session):
    session.turning.toggle_full()
    session.turning.stick(0.0, 0.5)
    for _ in range(30):
        session.tick(1.0 / 60.0)
    view = session.snapshot().view
    assert axes(view.fixed.attitude)[0][2] < -0.02
    assert view.rotary.yaw_n_m > 50.0


def test_in_the_ground_both_begin_again(session):
    """The last resort: nothing that a visitor does leads there."""
    flown = session.turning._pair[0]
    flown.state = (*flown.state[:2], 1.0, *flown.state[3:])
    session.tick(1.0 / 60.0)
    assert session.snapshot().view.rotary.height_m > 100.0


def test_a_pilot_without_hold_on_reality_does_not_stop_the_show(session):
    flown = session.turning._pair[0]
    flown.state = (math.nan,) * len(flown.state)
    session.tick(1.0 / 60.0)
    assert all(map(math.isfinite, session.snapshot().view.rotary.attitude))


def test_between_two_attitudes_the_picture_turns_by_the_short_way():
    quarter = (math.cos(0.4), 0.0, 0.0, math.sin(0.4))
    assert between((1.0, 0.0, 0.0, 0.0), quarter, 1.0) == quarter
    halfway = between((1.0, 0.0, 0.0, 0.0), tuple(-part for part in quarter), 0.5)
    assert halfway == pytest.approx((math.cos(0.2), 0.0, 0.0, math.sin(0.2)))


def test_taken_over_from_a_turn_the_pilots_begin_at_the_bank_there(session):
    """And the wings on the pad stand as the rotary's airplane does while nobody is told a bank."""
    session.turning.perform("turn-left")

    def pad():
        return next(each for each in widgets(session.snapshot(), layout(1280, 720, 1.0)) if isinstance(each, BankPad))

    for _ in range(300):
        session.tick(1.0 / 60.0)
        assert pad().told_rad == pytest.approx(bank(session.snapshot().view.rotary.attitude))
    assert pad().told_rad < math.radians(-30.0)
    session.turning.stick(-0.5, 0.0)
    flown_rad = max(bank(session.snapshot().view.rotary.attitude), -MOST_BANK_RAD)
    assert pad().told_rad == pytest.approx(flown_rad, abs=1e-3)
    session.tick(1.0 / 60.0)
    assert pad().told_rad == pytest.approx(flown_rad, abs=math.radians(2.0))


def test_a_flight_outside_the_range_of_validity_says_so(stage, session):
    """Both rudders held hard over make both airplanes slip beyond the bound; level flight says nothing."""
    size = (1280, 720)
    words = "indicative: outside the range of validity"

    def said():
        snapshot = session.snapshot()
        shapes = draw(snapshot, layout(*size, snapshot.looks.font_scale), stage.figure, size)
        return [text.text for text in texts(shapes)].count(words)

    assert (reading(stage.rotary, stage.rotary.start).beyond, said()) == ((), 0)
    session.turning.toggle_full()
    session.turning.set("rudder", 1.0)
    for _ in range(180):
        session.tick(1.0 / 60.0)
        view = session.snapshot().view
        assert said() == view.rotary.beyond + view.fixed.beyond
        if view.rotary.beyond:
            break
    assert view.rotary.beyond
    flown = session.turning._pair[0]
    column = np.array(flown.state[:15])[:, None]
    passing = passed(measures(stage.rotary.flying.airplane, column[:14], column[14]))
    assert flown.read().beyond == tuple(name for name, where in passing.items() if where[0])
