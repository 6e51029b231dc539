"""The smallest cam that keeps every limit, found by exhaustive search from the smallest up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.display.cam_checks import STEP_M, cam_limits, laws_to_try
from sim.display.evaluation import evaluate

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from numpy.typing import NDArray

    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray, LawName
    from sim.display.spring import Spring

    Progress = Callable[[list[float]], Iterable[float]]
    Meets = Callable[["FoundCam"], bool]

RISE_STEP_RAD = math.radians(1.0)
UNBUILT = "parts that meet"
"""Limit that a cam fails whose display cannot be put together."""
LEAST_RISE_RAD = math.radians(5.0)


@dataclass(frozen=True, slots=True)
class FoundCam:
    """The result of a search.

    Attributes
    ----------
    law : str
        Law of motion.
    rise_rad, base_radius_m : float
        Cam angle of a rise; radius with the follower down. [rad], [m]
    passes : bool
        Whether it keeps every limit of the cam; otherwise it is the one that fails the fewest.
    binding : tuple of str
        The limits that exclude a smaller cam: the fewest that would have to be lifted for one to pass.
    tried : int
        Cams evaluated.
    """

    law: LawName
    rise_rad: float
    base_radius_m: float
    passes: bool
    binding: tuple[str, ...]
    tried: int


@dataclass(frozen=True, slots=True)
class _Tier:
    """Every law and rise at one base circle: which limits each fails, and its pressure angle."""

    base_radius_m: float
    laws: tuple[LawName, ...]
    rises: FloatArray
    names: tuple[str, ...]
    failed: NDArray[np.bool_]
    pressure: FloatArray


def rises(display: Display) -> FloatArray:
    """Return the rises tried: the one given, or whole degrees from 5° to the shorter of window and rest. [rad]."""
    if display.cam.rise_rad is not None:
        return np.array([display.cam.rise_rad])
    most = min(display.window_rad, 2.0 * math.pi / display.cam.lobes - display.window_rad)
    count = max(1, math.floor((most - LEAST_RISE_RAD) / RISE_STEP_RAD + 1e-9) + 1)
    return LEAST_RISE_RAD + RISE_STEP_RAD * np.arange(count, dtype=np.float64)


def base_circles(display: Display) -> FloatArray:
    """Return the base circles tried: the one given, or half millimetres from the shaft to the space. [m]."""
    if display.cam.base_radius_m is not None:
        return np.array([display.cam.base_radius_m])
    first = math.ceil(display.cam.shaft_radius_m / STEP_M)
    last = max(first, math.floor(display.cam.space_m / 2.0 / STEP_M))
    return STEP_M * np.arange(first, last + 1, dtype=np.float64)


def _tier(display: Display, spring: Spring, base_radius_m: float) -> _Tier:
    tried, laws = rises(display), laws_to_try(display.cam.law)
    failed, pressure = [], []
    for law in laws:
        properties = evaluate(display, spring, law, rise_rad=tried, base_radius_m=np.asarray(base_radius_m))
        limits = cam_limits(display, spring, properties)
        failed.append(np.stack([~limit.passes for limit in limits]))
        pressure.append(properties.pressure_angle_rad)
    names = tuple(limit.name for limit in limits)
    return _Tier(base_radius_m, laws, tried, names, np.stack(failed, axis=1), np.stack(pressure))


def smallest_cam(
    display: Display, spring: Spring, progress: Progress = iter, meets: Meets = lambda _: False
) -> FoundCam:
    """Return the cam with the smallest base circle that keeps every limit; among equals the least pressure angle.

    Parameters
    ----------
    display, spring : Display, Spring
        What is fixed, and the chosen spring.
    progress : callable
        Returns an iterator over the base circles it is given, and may show how far the search is.
    meets : callable
        Whether parts of the display with a cam would meet somewhere: such a cam is not called the smallest. It is asked
        about the cam of the least pressure angle of each base circle.

    Notes
    -----
    The grid is finite (base circles in steps of 0.5 mm, rises of 1°, the laws) and is searched exhaustively from the
    smallest base circle up, so no smaller cam on it passes. The limits are neither convex nor, with an offset or an
    arm, monotone in the radius: a descent method could stop at a larger cam.
    """
    tiers: list[_Tier] = []
    for base in progress(base_circles(display).tolist()):
        tier = _tier(display, spring, base)
        tiers.append(tier)
        if not np.all(np.any(tier.failed, axis=0)):
            found = _answer(tier, tiers[:-1], sum(each.pressure.size for each in tiers))
            if not meets(found):
                return found
            tiers[-1] = _unbuilt(tier)
    fewest = min(tiers, key=_shortfall)
    return _answer(fewest, tiers, sum(each.pressure.size for each in tiers))


def _unbuilt(tier: _Tier) -> _Tier:
    """Return a tier whose cams all fail in the display put together."""
    failed = np.concatenate([tier.failed, np.ones((1, *tier.failed.shape[1:]), dtype=np.bool_)])
    return replace(tier, names=(*tier.names, UNBUILT), failed=failed)


def _shortfall(tier: _Tier) -> tuple[int, float]:
    """Return how many limits the best of a tier fails, and the least pressure angle of those that fail so few."""
    failures = np.sum(tier.failed, axis=0)
    best = int(np.min(failures))
    pressure = np.where(np.isfinite(tier.pressure) & (failures == best), tier.pressure, np.inf)
    return best, float(np.min(pressure))


def _answer(tier: _Tier, smaller: list[_Tier], tried: int) -> FoundCam:
    """Return the best of a tier: fewest failures, then least pressure angle."""
    failures = np.sum(tier.failed, axis=0)
    pressure = np.where(np.isfinite(tier.pressure), tier.pressure, np.inf)
    best = np.lexsort((pressure.ravel(), failures.ravel()))[0]
    law, rise = np.unravel_index(best, failures.shape)
    return FoundCam(
        law=tier.laws[int(law)],
        rise_rad=float(tier.rises[int(rise)]),
        base_radius_m=tier.base_radius_m,
        passes=bool(failures[law, rise] == 0),
        binding=_binding(smaller),
        tried=tried,
    )


def _binding(smaller: list[_Tier]) -> tuple[str, ...]:
    """Return the smallest set of limits that any smaller cam fails; several such sets are joined."""
    if not smaller:
        return ()
    fewest = min(int(np.min(np.sum(tier.failed, axis=0))) for tier in smaller)
    found: dict[str, None] = {}
    for tier in reversed(smaller):
        near = tier.failed[:, np.sum(tier.failed, axis=0) == fewest]
        found.update(dict.fromkeys(name for name, fails in zip(tier.names, near, strict=True) if bool(np.any(fails))))
    return tuple(found)
