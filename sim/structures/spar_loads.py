"""Loads of the strips of a wing on its spars: lift by its chordwise centre, drag, and the weight of the wing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.structures.beam_column import Patch
from sim.structures.frame import FrameLoad

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.structures.frame import FrameSpan
    from sim.structures.wing_frame import WingFrame

    Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class StripLoads:
    """Loads of one plane, constant along each strip from the left tip to the right.

    Attributes
    ----------
    edges_m : array, shape (strips + 1,)
        Buttlines of the edges of the strips. [m]
    up_n_per_m, aft_n_per_m : array, shape (strips,)
        Force over width. [N/m]
    nose_up_n : array, shape (strips,)
        Moment over width about the quarter chord. [N]
    """

    edges_m: Numbers
    up_n_per_m: Numbers
    aft_n_per_m: Numbers
    nose_up_n: Numbers


@dataclass(frozen=True, slots=True)
class SparPlaces:
    """Where the spars of a plane and its quarter chord lie behind the leading edge. [m]."""

    front_m: float
    rear_m: float
    quarter_m: float


def on_spars(strips: StripLoads, at: SparPlaces) -> tuple[Numbers, Numbers]:
    """Return the load over width that front and rear spar take, shape (strips, 2) each: aft and up. [N/m].

    Parameters
    ----------
    strips : StripLoads
        Of a plane.
    at : SparPlaces
        Of it.

    Notes
    -----
    Up by the law of the lever with the moment, as ribs hinged on both spars would; aft half on each.
    """
    apart_m = at.rear_m - at.front_m
    front = (strips.nose_up_n + strips.up_n_per_m * (at.rear_m - at.quarter_m)) / apart_m
    aft = 0.5 * strips.aft_n_per_m
    return np.column_stack((aft, front)), np.column_stack((aft, strips.up_n_per_m - front))


def frame_load(
    wing: WingFrame, loads: Mapping[str, tuple[StripLoads, SparPlaces]], spars: tuple[str, str], factor: float = 1.0
) -> FrameLoad:
    """Return the load on the frame of a wing.

    Parameters
    ----------
    wing : WingFrame
        As built.
    loads : mapping
        Strips and spar places of each plane, by its name.
    spars : tuple of str
        Names of the front and the rear spar.
    factor : float
        On all loads: 1.5 for ultimate load.

    Notes
    -----
    What lies inboard of a root fitting bears on that fitting, and so on the fuselage. The part of a load along a spar
    goes to the two nodes of its span. The sum of all is that of the strips.
    """
    nodes: dict[str, Numbers] = {}
    beams: dict[str, list[tuple[list[Patch], list[Patch]]]] = {panel.name: [] for panel in wing.panels}
    panels = {panel.name: panel for panel in wing.panels}
    for span in wing.frame.spans:
        panel = panels[span.beam.name]
        strips, at = loads[panel.plane]
        forces = factor * on_spars(strips, at)[spars.index(panel.spar)]
        beams[span.beam.name].append(_on_span(wing, span, strips.edges_m, forces, nodes=nodes))
    for panel in wing.panels:
        spar = f"{panel.plane} {panel.spar} spar"
        if f"{spar}, centre" not in panels:
            strips, at = loads[panel.plane]
            forces = factor * on_spars(strips, at)[spars.index(panel.spar)]
            _inboard(wing, panel.nodes[0], strips.edges_m, forces, nodes=nodes)
    return FrameLoad(at_nodes_n={name: tuple(force.tolist()) for name, force in nodes.items()}, beams=beams)


def _on_span(
    wing: WingFrame, span: FrameSpan, edges_m: Numbers, forces: Numbers, *, nodes: dict[str, Numbers]
) -> tuple[list[Patch], list[Patch]]:
    names = span.beam.nodes[span.number], span.beam.nodes[span.number + 1]
    first_m, last_m = (float(wing.frame.place_m[wing.frame.index[name], 1]) for name in names)
    way, up, side = span.axes
    patches: tuple[list[Patch], list[Patch]] = ([], [])
    for low, high, force in zip(edges_m[:-1], edges_m[1:], forces, strict=True):
        ends = sorted(float(np.clip((y - first_m) / (last_m - first_m), 0.0, 1.0)) for y in (low, high))
        if ends[1] <= ends[0]:
            continue
        start_m, end_m = ends[0] * span.length_m, ends[1] * span.length_m
        vector = np.array([force[0], 0.0, force[1]]) * abs(way[1])
        for plane, across in zip(patches, (up, side), strict=True):
            plane.append(Patch(start_m, end_m, float(vector @ across)))
        along_n = float(vector @ way) * (end_m - start_m)
        for name, share in zip(names, (1.0 - 0.5 * sum(ends), 0.5 * sum(ends)), strict=True):
            nodes[name] = nodes.get(name, np.zeros(3)) + share * along_n * way
    return patches


def _inboard(wing: WingFrame, name: str, edges_m: Numbers, forces: Numbers, *, nodes: dict[str, Numbers]) -> None:
    """Add what a plane bears between the plane of symmetry and the innermost node of a side to that node."""
    end_m = float(wing.frame.place_m[wing.frame.index[name], 1])
    low, high = min(0.0, end_m), max(0.0, end_m)
    width = np.clip(np.minimum(edges_m[1:], high) - np.maximum(edges_m[:-1], low), 0.0, None)
    aft, up = width @ forces
    nodes[name] = nodes.get(name, np.zeros(3)) + np.array([aft, 0.0, up])
