"""A tube mount: forces in closed form, reactions that balance, and an independent finite-element library."""

import math

import numpy as np
import pytest

from sim.errors import InputError, NoAnswerError
from sim.structures.materials import materials, mild_steel
from sim.structures.truss import Node, Tube, solve_truss

STEEL_PA, TENSION_PA, COLUMN_PA = (getattr(mild_steel(), f"{key}_pa") for key in ("modulus", "tension", "column"))
CORNERS = [(right, down) for right in (-0.23, 0.23) for down in (-0.20, 0.25)]
LUGS = [(right, down) for right in (-0.15, 0.15) for down in (-0.13, 0.15)]
STRAIGHT = [(f"wall {n}", f"lug {n}") for n in range(4)]
ACROSS = [("wall 0", "lug 2"), ("wall 2", "lug 3"), ("wall 3", "lug 1"), ("wall 1", "lug 0")]
SIX = [(f"wall {w}", f"lug {n}") for w, n in ((0, 0), (1, 0), (1, 3), (3, 3), (3, 2), (0, 2))]
SIDES = [(f"wall {w}", f"lug {n}") for w, n in ((0, 1), (1, 0), (0, 2), (2, 3), (3, 2), (2, 0))]
LOAD = {"force_n": (4900.0, -700.0, 4600.0), "moment_n_m": (-740.0, -8900.0, 2600.0)}


def mount(pairs=(*STRAIGHT, *ACROSS)):
    walls = [Node(f"wall {n}", (0.0, *place), "airframe") for n, place in enumerate(CORNERS)]
    lugs = [Node(f"lug {n}", (0.3, *place), "engine") for n, place in enumerate(LUGS)]
    tubes = [Tube(f"tube {n}", *pair, 0.019 + 0.001 * n, 0.00124) for n, pair in enumerate(pairs)]
    return [*walls, *lugs], tubes


def test_reactions_balance_the_load():
    nodes, tubes = mount()
    solved = solve_truss(nodes, tubes, **LOAD)
    at = {node.name: np.array(node.place_m) for node in nodes}
    push = np.sum(list(solved.reactions_n.values()), axis=0)
    turn = np.sum([np.cross(at[name], force) for name, force in solved.reactions_n.items()], axis=0)
    assert push == pytest.approx(-np.array(LOAD["force_n"]), rel=1e-9)
    assert turn == pytest.approx(-np.array(LOAD["moment_n_m"]), rel=1e-9)
    assert solved.redundancy == 2


def test_six_tubes_are_determinate_and_their_size_does_not_matter():
    """The forces of a determinate truss are those of equilibrium alone."""
    nodes, tubes = mount(SIX)
    thick = [
        Tube(tube.name, tube.start, tube.end, 2 * tube.diameter_m, 0.003, materials()["2024-T3"]) for tube in tubes
    ]
    forces = [[member.axial_n for member in solve_truss(nodes, some, **LOAD).members] for some in (tubes, thick)]
    assert forces[0] == pytest.approx(forces[1], rel=1e-9)
    at = {node.name: np.array(node.place_m) for node in nodes}
    ways = [(at[t.end] - at[t.start]) / np.linalg.norm(at[t.end] - at[t.start]) for t in tubes]
    rows = np.array([np.concatenate([way, np.cross(at[t.end], way)]) for t, way in zip(tubes, ways, strict=True)])
    by_hand = np.linalg.solve(rows.T, np.concatenate([LOAD["force_n"], LOAD["moment_n_m"]]))
    assert forces[0] == pytest.approx(by_hand, rel=1e-9)
    assert solve_truss(nodes, tubes, **LOAD).redundancy == 0


def test_loads_add_up():
    nodes, tubes = mount()
    both, one, two = (
        np.array([m.axial_n for m in solve_truss(nodes, tubes, force_n=force, moment_n_m=moment).members])
        for force, moment in (
            (LOAD["force_n"], LOAD["moment_n_m"]),
            (LOAD["force_n"], (0.0, 0.0, 0.0)),
            ((0.0, 0.0, 0.0), LOAD["moment_n_m"]),
        )
    )
    assert both == pytest.approx(one + two, rel=1e-9)


def test_a_mirror_changes_sides():
    """Tubes that are alike left and right: a sideways load mirrors."""
    nodes, tubes = mount([*STRAIGHT, *SIDES])
    even = [Tube(t.name, t.start, t.end, 0.019, 0.00124) for t in tubes]
    right, left = (
        {m.name: m.axial_n for m in solve_truss(nodes, even, force_n=(0, y, 0), moment_n_m=(0, 0, 0)).members}
        for y in (1000.0, -1000.0)
    )
    for one, other in ((0, 2), (1, 3), (4, 7), (5, 8), (6, 9)):
        assert right[f"tube {one}"] == pytest.approx(left[f"tube {other}"], rel=1e-9)


def test_a_finite_element_library_agrees():
    """PyNite's frame elements with next to no bending stiffness; the engine is a lattice a million times as stiff."""
    pynite = pytest.importorskip("Pynite")
    nodes, tubes = mount()
    model = pynite.FEModel3D()
    model.add_material("steel", STEEL_PA, 79e9, 0.3, 0.0)
    model.add_material("block", STEEL_PA, 79e9, 0.3, 0.0)
    for node in nodes:
        model.add_node(node.name, *node.place_m)
    model.add_node("nose", 0.9, 0.02, -0.05)
    for tube in tubes:
        model.add_section(tube.name, tube.size.section.area_m2, 1e-16, 1e-16, 1e-16)
        model.add_member(tube.name, tube.start, tube.end, "steel", tube.name)
    model.add_section("block", 100.0, 1e-16, 1e-16, 1e-16)
    block = ["nose", *(f"lug {n}" for n in range(4))]
    for first, one in enumerate(block):
        for other in block[first + 1 :]:
            model.add_member(f"{one} to {other}", one, other, "block", "block")
    for node in nodes:
        fixed = [node.held == "airframe"] * 3
        model.def_support(node.name, *fixed, True, True, True)
    model.def_support("nose", False, False, False, True, True, True)
    push = np.array([900.0, -650.0, 4600.0])
    for way, value in zip("XYZ", push, strict=True):
        model.add_node_load("nose", f"F{way}", value)
    model.analyze_linear(check_statics=False)
    mine = solve_truss(nodes, tubes, force_n=push, moment_n_m=np.cross((0.9, 0.02, -0.05), push))
    theirs = [-float(model.members[tube.name].max_axial()) for tube in tubes]
    assert [member.axial_n for member in mine.members] == pytest.approx(theirs, rel=1e-5, abs=0.05)
    for name, force in mine.reactions_n.items():
        node = model.nodes[name]
        theirs = [node.RxnFX["Combo 1"], node.RxnFY["Combo 1"], node.RxnFZ["Combo 1"]]
        assert force == pytest.approx(theirs, rel=1e-5, abs=0.05)


def test_a_free_node_passes_the_force_on():
    """A tube cut in two by a free node that three more tubes hold."""
    nodes, tubes = mount()
    middle = Node("middle", (0.15, -0.19, -0.165), "free")
    halves = [
        Tube("aft half", "wall 0", "middle", 0.019, 0.00124),
        Tube("fore half", "middle", "lug 0", 0.019, 0.00124),
    ]
    stays = [Tube(f"stay {n}", "middle", f"wall {n}", 0.01, 0.001) for n in (1, 2)]
    solved = solve_truss([*nodes, middle], [*halves, *stays, *tubes[1:]], **LOAD)
    forces = {member.name: member.axial_n for member in solved.members}
    assert forces["aft half"] == pytest.approx(forces["fore half"], rel=1e-9)
    assert forces["stay 1"] == pytest.approx(0.0, abs=1e-6)


def test_euler_johnson_and_tension():
    """A long thin tube buckles by Euler, a short one by Johnson, and a pulled one tears; all at ultimate load."""
    nodes, tubes = mount(SIX)
    solved = solve_truss(nodes, tubes, **LOAD)
    at = {node.name: node.place_m for node in nodes}
    for tube, member in zip(tubes, solved.members, strict=True):
        length = math.dist(at[tube.start], at[tube.end])
        inner = tube.diameter_m - 2 * tube.wall_m
        second = math.pi / 64 * (tube.diameter_m**4 - inner**4)
        area = math.pi / 4 * (tube.diameter_m**2 - inner**2)
        euler = math.pi**2 * STEEL_PA * second / length**2
        assert member.slenderness == pytest.approx(length / math.sqrt(second / area))
        if member.axial_n > 0.0:
            assert member.euler_margin == math.inf
            assert member.margin == pytest.approx(TENSION_PA * area / (1.5 * member.axial_n) - 1)
        else:
            assert member.euler_margin == pytest.approx(euler / (-1.5 * member.axial_n) - 1)
            johnson = COLUMN_PA * area * (1 - COLUMN_PA * area / (4 * euler))
            assert member.margin == pytest.approx(johnson / (-1.5 * member.axial_n) - 1)
            assert member.margin < member.euler_margin


def test_a_slender_tube_is_euler_s():
    nodes, tubes = mount(SIX)
    thin = [Tube(tube.name, tube.start, tube.end, 0.006, 0.0005) for tube in tubes]
    pushed = [member for member in solve_truss(nodes, thin, **LOAD).members if member.axial_n < 0.0]
    assert pushed
    assert all(member.slenderness > 128 and member.margin == member.euler_margin for member in pushed)


def test_a_mechanism_is_named():
    nodes, tubes = mount(STRAIGHT)
    with pytest.raises(NoAnswerError) as caught:
        solve_truss(nodes, tubes, **LOAD)
    assert str(caught.value).startswith("the truss is a mechanism: lug ")
    assert str(caught.value).endswith(" can move without stretching a tube; add a tube")


def test_every_fault_of_the_drawing_at_once():
    nodes = [Node("wall", (0.0, 0.0, 0.0), "airframe"), Node("also", (0.0, 0.0, 0.0), "airframe")]
    tubes = [Tube("a", "wall", "lug", 0.02, 0.001), Tube("b", "wall", "also", 0.02, 0.011)]
    with pytest.raises(InputError) as caught:
        solve_truss(nodes, tubes, **LOAD)
    assert str(caught.value).splitlines() == [
        'mount.tube.a: must join two nodes of the table mount.node, got "lug"',
        'mount.tube.b: must join two different places, got "wall" and "also"',
        'mount.tube.b: wall must be at most half the diameter, got "11 mm (0.4331 in)"',
        'mount.node: must have nodes bolted to the engine (held = "engine"), got none',
    ]


@pytest.mark.parametrize(("held", "words"), [("airframe", "firewall"), ("engine", "engine")])
def test_a_tube_between_nodes_that_move_together_is_refused(held, words):
    nodes, tubes = mount(SIX)
    one, other = [node.name for node in nodes if node.held == held][:2]
    with pytest.raises(InputError) as caught:
        solve_truss(nodes, [*tubes, Tube("idle", one, other, 0.02, 0.001)], **LOAD)
    said = f'must not join two nodes bolted to the {words}: it would bear nothing, got "{one}" and "{other}"'
    assert str(caught.value) == f"mount.tube.idle: {said}"


def test_the_column_curve_is_that_of_the_material():
    """Normalised 4130 in compression: 79 500 - 51.9 s^1.5 psi (Bruhn, chapter C4), within .3 %."""
    nodes, tubes = mount(SIX)
    strong = [Tube(t.name, t.start, t.end, t.diameter_m, t.wall_m, materials()["4130 normalised"]) for t in tubes]
    for tube, member in zip(strong, solve_truss(nodes, strong, **LOAD).members, strict=True):
        if member.axial_n < 0.0:
            psi = 79_500.0 - 51.9 * member.slenderness**1.5
            strength_n = psi * 6894.757 * math.pi * (tube.diameter_m - tube.wall_m) * tube.wall_m
            assert member.margin + 1.0 == pytest.approx(strength_n / (-1.5 * member.axial_n), rel=3e-3)
