"""Induced drag of several planes over one another, and the monoplane that has the same.

Prandtl's interference factor and Munk's equivalent span.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.wing import Wing

STEPS = 256
"""Points of the midpoint rule on the interference integral: periodic, so 1e-9 for any gap over a hundredth of span."""


def equivalent_aspect_ratio(wing: Wing) -> float:
    """Return the aspect ratio of the equivalent monoplane, (k b)² / S, each plane lifting in proportion to its area.

    Parameters
    ----------
    wing : Wing
        With spans, areas and heights of its planes.
    """
    area = wing.area_m2
    equal = equivalent_span(
        [plane.span_m for plane in wing.planes],
        [plane.height_m for plane in wing.planes],
        [plane.area_m2 / area for plane in wing.planes],
    )
    return equal * equal / area


def interference(span_1_m: float, span_2_m: float, gap_m: float) -> float:
    """Return Prandtl's σ: how much of its own induced drag one elliptically loaded plane puts on another.

    Parameters
    ----------
    span_1_m, span_2_m : float
        Spans, greater than 0. [m]
    gap_m : float
        Height of one over the other, any sign. [m]

    Notes
    -----
    Exact for elliptic loading, any spans and gap: with semi-spans s, t the far-wake integral of
    J1(s x) J1(t x) e^(−gap x) / x is brought by Neumann's addition theorem to one smooth integral over an angle.
    Stagger does not enter (Munk's stagger theorem).

    References
    ----------
    Prandtl, NACA TR 116, 1921, section on multiplanes; its table for equal spans .655, .561, .485, .420 at
    gap/span .10, .15, .20, .25, drawn from curves, is met within .0025.

    Examples
    --------
    >>> round(interference(10.0, 10.0, 1.5), 2)
    0.56
    """
    gap = abs(gap_m) / (0.5 * math.sqrt(span_1_m * span_2_m))
    ratio = math.sqrt(span_1_m / span_2_m)
    total = 0.0
    for step in range(STEPS):
        angle = math.pi * (step + 0.5) / STEPS
        apart = ratio * ratio + 1.0 / (ratio * ratio) - 2.0 * math.cos(angle)
        total += math.cos(angle) * math.log(gap + math.sqrt(gap * gap + apart))
    return -2.0 * total / STEPS


def equivalent_span(span_m: Sequence[float], height_m: Sequence[float], lift_share: Sequence[float]) -> float:
    """Return the span of the monoplane that has the same induced drag at the same lift: Munk's k times span.

    Parameters
    ----------
    span_m, height_m : sequence of float
        Span and height of each plane. [m]
    lift_share : sequence of float
        Share of the lift that each carries; they add up to 1.

    References
    ----------
    Munk, NACA TR 151, 1922; Prandtl, NACA TR 116, 1921.

    Examples
    --------
    >>> round(equivalent_span([1.0, 1.0], [0.0, 0.2], [0.5, 0.5]), 2)
    1.16
    """
    total = 0.0
    for b1, h1, share1 in zip(span_m, height_m, lift_share, strict=True):
        for b2, h2, share2 in zip(span_m, height_m, lift_share, strict=True):
            factor = interference(b1, b2, h1 - h2) if h1 != h2 or b1 != b2 else 1.0
            total += factor * share1 * share2 / (b1 * b2)
    return 1.0 / math.sqrt(total)
