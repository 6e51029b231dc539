"""Wires that go slack: least energy by a general minimiser, and no heed to their order."""

import numpy as np
import pytest
from random_frames import POINT, random_frame
from scipy.optimize import minimize

from sim.structures.beam_column import span
from sim.structures.frame import Frame, FrameLoad
from sim.structures.frame_solution import solve_frame


def energy_minimum(frame):
    """Return the tensions at least energy under POINT alone, by a general minimiser; the beam made of cubic spans."""
    free, spring = frame.free, frame.bar_stiffness_n_per_m
    stretch, start = frame.stretch[:, free], np.array([bar.tension_n for bar in frame.bars])
    beams = np.zeros((len(free), len(free)))
    for one in frame.spans:
        axial = one.axial[free]
        beams += one.beam.axial_n / one.length_m * np.outer(axial, axial)
        for ends, bending in zip(one.ends[:, :, free], one.bending_n_m2, strict=True):
            beams += ends.T @ span(one.length_m, bending, 0.0).stiffness @ ends
    push = np.zeros(frame.unknowns)
    push[3 * frame.index["D"] : 3 * frame.index["D"] + 3] = POINT
    push = push[free]
    scale = 1.0 / np.sqrt(np.diag(beams + (stretch.T * spring) @ stretch))

    def energy(y):
        x = scale * y
        taut = np.maximum(start + spring * (stretch @ x), 0.0)
        return 0.5 * x @ beams @ x - push @ x + 0.5 * (taut**2 / spring).sum()

    def slope(y):
        x = scale * y
        taut = np.maximum(start + spring * (stretch @ x), 0.0)
        return scale * (0.5 * (beams + beams.T) @ x - push + stretch.T @ taut)

    options = {"maxiter": 50000, "maxfun": 200000, "ftol": 0.0, "gtol": 1e-10}
    best = minimize(energy, np.zeros(len(free)), jac=slope, method="L-BFGS-B", options=options)
    return np.maximum(start + spring * (stretch @ (scale * best.x)), 0.0)


@pytest.mark.parametrize("seed", [1, 4, 6, 8])
def test_slack_wires_are_those_of_least_energy(seed):
    frame, _ = random_frame(seed, wires=True)
    solved = solve_frame(frame, FrameLoad(at_nodes_n={"D": POINT}), second_order=False)
    tensions = np.array(list(solved.bars_n.values()))
    assert tensions == pytest.approx(energy_minimum(frame), abs=1e-3 * tensions.max())
    assert tensions.min() == 0.0 < tensions.max()


def test_the_order_of_the_wires_does_not_matter():
    frame, load = random_frame(1, wires=True)
    turned = Frame(frame.nodes, tuple(reversed(frame.bars)), frame.beams)
    one, other = (solve_frame(some, load).bars_n for some in (frame, turned))
    assert all(other[name] == pytest.approx(force, abs=1e-7) for name, force in one.items())
