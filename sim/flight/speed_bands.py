"""How well speeds are known: one standard deviation of each, from those of lift and drag."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.polar import Polar, PolarBands
    from sim.flight.speeds import Speeds


@dataclass(frozen=True, slots=True)
class SpeedBands:
    """One standard deviation of speeds; that of mass, engine and propeller is not in it.

    Attributes
    ----------
    stall_band_m_s, top_band_m_s : float
        Of the stalling speed, by the greatest lift; of the top speed, by drag. [m/s]
    """

    stall_band_m_s: float
    top_band_m_s: float


def speed_bands(solve: Callable[[Polar], Speeds], polar: Polar, bands: PolarBands, nominal: Speeds) -> SpeedBands:
    """Return how well stalling and top speed are known.

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
    To first order: the top speed with a tenth of each deviation less drag, so that the airplane can hold level flight.
    """
    lean = replace(polar, drag_zero_lift=polar.drag_zero_lift - 0.1 * bands.drag_zero_lift_band)
    slim = replace(polar, span_efficiency=polar.span_efficiency + 0.1 * bands.span_efficiency_band)
    gains = [10.0 * (solve(better).top_m_s - nominal.top_m_s) for better in (lean, slim) if better != polar]
    return SpeedBands(
        stall_band_m_s=0.5 * nominal.stall_m_s * bands.lift_max_band / polar.lift_max,
        top_band_m_s=hypot(*gains) if gains else 0.0,
    )
