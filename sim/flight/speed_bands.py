"""How well speeds are known: one standard deviation of each, from those of lift and drag."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.polar import Polar, PolarBands
    from sim.flight.speeds import Speeds


@dataclass(frozen=True, slots=True)
class SpeedBands:
    """One standard deviation of speeds; that of mass, engine and propeller is not in it.

    Attributes
    ----------
    stall_band_m_s, liftoff_band_m_s : float
        By the greatest lift. [m/s]
    climb_rate_band_m_s, top_band_m_s : float
        By drag. [m/s]
    best_climb_band_m_s : float or None
        By drag; None where a kink of the power, as where the engine just reaches its highest speed, holds it. [m/s]
    cruise_band_m_s : float or None
        By drag; None where cruise power does not sustain level flight. [m/s]
    lift_drag_max_band : float
        By drag, and by the greatest lift where that limits it.
    """

    stall_band_m_s: float
    liftoff_band_m_s: float
    best_climb_band_m_s: float | None
    climb_rate_band_m_s: float
    cruise_band_m_s: float | None
    top_band_m_s: float
    lift_drag_max_band: float


STEP: Final = 0.1
"""Part of a standard deviation by which drag is changed, to less, so that the airplane can hold level flight."""
HELD_SHARE: Final = 1e-3
"""Of the speed of best climb, below which its standard deviation says that a kink of the power holds it."""


def speed_bands(solve: Callable[[Polar], Speeds], polar: Polar, bands: PolarBands, nominal: Speeds) -> SpeedBands:
    """Return how well speeds are known.

    Parameters
    ----------
    solve : callable
        Polar -> speeds.
    polar, bands : Polar, PolarBands
        Lift and drag, and how well they are known, independent of one another.
    nominal : Speeds
        Of that polar.

    Notes
    -----
    To first order in each.
    """
    lean = replace(polar, drag_zero_lift=polar.drag_zero_lift - STEP * bands.drag_zero_lift_band)
    slim = replace(polar, span_efficiency=polar.span_efficiency + STEP * bands.span_efficiency_band)
    lifting = replace(polar, lift_max=polar.lift_max + STEP * bands.lift_max_band)
    better = [solve(changed) for changed in (lean, slim) if changed != polar]

    def by_drag(name: str) -> float:
        now = getattr(nominal, name)
        then = (getattr(one, name) for one in better)
        return hypot(*((value - now) / STEP for value in then if value is not None))

    climb = by_drag("best_climb_m_s")
    ratios = (one.lift_drag_max for one in (lean, slim, lifting))
    lift_share = 0.5 * bands.lift_max_band / polar.lift_max
    return SpeedBands(
        stall_band_m_s=lift_share * nominal.stall_m_s,
        liftoff_band_m_s=lift_share * nominal.liftoff_m_s,
        best_climb_band_m_s=climb if climb > HELD_SHARE * nominal.best_climb_m_s else None,
        climb_rate_band_m_s=by_drag("climb_rate_m_s"),
        cruise_band_m_s=None if nominal.cruise_m_s is None else by_drag("cruise_m_s"),
        top_band_m_s=by_drag("top_m_s"),
        lift_drag_max_band=hypot(*((ratio - polar.lift_drag_max) / STEP for ratio in ratios)),
    )
