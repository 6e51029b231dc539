"""Frames: an independent library, least energy with slack wires, reciprocity, mirror, mechanisms and buckling."""

from dataclasses import replace
from math import pi, sin, sqrt, tan

import numpy as np
import pytest
from random_frames import POINT, random_frame

from sim.errors import NoAnswerError
from sim.structures.beam_column import Patch
from sim.structures.frame import Bar, Beam, Frame, FrameLoad, FrameNode
from sim.structures.frame_failures import BucklingError
from sim.structures.frame_solution import solve_frame


def library(frame, load):
    """Return the solved model of PyNite: thin bars with hinged ends, the beam kept from turning at its first node."""
    model = pytest.importorskip("Pynite").FEModel3D()
    modulus = 200e9
    for node in frame.nodes:
        model.add_node(node.name, *node.place_m)
    model.add_material("metal", modulus, 80e9, 0.3, 7850.0)
    model.add_section("beam", 2e7 / modulus, 900.0 / modulus, 3000.0 / modulus, 1e-5)
    up, side = frame.spans[0].axes[1:]
    for n, pair in enumerate(("AB", "BC", "CD")):
        model.add_member(f"span {n}", *pair, "metal", "beam")
    local = model.members["span 0"].T()[:3, :3]
    turn = np.degrees(np.arctan2(up @ local[2], up @ local[1]))
    for n in range(3):
        model.members[f"span {n}"].rotation = turn
        for way, patches in zip(("Fy", "Fz"), load.beams["spar"][n], strict=True):
            for one in patches:
                model.add_member_dist_load(f"span {n}", way, one.load_n_per_m, one.load_n_per_m, one.start_m, one.end_m)
    assert model.members["span 0"].T()[2, :3] == pytest.approx(side, abs=1e-12)
    for bar in frame.bars:
        model.add_section(bar.name, bar.axial_n / modulus, 1e-9, 1e-9, 1e-18)
        model.add_member(bar.name, bar.start, bar.end, "metal", bar.name)
        model.def_releases(bar.name, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for node in frame.nodes:
        if node.held:
            fixed = node.name != "A"
            model.def_support(node.name, True, True, True, fixed, True, fixed)
    for axis, force in zip(("FX", "FY", "FZ"), POINT, strict=True):
        model.add_node_load("D", axis, force)
    model.analyze(check_statics=False)
    return model


@pytest.mark.parametrize("seed", range(10))
def test_a_finite_element_library_agrees(seed):
    frame, load = random_frame(seed)
    ours, theirs = solve_frame(frame, load, second_order=False), library(frame, load)
    largest = max(abs(force) for force in ours.bars_n.values())
    for bar in frame.bars:
        found = -theirs.members[bar.name].axial(0.0, "Combo 1")
        assert ours.bars_n[bar.name] == pytest.approx(found, abs=1e-8 * largest)
    moved = [[getattr(theirs.nodes[name], f"D{axis}")["Combo 1"] for axis in "XYZ"] for name in "BCD"]
    assert np.array([ours.moved_m[name] for name in "BCD"]) == pytest.approx(np.array(moved), rel=1e-7, abs=1e-10)
    for n, one in enumerate(ours.spans):
        found = -theirs.members[f"span {n}"].moment("Mz", 0.0, "Combo 1")
        assert one.up[0, 2] == pytest.approx(found, abs=1e-6)


@pytest.mark.parametrize("second_order", [False, True])
def test_forces_balance(second_order):
    """And moments, but for the thrust times the deflection between the ends of each span."""
    frame, load = random_frame(3)
    solved = solve_frame(frame, load, second_order=second_order)
    at = dict(zip(frame.index, frame.place_m, strict=True))
    force, moment = np.array(POINT), np.cross(at["D"], POINT)
    for one, both in zip(frame.spans, load.beams["spar"], strict=True):
        for axis, patches in zip(one.axes[1:], both, strict=True):
            for patch in patches:
                push = patch.load_n_per_m * (patch.end_m - patch.start_m) * axis
                middle = at[one.beam.nodes[one.number]] + 0.5 * (patch.start_m + patch.end_m) * one.axes[0]
                force, moment = force + push, moment + np.cross(middle, push)
    for name, reaction in solved.reactions_n.items():
        force, moment = force + reaction, moment + np.cross(at[name], reaction)
    lever = sum(
        np.cross((plane[-1, 0] - plane[0, 0]) * axis, -forces.thrust_n * one.axes[0])
        for one, forces in zip(frame.spans, solved.spans, strict=True)
        for plane, axis in zip((forces.up, forces.side), one.axes[1:], strict=True)
    )
    assert force == pytest.approx(np.zeros(3), abs=1e-8)
    assert np.linalg.norm(lever) > 0.1
    assert moment == pytest.approx(-lever if second_order else np.zeros(3), abs=1e-7)


def test_reciprocity():
    """Betti and Maxwell: C moves under a force on D as D does under the same force on C."""
    frame, _ = random_frame(2)
    moved = {}
    for at, seen in (("C", "D"), ("D", "C")):
        solved = solve_frame(frame, FrameLoad(at_nodes_n={at: (0.0, 0.0, 100.0)}), second_order=False)
        moved[at] = solved.moved_m[seen][2]
    assert moved["C"] == pytest.approx(moved["D"], rel=1e-9)
    assert moved["C"] != 0.0


def test_a_mirror_image_has_the_same_forces():
    frame, load = random_frame(5, wires=True)
    nodes = tuple(replace(node, place_m=(node.place_m[0], -node.place_m[1], node.place_m[2])) for node in frame.nodes)
    mirrored = [(up, tuple(replace(p, load_n_per_m=-p.load_n_per_m) for p in side)) for up, side in load.beams["spar"]]
    other = FrameLoad(at_nodes_n={"D": (POINT[0], -POINT[1], POINT[2])}, beams={"spar": mirrored})
    solved, found = solve_frame(frame, load), solve_frame(Frame(nodes, frame.bars, frame.beams), other)
    for name, force in solved.bars_n.items():
        assert found.bars_n[name] == pytest.approx(force, abs=1e-7)


def braced_cantilever(*, tension=0.0):
    """A spar hinged at its root, held at its middle from above and below by wires, and sideways by a bar."""
    nodes = (
        FrameNode("root", (0.0, 0.0, 0.0), held=True),
        FrameNode("strut", (0.0, 2.0, 0.0)),
        FrameNode("tip", (0.0, 3.0, 0.0)),
        FrameNode("over", (0.0, 0.0, 1.5), held=True),
        FrameNode("under", (0.0, 0.0, -1.5), held=True),
        FrameNode("ahead", (-1.0, 2.0, 0.0), held=True),
    )
    bars = (
        Bar("landing", "strut", "over", 2e6, wire=True, tension_n=tension),
        Bar("flying", "strut", "under", 2e6, wire=True, tension_n=tension),
        Bar("sideways", "strut", "ahead", 2e6),
    )
    return Frame(nodes, bars, (Beam("spar", ("root", "strut", "tip"), (0.0, 0.0, 1.0), 1e7, 9000.0, 4000.0),))


UP = FrameLoad(beams={"spar": [((Patch(0.0, 2.0, 800.0),), ()), ((Patch(0.0, 1.0, 800.0),), ())]})


def test_a_determinate_truss_by_hand():
    """Lift of 2400 N at 1.5 m about the root: 1800 N at the strut, wire at 3-4-5, thrust 2400 N."""
    solved = solve_frame(braced_cantilever(), UP, second_order=False)
    assert solved.bars_n["flying"] == pytest.approx(1800.0 * 2.5 / 1.5, rel=1e-9)
    assert solved.bars_n["landing"] == 0.0
    assert solved.spans[0].thrust_n == pytest.approx(2400.0, rel=1e-9)
    assert solved.spans[1].thrust_n == pytest.approx(0.0, abs=1e-6)
    assert solved.spans[1].up[0, 2] == pytest.approx(400.0, rel=1e-9)
    assert solved.spans[0].up[-1, 2] == pytest.approx(400.0, rel=1e-9)


def test_rigging_tension_keeps_both_wires_taut_and_shares_the_load():
    solved = solve_frame(braced_cantilever(tension=4000.0), UP, second_order=False)
    assert solved.bars_n["landing"] > 0.0
    difference = solved.bars_n["flying"] - solved.bars_n["landing"]
    assert difference * 1.5 / 2.5 == pytest.approx(1800.0, rel=1e-9)


def test_a_pin_below_the_spar_relieves_its_bending_by_hand():
    """0.1 m below: 3600 N m about the root over a lever of 3/2.44 m; the thrust of 2400 N turns the spar by .1 m."""
    whole = braced_cantilever()
    flying = replace(whole.bars[1], end_pin_m=None, start_pin_m=(0.0, 2.0, -0.1))
    solved = solve_frame(Frame(whole.nodes, (flying, *whole.bars[2:]), whole.beams), UP, second_order=False)
    long = (2.0**2 + 1.4**2) ** 0.5
    assert whole.bar_length_m(flying) == pytest.approx(long)
    assert solved.bars_n["flying"] == pytest.approx(3600.0 * long / 3.0, rel=1e-9)
    assert solved.spans[0].thrust_n == pytest.approx(2400.0, rel=1e-9)
    assert solved.spans[1].up[0, 2] == pytest.approx(400.0, rel=1e-9)
    assert solved.spans[0].up[-1, 2] == pytest.approx(400.0 - 240.0, rel=1e-9)


def test_a_frame_without_its_wires_is_a_mechanism_that_is_named():
    whole = braced_cantilever()
    with pytest.raises(NoAnswerError) as caught:
        solve_frame(Frame(whole.nodes, whole.bars[2:], whole.beams), UP)
    assert caught.value.beams == ("spar",)
    assert str(caught.value) == (
        "the truss is a mechanism: tip can move up and down without stretching or bending anything; add a member"
    )


def test_wires_on_the_wrong_side_alone_are_a_mechanism():
    whole = braced_cantilever()
    with pytest.raises(NoAnswerError, match="the truss is a mechanism: tip can move"):
        solve_frame(Frame(whole.nodes, (whole.bars[0], whole.bars[2]), whole.beams), UP)


def test_a_member_removed_leaves_its_load_to_the_others():
    whole = braced_cantilever(tension=4000.0)
    solved = solve_frame(Frame(whole.nodes, whole.bars[1:], whole.beams), UP, second_order=False)
    assert solved.bars_n["flying"] == pytest.approx(3000.0, rel=1e-9)


def test_thrust_near_eulers_load_bends_more_and_beyond_it_buckles():
    """A hinged strut of one span, pushed at its free end: π² E I/L² of the weaker plane."""
    nodes = (
        FrameNode("foot", (0.0, 0.0, 0.0), held=True),
        FrameNode("head", (0.0, 2.0, 0.0)),
        FrameNode("ahead", (-1.0, 2.0, 0.0), held=True),
        FrameNode("under", (0.0, 2.0, -1.0), held=True),
    )
    bars = (Bar("x", "head", "ahead", 1e9), Bar("z", "head", "under", 1e9))
    frame = Frame(nodes, bars, (Beam("strut", ("foot", "head"), (0.0, 0.0, 1.0), 1e9, 9000.0, 4000.0),))
    euler = pi**2 * 4000.0 / 4.0

    def bent(share):
        load = FrameLoad(
            at_nodes_n={"head": (0.0, -share * euler, 0.0)}, beams={"strut": [((), (Patch(0.0, 2.0, 1.0),))]}
        )
        return np.abs(solve_frame(frame, load).spans[0].side[:, 0]).max()

    assert bent(0.9) / bent(0.0) == pytest.approx(10.0, rel=0.01)
    with pytest.raises(BucklingError) as caught:
        bent(1.01)
    assert str(caught.value) == (
        "strut buckles or sways fore and aft under its thrust; brace it, make it stiffer, or its spans shorter"
    )


def moment_over_the_middle(thrusts):
    """Return the moments over the middle and the outer support; the thrusts are pushes on the nodes."""
    nodes = (
        FrameNode("root", (0.0, 0.0, 0.0), held=True),
        FrameNode("middle", (0.0, 80.0, 0.0)),
        FrameNode("outer", (0.0, 150.0, 0.0)),
        FrameNode("tip", (0.0, 180.0, 0.0)),
        *(FrameNode(f"under {name}", (0.0, y, -10.0), held=True) for name, y in (("middle", 80.0), ("outer", 150.0))),
        *(FrameNode(f"ahead {name}", (-10.0, y, 0.0), held=True) for name, y in (("middle", 80.0), ("outer", 150.0))),
    )
    bars = tuple(
        Bar(f"{way} {name}", name, f"{way} {name}", 1e12) for way in ("under", "ahead") for name in ("middle", "outer")
    )
    beam = Beam("spar", ("root", "middle", "outer", "tip"), (0.0, 0.0, 1.0), 1e10, 1.28e7, 1.28e7)
    loads = [((Patch(0.0, long, 12.0),), ()) for long in (80.0, 70.0, 30.0)]
    pushes = {"middle": (0.0, thrusts[1] - thrusts[0], 0.0), "outer": (0.0, -thrusts[1], 0.0)}
    solved = solve_frame(Frame(nodes, bars, (beam,)), FrameLoad(at_nodes_n=pushes, beams={"spar": loads}))
    return solved.spans[1].up[0, 2], solved.spans[2].up[0, 2]


@pytest.mark.parametrize("thrusts", [(0.0, 0.0), (2500.0, 5000.0), (5000.0, 2500.0)])
def test_a_spar_of_two_bays_with_an_overhang(thrusts):
    """The equation of three moments with Berry's functions; pounds and inches, supports a million times as stiff."""

    def berry(angle):
        if angle == 0.0:
            return 1.0, 1.0, 1.0
        u = 0.5 * angle
        phi = 3.0 / u * (1.0 / sin(angle) - 1.0 / angle)
        return phi, 1.5 / u * (1.0 / angle - 1.0 / tan(angle)), 3.0 * (tan(u) - u) / u**3

    lengths, load, overhang = (80.0, 70.0), 12.0, 12.0 * 30.0**2 / 2.0
    (_, psi, chi), (phi, other_psi, other_chi) = (
        berry(long * sqrt(thrust / 1.28e7)) for long, thrust in zip(lengths, thrusts, strict=True)
    )
    right = load / 4.0 * (lengths[0] ** 3 * chi + lengths[1] ** 3 * other_chi) - overhang * lengths[1] * phi
    expected = right / (2.0 * (lengths[0] * psi + lengths[1] * other_psi))
    middle, outer = moment_over_the_middle(thrusts)
    assert outer == pytest.approx(overhang, rel=1e-9)
    assert middle == pytest.approx(expected, rel=2e-5)
