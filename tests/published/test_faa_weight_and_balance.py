"""Weight and balance examples.

FAA-H-8083-1, Weight and Balance Handbook, and FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge, weight and
balance chapters. Mark: P, but for the tailwheel example, M. All in pounds and inches: the algebra knows no unit.
"""

import pytest

from sim.airframe.engine_position import move_to_target
from sim.airframe.masses import Item, total
from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import Attitude, Reading, Support


def shifted(weight, station, moved, from_station, to_station):
    rest = Item("rest", "rest", weight - moved, (weight * station - moved * from_station) / (weight - moved))
    return total([rest, Item("moved", "moved", moved, to_station)]).cg_station_m


def test_nosewheel_airplane_on_the_scales(printed):
    """Nose scale 340 lb, wheelbase 78 in, 2006 lb: 13.2 in ahead of the main wheels."""
    level = Attitude("level", 0.0, {"nose": Reading(340.0, 0.0), "mains": Reading(1666.0, 0.0)})
    weighed = weigh({"nose": Support(-78.0), "mains": Support(0.0)}, [level])
    printed(-weighed.cg_station_m, "13.2", "in", row="nosewheel airplane: CG ahead of the main wheels")


def test_tailwheel_airplane_on_the_scales(printed):
    """Datum 7.5 in ahead of the mains, tail 67 lb, wheelbase 222 in, 1218 lb: 19.7 in aft of the datum."""
    level = Attitude("level", 0.0, {"mains": Reading(1151.0, 0.0), "tail": Reading(67.0, 0.0)})
    weighed = weigh({"mains": Support(7.5), "tail": Support(229.5)}, [level])
    printed(weighed.cg_station_m, "19.7", "in", row="tailwheel airplane: CG aft of the datum", mark="M")


@pytest.mark.parametrize(
    ("weight", "station", "moved", "from_station", "to_station", "answer"),
    [(8000, 77.0, 100, 30, 150, "78.5"), (4000, 80.0, 100, 55, 145, "82.25"), (2450, 0.0, 100, 0, 50, "2.04")],
)
def test_weight_shifted(weight, station, moved, from_station, to_station, answer, printed):
    row = f"{weight} lb at {station:g} in, {moved} lb moved from {from_station} to {to_station} in: new CG"
    printed(shifted(weight, station, moved, from_station, to_station), answer, "in", row=row)


@pytest.mark.parametrize(
    ("weight", "station", "moved", "shift", "answer"), [(8000, 77.0, 100, 120, 78.5), (4000, 80.0, 100, 90, 82.25)]
)
def test_the_same_rule_gives_the_move_of_an_engine(weight, station, moved, shift, answer, printed):
    move = move_to_target(mass_kg=weight, cg_station_m=station, target_station_m=answer, moved_mass_kg=moved)
    row = f"{weight} lb at {station:g} in: how far {moved} lb move for a CG at {answer:g} in"
    printed(move, f"{shift}", "in", row=row)
    assert move == pytest.approx(shift, abs=1e-9)
