"""Stalls: speed against the formula, mirror images, what each number stands for, and the sentences of refusals."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE
from shared import built

from sim.errors import InputError
from sim.flight.separation import separation, stalled
from sim.model.model import model
from sim.studies.speeds import speeds
from sim.studies.stall_entry import StallEntry, banded, stall_flight, throttles

SIDES = {"left": "right", "right": "left"}


@pytest.fixture(scope="module")
def flown():
    """Return idle and full stalls of the biplane with its rotary, straight."""
    flying = built(BIPLANE).airplane("rotary")
    settings = throttles(flying)
    return {
        power: stall_flight(flying, power, 0.0, throttle=settings[power], reaction_s=1.0) for power in ("idle", "full")
    }


def test_without_power_it_stalls_at_the_speed_of_the_formula(flown):
    """That of level flight at the greatest lift, which a slow descent and a knot a second lower by a few per cent."""
    level_m_s = speeds(built(BIPLANE)).powerplants["rotary"].stall_m_s
    assert 0.9 < flown["idle"].entry.stall_m_s / level_m_s < 1.01
    assert flown["full"].entry.stall_m_s < flown["idle"].entry.stall_m_s  # thrust carries and the slipstream blows


def test_numbers_are_those_of_the_record(flown):
    for flight in flown.values():
        entry, time_s = flight.entry, flight.time_s
        at, later = int(np.argmin(np.abs(time_s))), int(np.searchsorted(time_s, 1.0 - 1e-9))
        assert entry.stall_m_s == pytest.approx(flight.speed_m_s[at])
        assert entry.alpha_deg == pytest.approx(flight.alpha_deg[at])
        assert entry.roll_deg == pytest.approx(flight.bank_deg[later] - flight.bank_deg[at])
        assert entry.height_lost_m == pytest.approx(flight.height_m[at] - flight.height_m[at:].min())
        assert entry.warning_m_s > 0.0
        assert abs(flight.bank_deg[:at]).max() < 12.0  # the pilot holds it until then
        assert flight.alpha_deg[-40:].max() < entry.alpha_deg - 2.0  # recovered


def test_a_rotor_the_other_way_round_mirrors_every_stall(flown):
    """Panels, rolls and heights of a stall to the left are those to the right, and speeds agree."""
    mirrored = model(BIPLANE, ["powerplant.rotary.rotation='anticlockwise'"]).airplane("rotary")
    found = stall_flight(mirrored, "full", 0.0, throttle=1.0, reaction_s=1.0).entry
    ours = flown["full"].entry
    assert abs(ours.roll_deg) > 10.0
    assert found.roll_deg == pytest.approx(-ours.roll_deg, rel=1e-3)
    assert found.stall_m_s == pytest.approx(ours.stall_m_s, rel=1e-5)
    assert found.height_lost_m == pytest.approx(ours.height_lost_m, rel=1e-3)
    plane, side, part = ours.first_panel.rsplit(" ", 2)
    assert found.first_panel == f"{plane} {SIDES[side]} {part}"


def test_a_turn_stalls_faster_by_the_root_of_its_load():
    """n = 1/cos φ: the speed grows by 1/√cos φ, within what the slow pull and the descent leave."""
    flying = built(BIPLANE).airplane("flat_four")
    idle = throttles(flying)["idle"]
    level, banked = (stall_flight(flying, "idle", bank, throttle=idle, reaction_s=0.0).entry for bank in (0.0, 40.0))
    ratio = banked.stall_m_s / level.stall_m_s
    assert ratio == pytest.approx(1.0 / math.sqrt(math.cos(math.radians(40.0))), rel=0.06)


def test_bands_are_those_of_mass_and_greatest_lift():
    """Half of the relative error of a greatest lift of 1.45 ± .12, 1.645 times each way; ± of the mass is small."""
    doubted = model(BIPLANE, ["lift.max='1.45 ± 0.12'"])
    flying = doubted.airplane("flat_four")
    (entry,) = banded(doubted, flying, [StallEntry("idle", 0.0, stall_m_s=19.0)], seed=1)
    width = (entry.stall_high_m_s - entry.stall_low_m_s) / 19.0
    assert width == pytest.approx(2.0 * 1.645 * 0.5 * 0.12 / 1.45, rel=0.15)


def test_separation_finds_the_mean_lift_that_falls():
    """Of a made-up wing of two strips: the stall is at the top of the area-weighted mean, the panel the first to go."""
    from sim.flight.separation import Separation

    lift = np.array([[0.8, 1.0, 1.2, 1.3, 1.2, 0.9], [0.8, 0.9, 1.1, 1.25, 1.3, 1.2]])
    attached = np.array([[1.0, 1.0, 0.95, 0.9, 0.7, 0.5], [1.0, 1.0, 0.98, 0.95, 0.9, 0.8]])
    found = stalled(Separation(("upper right outer", "upper left inner"), np.array([1.0, 3.0]), lift, attached))
    assert (found.at, found.first, found.panel) == (4, 3, "upper right outer")
    assert stalled(Separation(("a", "b"), np.ones(2), np.sort(lift), attached)) is None


@pytest.mark.parametrize("ask", ["stall", "autorotation"])
def test_linear_loads_are_refused_with_a_cure(ask):
    import sim

    with pytest.raises(
        InputError, match=r'flight\.air: must be "strips", got "linear": by linear loads nothing stalls'
    ):
        getattr(sim, ask)(model(BIPLANE, ["flight.air=linear"]))


def test_strips_of_a_flight_have_names_of_both_sides():
    flying = built(BIPLANE).airplane("rotary")
    from sim.flight.actuation import fly
    from sim.flight.stall_pilot import slowing
    from sim.studies.turns import turns

    start = turns(flying, 0.0, speed_m_s=1.25 * 19.0)
    state, controls = tuple(start.state[:, 0].tolist()), start.controls(0)
    law = slowing(flying.airplane, flying.travel, state=state, controls=controls, bank_rad=0.0)
    flight = fly(flying.flown, flying.travel, law, state=state, controls=controls, times_s=np.arange(0.0, 1.0, 0.1))
    found = separation(flying.flown, flight)
    half = len(found.panels) // 2
    assert [name.replace(" right", " left") for name in found.panels[:half]] == list(found.panels[half:])
    assert found.area_m2.sum() == pytest.approx(flying.airplane.polar.area_m2, rel=0.05)


def test_the_speed_lost_on_the_way_in_is_that_of_the_record(flown):
    for flight in flown.values():
        at = int(np.argmin(np.abs(flight.time_s)))
        lost = flight.speed_m_s[at - 20] - flight.speed_m_s[at]
        assert flight.entry.slowing_m_s2 == pytest.approx(lost, rel=1e-9)
        assert 1.0 < lost < 4.0  # three to six knots a second: an accelerated entry


def test_the_largest_roll_is_that_of_the_whole_recovery(flown):
    for flight in flown.values():
        at = int(np.argmin(np.abs(flight.time_s)))
        turned = flight.bank_deg[at:] - flight.bank_deg[at]
        assert abs(flight.entry.most_roll_deg) == pytest.approx(np.abs(turned).max())
        assert abs(flight.entry.most_roll_deg) >= abs(flight.entry.roll_deg)
