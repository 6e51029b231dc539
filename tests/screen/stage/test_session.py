"""The session: actions in, snapshot out, without a display."""

from itertools import pairwise

import pytest

from viz.stage.actions import Action
from viz.stage.flashes import EXCHANGE_S
from viz.stage.session import EXCHANGES, PAGES, Session
from viz.stage.snapshot import SCENES, Looks
from viz.stage.worlds.world import STEP_S


def later(session, seconds, rate_hz=60):
    for _ in range(round(seconds * rate_hz)):
        session.tick(1.0 / rate_hz)


@pytest.mark.parametrize("action", PAGES)
def test_a_page_is_opened_and_closed_and_nothing_moves_behind_it(session, action):
    later(session, 1.0)
    assert session.snapshot().overlay == ""
    session.act(action)
    before = session.snapshot()
    assert before.overlay == PAGES[action]
    later(session, 1.0)
    assert session.snapshot().view == before.view
    session.act(action)
    assert session.snapshot().overlay == ""


@pytest.mark.parametrize("scene", SCENES)
def test_paused_nothing_moves_and_a_step_moves_by_one(session, scene):
    session.show(scene)
    later(session, 0.5)
    session.act(Action.PAUSE)
    still = session.snapshot()
    later(session, 1.0)
    assert session.snapshot().view == still.view
    session.act(Action.STEP)
    stepped = session.snapshot()
    assert stepped.view != still.view
    assert stepped.paused


def test_a_step_of_the_flight_is_one_physics_step(session):
    session.act(Action.STEP)
    assert session.turning.time_s == pytest.approx(STEP_S)


def test_a_storm_of_steps_is_one_step_a_frame(session):
    for _ in range(50):
        session.act(Action.STEP)
    assert session.turning.time_s == pytest.approx(STEP_S)
    session.tick(1.0 / 60.0)
    session.act(Action.STEP)
    assert session.turning.time_s == pytest.approx(2 * STEP_S)


def test_slower_and_faster_stop_at_the_ends(session):
    for _ in range(20):
        session.act(Action.SLOWER)
    assert session.snapshot().pace == 0.1
    for _ in range(20):
        session.act(Action.FASTER)
    assert session.snapshot().pace == 1.0  # fields that rush by would flash


def test_half_the_pace_is_half_the_flight(session):
    later(session, 1.0)
    once = session.turning.time_s
    session.act(Action.SLOWER)
    later(session, 1.0)
    assert session.turning.time_s - once == pytest.approx(0.5 * once, abs=2 * STEP_S)


def test_start_again_puts_the_scene_back(session):
    session.show("blades")
    start = session.snapshot()
    session.blades.set("spin_rad_s", 0.9)
    later(session, 2.0)
    session.act(Action.RESTART)
    again = session.snapshot()
    assert again.view == start.view
    assert again.sliders == start.sliders


def test_looks_go_round(session):
    for action, name in ((Action.LANGUAGE, "language"), (Action.FONT, "font"), (Action.CONTRAST, "contrast")):
        seen = []
        for _ in range(3):
            seen.append(getattr(session.snapshot().looks, name))
            later(session, 0.5)
            session.act(action)
        assert len(set(seen)) == (2 if name == "contrast" else 3)
        assert seen[0] == getattr(Looks(), name)


@pytest.mark.parametrize("action", sorted(EXCHANGES - {Action.LEAVE, Action.FULLSCREEN}))
def test_what_changes_much_of_the_picture_is_rationed(session, action):
    later(session, 1.0)
    session.act(Action.HELP)
    overlay = session.overlay
    session.act(action)
    assert session.overlay == overlay
    later(session, EXCHANGE_S)
    session.act(Action.HELP)
    assert session.overlay == ""


def test_the_same_seed_is_the_same_show(stage):
    views = []
    for _ in range(2):
        session = Session(stage, scene="blades", seed=7)
        session.overlay = ""
        session.blades.set("delay_sd_s", 0.5)
        session.blades.pace.pick(1.0)
        later(session, 3.0)
        views.append(session.snapshot().view)
    assert views[0] == views[1]


def test_another_seed_scatters_the_rounds_otherwise(stage):
    passed = []
    for seed in (1, 2):
        session = Session(stage, scene="blades", seed=seed)
        session.overlay = ""
        session.blades.set("delay_sd_s", 0.5)
        session.blades.pace.pick(1.0)
        later(session, 2.0)
        passed.append(session.snapshot().view.passed)
    assert passed[0] != passed[1]


def test_leave_closes_a_page_first_and_then_the_show(session):
    session.overlay = "help"
    session.act(Action.LEAVE)
    assert (session.overlay, session.finished) == ("", False)
    later(session, 0.5)
    session.act(Action.LEAVE)
    assert session.finished


def test_in_a_kiosk_leave_leaves_only_pages(session):
    session.kiosk = True
    session.act(Action.LEAVE)
    later(session, 0.5)
    session.act(Action.FULLSCREEN)
    assert not session.finished
    assert not session.fullscreen


def test_a_slider_of_another_scene_is_let_pass(session):
    before = session.snapshot().sliders
    session.world.set("spin_rad_s", 1.0)
    assert session.snapshot().sliders == before


def test_values_follow_without_a_jump(session):
    session.show("engine")
    session.engine.set("rotary_spin_rad_s", 0.0)
    values = []
    for _ in range(40):
        session.tick(1.0 / 60.0)
        values.append(session.engine.dials["rotary_spin_rad_s"].value)
    whole = session.engine.dials["rotary_spin_rad_s"].range.most
    assert max(a - b for a, b in pairwise(values)) < 0.04 * whole
    assert values[-1] == 0.0
