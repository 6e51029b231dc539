"""Stalls: speed against the formula, mirror images, what each number stands for, and the sentences of refusals."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from drawn import alone, sure
from shared import built

from sim.errors import InputError
from sim.flight.separation import separation, stalled
from sim.model.model import model
from sim.studies import bands
from sim.studies.speeds import speeds
from sim.studies.stall_bands import FLOWN, banded
from sim.studies.stall_entry import level_stall_m_s, stall_flight, throttles
from sim.studies.stall_numbers import stall_numbers
from sim.units.quantities import band_ends

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
        entry, columns = flight.entry, flight.columns
        time_s, bank_deg, height_m = (columns[name] for name in ("time_s", "bank_deg", "altitude_m"))
        at, later = int(np.argmin(np.abs(time_s))), int(np.searchsorted(time_s, 1.0 - 1e-9))
        assert entry.stall_m_s == pytest.approx(columns["speed_m_s"][at])
        assert entry.load_factor == pytest.approx(columns["load_factor"][at])
        assert entry.alpha_deg == pytest.approx(columns["alpha_deg"][at])
        assert entry.roll_deg == pytest.approx(bank_deg[later] - bank_deg[at])
        assert entry.height_lost_m == pytest.approx(height_m[at] - height_m[at:].min())
        assert entry.warning_m_s > 0.0
        assert abs(bank_deg[:at]).max() < 12.0  # the pilot holds it until then
        assert columns["alpha_deg"][-40:].max() < entry.alpha_deg - 2.0  # recovered


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


def asked(flying, *pairs):
    """Return throttles and, flown by one airplane each, the stalls of pairs of power and bank."""
    settings = throttles(flying)
    return settings, [
        stall_flight(flying, power, bank, throttle=settings[power], reaction_s=1.0).entry for power, bank in pairs
    ]


def test_bands_are_of_airplanes_that_stall_as_they_would_alone(monkeypatch):
    """The ends are the quantiles of four airplanes drawn, each flown by the functions of one in adapted steps."""
    monkeypatch.setattr("sim.studies.stall_bands.FLOWN", 4)
    flying, pairs = built(BIPLANE).airplane("rotary"), (("idle", 0.0), ("full", -30.0))
    settings, entries = asked(flying, *pairs)
    found = banded(built(BIPLANE), flying, entries, throttles=settings, reaction_s=1.0, pull_s=25.0, seed=3)
    many = bands.drawn_flying(built(BIPLANE), flying, 3).airplane
    for entry, (power, bank) in zip(found, pairs, strict=True):
        each = [
            stall_flight(
                replace(flying, airplane=alone(many, number)), power, bank, throttle=settings[power], reaction_s=1.0
            ).entry
            for number in range(4)
        ]
        assert entry.stalled_probability == np.mean([one.stall_m_s is not None for one in each])
        for name, allowed in (("stall_m_s", 0.05), ("roll_deg", 0.5), ("most_bank_deg", 2.0)):
            ends = np.quantile([getattr(one, name) for one in each], bands.BAND)
            assert [getattr(entry, end) for end in band_ends(name)] == pytest.approx(ends, abs=allowed), name
            assert ends[0] < ends[1] - 5.0 * allowed / 4.0


def test_what_is_certain_has_a_band_without_width(monkeypatch):
    monkeypatch.setattr("sim.studies.stall_bands.FLOWN", 2)
    flying = built(BIPLANE).airplane("flat_four")
    settings, entries = asked(flying, ("idle", 0.0))
    (entry,) = banded(sure(flying), flying, entries, throttles=settings, reaction_s=1.0, pull_s=25.0, seed=1)
    assert entry.stalled_probability == 1.0
    for name in ("stall_m_s", "roll_deg", "most_bank_deg", "height_lost_m"):
        ends = [getattr(entry, end) for end in band_ends(name)]
        assert ends == pytest.approx([getattr(entry, name)] * 2, rel=0.02, abs=0.05), name


def test_enough_airplanes_fly_for_the_ends_of_a_band():
    assert 40 <= FLOWN <= bands.DRAWS


def test_a_nose_that_goes_down_by_itself_is_where_the_wing_stalls():
    """A rotary's nose is pushed down in a right turn: lift sinks by two hundredths, and the speed rises after that."""
    flying = built("tollgate").airplane("rotary")
    idle = throttles(flying)["idle"]
    right, left = (stall_flight(flying, "idle", bank, throttle=idle, reaction_s=1.0).entry for bank in (30.0, -30.0))
    assert right.slowing_m_s2 > 0.0
    reduced = [one.stall_m_s / math.sqrt(one.load_factor) for one in (right, left)]
    assert reduced[0] == pytest.approx(reduced[1], rel=0.02)
    assert right.load_factor < left.load_factor


def test_a_slow_entry_stalls_at_the_speed_of_steady_flight_and_rolls_less():
    """A pull of 60 s: at most a knot a second, load factor near 1."""
    flying = built("tollgate").airplane("rotary")
    slow, fast = (
        stall_flight(flying, "idle", 0.0, throttle=throttles(flying)["idle"], reaction_s=1.0, pull_s=pull_s).entry
        for pull_s in (60.0, 25.0)
    )
    assert 0.0 < slow.slowing_m_s2 < 0.52 < fast.slowing_m_s2
    assert slow.load_factor == pytest.approx(1.0, abs=0.03)
    assert slow.stall_m_s == pytest.approx(level_stall_m_s(flying), rel=0.03)
    assert fast.stall_m_s / math.sqrt(fast.load_factor) == pytest.approx(slow.stall_m_s, rel=0.01)
    assert abs(slow.roll_deg) < 0.5 * abs(fast.roll_deg)


def columns_of(bank_deg, height_m):
    other = {name: np.zeros(len(bank_deg)) for name in ("speed_m_s", "load_factor", "alpha_deg", "pitch_deg")}
    bank, height = np.array(bank_deg, float), np.array(height_m, float)
    return {"time_s": np.arange(len(bank_deg), dtype=float), "bank_deg": bank, "altitude_m": height, **other}


def test_the_steepest_bank_is_that_of_the_stall_and_not_of_the_recovery():
    """By hand: from 30° left it drops to 50° left before the pilot stops it; he then overshoots to 60° right."""
    found = stall_numbers(columns_of([-30, -40, -50, -45, 0, 60, 10], [9, 9, 8, 5, 4, 4.5, 6]), 1.0)
    assert (found["roll_deg"], found["most_bank_deg"], found["height_lost_m"]) == (-10.0, -50.0, 5.0)
    turned_back = stall_numbers(columns_of([0, 2, -20, -70, -40, 0], [9, 8, 7, 6, 5, 4]), 2.0)
    assert (turned_back["roll_deg"], turned_back["most_bank_deg"]) == (-20.0, -70.0)
    assert np.isnan(turned_back["height_lost_m"])  # it still descends at the end


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
    law = slowing(flying.airplane, flying.travel, state=state, controls=controls, bank_rad=0.0, pull_s=25.0)
    flight = fly(flying.flown, flying.travel, law, state=state, controls=controls, times_s=np.arange(0.0, 1.0, 0.1))
    found = separation(flying.flown, flight.state, flight.controls)
    half = len(found.panels) // 2
    assert [name.replace(" right", " left") for name in found.panels[:half]] == list(found.panels[half:])
    assert found.area_m2.sum() == pytest.approx(flying.airplane.polar.area_m2, rel=0.05)


def test_a_flight_that_is_looked_at_ends_early_and_is_the_same_till_then():
    flying = built(BIPLANE).airplane("rotary")
    from sim.flight.actuation import LOOKED_AT, fly
    from sim.flight.stall_pilot import slowing
    from sim.studies.turns import turns

    start = turns(flying, math.radians(20.0), speed_m_s=1.3 * 19.0)
    state, controls = tuple(start.state[:, 0].tolist()), start.controls(0)
    law = slowing(flying.airplane, flying.travel, state=state, controls=controls, bank_rad=0.3, pull_s=25.0)
    asked = []

    def slow(rows):
        asked.append(len(rows))
        return np.hypot(*rows[-1, [7, 9]]) < np.hypot(*rows[0, [7, 9]]) - 1.0

    def flown(enough):
        return fly(
            flying.flown,
            flying.travel,
            law,
            state=state,
            controls=controls,
            times_s=np.arange(0.0, 6.0, 0.05),
            enough=enough,
        )

    whole, part = flown(None), flown(slow)
    assert asked == list(range(LOOKED_AT, asked[-1] + 1, LOOKED_AT))
    assert len(part.time_s) == asked[-1] < len(whole.time_s) == 120
    for name in ("state", "elevator_rad", "load_factor", "time_s"):
        assert np.array_equal(getattr(part, name), getattr(whole, name)[..., : asked[-1]])
    assert part.controls.elevator_rad is part.elevator_rad


def test_the_speed_lost_on_the_way_in_is_that_of_the_record(flown):
    for flight in flown.values():
        speed_m_s = flight.columns["speed_m_s"]
        at = int(np.argmin(np.abs(flight.columns["time_s"])))
        lost = speed_m_s[at - 20] - speed_m_s[at]
        assert flight.entry.slowing_m_s2 == pytest.approx(lost, rel=1e-9)
        assert 1.0 < lost < 4.0  # two to eight knots a second: an accelerated entry
