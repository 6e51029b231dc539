from dataclasses import replace
from math import dist, radians, tan

import pytest

from sim.airframe.bracing import braced
from sim.airframe.fittings import FittingLines, fittings
from sim.airframe.layout import PlacedPlane, Spar, placed, spar_room
from sim.airframe.section import digits
from sim.airframe.wing import Plane, Wing
from sim.errors import NoAnswerError

SECTION = digits("2412")
BODY = FittingLines(0.30, 0.45, (2.4,), 1.0, 0.4)
LOWER = PlacedPlane(Plane(9.0, 1.5, name="lower"), 2.0, 0.35)
UPPER = PlacedPlane(Plane(9.0, 1.5, name="upper"), 1.4, 1.85)
FRONT, REAR = Spar("front", 0.15, 0.025, 0.006, 0.002), Spar("rear", 0.65, 0.020, 0.006, 0.002)


def turned(placed_plane, **angles):
    return replace(placed_plane, plane=replace(placed_plane.plane, **angles))


def rooms():
    return [spar_room(SECTION, 1.5, spar) for spar in (FRONT, REAR)]


def fitted(low=LOWER, high=UPPER, body=BODY):
    return fittings([low, high], [rooms(), rooms()], body)


def test_a_thin_spar_fills_the_section_less_caps_and_covers():
    room = spar_room(SECTION, 1.5, replace(FRONT, width_m=1e-9))
    assert room.section_depth_m == pytest.approx(1.5 * SECTION.depth(0.15))
    assert room.spar_depth_m == pytest.approx(room.section_depth_m - 2.0 * 0.008, abs=1e-9)
    assert room.from_leading_edge_m == pytest.approx(0.225)


def test_a_wide_spar_is_bound_by_its_shallow_corner():
    wide = spar_room(SECTION, 1.5, replace(FRONT, width_m=0.06))
    low_at, high_at = (SECTION.heights(0.15 + side * 0.02) for side in (-1.0, 1.0))
    assert wide.top_m <= 1.5 * min(low_at[0], high_at[0]) - 0.008 + 1e-12
    assert wide.spar_depth_m < spar_room(SECTION, 1.5, FRONT).spar_depth_m


def test_no_spar_fits_where_the_section_is_thin():
    with pytest.raises(NoAnswerError) as caught:
        spar_room(SECTION, 0.5, Spar("rear", 0.95, 0.02, 0.006, 0.002))
    assert str(caught.value) == (
        "no rear spar fits at 95 % of the chord: the section is 8.081 mm (0.3182 in) deep there, and caps and "
        "covers take 16 mm (0.6299 in); "
        "move the spar to where the section is deeper or make it narrower"
    )


def test_stagger_and_gap_are_between_the_leading_edges():
    nodes = {node.name: node for node in fitted().nodes}
    ahead = nodes["lower front root"].station_m - nodes["upper front cabane"].station_m
    assert ahead == pytest.approx(0.6, abs=1e-12)


def test_a_plane_between_has_root_fittings_where_it_passes_through_the_fuselage():
    """Middle plane at 1.25 m: between longerons at 0.4 and 1.5 m it hangs on the upper one, above both on a cabane."""
    planes = [
        Plane(8.0, 1.2, 0.9 * up, -0.2 * up, name=name) for up, name in ((1, "upper"), (0, "middle"), (-1, "lower"))
    ]
    stood = placed(Wing(tuple(planes), planes[1]), 2.0, 0.35)
    own = [[spar_room(SECTION, 1.2, FRONT)]] * 3
    lines = FittingLines(0.3, 0.5, (3.0,), upper_longeron_waterline_m=1.5, lower_longeron_waterline_m=0.4)
    nodes = {node.name: node for node in fittings(stood, own, lines).nodes}
    root, truss = nodes["middle front root"], nodes["truss over middle front root"]
    assert (truss.station_m, truss.waterline_m, truss.buttline_m) == (root.station_m, 1.5, 0.3)
    room = own[0][0]
    assert root.waterline_m == pytest.approx(1.25 + 0.5 * (room.bottom_m + room.top_m), abs=1e-12)
    assert root.station_m == pytest.approx(1.8 + room.from_leading_edge_m, abs=1e-12)
    low = fittings(stood, own, replace(lines, upper_longeron_waterline_m=1.1))
    held = {node.name: node for node in low.nodes if node.name.startswith("middle front ")}
    assert "middle front root" not in held
    assert held["middle front cabane"].waterline_m == pytest.approx(1.25 + room.bottom_m, abs=1e-12)


def test_every_truss_node_stands_under_or_over_its_fitting():
    nodes = {node.name: node for node in fitted().nodes}
    below = [node for node in nodes.values() if node.kind == "truss"]
    assert len(below) == 4
    for node in below:
        _, where, name = node.name.split(maxsplit=2)
        fitting = nodes[name]
        assert node.station_m == fitting.station_m
        assert node.waterline_m == (0.4 if fitting.kind == "root" else 1.0)
        assert where == ("under" if node.waterline_m <= fitting.waterline_m else "over")


def test_planes_are_placed_from_the_lowest_up():
    """Three planes with a gap of 0.9 m and a stagger of 0.2 m, the arms and heights given about their middle."""
    planes = [
        Plane(8.0, 1.2, 0.9 * up, -0.2 * up, name=name) for up, name in ((1, "upper"), (0, "middle"), (-1, "lower"))
    ]
    found = placed(Wing(tuple(planes), planes[1]), 2.0, 0.35)
    assert [one.plane.name for one in found] == ["lower", "middle", "upper"]
    assert [one.leading_edge_station_m for one in found] == pytest.approx([2.0, 1.8, 1.6], abs=1e-12)
    assert [one.leading_edge_waterline_m for one in found] == pytest.approx([0.35, 1.25, 2.15], abs=1e-12)


def test_struts_are_as_long_as_their_ends_are_apart():
    found = fitted()
    strut = next(member for member in found.members if member.name == "front interplane strut, lower to upper")
    room = rooms()[0]
    rise = (1.85 + room.bottom_m) - (0.35 + room.top_m)
    assert strut.length_m == pytest.approx((0.6**2 + rise**2) ** 0.5, rel=1e-12)
    assert len(found.members) == 4


def test_every_bay_has_its_struts_square_over_its_own_buttline():
    low = turned(LOWER, dihedral_rad=radians(3.0))
    one, two = fitted(low=low), fitted(low=low, body=replace(BODY, strut_buttlines_m=(1.3, 2.4)))
    lengths = {member.name: member.length_m for member in two.members}
    for spar, own in zip(("front", "rear"), rooms(), strict=True):
        name = f"{spar} interplane strut, lower to upper"
        outer = next(member.length_m for member in one.members if member.name == name)
        assert lengths[f"{name}, bay 2"] == pytest.approx(outer, rel=1e-12)
        rise = (1.85 + own.bottom_m) - (0.35 + own.top_m) - 1.3 * 0.05240778
        assert lengths[f"{name}, bay 1"] == pytest.approx((0.6**2 + rise**2) ** 0.5, rel=1e-7)
    assert {node.buttline_m for node in two.nodes if node.kind.startswith("strut")} == {1.3, 2.4}
    assert len({node.name for node in two.nodes}) == len(two.nodes) == len(one.nodes) + 4


def test_incidence_turns_the_chord_about_the_leading_edge():
    station, waterline, _ = turned(LOWER, incidence_rad=radians(3.0)).point(1.5, 0.0, 0.0)
    assert (station - 2.0) ** 2 + (waterline - 0.35) ** 2 == pytest.approx(1.5**2)
    assert waterline < 0.35


def test_dihedral_lifts_and_sweep_carries_aft_what_is_far_out():
    level = {node.name: node for node in fitted().nodes}
    low = turned(LOWER, dihedral_rad=radians(2.0), sweep_rad=radians(1.0))
    bent = {node.name: node for node in fitted(low=low).nodes}
    foot = "lower front strut foot"
    assert bent[foot].waterline_m - level[foot].waterline_m == pytest.approx(2.4 * 0.03492077, rel=1e-6)
    assert bent[foot].station_m - level[foot].station_m == pytest.approx(2.4 * 0.01745506, rel=1e-6)


def test_a_monoplane_has_root_fittings_alone():
    found = fittings([LOWER], [rooms()], BODY)
    assert {node.kind for node in found.nodes} == {"root", "truss"}
    assert found.members == ()


def test_a_triplane_carries_its_struts_through():
    middle = replace(turned(LOWER, name="middle"), leading_edge_waterline_m=1.1)
    found = fittings([LOWER, middle, UPPER], [rooms()] * 3, BODY)
    assert sum("interplane" in member.name for member in found.members) == 4
    assert {node.name.split()[0] for node in found.nodes if node.kind == "cabane"} == {"upper", "middle"}
    assert {one.name for one in found.members if one.kind == "cabane strut"} == {
        *(f"{spar} cabane strut{whose}" for spar in ("front", "rear") for whose in ("", ", middle"))
    }


SPLAYED = replace(BODY, strut_splay_m=0.15, cabane_foot_buttline_m=0.2, cabane_foot_stations_m=(1.7,))


def places(found):
    return {node.name: (node.station_m, node.waterline_m, node.buttline_m) for node in found.nodes}


def wired(low=LOWER, high=UPPER, body=BODY):
    own = [rooms(), rooms()]
    return braced(fittings([low, high], own, body), [low, high], own, body)


def test_feet_of_splayed_struts_stand_inboard_and_cabane_feet_where_they_are_put():
    found = fitted(body=SPLAYED)
    at = places(found)
    assert at["upper front strut head"][2] - at["lower front strut foot"][2] == pytest.approx(0.15, abs=1e-12)
    assert {at[f"truss under upper {spar} cabane"] for spar in ("front", "rear")} == {(1.7, 1.0, 0.2)}


def test_splay_goes_on_from_plane_to_plane():
    middle = replace(turned(LOWER, name="middle"), leading_edge_waterline_m=1.1)
    at = places(fittings([LOWER, middle, UPPER], [rooms()] * 3, SPLAYED))
    ends = [f"{name} front strut {end}" for name, end in (("lower", "foot"), ("middle", "head"), ("upper", "head"))]
    assert [at[name][2] for name in ends] == pytest.approx([2.1, 2.25, 2.4], abs=1e-12)


def test_an_n_has_a_strut_from_the_front_head_to_the_rear_foot_and_no_crossed_wires():
    found = wired(body=replace(BODY, strut_shape="N", cabane_shape="N"))
    ends = {(one.from_node, one.to_node) for one in found.members if one.name.startswith("diagonal")}
    assert ends == {
        ("lower rear strut foot", "upper front strut head"),
        ("truss under upper rear cabane", "upper front cabane"),
    }
    kinds = [one.kind for one in found.members]
    assert "incidence wire" not in kinds
    assert kinds.count("cabane wire") == 2


def test_every_wire_and_strut_is_as_long_as_its_nodes_are_apart_and_leans_as_they_stand():
    found = wired(low=turned(LOWER, dihedral_rad=radians(3.0)), body=replace(SPLAYED, strut_buttlines_m=(1.3, 2.4)))
    at = places(found)
    assert {one.kind for one in found.members} == {
        *("cabane strut", "interplane strut", "flying wire", "landing wire", "incidence wire", "cabane wire")
    }
    for one in found.members:
        start, end = at[one.from_node], at[one.to_node]
        end = (*end[:2], -end[2] if one.to_left else end[2])
        assert one.length_m == pytest.approx(dist(start, end), rel=1e-12)
        rise = end[1] - start[1]
        assert rise > 0.0
        assert tan(radians(one.front_view_deg)) == pytest.approx((end[2] - start[2]) / rise, rel=1e-9, abs=1e-12)
        assert tan(radians(one.side_view_deg)) == pytest.approx((end[0] - start[0]) / rise, rel=1e-9, abs=1e-12)


def test_flying_wires_run_up_and_out_landing_wires_down_and_out():
    found = wired(body=replace(BODY, strut_buttlines_m=(1.3, 2.4)))
    front = {one.name: (one.from_node, one.to_node) for one in found.members if one.name.startswith("front ")}
    assert front["front flying wire, bay 1"] == ("lower front root", "upper front strut head, bay 1")
    assert front["front flying wire, bay 2"] == ("lower front strut foot, bay 1", "upper front strut head, bay 2")
    assert front["front landing wire, bay 1"] == ("lower front strut foot, bay 1", "upper front cabane")
    assert front["front landing wire, bay 2"] == ("lower front strut foot, bay 2", "upper front strut head, bay 1")


def test_wires_of_a_triplane_pass_its_middle_plane():
    middle = replace(turned(LOWER, name="middle"), leading_edge_waterline_m=1.1)
    planes, own = [LOWER, middle, UPPER], [rooms()] * 3
    found = braced(fittings(planes, own, BODY), planes, own, BODY)
    ends = [(one.from_node, one.to_node) for one in found.members if one.kind in {"flying wire", "landing wire"}]
    assert len(ends) == 4
    assert not any("middle" in name for pair in ends for name in pair)


def test_a_parasol_has_a_cabane_on_the_upper_and_lift_struts_to_the_lower_longeron():
    wing = replace(UPPER, plane=replace(UPPER.plane, name="parasol"))
    found = fittings([wing], [rooms()], replace(BODY, bracing="lift_struts", lift_foot_stations_m=(1.9,)))
    at = places(found)
    assert {node.kind for node in found.nodes} == {"cabane", "lift strut", "truss"}
    assert at["truss under parasol front cabane"][1:] == (1.0, 0.3)
    assert at["truss under parasol front lift strut"] == at["truss under parasol rear lift strut"] == (1.9, 0.4, 0.3)
    room = rooms()[0]
    fitting = at["parasol front lift strut"]
    assert fitting == pytest.approx((1.4 + 0.225, 1.85 + room.bottom_m, 2.4), abs=1e-12)
    assert [one.kind for one in found.members] == ["cabane strut"] * 2 + ["lift strut"] * 2


def test_lift_struts_of_a_low_wing_go_up():
    found = fittings([LOWER], [rooms()], replace(BODY, bracing="lift_struts"))
    at = places(found)
    assert at["truss over lower front lift strut"][1:] == (1.0, 0.3)
    assert at["lower front lift strut"][1] == pytest.approx(0.35 + rooms()[0].top_m, abs=1e-12)


def test_a_wing_without_bracing_has_none():
    body = replace(BODY, bracing="none")
    assert wired(body=body) == fitted(body=body)
