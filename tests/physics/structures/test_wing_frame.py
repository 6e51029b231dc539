"""The frame of a wing: the members of the layout, with its lengths, on both sides; spars and drag truss."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.model.model import model

AIRPLANES = pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER])


@AIRPLANES
def test_every_strut_and_wire_of_the_layout_is_there_on_both_sides(airplane):
    wing = built(airplane).structure.wing
    for one in answer("layout", airplane).members:
        own = [made for made in wing.members if made.name in {f"{one.name}, right", f"{one.name}, left"}]
        assert [made.kind for made in own] == [one.kind] * 2
        assert own[0].length_m == pytest.approx(own[1].length_m, rel=1e-12)


@AIRPLANES
def test_pins_on_the_faces_make_the_lengths_of_the_layout(airplane):
    wing = built(airplane).structure.wing
    lengths = {made.name: made.length_m for made in wing.members}
    for one in answer("layout", airplane).members:
        for side in ("right", "left"):
            assert lengths[f"{one.name}, {side}"] == pytest.approx(one.length_m, rel=1e-12)


def test_pins_on_the_axes_make_struts_longer():
    faces, axes = (model(BIPLANE, [f"structure.pins={pins}"]).structure.wing for pins in ("faces", "axes"))
    for short, long in zip(faces.members, axes.members, strict=True):
        if short.kind == "interplane strut":
            assert 0.08 < long.length_m - short.length_m < 0.14


@AIRPLANES
def test_spars_reach_from_their_inner_fitting_to_the_tip_in_a_line(airplane):
    structure, planes = built(airplane).structure, {one.name: one for one in built(airplane).wing.planes}
    frame = structure.wing.frame
    for panel in structure.wing.panels:
        at = [frame.place_m[frame.index[name]] for name in panel.nodes]
        if not panel.name.endswith("centre"):
            assert abs(at[-1][1]) == pytest.approx(0.5 * planes[panel.plane].span_m)
        whole = sum(frame.apart_m(one, other) for one, other in zip(panel.nodes, panel.nodes[1:], strict=False))
        assert whole == pytest.approx(frame.apart_m(panel.nodes[0], panel.nodes[-1]), rel=1e-12)


def test_a_cabane_on_the_plane_of_symmetry_has_one_head_for_both_sides():
    wing = model(BIPLANE, ["layout.cabane_buttline=0 in"]).structure.wing
    heads = [node.name for node in wing.frame.nodes if node.name.startswith("upper front cabane")]
    assert heads == ["upper front cabane, right"]
    assert not any(panel.name.endswith("centre") for panel in wing.panels)


@pytest.mark.parametrize(("ribs", "bays"), [(["0 in"], 2), (["11 in"], 3), (["0 in", "11 in"], 4)])
def test_ribs_between_the_cabane_fittings_part_the_centre_section(ribs, bays):
    """Every bay is crossed by two wires, both spars have a node at each rib, and the halves are mirror images."""
    wing = model(BIPLANE, [f"structure.compression_ribs={ribs}".replace("'", '"')]).structure.wing
    own = {made.name: made for made in wing.members if "centre" in made.name}
    assert sum(made.kind == "drag wire" for made in own.values()) == 2 * bays
    assert sum(made.kind == "compression rib" for made in own.values()) == bays - 1
    for panel in wing.panels:
        if panel.name.endswith("centre"):
            across = [wing.frame.place_m[wing.frame.index[name]][1] for name in panel.nodes]
            assert len(across) == bays + 1
            assert across == sorted(across)
            assert across == pytest.approx([-y for y in across[::-1]])


def test_a_plane_that_nothing_braces_is_clamped():
    low = ["layout.bracing=none", "layout.leading_edge_waterline=1.3 m"]
    settings = [f"structure.member.{kind}" for kind in ("lift_strut", "cabane_wire", "cabane_strut")]
    assert all(not beam.clamped for beam in built(PARASOL).structure.wing.frame.beams)
    scenario = built(PARASOL, *low)._scenario
    kept = {key: row for key, row in scenario.structure.member.items() if f"structure.member.{key}" not in settings}
    table = scenario.structure.model_copy(update={"member": kept})
    wing = model(scenario.model_copy(update={"structure": table})).structure.wing
    assert all(beam.clamped for beam in wing.frame.beams)
