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

RIB_M: Final = 0.75
"""Between two ribs. [m]"""
TAPE_M: Final = 0.06
TIP: Final = ((0.7, 0.97), (0.42, 0.95), (0.2, 0.9), (0.07, 0.75), (0.0, 0.35))
"""Distance from the tip over the chord, where depth shrinks to this share."""
TIP_CHORD: Final = 0.42
ROUND: Final = (0.42, 0.30)
"""How far leading and trailing edge draw in at the tip, over the chord."""
BAND: Final = 0.70, 0.86
"""A bay with its middle within these shares of the semi-span is painted: marking of no service."""


def wing(builder: Builder, figure: Figure, one: WingFigure, number: int, *, ribs: bool = True) -> None:
    """Add both halves of a plane, with its ribs or plain."""
    outs, depths, roles = _stations(figure, one, ribbed=ribs)
    section = np.array(figure.section)
    section[[0, -1], 1:] = section[[0, -1], 1:].mean(axis=1, keepdims=True)  # closed: an edge that is seen, not two
    hinged = np.interp(1.0 - figure.aileron_chord_share, section[:, 0], np.arange(len(section)))
    section = np.insert(section, int(np.ceil(hinged)), _at(section, 1.0 - figure.aileron_chord_share), axis=0)
    section = section[np.diff(section[:, 0], prepend=-1.0) > 1e-6]
    hinge = int(np.flatnonzero(np.abs(section[:, 0] - 1.0 + figure.aileron_chord_share) < 1e-9)[0])
    middles = 0.5 * (outs[:-1] + outs[1:]) / one.tip[1]
    moving = one.aileron & (middles > figure.aileron_from) & (middles < figure.aileron_to)
    for side in (-1.0, 1.0):
        upper, lower = (_surface(one, outs, depths, section[:, [0, column]], side=side) for column in (1, 2))
        core = 0.5 * (upper + lower)
        core = 0.25 * (core[:-1, :-1] + core[1:, :-1] + core[:-1, 1:] + core[1:, 1:])
        name = f"aileron{number}{'l' if side < 0.0 else 'r'}"
        root, tip = (0.5 * (upper + lower)[place, hinge] for place in (0, -2))
        builder.hinge(name, root, side * (tip - root))
        for surface in (upper, lower):
            builder.skin(surface[:, : hinge + 1], roles, within=core[:, :hinge])
            for start, end, moves in _runs(moving):
                rows, inside = surface[start : end + 1, hinge:], core[start:end, hinge:]
                builder.skin(rows, roles[start:end], within=inside, hinge=name if moves else "")


def _at(section: Numbers, share: float) -> list[float]:
    return [share, *(float(np.interp(share, section[:, 0], section[:, column])) for column in (1, 2))]


def _runs(moving: NDArray[np.bool_]) -> list[tuple[int, int, bool]]:
    """Return stretches of rows that move or do not, as first, last and whether."""
    cuts = [0, *(np.flatnonzero(moving[1:] != moving[:-1]) + 1).tolist(), len(moving)]
    return [(start, end, bool(moving[start])) for start, end in pairwise(cuts)]


def _stations(figure: Figure, one: WingFigure, *, ribbed: bool) -> tuple[Numbers, Numbers, list[str]]:
    """Return distances out of every row, depth of the section there, and the colour of what follows each."""
    half, chord = one.tip[1], one.tip_chord
    inner = _root(figure, one)
    ribs = np.linspace(inner, half - TIP_CHORD * chord, max(2, round((half - inner) / RIB_M)) if ribbed else 2)
    found: list[tuple[float, float]] = []
    for rib in ribs.tolist():
        found += [(rib, 1.0), (rib + TAPE_M, 1.0)] if ribbed else [(rib, 1.0)]
    for share, depth in TIP if ribbed else TIP[::2]:
        out = half - share * chord
        if out > found[-1][0] + 0.01:
            found.append((out, depth))
    edges = [figure.aileron_from * half, figure.aileron_to * half] if one.aileron else []
    known = np.array(found).T
    found += [(edge, float(np.interp(edge, *known))) for edge in edges if np.abs(known[0] - edge).min() > 0.02]
    found.sort()
    outs, depths = np.array(found).T
    shares = (0.5 * (outs[:-1] + outs[1:]) / half).tolist()
    return outs, depths, [_role(figure, share, out, ribs) for share, out in zip(shares, outs.tolist(), strict=False)]


def _root(figure: Figure, one: WingFigure) -> float:
    """Return where the plane begins: at the side of the body that it meets, else in the middle."""
    body = figure.body
    return 0.45 * body.width_m if body.top_m + 0.05 < one.root[2] < body.bottom_m + 0.1 else 0.0


def _role(figure: Figure, share: float, out: float, ribs: Numbers) -> str:
    if BAND[0] < share < BAND[1]:
        return "marking"
    return "tape" if np.abs(ribs - out).min() < 1e-6 and len(figure.section) else "linen"


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
