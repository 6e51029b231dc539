"""Caliper readings laid over a three-view: what differs is found, what agrees is left alone."""

from math import hypot, isnan

import pytest
from airplanes import BIPLANE, DRAWING, PARASOL, TRIPLANE
from shared import built

from sim.airframe.drawing import Known, MeasuredDrawing, Readings
from sim.model.drawing import drawing as measured
from sim.scenario.reading import load
from sim.studies.drawing import drawing

UNDER = 15.7
"""Scale of the made-up sheet."""
KEYS = ("wing.span", "tailplane.span", "fuselage.length", "fin.height", "item.pilot.station", "layout.leading_edge")


def off_a_sheet(airplane, *, error_m=1e-4, **wrong_m):
    """Return readings off a sheet that shows the airplane exactly, but for what is added to some of its sizes."""
    model = built(airplane)
    sizes = {key: model.length_of(key)[0] + wrong_m.get(key.replace(".", "_"), 0.0) for key in KEYS}
    rows = tuple(Readings(key, "sheet", "along", (size_m / UNDER,), error_m / UNDER) for key, size_m in sizes.items())
    known = {
        "wing.span": Known(sizes["wing.span"], error_m),
        "fuselage.length": Known(sizes["fuselage.length"], error_m),
    }
    return MeasuredDrawing("sheet", rows, known, distortion=1e-5)


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
def test_readings_of_the_very_airplane_agree(airplane):
    made = drawing(built(airplane), readings=off_a_sheet(airplane))
    assert {one.name for one in made.readings} == set(KEYS)
    assert not any(one.differs for one in made.readings)
    for one in made.readings:
        assert one.read_less_drawn_m == pytest.approx(0.0, abs=1e-9)
        assert one.read_m == pytest.approx(one.drawn_m)


@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL], ids=lambda path: path.stem)
def test_a_wrong_number_of_the_scenario_is_seen_and_no_other(airplane):
    made = drawing(built(airplane), readings=off_a_sheet(airplane, fin_height=0.031, item_pilot_station=-0.17))
    off = {one.name: one.read_less_drawn_m for one in made.readings if one.differs}
    assert off == {
        "fin.height": pytest.approx(0.031, rel=1e-6),
        "item.pilot.station": pytest.approx(-0.17, rel=1e-6),
    }


def test_the_tolerance_of_the_scenario_counts():
    sheet = off_a_sheet(BIPLANE, fin_height=0.02)
    plain, wide = (
        next(one for one in drawing(built(BIPLANE, *more), readings=sheet).readings if one.name == "fin.height")
        for more in ((), ("fin.height=3 ft 6 in ± 1/2 in",))
    )
    assert plain.differs
    assert not wide.differs
    assert wide.normalised_residual == pytest.approx(0.02 / hypot(0.5 * 0.0254, wide.error_m), rel=1e-6)
    assert wide.error_m == plain.error_m


def test_the_frozen_drawing_shows_the_frozen_biplane():
    made = drawing(built(BIPLANE), readings=measured(DRAWING))
    assert made.readings_title == "Frozen test three-view, enlarged to about 1:16"
    assert len(made.readings) >= 12
    assert [one.name for one in made.readings if one.differs] == []
    engine = next(one for one in made.readings if one.name.startswith("powerplant.rotary"))
    assert not engine.shown  # the flat-four is drawn
    with_it = drawing(built(BIPLANE), powerplant="rotary", readings=measured(DRAWING))
    assert next(one for one in with_it.readings if one.name == engine.name).shown
    assert made.remarks[0].startswith("spar spacing, wheel diameter, wheel track: read off the drawing, and no length")


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("wing.span", 28 * 0.3048 + 0.0254),
        ("item.pilot.station", 85 * 0.0254),
        ("powerplant.rotary.propeller.diameter", 8.5 * 0.3048),
        ("weighing.support.tail.waterline", 37 * 0.0254),
        ("wing.plane.lower.span", None),
        ("item.nobody.station", None),
        ("powerplant.diesel.propeller.diameter", None),
        ("wing.planes", None),
        ("wheel track", None),
        ("wing", None),
    ],
)
def test_a_length_is_found_by_its_key(key, value):
    found = built(BIPLANE).length_of(key)
    assert (found and found[0]) == (value if value is None else pytest.approx(value))


def test_the_tolerance_of_an_item_is_that_of_its_own_row():
    scenario = load(BIPLANE)
    for number, item in enumerate(scenario.item, start=1):
        given = scenario.tolerances.get(f"item.{number}.station", 0.0)
        assert built(BIPLANE).length_of(f"item.{item.name}.station") == (item.station_m, given)
    assert any(built(BIPLANE).length_of(f"item.{item.name}.station")[1] > 0.0 for item in scenario.item)


def test_readings_that_contradict_each_other_prove_nothing():
    sizes = {key: built(BIPLANE).length_of(key)[0] for key in KEYS}
    rows = [Readings(key, view, "along", (sizes[key] / UNDER,), 1e-5) for key in KEYS for view in ("one", "two")]
    wrong = [
        Readings(row.dimension, row.view, row.axis, (1.2 * row.values_m[0],), row.error_m)
        if (row.dimension, row.view) == ("fin.height", "two")
        else row
        for row in rows
    ]
    known = {"wing.span": Known(sizes["wing.span"], 1e-4), "fuselage.length": Known(sizes["fuselage.length"], 1e-4)}
    made = drawing(built(BIPLANE), readings=MeasuredDrawing("sheet", tuple(wrong), known, distortion=1e-4))
    (fin,) = (one for one in made.readings if one.name == "fin.height")
    assert isnan(fin.error_m)
    assert fin.normalised_residual is None
    assert not fin.differs
    assert any(remark.startswith("fin.height: readings that contradict the others") for remark in made.remarks)
