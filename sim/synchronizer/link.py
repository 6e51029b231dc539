"""The chain of delays from cam to disc: what each stage takes, how it scatters, and what that is in propeller degrees.

Times are given or follow from lengths and speeds; no part is sized here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

WAVE_SPEED_M_S: Final = {"rod": 5135.0, "shaft": 3178.0, "oil": 1313.0}
"""Speed of a push along a steel rod √(E/ρ) and a column of oil √(K/ρ), and of a twist along a steel shaft √(G/ρ)."""


@dataclass(frozen=True, slots=True)
class DelayStage:
    """One link of the chain.

    Attributes
    ----------
    name : str
        In words.
    mean_s, sd_s : float
        What it takes on the average, and its standard deviation from round to round. [s]
    """

    name: str
    mean_s: float
    sd_s: float


@dataclass(frozen=True, slots=True)
class DelayScatter:
    """How far the whole chain strays to either side of its mean.

    Attributes
    ----------
    mean_s : float
        From cam to disc. [s]
    worst_case_s : float
        Every stage off by its own limit at once, all the same way. [s]
    root_sum_square_s : float
        The limit of the whole chain where its stages stray independently. [s]
    """

    mean_s: float
    worst_case_s: float
    root_sum_square_s: float


def wave_speed_m_s(modulus_pa: float, density_kg_m3: float) -> float:
    """Return the speed √(K/ρ) at which a push travels along a rod or a column, in m/s.

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
    """Return what the time from cam to release is made of.

    Parameters
    ----------
    kind : str
        ``rod``, ``shaft`` or ``oil``.
    length_m : float
        From cam to gun. [m]
    link_s, sd_s : float
        Whole time from cam to release and its standard deviation, which is put down to the trigger motor. [s]
    follower_rise_s, windup_s : float
        Until the follower is lifted, and until play and yielding are taken up. [s]
    wave_m_s : float, optional
        Speed of a push through the link in the place of the kind's own. [m/s]

    Notes
    -----
    The trigger motor takes what is left of `link_s`, never less than nothing: then the parts add up to more than the
    whole, and the sum is what the caller sees.
    """
    wave_s = length_m / (wave_m_s or WAVE_SPEED_M_S[kind])
    rest_s = max(0.0, link_s - follower_rise_s - windup_s - wave_s)
    return (
        DelayStage("cam follower rise", follower_rise_s, 0.0),
        DelayStage(_LINK_WORDS[kind], wave_s, 0.0),
        DelayStage("play and yielding taken up", windup_s, 0.0),
        DelayStage("trigger motor", rest_s, sd_s),
    )


_LINK_WORDS = {"rod": "push along the rod", "shaft": "twist along the shaft", "oil": "push along the oil column"}


def spread(stages: Sequence[DelayStage], sigmas: float) -> DelayScatter:
    """Return the mean of the chain and how far it strays within so many standard deviations.

    Examples
    --------
    >>> found = spread([DelayStage("lock", 4e-3, 0.3e-3), DelayStage("link", 1e-3, 0.4e-3)], 2.0)
    >>> round(1e3 * found.worst_case_s, 3), round(1e3 * found.root_sum_square_s, 3)
    (1.4, 1.0)
    """
    return DelayScatter(
        mean_s=sum(stage.mean_s for stage in stages),
        worst_case_s=sigmas * sum(stage.sd_s for stage in stages),
        root_sum_square_s=sigmas * sqrt(sum(stage.sd_s**2 for stage in stages)),
    )
