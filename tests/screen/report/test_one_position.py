"""A report flies, balances and mounts one position of each engine, and gives one ± for one number."""

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.units.quantities import band_ends
from viz.report.answers import engine_place, mount_load
from viz.report.findings import Findings
from viz.report.sections.airplane import flown
from viz.report.sections.sensitivity import table
from viz.sheets.text import text_of

MOVED = "powerplant.flat_four.move=-1 in"


def found_in(airplane, *settings):
    return Findings(load(airplane, settings), "us", called=str(airplane), settings=settings)


@pytest.fixture(scope="module", params=[(), (MOVED,)], ids=["target", "move"])
def found(request):
    return found_in(BIPLANE, *request.param)


def test_balance_mount_and_flights_have_one_position(found):
    name = found.balance.powerplant
    assert found.balance.moved_m == found.mount.engine_move_m[name] == found.stands[name].move_m
    for study in (found.comparison, found.handling, found.speeds):
        assert study.masses[name].cg_percent_mac == pytest.approx(found.balance.cg_percent_mac, abs=1e-9)


def test_it_says_which_and_why(found):
    said = " ".join(text_of(flown(found), "us").replace("\u00a0", " ").split())
    place = text_of(engine_place(found), "us").replace("\u00a0", " ")
    if found.settings:
        assert "flat_four 1.00 in forward (its key move)" in said
        assert place.startswith("The flat_four stands 1.00 in forward from where it is drawn, at station ")
        assert "needs it 2.69 in forward from where it is drawn ± 0.31 in; " in place
    else:
        assert "flat_four 2.69 in forward (at the CG target, for its move is not given)" in said
        assert place.startswith("The flat_four stands 2.69 in forward from where it is drawn ± 0.31 in, at station ")
        assert "the loaded centre of gravity is on target" in place
    drawn = balance(found.written)
    ends = [end + drawn.moved_m for end in (drawn.serves_from_m, drawn.serves_to_m)]
    first, last = (f"{abs(end) / 0.0254:.2f} in {'forward' if end < 0.0 else 'aft'}" for end in ends)
    assert place.endswith(f"with the engine from {first} to {last} of where it is drawn.")
    low, high = (getattr(found.comparison.masses[found.balance.powerplant], end) for end in band_ends("cg_percent_mac"))
    centre = f"CG {found.balance.cg_percent_mac:.1f} ({low:.1f} to {high:.1f}) % of the mean chord"
    assert f"{centre} (item list corrected by the scales)" in said


@pytest.mark.slow
def test_the_displacement_has_one_error_in_balance_and_sensitivity(found):
    (one,) = (one for one in found.sensitivity.values() if one.column.name == "target_move_m")
    assert one.nominal == pytest.approx(balance(found.written).target_move_m, rel=1e-9)
    assert one.spread == found.balance.engine_move_error_m
    parts = sum(each.change**2 for each in one.inputs) + one.unstated**2
    assert parts == pytest.approx(one.spread**2, rel=1e-9)
    assert 0.5 * one.spread < one.unstated < one.spread
    shown = [text_of(row[0], "us") for row in table("displacement", one).rows()]
    assert shown[-1] == "items and scales without ±, as assumed"


def test_each_engine_has_its_own_sentence_on_the_mount():
    """The bolts carry the engine that hangs on them; what the rotary would make stands in a sentence of its own."""
    found = found_in(BIPLANE)
    own, _, other = text_of(mount_load(found), "us").replace("\u00a0", " ").partition(" The rotary does not hang on it")
    bolt = min(found.mount.worst_bolts, key=lambda row: row.margin)
    assert "flat_four" in own
    assert "rotary" not in own
    assert f"upper left ({bolt.case})" in own or f"{bolt.bolt.replace('_', ' ')} ({bolt.case})" in own
    most = max(abs(m) for case in found.mount.cases if case.powerplant == "rotary" for m in case.limit_moment_n_m)
    assert f"it makes {most / 1.3558179483:.4g} lbf ft" in other or f"{most / 1.3558179483:.0f} lbf ft" in other


def test_a_tolerance_of_the_wing_moves_the_target_and_its_error():
    """By hand: the target goes with the leading edge, the engine by total over moved mass as far."""
    first, unsure = (balance(model(TRIPLANE, settings)) for settings in ((), ["layout.leading_edge=1 m ± 10 mm"]))
    exact = balance(model(TRIPLANE, ["layout.leading_edge=1 m"]))
    assert first.engine_move_error_m > 0.0
    moved_kg = sum(
        item.mass_kg for item in model(TRIPLANE).mass_state(exact.powerplant).items if item.moves_with_engine
    )
    further = 0.01 * exact.mass_kg / moved_kg
    assert unsure.engine_move_error_m**2 - exact.engine_move_error_m**2 == pytest.approx(further**2, rel=1e-3)
