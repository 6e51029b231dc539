"""A distribution on the circle of a cam: single phases that carry a share of the rounds, and pieces of smooth density.

Phases count in steps of the cam, from 0 up to 1. A gun whose cycle does not scatter moves such a distribution by a
rotation; what finds the cam shut is gathered on the next opening. Nothing is approximated in it but the density on a
piece, a polynomial through Gauss points, which without hang-fires is a constant and exact.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.timed_gun import INSTANT, READY

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

NARROW = 1e-13
"""A piece narrower than this is left out: it comes from rounding."""


@dataclass(frozen=True, slots=True)
class Phases:
    """Shares of all rounds by phase.

    Attributes
    ----------
    points, masses : numpy.ndarray
        Phases that carry a share by themselves, and that share, shape (N,).
    low, high : numpy.ndarray
        Ends of the pieces, ascending and apart, shape (P,).
    density : numpy.ndarray
        Density at the Gauss points of each piece, shape (P, nodes); one node is a constant.
    """

    points: Floats
    masses: Floats
    low: Floats
    high: Floats
    density: Floats

    @property
    def share(self) -> float:
        """Share of all rounds in it."""
        return float(self.masses.sum() + self.piece_shares.sum())

    @property
    def piece_shares(self) -> Floats:
        """Share of all rounds in each piece."""
        return np.asarray((self.high - self.low) * (self.density @ gauss(self.density.shape[1])[1]))

    def at(self, phase: Floats) -> Floats:
        """Return the density at phases, 0 between pieces."""
        if not self.low.size:
            return np.zeros_like(phase)
        piece = np.clip(np.searchsorted(self.low, phase, side="right") - 1, 0, None)
        inside = (phase >= self.low[piece]) & (phase < self.high[piece])
        place = (phase - self.low[piece]) / (self.high[piece] - self.low[piece])
        rows = lagrange(self.density.shape[1], place)
        return np.where(inside, np.einsum("pn,pn->p", rows, self.density[piece]), 0.0)


def even(nodes: int) -> Phases:
    """Return the even distribution over the whole circle."""
    none = np.zeros(0)
    return Phases(none, none, np.zeros(1), np.ones(1), np.ones((1, nodes)))


def single(phase: float, nodes: int) -> Phases:
    """Return all rounds at one phase."""
    return Phases(np.array([phase]), np.ones(1), np.zeros(0), np.zeros(0), np.zeros((0, nodes)))


@cache
def gauss(nodes: int) -> tuple[Floats, Floats]:
    """Return Gauss-Legendre points and weights on [0, 1]."""
    points, weights = np.polynomial.legendre.leggauss(nodes)
    return 0.5 + 0.5 * points, 0.5 * weights


def lagrange(nodes: int, place: Floats) -> Floats:
    """Return the weights of the values at Gauss points for the values at places in [0, 1], shape (places, nodes)."""
    legendre = np.polynomial.legendre.legvander
    return np.asarray(legendre(2.0 * place - 1.0, nodes - 1) @ _coefficients(nodes))


@cache
def _coefficients(nodes: int) -> Floats:
    """Return the matrix from values at Gauss points to Legendre coefficients."""
    points, weights = gauss(nodes)
    values = np.polynomial.legendre.legvander(2.0 * points - 1.0, nodes - 1)
    return np.asarray((2.0 * np.arange(nodes) + 1.0)[:, None] * (values * weights[:, None]).T)


def cut(held: Phases, at: Floats) -> Phases:
    """Return the same distribution, no piece of it reaching across one of the phases `at`."""
    if not held.low.size:
        return held
    edges = np.unique(np.concatenate([held.low, held.high, at]))
    low, high = edges[:-1], edges[1:]
    middle = 0.5 * (low + high)
    piece = np.clip(np.searchsorted(held.low, middle, side="right") - 1, 0, None)
    keep = (middle > held.low[piece]) & (middle < held.high[piece]) & (high - low > NARROW)
    low, high, piece = low[keep], high[keep], piece[keep]
    density = held.density[piece]
    nodes = density.shape[1]
    if nodes > 1:
        whole = held.high[piece] - held.low[piece]
        smaller = np.flatnonzero(high - low < whole)
        points = low[smaller, None] + (high - low)[smaller, None] * gauss(nodes)[0]
        place = (points - held.low[piece[smaller], None]) / whole[smaller, None]
        rows = lagrange(nodes, place.ravel()).reshape(*place.shape, nodes)
        density[smaller] = np.einsum("pin,pn->pi", rows, density[smaller])
    return replace(held, low=low, high=high, density=density)


def turned(held: Phases, by: float) -> Phases:
    """Return the distribution turned forward by a number of steps."""
    by %= 1.0
    parts = cut(held, np.array([1.0 - by]))
    width, low = parts.high - parts.low, parts.low + by
    low = np.where(low > 1.0 - NARROW, np.maximum(low - 1.0, 0.0), low)
    order = np.argsort(low, kind="stable")
    points = parts.points + by
    return Phases(
        np.where(points >= 1.0, points - 1.0, points),
        parts.masses,
        low[order],
        np.minimum(low + width, 1.0)[order],
        parts.density[order],
    )


@dataclass(frozen=True, slots=True)
class Released:
    """What a cam does to guns that are ready.

    Attributes
    ----------
    at_once : Phases
        Those that find it open, where they are.
    held : numpy.ndarray
        Share that waits for each of its openings, shape (openings,).
    wait : float
        Mean wait over all, in steps.
    """

    at_once: Phases
    held: Floats
    wait: float

    def joined(self, gun: TimedGun) -> Phases:
        """Return all of them as released, the held ones on the openings."""
        some = self.held > 0.0
        now = self.at_once
        return replace(
            now,
            points=np.concatenate([now.points, np.array(gun.opens)[some]]),
            masses=np.concatenate([now.masses, self.held[some]]),
        )


def release(gun: TimedGun, ready: Phases) -> Released:
    """Return which of the guns that are ready are released at once, and where the others wait."""
    opens, shuts = np.array(gun.opens), np.array(gun.shuts)
    parts = cut(ready, np.concatenate([opens, shuts]))
    following = np.append(opens[1:], 1.0)
    held, wait = np.zeros(opens.size), 0.0
    window = np.searchsorted(opens, parts.points, side="right") - 1
    late = parts.points >= shuts[window]
    in_time = late & (following[window] - parts.points < READY)
    points = np.where(in_time, np.append(opens, 0.0)[np.where(in_time, window + 1, 0)], parts.points)
    late &= ~in_time
    np.add.at(held, (window[late] + 1) % opens.size, parts.masses[late])
    wait += float(parts.masses[late] @ (following[window[late]] - parts.points[late]))
    piece = np.searchsorted(opens, 0.5 * (parts.low + parts.high), side="right") - 1
    shut = 0.5 * (parts.low + parts.high) >= shuts[piece]
    np.add.at(held, (piece[shut] + 1) % opens.size, parts.piece_shares[shut])
    places, weights = gauss(parts.density.shape[1])
    width = parts.high[shut] - parts.low[shut]
    away = following[piece[shut]][:, None] - parts.low[shut][:, None] - width[:, None] * places
    wait += float(width @ ((parts.density[shut] * away) @ weights))
    instant = ~shut & (shuts[piece] - opens[piece] <= INSTANT)
    smooth = ~shut & ~instant
    at_once = Phases(
        np.concatenate([points[~late], opens[piece[instant]]]),
        np.concatenate([parts.masses[~late], parts.piece_shares[instant]]),
        parts.low[smooth],
        parts.high[smooth],
        parts.density[smooth],
    )
    return Released(at_once, held, wait)
