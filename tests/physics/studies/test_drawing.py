"""A three-view holds the numbers of the scenario: dimensions, lengths in space, the ground under the wheels."""

from math import cos, dist, hypot, radians, sin, tan

import pytest
from airplanes import BIPLANE, PARASOL, SESQUIPLANE, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.errors import InputError
from sim.scenario.reading import load
from sim.studies.drawing import drawing

AIRPLANES = [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER]
airplanes = pytest.mark.parametrize("airplane", AIRPLANES, ids=lambda path: path.stem)
ALONG = {"above": 0, "below": 0, "left": 1, "right": 1}
"""Side of a view -> the axis that a dimension there runs along."""


def drawn(airplane, *settings, **options):
    return drawing(built(airplane, *settings), **options)


def view(made, name):
    return next(one for one in made.views if one.name == name)


def said(airplane, key, *settings):
    """Return what a scenario says under a dotted key, in SI."""
    at = load(airplane, settings)
    names = key.split(".")
    if names[0] == "item":
        name, last = key.removeprefix("item.").rsplit(".", 1)
        return getattr(next(item for item in at.item if item.name == name), f"{last}_m")
    for name in names[:-1]:
        at = at[name] if isinstance(at, dict) else getattr(at, name)
    return getattr(at, f"{names[-1]}_m")


@airplanes
def test_every_dimension_with_a_key_is_what_the_scenario_says(airplane):
    made = drawn(airplane)
    keyed = [one for one in made.dimensions if one.key]
    assert len(keyed) >= 9
    assert {one.key: one.drawn_m for one in keyed} == pytest.approx(
        {one.key: said(airplane, one.key) for one in keyed}, rel=1e-12
    )


@airplanes
def test_every_place_with_a_key_is_what_the_scenario_says(airplane):
    made = drawn(airplane)
    keyed = {one.key: one.station_m if one.view == "side" else one.buttline_m for one in made.places if one.key}
    assert len(keyed) >= 6
    assert keyed == pytest.approx({key: said(airplane, key) for key in keyed}, rel=1e-12)


@airplanes
@pytest.mark.parametrize("setting", [(), ("wing.dihedral=4.3 °", "wing.incidence=-2.1 °")])
def test_the_ends_of_a_dimension_are_as_far_apart_as_it_says(airplane, setting):
    for one in drawn(airplane, *setting).dimensions:
        start, end = one.between_m
        axis = ALONG.get(one.where)
        apart = dist(start, end) if axis is None else abs(end[axis] - start[axis])
        assert apart == pytest.approx(one.drawn_m, rel=1e-9), one.name


def outlines(made, part, name):
    return [line for line in view(made, name).lines if line.part == part]


def area(points):
    """Return the area within a closed chain, by Gauss."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return 0.5 * abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs))


@airplanes
def test_the_plan_of_each_plane_has_its_area_and_its_mean_chord_in_its_place(airplane):
    """The mean chord by cutting the drawn outline into strips, beside the closed form that the balance takes."""
    model, made = built(airplane), drawn(airplane)
    wings = outlines(made, "wing", "plan")
    assert len(wings) == len(model.wing.planes)
    strips, lift = [], []
    for line, placed in zip(wings, model.layout.planes, strict=True):
        plane, flat = placed.plane, cos(placed.plane.incidence_rad)
        assert area(line.points_m) == pytest.approx(plane.area_m2 * flat, rel=1e-9)
        right = [(-x, y) for x, y in line.points_m]  # root and tip ahead, tip and root behind, then the left side
        (_, fore), (half, tip_fore), (_, tip_aft), (_, aft) = right[:4]
        top = placed is model.layout.planes[-1]
        efficiency = 1.0 if top or model._scenario.balance is None else model._scenario.balance.lower_efficiency
        for number in range(2000):
            share = (number + 0.5) / 2000.0
            start, end = fore + share * (tip_fore - fore), aft + share * (tip_aft - aft)
            chord = (end - start) / flat
            strips.append((chord, start))
            lift.append(efficiency * chord * half)
    total = sum(lift)
    mean_m = sum(w * chord for w, (chord, _) in zip(lift, strips, strict=True)) / total
    quarter_m = sum(w * (start + 0.25 * chord) for w, (chord, start) in zip(lift, strips, strict=True)) / total
    assert mean_m == pytest.approx(model.mean_chord.chord_m, rel=1e-6)
    # the closed form leaves out that the root chord lies at an incidence: a quarter of it, foreshortened
    assert quarter_m == pytest.approx(model.mean_chord.station_m(0.25), abs=1.5e-3)


@airplanes
def test_struts_and_wires_of_side_and_front_view_have_the_lengths_of_the_layout(airplane):
    made, members = drawn(airplane), answer("layout", airplane).members
    for part, wire in (("struts", False), ("wires", True)):
        own = [one for one in members if one.kind.endswith("wire") == wire]
        side, front = outlines(made, part, "side"), outlines(made, part, "front")
        assert len(side) == len(own)
        assert len(front) == 2 * len(own)
        for member, one, other in zip(own, side, front[: len(own)], strict=True):
            (s0, w0), (s1, w1) = one.points_m
            (b0, _), (b1, _) = other.points_m
            assert hypot(s1 - s0, w1 - w0, b1 - b0) == pytest.approx(member.length_m, rel=1e-12)


@airplanes
@pytest.mark.parametrize("part", ["wing", "spars", "ailerons", "struts", "wires", "tail", "fuselage"])
def test_the_airplane_is_its_own_mirror_image(airplane, part):
    for name in ("plan", "front"):
        points = {
            (round(x, 9), round(y, 9)) for line in outlines(drawn(airplane), part, name) for x, y in line.points_m
        }
        assert points == {(0.0 - x, y) for x, y in points}


@airplanes
def test_the_front_view_shows_span_and_dihedral(airplane):
    model, made = built(airplane), drawn(airplane)
    for line, placed in zip(outlines(made, "wing", "front"), model.layout.planes, strict=True):
        across = [x for x, _ in line.points_m]
        assert max(across) - min(across) == pytest.approx(placed.plane.span_m, rel=1e-12)
        tips = [y for x, y in line.points_m if abs(x) == max(across)]
        roots = [y for x, y in line.points_m if x == 0.0]
        raised = sum(tips) / len(tips) - sum(roots) / len(roots)
        thinner = 0.04 * placed.plane.chord_m  # a tapered section is thinner at the tip, and its middle lies elsewhere
        assert raised == pytest.approx(0.5 * placed.plane.span_m * tan(placed.plane.dihedral_rad), abs=thinner)


def on_wheels(made):
    """Return the lines of the ground in the side view, level and on all wheels, as (point, unit vector)."""
    found = []
    for line in outlines(made, "ground", "side"):
        (x0, y0), (x1, y1) = line.points_m
        length = dist(*line.points_m)
        found.append(((x0, y0), ((x1 - x0) / length, (y1 - y0) / length)))
    return found


def above(place, ground):
    """Return how far a place lies above a line, square to it."""
    (x0, y0), (along_x, along_y) = ground
    return (place[1] - y0) * along_x - (place[0] - x0) * along_y


STANDING = [BIPLANE, TRIPLANE, TWO_SEATER, "tollgate"]


@pytest.mark.parametrize("airplane", STANDING, ids=str)
def test_the_ground_touches_the_wheels_and_clears_the_propeller_by_what_is_printed(airplane):
    model, made = built(airplane), drawn(airplane)
    level, standing = on_wheels(made)
    stands = model.stance()
    main = next(wheel for wheel in model.wheels if wheel.name == stands.wheel)
    third = next(wheel for wheel in model.wheels if abs(wheel.buttline_m) < 0.1)
    for wheel, grounds in ((main, (level, standing)), (third, (standing,))):
        axle = wheel.station_m, wheel.waterline_m + wheel.radius_m
        assert [above(axle, ground) for ground in grounds] == pytest.approx([wheel.radius_m] * len(grounds), abs=1e-12)
    (propeller,) = (line for line in outlines(made, "propeller", "side") if line.stroke == "edge")
    lowest = min(propeller.points_m, key=lambda point: point[1])
    assert above(lowest, level) == pytest.approx(made.level_clearance_m, abs=1e-12)
    assert above(lowest, standing) == pytest.approx(made.standing_clearance_m, abs=1e-12)
    assert min(made.level_clearance_m, made.standing_clearance_m) == pytest.approx(
        model.propeller_clearance(made.powerplant).ground_clearance_m
    )
    slope = standing[1][1] / standing[1][0]
    assert slope == pytest.approx(tan(radians(made.pitch_deg)), rel=1e-12)


def test_a_fuselage_without_longerons_is_told():
    made = drawn(BIPLANE, "layout.upper_longeron=0 in", "layout.lower_longeron=0 in")
    assert (
        "How high the fuselage stands is not known: give layout.upper_longeron and layout.lower_longeron." in made.notes
    )


def test_a_tilted_shaft_tilts_the_disc():
    made = drawn(PARASOL)
    tilt = load(PARASOL).powerplant["flat_six"].shaft_tilt_rad
    (propeller,) = (line for line in outlines(made, "propeller", "side") if line.stroke == "edge")
    (x0, y0), (x1, y1) = propeller.points_m
    assert dist(*propeller.points_m) == pytest.approx(1.86)
    assert (x1 - x0, y1 - y0) == pytest.approx((1.86 * sin(tilt), 1.86 * cos(tilt)))
    assert x1 < x0  # nose down: the upper tip is forward


def test_an_engine_moved_moves_all_that_moves_with_it_and_nothing_else():
    before, after = drawn(TRIPLANE), drawn(TRIPLANE, "powerplant.geared_six.move=3 in")
    inch = 0.0254
    for part, moves in (("engine", True), ("propeller", True), ("wing", False), ("aboard", False), ("tail", False)):
        old, new = ([p for line in outlines(made, part, "side") for p in line.points_m] for made in (before, after))
        assert len(old) > 1
        by = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(old, new, strict=True)]
        assert by == [pytest.approx((3.0 * inch if moves else 0.0, 0.0), abs=1e-12)] * len(old)
    stations = {one.name: one for one in after.places}
    assert stations["propeller"].key == stations["engine CG"].key == ""  # no longer what the key says


def test_the_mount_is_drawn_to_the_engine_that_hangs_on_it():
    assert len(outlines(drawn(BIPLANE), "mount", "side")) == len(built(BIPLANE).mount.tubes)
    assert outlines(drawn(BIPLANE, powerplant="rotary"), "mount", "side") == []


def test_the_cylinders_of_a_rotary_sweep_the_circle_of_their_heads():
    parts = load(BIPLANE).powerplant["rotary"].parts
    circles = view(drawn(BIPLANE, powerplant="rotary"), "front").circles
    swept = max(circle.diameter_m for circle in circles if circle.part == "engine")
    assert swept == pytest.approx(2.0 * parts.cylinder_radius_m + parts.cylinder_length_m)


@airplanes
def test_the_range_of_the_centre_of_gravity_is_that_of_the_balance(airplane):
    made, weighed = drawn(airplane), answer("balance", airplane)
    stations = [point.cg_station_m for point in weighed.envelope]
    assert (made.foremost_cg_station_m, made.aftmost_cg_station_m) == pytest.approx((min(stations), max(stations)))
    chord_m, leading_m = weighed.chord_m, weighed.leading_edge_station_m
    limits = [
        leading_m + 0.01 * share * chord_m
        for share in (weighed.forward_limit_percent_mac, weighed.aft_limit_percent_mac)
    ]
    assert [made.forward_limit_station_m, made.aft_limit_station_m] == pytest.approx(limits)
    loaded = next(one for one in made.places if one.name == "CG, loaded")
    assert (loaded.station_m, loaded.waterline_m) == pytest.approx((weighed.cg_station_m, weighed.cg_waterline_m))


@pytest.mark.parametrize("airplane", [TRIPLANE, TWO_SEATER, PARASOL, BIPLANE], ids=lambda path: path.stem)
@pytest.mark.parametrize("settings", [(), ("layout.strut_splay=3 in",)])
def test_struts_are_marked_at_the_top_plane_bay_by_bay(airplane, settings):
    if airplane == PARASOL and settings:
        settings = ()  # lift struts are not splayed
    table = load(airplane, settings).layout
    marked = {one.name: one.buttline_m for one in drawn(airplane, *settings).places if one.name.endswith("struts")}
    wanted = {"struts": table.strut_buttline_m} | dict.fromkeys(("inner struts",) * len(table.inner_struts), None)
    assert set(marked) == set(wanted)
    assert marked["struts"] == pytest.approx(table.strut_buttline_m)
    assert [marked[name] for name in marked if name == "inner struts"] == pytest.approx(table.inner_struts)


def test_what_is_not_drawn_is_told_with_the_key_that_would_let_it():
    bare = load(BIPLANE).model_copy(update={"balance": None, "weighing": None, "mount": None, "item": []})
    from sim.model.model import Model

    made = drawing(Model(bare))
    assert made.notes[1:] == (
        "Engine, propeller and mount are not drawn: give balance.thrust_line, their waterline.",
        "The ground is not drawn: give two main wheels and a third under weighing.support.",
        "The firewall is not drawn: give mount.firewall.",
        "Who and what is aboard is not drawn: list it as [[item]], with its place and the size of its box.",
    )
    parts = {line.part for each in made.views for line in each.lines}
    assert not parts & {"propeller", "engine", "mount", "ground", "gear", "firewall", "aboard"}
    assert {"wing", "fuselage", "tail", "struts", "wires"} <= parts


@pytest.mark.parametrize(
    ("airplane", "options", "sentence"),
    [
        (SESQUIPLANE, {}, "layout: is missing: the table with leading_edge, longerons and spars"),
        (
            BIPLANE,
            {"powerplant": "rotor"},
            'powerplant: must be one of rotary, flat_four, got "rotor"; did you mean rotary?',
        ),
    ],
)
def test_what_cannot_be_drawn_is_refused(airplane, options, sentence):
    with pytest.raises(InputError) as caught:
        drawn(airplane, **options)
    assert str(caught.value) == sentence


@airplanes
def test_the_span_of_the_whole_is_that_of_its_widest_plane(airplane):
    """Of a triplane whose three planes differ, too; no plane need have the span of the table."""
    sizes_m, wing = drawn(airplane).sizes_m(), load(airplane).wing
    spans_m = [plane.span_m or wing.span_m for plane in wing.plane.values()]
    whole = spans_m if len(spans_m) == wing.planes else [*spans_m, wing.span_m]
    assert sizes_m["span"] == pytest.approx(max(whole))
    assert set(sizes_m) - {"height"} == {"span", "length"}
