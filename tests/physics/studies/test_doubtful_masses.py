"""What balance and mount say where weights are missing, without errors, or contradicted by the scales."""

import pytest
from airplanes import BIPLANE

from sim.airframe.loading import USEFUL
from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.mount import mount

POUND_KG = 0.45359237
TEXT = BIPLANE.read_text(encoding="utf-8")
GEAR = 'mass = "66 lb ± 2 lb"\n'


def of(tmp_path, text, settings=()):
    file = tmp_path / "biplane.toml"
    file.write_text(text, encoding="utf-8")
    return model(load(file, settings))


def test_a_mount_without_a_complete_list_says_what_its_loads_leave_out(tmp_path):
    assert GEAR in TEXT
    airplane = of(tmp_path, TEXT.replace(GEAR, ""))
    found, table = mount(airplane), load(BIPLANE).powerplant["flat_four"]
    assert found.hung["flat_four"].mass_kg == pytest.approx(table.mass_kg + table.propeller.mass_kg)
    assert found.hung["flat_four"].mass_kg < 0.75 * mount(model(BIPLANE)).hung["flat_four"].mass_kg
    alone, drawn, *_ = found.remarks
    assert alone == (
        "These loads are too small: engine and propeller of flat_four alone count, without mount, cowl, exhaust or "
        "oil, for the item list is not complete (item.main gear.mass missing). Complete it, or give "
        "mount.hung.flat_four.mass."
    )
    assert drawn == (
        "Engine of flat_four where it is drawn: a move to the CG target needs the tables balance and layout and a "
        "complete item list."
    )


def test_what_hangs_there_by_its_own_table_is_complete(tmp_path):
    hung = '\n[mount.hung.flat_four]\nmass = "400 lb"\n'
    found = mount(of(tmp_path, TEXT.replace(GEAR, "") + hung), engine_move_m=0.0)
    assert found.hung["flat_four"].mass_kg == pytest.approx(400.0 * POUND_KG)
    assert not [remark for remark in found.remarks if "alone count" in remark or "where it is drawn" in remark]


def test_a_mount_says_what_the_scales_make_doubtful():
    settings = ["weighing.aboard=[]"]
    found, beside = mount(model(BIPLANE, settings)), balance(model(BIPLANE, settings))
    aboard = "The weighing suggests that the pilot was aboard: if so, every number here is wrong; see weighing.aboard."
    assert aboard in found.remarks
    assert aboard in beside.remarks
    scores = (abs(getattr(beside.weighing, f"{name}_z_score")) for name in ("mass", "station", "waterline"))
    assert found.remarks[0] == (
        f"weighing: DO NOT USE before the cause is found: scales and item list disagree by {max(scores):.1f} times "
        "their ±. The scales suggest: pilot aboard. See whirlgate balance."
    )
    assert not [remark for remark in mount(model(BIPLANE)).remarks if "weighing suggests" in remark]


@pytest.mark.parametrize(("inches", "way"), [(13, "above"), (-13, "below")])
def test_a_height_that_contradicts_the_list_is_said(inches, way):
    """Axles 13 in higher lift the centre by that times the share of the load on them, and no weight or station."""
    wrong = [f"weighing.support.{name}.waterline={inches} in" for name in ("left", "right")]
    found, right = balance(model(BIPLANE, wrong)), balance(model(BIPLANE))
    apart = found.weighing.waterline_z_score
    assert abs(apart) > 3.0 > abs(right.weighing.waterline_z_score)
    assert (found.weighing.height_counts, right.weighing.height_counts) == (False, True)
    assert found.weighing.gap_probability > 0.4  # of weight and station: no group is made suspect by the height
    assert found.weighing.suspicions == ()
    assert found.cg_error_m > 3.0 * right.cg_error_m
    agreeing = " or ".join(one.named for one in found.weighing.attitudes_elsewhere)
    assert "attitude tail_low at " in agreeing
    assert (
        f"The height by the scales is {abs(apart):.1f} times the ± of the difference {way} that of the list: errors "
        "alone do not explain it. Weight and CG station go by the scales, the height by the list, and the ± of both "
        f"are wider. They agree with {agreeing}: measure the attitudes again, then waterlines and radii of the "
        "supports, and waterlines of the items."
    ) in found.remarks
    assert not [remark for remark in right.remarks if "height by the scales" in remark]


def test_an_attitude_misread_leaves_weight_and_station_where_the_scales_put_them():
    """Tail down at 14 deg and typed 9: the height is absurd, the reading in level flight as good as before."""
    found, right = balance(model(BIPLANE, ["weighing.attitude.tail_low=9 °"])), balance(model(BIPLANE))
    assert found.weighing.waterline_z_score > 10.0
    assert found.mass_kg == pytest.approx(right.mass_kg, abs=0.2)
    assert found.mass_error_kg == pytest.approx(right.mass_error_kg, rel=0.05)
    assert found.cg_station_m == pytest.approx(right.cg_station_m, abs=0.003)
    assert found.cg_error_m > 5.0 * right.cg_error_m


def test_items_without_an_error_count_as_exact_where_nothing_was_weighed_and_it_is_said(tmp_path):
    unweighed = of(tmp_path, TEXT.partition("[weighing]")[0])
    items = [item for item in unweighed.weights("flat_four").items if item.group not in USEFUL]
    bare = [item for item in items if item.mass_error_kg == 0.0 or item.station_error_m == 0.0]
    assert 0 < len(bare) < len(items)
    said = (
        f"{len(bare)} of {len(items)} items of the empty airplane state no ± of mass or of station, which then counts "
        "as exact: the ± of weight, CG and move of the engine are too small. Write them, or weigh the airplane."
    )
    assert said in balance(unweighed).remarks
    assert not [remark for remark in balance(model(BIPLANE)).remarks if "counts as exact" in remark]


def test_a_battery_is_not_moved_out_of_the_airplane():
    near, far = (balance(model(BIPLANE, [f"balance.target={target} %"])) for target in (29.3, 25))
    assert "battery" in [shift.item for shift in near.shifts]
    assert "battery" not in [shift.item for shift in far.shifts]
    stations = [item.station_m for item in model(BIPLANE).mass_state("flat_four").items]
    for shift in (*near.shifts, *far.shifts):
        assert min(stations) <= shift.station_m <= max(stations)
