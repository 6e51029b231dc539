"""Layout, speeds and scale of the bundled files, and what each refuses."""

from math import degrees, radians

import pytest
from airplanes import BIPLANE, DRAWING

from sim.aerodynamics.surface import lift_slope
from sim.errors import InputError, NoAnswerError
from sim.model.model import Model
from sim.model.weights import wing_chord
from sim.scenario.reading import load
from sim.studies import layout, scale, speeds


@pytest.fixture(scope="module")
def tollgate():
    return load(BIPLANE)


@pytest.fixture(scope="module")
def drawing():
    return scale.load(DRAWING)


def test_stations_of_the_layout_follow_the_scenario(tollgate):
    found = layout.study(tollgate)
    lower, upper = found.planes
    assert lower.leading_edge_station_m - upper.leading_edge_station_m == pytest.approx(tollgate.wing.stagger_m)
    assert upper.leading_edge_waterline_m - lower.leading_edge_waterline_m == pytest.approx(tollgate.wing.gap_m)
    assert [spar.name for spar in found.spars] == ["front", "rear"]
    assert all(spar.spar_depth_m < spar.section_depth_m for spar in found.spars)


def test_a_dimension_corrected_moves_the_layout():
    moved = layout.study(load(BIPLANE, ["wing.stagger=24 in"]))
    assert moved.planes[1].leading_edge_station_m == pytest.approx((42 - 24) * 0.0254)


def test_a_narrower_lower_plane_has_its_own_spars_and_mean_chord():
    narrow = load(BIPLANE, ["wing.plane.lower.chord=45 in"])
    found = layout.study(narrow)
    assert [spar.name for spar in found.spars] == ["lower front", "lower rear", "upper front", "upper rear"]
    depths = [spar.section_depth_m for spar in found.spars]
    assert depths[0] / depths[2] == pytest.approx(45 / 54)
    assert 45 * 0.0254 < wing_chord(narrow).chord_m < 54 * 0.0254


def test_no_spar_in_a_thin_place():
    with pytest.raises(NoAnswerError) as caught:
        layout.study(load(BIPLANE, ["layout.spar.rear.fraction=0.97", "layout.spar.rear.cap=1/2 in"]))
    assert str(caught.value) == (
        "no rear spar fits at 97 % of the chord: the section is 14.8 mm deep there, and caps and covers take 27.0 mm; "
        "move the spar to where the section is deeper or make it narrower"
    )


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ("section", 'section: is missing: naca, as in "2412", or points'),
        ("layout", "layout: is missing: the table with leading_edge, longerons and spars"),
    ],
)
def test_a_missing_table(tollgate, table, sentence):
    with pytest.raises(InputError) as caught:
        layout.study(tollgate.model_copy(update={table: None}))
    assert str(caught.value) == sentence


def test_the_section_feeds_the_derivatives_where_the_wing_says_nothing(tollgate):
    assert Model(tollgate).wing.nominal.section_moment == tollgate.wing.section_moment
    given = tollgate.wing.model_dump(
        exclude={"section_lift_slope", "section_moment"}, exclude_unset=True, by_alias=False
    )
    bare = tollgate.model_copy(update={"wing": type(tollgate.wing).model_construct(set(given), **given)})
    assert [plane.section_slope for plane in Model(bare).wing.planes] == pytest.approx([6.2832] * 2, abs=5e-5)
    assert [plane.section_moment for plane in Model(bare).wing.planes] == pytest.approx([-0.0531] * 2, abs=5e-5)
    steeper = Model(bare).airplane("rotary").derivatives["lift_alpha"].value
    assert steeper > Model(tollgate).airplane("rotary").derivatives["lift_alpha"].value


def test_the_section_gives_the_lift_at_no_incidence_where_the_scenario_does_not(tollgate):
    """From its angle without lift: as much as the bundled value says, and with a degree more incidence more."""
    bare = tollgate.model_copy(update={"lift": tollgate.lift.model_copy(update={"zero": None})})
    given, found = Model(tollgate).polar, Model(bare).polar
    slope = lift_slope(Model(bare).wing.mean("section_slope"), found.aspect_ratio)
    assert given.lift_zero == tollgate.lift.zero
    assert found.lift_zero == pytest.approx(slope * radians(2.0 + 2.0772), rel=1e-4)
    assert found.lift_zero == pytest.approx(given.lift_zero, abs=0.05)
    assert Model(bare).airplane("rotary").airplane.polar == found


def test_a_wing_set_beyond_its_stall_is_refused(tollgate):
    steep = load(BIPLANE, ["wing.incidence=20 °"])
    bare = steep.model_copy(update={"lift": tollgate.lift.model_copy(update={"zero": None})})
    with pytest.raises(InputError) as caught:
        Model(bare).airplane("rotary")
    assert str(caught.value) == (
        "section: gives a CL of 1.52 with the x axis along the flow, not below lift.max; give lift.zero"
    )


def test_speeds_of_both_engines_at_one_weight(tollgate):
    found = speeds.study(tollgate)
    rotary, modern = found.powerplants["rotary"], found.powerplants["flat_four"]
    assert rotary.stall_m_s == modern.stall_m_s == found.stall_m_s
    assert modern.top_m_s > rotary.top_m_s
    assert found.top_m_s == modern.top_m_s
    assert rotary.stall_m_s < rotary.best_climb_m_s < rotary.cruise_m_s < rotary.top_m_s


def test_the_power_curve_meets_the_need_at_top_speed(tollgate):
    found = speeds.study(tollgate)
    curve, top = found.curves["rotary"], found.powerplants["rotary"].top_m_s
    over = [full - need for full, need in zip(curve.full_w, curve.needed_w, strict=True)]
    crossing = next(k for k in range(1, len(over)) if over[k] < 0.0)
    assert curve.speed_m_s[crossing - 1] <= top <= curve.speed_m_s[crossing]


def test_too_heavy_for_its_engine(tollgate):
    with pytest.raises(NoAnswerError) as caught:
        speeds.study(tollgate, mass_kg=2800.0)
    starts = [line.partition(" at ")[0] for line in str(caught.value).splitlines()]
    assert starts == [f"full power of {name} does not hold level flight:" for name in ("rotary", "flat_four")]


def test_a_weak_engine_does_not_hide_the_other():
    weak = load(BIPLANE, ["powerplant.flat_four.power=20 hp"])
    found = speeds.study(weak)
    assert (found.powerplant, list(found.powerplants), list(found.too_weak)) == ("rotary", ["rotary"], ["flat_four"])
    assert found.too_weak["flat_four"].startswith("full power of flat_four does not hold level flight: at ")
    with pytest.raises(NoAnswerError) as caught:
        speeds.study(weak, powerplant="flat_four")
    assert str(caught.value) == found.too_weak["flat_four"]


def test_the_drawing_gives_back_the_scenario(tollgate, drawing):
    """It was drawn from the scenario's dimensions: each comes back within three standard errors."""
    keys, others = scale.scenario_keys(scale.study(drawing), metric=True)
    assert set(others) == {"wheel diameter", "wheel track", "spar spacing"}
    again = load(BIPLANE, [f"{name}={text}" for name, text in keys.items()])
    for name in keys:
        *way, last = name.split(".")
        here, there = again, tollgate
        for part in way:
            here, there = (x[part] if isinstance(x, dict) else getattr(x, part) for x in (here, there))
        error = again.tolerances[name]
        assert abs(getattr(here, f"{last}_m") - getattr(there, f"{last}_m")) < 3.0 * error, name


def test_stretched_copies_are_told_from_originals(drawing):
    found = scale.study(drawing)
    assert {row.view for row in found.stretches} == {"plan", "side"}
    assert {row.view: round(row.stretch, 2) for row in found.stretches} == {"plan": 0.99, "side": 1.01}
    assert found.contradictions == ()


def test_known_dimensions_that_contradict(drawing):
    with pytest.raises(InputError) as caught:
        scale.study(scale.load(DRAWING, ["known.wing.span=28 ft 9 in ± 1/4 in"]))
    assert str(caught.value) == (
        "known.wing.span: contradicts the rest: the document says 8.763 m (28 ft 9.00 in), the drawing 8.557 m "
        "(28 ft 0.90 in), 17.1 standard errors apart, at most 3; check the document and its readings"
    )


def test_a_misread_dimension_is_named_and_not_written(drawing):
    found = scale.study(scale.load(DRAWING, ["reading.19.values=['104.55 mm', '109.3 mm']"]))
    assert {wrong.dimension for wrong in found.contradictions} == {"wheel track"}
    found = scale.study(scale.load(DRAWING, ["reading.12.values=['28.9 mm']", "reading_error=0.1 mm"]))
    assert found.contradictions == ()
    found = scale.study(scale.load(DRAWING, ["reading.11.values=['90.6 mm']", "reading_error=0.1 mm"]))
    assert {wrong.dimension for wrong in found.contradictions} == {"wing.gap"}
    with pytest.raises(InputError) as caught:
        scale.scenario_keys(found, metric=False)
    assert str(caught.value) == (
        "--write: nothing is written while readings contradict each other (wing.gap); read these again"
    )


def test_a_known_dimension_that_was_not_read():
    found = scale.study(scale.load(DRAWING, ["known.door=2 ft"]))
    assert found.remarks == ("door is known and was not read: it says nothing of the scale.",)


def refused(*settings):
    with pytest.raises(InputError) as caught:
        scale.load(DRAWING, settings)
    return str(caught.value)


def test_wrong_readings_are_told_in_the_words_of_the_file():
    assert refused("reading.1.values=['535 mm', '-1 mm']", "reading.2.view=pla", "known.wing.span=28").split("\n") == [
        f'{DRAWING}:11: known: wing.span must have a unit, as in "28 ft 1 in", got "28"',
        'set reading.1.values: must be above 0 and at most 100000 mm, got "-1 mm"',
    ]
    assert refused("reading.2.view=pla") == (
        f'{DRAWING}:22: reading: view of number 2 must be one of plan, side, front, got "pla"; did you mean plan?'
    )
    assert refused("reading.2.dimension=wing.span", "reading.2.axis=across") == (
        f"{DRAWING}:22: reading: number 2 reads wing.span across plan a second time"
    )
    assert refused("reading.1.values=[]") == ('set reading.1.values: must hold at least one reading, as in "14.02 in"')


def test_no_such_drawing():
    with pytest.raises(InputError) as caught:
        scale.load("tolgate")
    assert str(caught.value) == ("tolgate: is neither a file nor a bundled drawing (tollgate); did you mean tollgate?")


@pytest.mark.parametrize(
    ("length_m", "text"),
    [
        (8.5598, "28 ft 1.00 in"),
        (0.1841, "7.25 in"),
        (0.30479, "1 ft 0.00 in"),
        (-0.4572, "-1 ft 6.00 in"),
        (0.0, "0.00 in"),
    ],
)
def test_feet_and_inches(length_m, text):
    assert scale.feet_inches(length_m) == text


def test_zero_lift_of_the_section_is_printed_in_degrees(tollgate):
    from sim.airframe.section import digits, thin_airfoil

    assert layout.study(tollgate).zero_lift_deg == pytest.approx(degrees(thin_airfoil(digits("2412")).zero_lift_rad))
