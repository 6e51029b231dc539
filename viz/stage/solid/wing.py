"""Planes of the wing: section, ribs under their tapes, rounded tips, ailerons on hinges."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure, WingFigure
    from viz.stage.solid.solid import Builder

    Numbers = NDArray[np.float64]

RIB_M: Final = 0.9
"""Between two ribs. [m]"""
TIP: Final = ((0.7, 0.97), (0.42, 0.95), (0.2, 0.9), (0.07, 0.75), (0.0, 0.35))
"""Distance from the tip over the chord, where depth shrinks to this share."""
TIP_CHORD: Final = 0.42
ROUND: Final = (0.42, 0.30)
"""How far leading and trailing edge draw in at the tip, over the chord."""
BAND: Final = 0.70, 0.86
"""A bay with its middle within these shares of the semi-span is painted: marking of no service."""


def wing(builder: Builder, figure: Figure, one: WingFigure, number: int) -> None:
    """Add both halves of a plane, with tapes over its ribs, ailerons on hinges."""
    outs, depths, taped = _stations(figure, one)
    middles = 0.5 * (outs[:-1] + outs[1:]) / one.tip[1]
    roles = ["marking" if BAND[0] < share < BAND[1] else "linen" for share in middles.tolist()]
    section = _closed(figure)
    hinged = np.interp(1.0 - figure.aileron_chord_share, section[:, 0], np.arange(len(section)))
    section = np.insert(section, int(np.ceil(hinged)), _at(section, 1.0 - figure.aileron_chord_share), axis=0)
    section = section[np.diff(section[:, 0], prepend=-1.0) > 1e-6]
    hinge = int(np.flatnonzero(np.abs(section[:, 0] - 1.0 + figure.aileron_chord_share) < 1e-9)[0])
    moving = one.aileron & (middles > figure.aileron_from) & (middles < figure.aileron_to)
    for side in (-1.0, 1.0):
        upper, lower, core = _shell(one, outs, depths, section, side=side)
        name = f"aileron{number}{'l' if side < 0.0 else 'r'}"
        root, tip = (0.5 * (upper + lower)[place, hinge] for place in (0, -2))
        builder.hinge(name, root, side * (tip - root))
        for surface in (upper, lower):
            builder.skin(surface[:, : hinge + 1], roles, within=core[:, :hinge], taped=taped)
            for start, end, moves in _runs(moving):
                builder.skin(
                    surface[start : end + 1, hinge:],
                    roles[start:end],
                    within=core[start:end, hinge:],
                    hinge=name if moves else "",
                    taped=taped[start : end + 1],
                )


def plain_wing(builder: Builder, figure: Figure, one: WingFigure) -> None:
    """Add both halves of a plane as a shape of which the outline alone is seen."""
    section = _closed(figure)[[0, len(figure.section) // 2, -1]]
    shares, depths = np.array([(TIP_CHORD, 1.0), *TIP[2::2]]).T
    outs = np.append(_root(figure, one), one.tip[1] - shares * one.tip_chord)
    for side in (-1.0, 1.0):
        upper, lower, core = _shell(one, outs, np.append(1.0, depths), section, side=side)
        for surface in (upper, lower):
            builder.skin(surface, "linen", within=core)


def _shell(
    one: WingFigure, outs: Numbers, depths: Numbers, section: Numbers, *, side: float
) -> tuple[Numbers, Numbers, Numbers]:
    """Return upper and lower surface of a half, and a place between both within each of their faces [m]."""
    upper, lower = (_surface(one, outs, depths, section[:, [0, column]], side=side) for column in (1, 2))
    core = 0.5 * (upper + lower)
    return upper, lower, 0.25 * (core[:-1, :-1] + core[1:, :-1] + core[:-1, 1:] + core[1:, 1:])


def _closed(figure: Figure) -> Numbers:
    """Return the section, its leading and trailing edge closed: an edge that is seen, not two."""
    section = np.array(figure.section)
    section[[0, -1], 1:] = section[[0, -1], 1:].mean(axis=1, keepdims=True)
    return section


def _at(section: Numbers, share: float) -> list[float]:
    return [share, *(float(np.interp(share, section[:, 0], section[:, column])) for column in (1, 2))]


def _runs(moving: NDArray[np.bool_]) -> list[tuple[int, int, bool]]:
    """Return stretches of rows that move or do not, as first, last and whether."""
    cuts = [0, *(np.flatnonzero(moving[1:] != moving[:-1]) + 1).tolist(), len(moving)]
    return [(start, end, bool(moving[start])) for start, end in pairwise(cuts)]


def _stations(figure: Figure, one: WingFigure) -> tuple[Numbers, Numbers, NDArray[np.bool_]]:
    """Return distances out of every row, depth of the section there, and which rows are ribs under a tape."""
    half, chord = one.tip[1], one.tip_chord
    inner = _root(figure, one)
    ribs = np.linspace(inner, half - TIP_CHORD * chord, max(2, round((half - inner) / RIB_M)))
    found = [(rib, 1.0) for rib in ribs.tolist()]
    for share, depth in TIP:
        out = half - share * chord
        if out > found[-1][0] + 0.01:
            found.append((out, depth))
    edges = [figure.aileron_from * half, figure.aileron_to * half] if one.aileron else []
    known = np.array(found).T
    found += [(edge, float(np.interp(edge, *known))) for edge in edges if np.abs(known[0] - edge).min() > 0.02]
    outs, depths = np.array(sorted(found)).T
    return outs, depths, np.abs(outs[:, None] - ribs).min(axis=1) < 1e-6


def _root(figure: Figure, one: WingFigure) -> float:
    """Return where the plane begins: at the side of the body that it meets, else in the middle."""
    body = figure.body
    return 0.45 * body.width_m if body.top_m + 0.05 < one.root[2] < body.bottom_m + 0.1 else 0.0


def _surface(one: WingFigure, outs: Numbers, depths: Numbers, line: Numbers, *, side: float) -> Numbers:
    """Return a surface of the section's line, a row each distance out, shape (n, m, 3) [m]."""
    half, share = one.tip[1], (outs / one.tip[1])[:, None]
    chord = one.root_chord + share * (one.tip_chord - one.root_chord)
    lead = np.array(one.root) + share * (np.array(one.tip) - np.array(one.root))
    reach = TIP_CHORD * one.tip_chord
    drawn = 1.0 - np.sqrt(np.clip(1.0 - np.clip((outs - (half - reach)) / reach, 0.0, 0.9999) ** 2, 0.0, 1.0))[:, None]
    front, back = ROUND[0] * drawn, 1.0 - ROUND[1] * drawn
    along = front + (back - front) * line[:, 0]
    heights = line[:, 1] * np.where(line[:, 1] > 0.0, depths[:, None], 1.0) * (back - front)
    cosine, sine = np.cos(one.incidence_rad), np.sin(one.incidence_rad)
    x = lead[:, :1] - chord * (along * cosine + heights * sine)
    z = lead[:, 2:] + chord * (along * sine - heights * cosine)
    return np.stack([x, np.broadcast_to(side * outs[:, None], x.shape), z], axis=-1)
