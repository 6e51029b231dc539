"""The stages of the delay from cam to disc, each with mean and scatter, and how far their sum may deviate.

Times are given or follow from lengths and speeds; no part is sized here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

WAVE_SPEED_M_S: Final = {"rod": 5135.0, "shaft": 3178.0, "oil": 1313.0}
"""Wave speed: compression in a steel rod √(E/ρ), torsion in a steel shaft √(G/ρ), pressure in oil √(K/ρ)."""


@dataclass(frozen=True, slots=True)
class DelayStage:
    """One stage of the delay.

    Attributes
    ----------
    name : str
        What happens in it.
    mean_s, sd_s : float
        Mean time that it takes, and its standard deviation from round to round. [s]
    mean_rad, sd_rad : float
        Mean turn of the propeller that it takes, and its standard deviation, where it is an angle of the cam: its time
        falls as the speed rises. [rad]
    """

    name: str
    mean_s: float
    sd_s: float
    mean_rad: float = 0.0
    sd_rad: float = 0.0

    def lead_rad(self, spin_rad_s: float) -> float:
        """Return the mean turn of the propeller that it takes at a speed, in radians."""
        return self.mean_rad + spin_rad_s * self.mean_s

    def lead_sd_rad(self, spin_rad_s: float) -> float:
        """Return the standard deviation of that turn, in radians."""
        return hypot(self.sd_rad, spin_rad_s * self.sd_s)


@dataclass(frozen=True, slots=True)
class DelayDeviation:
    """By how much the whole delay deviates: a time, and a turn of the propeller, independent of each other.

    Attributes
    ----------
    time_s, angle_rad : float
        The one and the other. [s, rad]
    """

    time_s: float
    angle_rad: float = 0.0


@dataclass(frozen=True, slots=True)
class DelaySpread:
    """Largest deviation of the whole delay to either side of its mean.

    Attributes
    ----------
    worst_case : DelayDeviation
        With every stage at its own limit at once, all the same way: time and angle add.
    root_sum_square : DelayDeviation
        With stages that deviate independently.
    """

    worst_case: DelayDeviation
    root_sum_square: DelayDeviation


def wave_speed_m_s(modulus_pa: float, density_kg_m3: float) -> float:
    """Return the speed √(K/ρ) of a compression wave along a rod or a column, in m/s.

    Examples
    --------
    >>> round(wave_speed_m_s(207e9, 7850.0))
    5135
    """
    return sqrt(modulus_pa / density_kg_m3)


def link_stages(
    kind: str,
    *,
    length_m: float,
    link_s: float,
    sd_s: float,
    follower_rise_s: float,
    windup_s: float,
    wave_m_s: float | None = None,
) -> tuple[DelayStage, ...]:
    """Return the stages of the delay from cam to release.

    Parameters
    ----------
    kind : str
        ``rod``, ``shaft`` or ``oil``.
    length_m : float
        From cam to gun. [m]
    link_s, sd_s : float
        Whole time from cam to release and its standard deviation, all of it attributed to the trigger motor. [s]
    follower_rise_s, windup_s : float
        Time until the follower is lifted, and until play and deflection are taken up. [s]
    wave_m_s : float, optional
        Wave speed in the link, in place of that of its kind. [m/s]

    Notes
    -----
    The trigger motor takes what is left of `link_s`, but never less than nothing: where the other parts take longer
    than the whole, the stages add up to more than it.
    """
    wave_s = length_m / (wave_m_s or WAVE_SPEED_M_S[kind])
    rest_s = max(0.0, link_s - follower_rise_s - windup_s - wave_s)
    return (
        DelayStage("cam follower rise", follower_rise_s, 0.0),
        DelayStage(_LINK_WORDS[kind], wave_s, 0.0),
        DelayStage("take-up of play and elastic windup", windup_s, 0.0),
        DelayStage("trigger motor", rest_s, sd_s),
    )


_LINK_WORDS = {"rod": "pulse along the rod", "shaft": "twist along the shaft", "oil": "pulse along the oil column"}


def spread(stages: Sequence[DelayStage], sigmas: float) -> DelaySpread:
    """Return the largest deviation of the whole delay, each stage within so many standard deviations.

    Examples
    --------
    >>> found = spread([DelayStage("lock", 4e-3, 0.3e-3), DelayStage("link", 1e-3, 0.4e-3)], 2.0)
    >>> round(1e3 * found.worst_case.time_s, 3), round(1e3 * found.root_sum_square.time_s, 3)
    (1.4, 1.0)
    """
    return DelaySpread(
        worst_case=DelayDeviation(
            sigmas * sum(stage.sd_s for stage in stages), sigmas * sum(stage.sd_rad for stage in stages)
        ),
        root_sum_square=DelayDeviation(
            sigmas * hypot(*(stage.sd_s for stage in stages)), sigmas * hypot(*(stage.sd_rad for stage in stages))
        ),
    )
