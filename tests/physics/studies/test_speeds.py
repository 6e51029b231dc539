"""Speeds with each engine, and what the section gives where the wing table gives nothing."""

import math

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.aerodynamics.drag_wing import cell_lift, lifting_planes
from sim.airframe.section import thin_airfoil
from sim.errors import InputError, NoAnswerError
from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies import speeds


@pytest.fixture(scope="module")
def biplane():
    return load(BIPLANE)


def test_the_section_feeds_the_derivatives_where_the_wing_says_nothing(biplane):
    assert Model(biplane).wing.nominal.section_moment == biplane.wing.section_moment
    given = biplane.wing.model_dump(
        exclude={"section_lift_slope", "section_moment"}, exclude_unset=True, by_alias=False
    )
    bare = biplane.model_copy(update={"wing": type(biplane.wing).model_construct(set(given), **given)})
    assert [plane.section_slope for plane in Model(bare).wing.planes] == pytest.approx([6.2832] * 2, abs=5e-5)
    assert [plane.section_moment for plane in Model(bare).wing.planes] == pytest.approx([-0.0531] * 2, abs=5e-5)
    steeper = Model(bare).airplane("rotary").derivatives["lift_alpha"].value
    assert steeper > Model(biplane).airplane("rotary").derivatives["lift_alpha"].value


@pytest.mark.parametrize("left_out", [set(), {"section_lift_slope"}, {"section_moment"}])
def test_the_mean_line_is_asked_only_for_what_the_tables_leave_out(biplane, monkeypatch, left_out):
    asked = []
    monkeypatch.setattr(
        "sim.model.drag_model.thin_airfoil", lambda section: asked.append(section) or thin_airfoil(section)
    )
    given = biplane.wing.model_dump(exclude=left_out, exclude_unset=True, by_alias=False)
    airplane = Model(biplane.model_copy(update={"wing": type(biplane.wing).model_construct(**given)}))
    assert (airplane.polar.lift_zero, len(asked)) == (biplane.lift.zero, bool(left_out))
    own = {"section_lift_slope": "section_slope", "section_moment": "section_moment"}
    for key, attribute in own.items():
        same = getattr(airplane.wing.nominal, attribute) == getattr(biplane.wing, key)
        assert same == (key not in left_out)


def test_the_section_gives_the_lift_at_no_incidence_where_the_scenario_does_not(biplane):
    """From its angle without lift by the lattice: the planes alone less the tail, which the downwash presses down."""
    bare = biplane.model_copy(update={"lift": biplane.lift.model_copy(update={"zero": None})})
    given, found = Model(biplane).polar, Model(bare).polar
    cell = cell_lift(lifting_planes(Model(bare).wing)).lift_slope_per_rad * math.radians(2.0 + 2.0772)
    assert given.lift_zero == biplane.lift.zero
    assert 0.88 * cell < found.lift_zero < 0.98 * cell
    more = bare.model_copy(update={"wing": bare.wing.model_copy(update={"incidence_rad": math.radians(3.0)})})
    turned = Model(more).polar.lift_zero - found.lift_zero
    assert turned * (2.0 + 2.0772) == pytest.approx(found.lift_zero + 0.0, rel=0.02), (
        "straight through the angle without lift"
    )
    assert Model(bare).airplane("rotary").airplane.polar == found


def test_a_wing_set_beyond_its_stall_is_refused(biplane):
    steep = load(BIPLANE, ["wing.incidence=25 °"])
    bare = steep.model_copy(update={"lift": biplane.lift.model_copy(update={"zero": None})})
    with pytest.raises(InputError) as caught:
        Model(bare).airplane("rotary")
    assert str(caught.value) == (
        "section.naca: NACA 2412 at a wing.incidence of 25° gives a CL of 1.48 with the x axis along the flow, not "
        "below the greatest of 1.45; give a section of less camber or less incidence, or the measured lift.zero"
    )


def test_each_engine_flies_at_its_own_weight(biplane):
    found = speeds.speeds(Model(biplane))
    rotary, modern = found.powerplants["rotary"], found.powerplants["flat_four"]
    assert modern.stall_m_s == found.stall_m_s
    weights = [found.masses[name].mass_kg for name in ("rotary", "flat_four")]
    assert weights[0] != weights[1]
    assert rotary.stall_m_s / modern.stall_m_s == pytest.approx(math.sqrt(weights[0] / weights[1]), rel=1e-9)
    assert modern.top_m_s != rotary.top_m_s
    assert found.top_m_s == modern.top_m_s
    assert rotary.stall_m_s < rotary.best_climb_m_s < rotary.cruise_m_s < rotary.top_m_s


def test_the_power_curve_meets_the_need_at_top_speed(biplane):
    found = speeds.speeds(Model(biplane))
    curve, top = found.curves["rotary"], found.powerplants["rotary"].top_m_s
    over = [full - need for full, need in zip(curve.full_w, curve.needed_w, strict=True)]
    crossing = next(k for k in range(1, len(over)) if over[k] < 0.0)
    assert curve.speed_m_s[crossing - 1] <= top <= curve.speed_m_s[crossing]


OWN = [(BIPLANE, "rotary"), (TRIPLANE, "geared_six"), (PARASOL, "upright_four")]


def flown(path, powerplant, **changed):
    """Return the speeds with a propeller whose keys are multiplied, or set, as told; None where it cannot fly level."""
    own, place = Model(load(path)).powerplants[powerplant].propeller, f"powerplant.{powerplant}.propeller"
    settings = ["gun.impulses_per_rev=1"]
    for key, by in changed.items():
        metres = {"diameter": own.diameter_m, "pitch": own.pitch_m}
        settings.append(f"{place}.{key}={metres[key] * by} m" if key in metres else f"{place}.{key}={by}")
    return speeds.speeds(Model(load(path, settings))).powerplants.get(powerplant)


@pytest.mark.parametrize(("path", "powerplant"), OWN)
def test_what_holds_back_an_engine_that_would_run_away_makes_it_faster(path, powerplant):
    """Each of them is throttled back at top speed: coarser pitch, larger diameter, more blades let it give more."""
    own = flown(path, powerplant)
    for key in ("pitch", "diameter"):
        finer, coarser = flown(path, powerplant, **{key: 0.9}), flown(path, powerplant, **{key: 1.1})
        assert finer.top_m_s < own.top_m_s < coarser.top_m_s
        assert finer.cruise_m_s < own.cruise_m_s < coarser.cruise_m_s
    counts = [flown(path, powerplant, blades=count).cruise_m_s for count in (2, 3, 4)]
    assert counts == sorted(counts)
    assert counts[0] < counts[1] < counts[2]


@pytest.mark.parametrize(("path", "powerplant"), OWN)
def test_a_mismatched_propeller_climbs_worse_and_then_not_at_all(path, powerplant):
    best = max(flown(path, powerplant, pitch=by).climb_rate_m_s for by in (0.9, 1.0, 1.1))
    rates = [flown(path, powerplant, pitch=by).climb_rate_m_s for by in (1.2, 1.5, 2.0)]
    assert best > rates[0] > rates[1] > rates[2]
    assert rates[2] < 0.5 * best
    assert flown(path, powerplant, pitch=0.4) is None
    assert flown(path, powerplant, diameter=0.5) is None


@pytest.mark.parametrize(("path", "powerplant"), OWN)
def test_a_coarse_propeller_does_not_let_the_engine_exceed_its_cruise_speed(path, powerplant):
    held = flown(path, powerplant, pitch=1.6)
    assert held.cruise_m_s == pytest.approx(held.top_m_s, rel=1e-9)
    assert flown(path, powerplant, pitch=0.9).cruise_m_s < 0.95 * flown(path, powerplant, pitch=0.9).top_m_s


def test_too_heavy_for_its_engine(biplane):
    with pytest.raises(NoAnswerError) as caught:
        speeds.speeds(Model(biplane), mass_kg=2800.0)
    starts = [line.partition(" is ")[0] for line in str(caught.value).splitlines()]
    assert starts == [
        f"full power of {name} does not sustain level flight: the least deficit" for name in ("rotary", "flat_four")
    ]


def test_a_weak_engine_does_not_hide_the_other():
    weak = load(BIPLANE, ["powerplant.flat_four.power=20 hp"])
    found = speeds.speeds(Model(weak))
    assert (found.powerplant, list(found.powerplants), list(found.too_weak)) == ("rotary", ["rotary"], ["flat_four"])
    assert found.too_weak["flat_four"].startswith(
        "full power of flat_four does not sustain level flight: the least deficit is "
    )
    with pytest.raises(NoAnswerError) as caught:
        speeds.speeds(Model(weak), powerplant="flat_four")
    assert str(caught.value) == found.too_weak["flat_four"]
