"""The stages of the delay from cam to disc, each with mean and scatter, and how far their sum may deviate.

Times and angles are given or follow from lengths and speeds; no part is sized here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING, Literal

from sim.synchronizer.leak import TIGHT, Leak
from sim.synchronizer.link_wave import signal_s

if TYPE_CHECKING:
    from collections.abc import Sequence


LinkKind = Literal["rod", "shaft", "oil"]


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
    leak : Leak
        By how much longer a turn it takes the slower the propeller turns.
    """

    name: str
    mean_s: float
    sd_s: float
    mean_rad: float = 0.0
    sd_rad: float = 0.0
    leak: Leak = TIGHT

    def lead_rad(self, spin_rad_s: float) -> float:
        """Return the mean turn of the propeller that it takes at a speed, in radians; raises as `Leak.extra_rad`."""
        return self.mean_rad + spin_rad_s * self.mean_s + self.leak.extra_rad(spin_rad_s)

    def lead_sd_rad(self, spin_rad_s: float) -> float:
        """Return the standard deviation of that turn, in radians."""
        return hypot(self.sd_rad, spin_rad_s * self.sd_s)


@dataclass(frozen=True, slots=True)
class DelayDeviation:
    """By how much the whole delay deviates: a time, and a turn of the propeller, independent of each other.

    Attributes
    ----------
    time_s, turn_rad : float
        The one and the other. [s, rad]
    """

    time_s: float
    turn_rad: float = 0.0


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


@dataclass(frozen=True, slots=True)
class Link:
    """A link from cam to gun, told by times and angles.

    Attributes
    ----------
    kind : str
        ``rod``, ``shaft`` or ``oil``.
    length_m, wave_m_s : float
        Length from cam to gun, and speed of its wave, above 0. [m, m/s]
    mass_ratio : float
        Mass that it moves at the gun over its own. [-]
    follower_rad : float
        Turn of the propeller in which the cam lifts its follower as far as the release needs. [rad]
    play_rad : float
        Turn of the propeller for which the follower moves without moving the gun's end, at most: from round to round
        anything up to it alike. [rad]
    windup_rad : float
        Turn of the propeller for which the link only yields, until it pushes hard enough. [rad]
    trigger_s, trigger_sd_s : float
        Time from the move of the gun's end to release, and its standard deviation. [s]
    leak_speed_rad_s : float
        Propeller speed at and below which an oil column loses all that the cam delivers; see
        `sim.synchronizer.leak.Leak`. [rad/s]
    """

    kind: LinkKind
    length_m: float
    wave_m_s: float
    mass_ratio: float = 0.0
    follower_rad: float = 0.0
    play_rad: float = 0.0
    windup_rad: float = 0.0
    trigger_s: float = 0.0
    trigger_sd_s: float = 0.0
    leak_speed_rad_s: float = 0.0


def link_stages(link: Link) -> tuple[DelayStage, ...]:
    """Return the stages of the delay from cam to lock.

    Notes
    -----
    What the cam has to turn for takes an angle, whatever the speed: rise of the follower, play and yielding of the
    link. What runs along the link, and the trigger, take a time. Play p counts as its mean p/2 and the standard
    deviation p/√12 of an even law; with the others it is taken as normal. Play takes no pressure, so that nothing leaks
    in it; what leaks while the link yields and while its follower rises is a stage of its own.
    """
    leaks = (DelayStage("leak of the oil", 0.0, 0.0, leak=link_leak(link)),) if link.leak_speed_rad_s else ()
    return (
        DelayStage("cam follower rise", 0.0, 0.0, link.follower_rad),
        DelayStage("take-up of play", 0.0, 0.0, 0.5 * link.play_rad, link.play_rad / sqrt(12.0)),
        DelayStage("elastic windup", 0.0, 0.0, link.windup_rad),
        *leaks,
        DelayStage(_LINK_WORDS[link.kind], signal_s(link.length_m, link.wave_m_s, link.mass_ratio), 0.0),
        DelayStage("trigger motor", link.trigger_s, link.trigger_sd_s),
    )


def link_leak(link: Link) -> Leak:
    """Return what leaks from a link, and during which of its turns."""
    return Leak(link.leak_speed_rad_s, link.windup_rad, link.follower_rad) if link.leak_speed_rad_s else TIGHT


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
