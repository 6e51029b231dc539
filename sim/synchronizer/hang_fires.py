"""What an exponential delay of some rounds does to a distribution on the circle of a cam."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.phases import Phases, cut, gauss, lagrange

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

NODES = 16
"""Gauss points of a piece; with pieces of at most `LONGEST` mean delays they hold an exponential to 1e-13."""
LONGEST = 4.0


def delayed(held: Phases, share: float, mean: float) -> Phases:
    """Return the distribution after a share of the rounds was delayed by an exponential time.

    Parameters
    ----------
    held : Phases
        With `NODES` nodes.
    share, mean : float
        Share that is delayed, and the mean of the delay in steps, above 0.

    Notes
    -----
    The delayed density g solves mean · g′ = f − g on the circle: on each piece by integration over its polynomial, at
    each single phase with a step of its share over `mean`, and round the circle as a geometric series.
    """
    whole = _tiled(held, LONGEST * mean)
    length = (whole.high - whole.low) / mean
    inside, past = _within(length, whole.density)
    step = np.zeros(length.size)
    np.add.at(step, np.searchsorted(whole.low, whole.points + 1e-12, side="right") - 1, whole.masses / mean)
    kept = np.exp(-length)
    first = _first(kept, past, step)
    starts = np.empty(length.size)
    value = first
    for piece in range(length.size):
        starts[piece] = value = value + step[piece]
        value = value * kept[piece] + past[piece]
    late = starts[:, None] * np.exp(-length[:, None] * gauss(NODES)[0]) + inside
    return replace(whole, masses=(1.0 - share) * whole.masses, density=(1.0 - share) * whole.density + share * late)


def _first(kept: Floats, past: Floats, step: Floats) -> float:
    """Return the density just before phase 0 that comes back as itself after one turn."""
    value = 0.0
    for keeps, adds, steps in zip(kept.tolist(), past.tolist(), step.tolist(), strict=True):
        value = (value + steps) * keeps + adds
    return float(value / -np.expm1(np.log(kept).sum()))


def _tiled(held: Phases, longest: float) -> Phases:
    """Return the distribution with pieces all round the circle, none longer than `longest` or across a point."""
    edges = np.concatenate([held.low, held.high, held.points, [0.0, 1.0], np.arange(0.0, 1.0, min(longest, 1.0))])
    parts = cut(held, edges)
    edges = np.unique(edges)
    edges = edges[np.concatenate([[True], np.diff(edges) > 1e-12])]
    edges[-1] = 1.0
    low, high = edges[:-1], edges[1:]
    density = np.zeros((low.size, NODES))
    if parts.low.size:
        piece = np.clip(np.searchsorted(parts.low, 0.5 * (low + high), side="right") - 1, 0, None)
        inside = 0.5 * (low + high) < parts.high[piece]
        density[inside] = parts.density[piece[inside]]
    return Phases(held.points, held.masses, low, high, density)


def _within(length: Floats, density: Floats) -> tuple[Floats, Floats]:
    """Return the delayed density that the rounds of each piece alone leave at its nodes, and at its end."""
    places, weights = gauss(NODES)
    ends = np.append(places, 1.0)
    values = np.einsum("ekn,pn->pek", _inner(), density)
    fading = np.exp(-length[:, None, None] * (ends[:, None] * (1.0 - places)))
    found = length[:, None] * ends * np.einsum("pek,pek,k->pe", values, fading, weights)
    return found[:, :-1], found[:, -1]


@cache
def _inner() -> Floats:
    """Return the weights of a piece's values for those at the Gauss points of [0, end], for each end."""
    places = gauss(NODES)[0]
    ends = np.append(places, 1.0)
    inner = (ends[:, None] * places).ravel()
    return lagrange(NODES, inner).reshape(NODES + 1, NODES, NODES)
