"""A one-bay biplane truss, worked by hand.

Gap 5 ft, bay 7 ft, panel 10 ft with an overhang of 3 ft, 60 lb/ft on the upper and 50 lb/ft on the lower spar, pinned,
the landing wire slack; the bay of the upper spar again under its thrust, 5 lb/in, E I 9.6e6 lb in². Mark: X.
"""

import numpy as np

from sim.structures.beam_column import Patch
from sim.structures.frame import Bar, Beam, Frame, FrameLoad, FrameNode
from sim.structures.frame_solution import solve_frame


def truss(*, bending=9.6e6, second_order=False, stagger=0.0):
    """Return the forces in pounds and inches: stagger puts the upper spar ahead, held fore and aft by bars."""
    gap, bay, panel = 60.0, 84.0, 120.0
    nodes, bars, beams, loads = [], [], [], {}
    for plane, up, ahead, load in (("upper", gap, -stagger, 5.0), ("lower", 0.0, 0.0, 50.0 / 12.0)):
        nodes += [
            FrameNode(f"{plane} root", (ahead, 0.0, up), held=True),
            FrameNode(f"{plane} strut", (ahead, bay, up)),
            FrameNode(f"{plane} tip", (ahead, panel, up)),
            FrameNode(f"{plane} ahead", (ahead - 20.0, bay, up), held=True),
        ]
        bars.append(Bar(f"{plane} drag", f"{plane} strut", f"{plane} ahead", 1e9))
        names = tuple(f"{plane} {place}" for place in ("root", "strut", "tip"))
        beams.append(Beam(plane, names, (0.0, 0.0, 1.0), 1e9, bending, bending))
        loads[plane] = [((Patch(0.0, bay, load),), ()), ((Patch(0.0, panel - bay, load),), ())]
    bars += [
        Bar("strut", "lower strut", "upper strut", 1e9),
        Bar("flying", "lower root", "upper strut", 1e9, wire=True),
        Bar("landing", "upper root", "lower strut", 1e9, wire=True),
    ]
    frame = Frame(tuple(nodes), tuple(bars), tuple(beams))
    return solve_frame(frame, FrameLoad(beams=loads), second_order=second_order, pieces=8400)


def test_forces_of_the_truss(printed):
    solved = truss()
    spans = {(one.beam, one.number): one for one in solved.spans}
    printed(solved.bars_n["flying"], "1351.8", "lb", row="flying wire")
    printed(-solved.bars_n["strut"], "357.1", "lb", row="interplane strut")
    printed(spans["upper", 0].thrust_n, "1100", "lb", row="thrust of the upper spar", within=0.5, why="a whole number")
    printed(spans["lower", 0].thrust_n, "0", "lb", row="thrust of the lower spar", within=1e-4, why="zero")
    printed(solved.bars_n["landing"], "0", "lb", row="landing wire", within=1e-9, why="slack")
    printed(-solved.reactions_n["upper root"][2], "171.4", "lb", row="upper root, up")


def test_forces_of_the_truss_with_stagger(printed):
    solved = truss(stagger=18.0)
    spans = {(one.beam, one.number): one for one in solved.spans}
    printed(solved.bars_n["flying"], "1372.2", "lb", row="staggered: flying wire")
    printed(-solved.bars_n["strut"], "372.9", "lb", row="staggered: interplane strut")
    printed(spans["upper", 0].thrust_n, "1100", "lb", row="staggered: thrust", within=0.5, why="a whole number")
    printed(abs(solved.bars_n["upper drag"]), "128.6", "lb", row="staggered: upper drag truss at the strut")
    printed(abs(solved.bars_n["lower drag"]), "107.1", "lb", row="staggered: lower drag truss at the strut")


def test_bending_of_the_upper_spar(printed):
    for second_order, most, place in ((True, "3165", "49.4"), (False, "2939", "49.7")):
        solved = truss(second_order=second_order)
        (inner,) = (one for one in solved.spans if (one.beam, one.number) == ("upper", 0))
        words = "with its thrust" if second_order else "without thrust"
        at = int(np.argmin(inner.up[:, 2]))
        printed(inner.up[-1, 2], "3240", "lb in", row=f"moment at the strut, {words}", within=0.5, why="a whole number")
        printed(
            -inner.up[at, 2],
            most,
            "lb in",
            row=f"greatest moment in the bay, {words}",
            within=8.0,
            why="the strut gives",
        )
        printed(
            84.0 - inner.places_m[at],
            place,
            "in",
            row=f"its place from the strut, {words}",
            within=0.15,
            why="likewise",
        )
