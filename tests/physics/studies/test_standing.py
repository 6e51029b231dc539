"""Where an engine stands: one position for balance, mount and flights, and no position that no mount reaches."""

from math import dist

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.studies.balance import balance
from sim.studies.mount import mount
from sim.studies.standing import placed, placing, standing

INCH_M = 0.0254
MOVED = "powerplant.flat_four.move=2 in"


def test_the_mount_takes_the_move_of_the_file_before_the_target():
    found, free = mount(model(BIPLANE, [MOVED])), mount(model(BIPLANE))
    target_m = balance(model(BIPLANE)).engine_move_m
    assert found.engine_move_m["flat_four"] == pytest.approx(2.0 * INCH_M)
    assert found.stands_by == {"rotary": "target", "flat_four": "move"}
    assert found.target_move_m["flat_four"] == pytest.approx(target_m, rel=1e-9)
    assert free.engine_move_m["flat_four"] == pytest.approx(target_m, rel=1e-9)
    nearer_m = free.hung["flat_four"].ahead_m - found.hung["flat_four"].ahead_m
    assert nearer_m == pytest.approx(2.0 * INCH_M - target_m, rel=1e-9)


def test_a_move_of_nothing_counts_where_it_is_written():
    found = mount(model(BIPLANE, ["powerplant.flat_four.move=0 in"]))
    assert (found.engine_move_m["flat_four"], found.stands_by["flat_four"]) == (0.0, "move")


@pytest.mark.parametrize("file", [(), (MOVED,)])
def test_a_move_asked_for_is_from_where_the_file_has_the_engine_and_of_that_engine_alone(file):
    airplane = model(BIPLANE, file)
    asked, beside = mount(airplane, engine_move_m=-0.05), balance(airplane, engine_move_m=-0.05)
    assert asked.engine_move_m["flat_four"] == pytest.approx(beside.moved_m, abs=1e-12)
    assert asked.stands_by["flat_four"] == "asked"
    assert asked.hung["rotary"].ahead_m == mount(airplane).hung["rotary"].ahead_m


def test_the_mass_on_the_mount_by_its_own_table_moves_with_the_engine():
    """Its CG is given where the engine is drawn."""
    hung = ["mount.hung.flat_four.mass=400 lb", "mount.hung.flat_four.ahead=25 in"]
    drawn, moved = (mount(model(BIPLANE, [*hung, f"powerplant.flat_four.move={move}"])) for move in ("0 in", "-3 in"))
    assert drawn.hung["flat_four"].ahead_m == pytest.approx(25.0 * INCH_M)
    assert moved.hung["flat_four"].ahead_m == pytest.approx(28.0 * INCH_M)


def test_flights_of_a_placed_airplane_have_its_centre_on_target():
    airplane = model(TRIPLANE)
    there = placed(airplane)
    for name in airplane.powerplants:
        found = standing(airplane, name)
        assert found.by == "target"
        assert there.mean_chord.percent(there.flown_mass(name).cg_station_m) == pytest.approx(
            100.0 * airplane.limits.target, abs=1e-9
        )
    again = model(TRIPLANE, [f"{key}={move_m!r} m" for key, move_m in placing(airplane).items()])
    for name in airplane.powerplants:
        assert again.engine_move_m(name) == there.engine_move_m(name)
    assert placing(again) == {}


def test_nodes_of_the_engine_and_lengths_of_tubes_are_those_of_the_position():
    drawn, moved = (mount(model(BIPLANE, [f"powerplant.flat_four.move={move}"])) for move in ("0 in", "-3 in"))
    lugs = 0
    for before, after in zip(drawn.nodes, moved.nodes, strict=True):
        ahead_m = 3.0 * INCH_M if before.held == "engine" else 0.0
        lugs += before.held == "engine"
        assert after.place_m == pytest.approx((before.place_m[0] + ahead_m, *before.place_m[1:]))
    assert lugs >= 3
    places = {node.name: node.place_m for node in moved.nodes}
    for tube, short in zip(moved.tubes, drawn.tubes, strict=True):
        assert tube.length_m == pytest.approx(dist(places[tube.start], places[tube.end]), rel=1e-12)
        assert tube.length_m > short.length_m + 0.5 * INCH_M


def test_loadings_outside_at_the_target_are_named():
    """The frozen biplane: the target serves the loaded airplane and not its lightest pilot."""
    settings = ["balance.target=20 %", "balance.forward_limit=19 %", "balance.aft_limit=26 %"]
    found = balance(model(BIPLANE, settings))
    there = balance(model(BIPLANE, settings), engine_move_m=found.engine_move_m)
    outside = tuple(point.name for point in there.envelope if not point.inside)
    assert outside
    assert len(outside) < len(there.envelope)
    assert found.outside_at_target == outside
    on_mount = mount(model(BIPLANE, settings))
    assert on_mount.outside == outside
    if found.serves_from_m is not None:
        assert on_mount.serves_from_m == pytest.approx(found.serves_from_m)


def test_the_range_that_serves_is_told_from_where_the_engine_is_drawn():
    first, moved = mount(model(BIPLANE)), mount(model(BIPLANE, [MOVED]))
    assert first.serves_from_m is not None
    assert (moved.serves_from_m, moved.serves_to_m) == pytest.approx((first.serves_from_m, first.serves_to_m))
    beside = balance(model(BIPLANE))
    assert (first.serves_from_m, first.serves_to_m) == pytest.approx((beside.serves_from_m, beside.serves_to_m))
    assert first.outside == beside.outside_at_target


FAR = (
    r"^item\.pilot\.station: the station is 21590 mm \(850 in\); usual is from .* Check the station and its unit\. "
    r"No position of flat_four brings the loaded CG to the target: it would stand [\d.]+ mm \([\d.]+ in\) forward of "
    r"where it is drawn, beyond the 3000 mm \(118\.1 in\) that powerplant\.flat_four\.move allows$"
)


@pytest.mark.parametrize("study", [balance, mount])
def test_no_position_beyond_any_mount_and_the_impossible_place_first(study, tmp_path):
    text = BIPLANE.read_text(encoding="utf-8")
    file = tmp_path / "listed.toml"
    file.write_text(text[: text.index("[weighing]")], encoding="utf-8")
    with pytest.raises(NoAnswerError, match=FAR):
        study(model(str(file), ["item.pilot.station=850 in"]))
    assert mount(model(str(file), ["item.pilot.station=850 in"]), engine_move_m=0.0).target_move_m["flat_four"] is None
