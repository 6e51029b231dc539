"""A gun line fired through its cam at one propeller speed, with everything that scatters, in steps of its cam.

What decides on an edge is written in `sim.synchronizer.blocked_arc`; here are the two lengths within which a number
that misses an edge by rounding counts as on it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from sim.synchronizer.ripple import STEADY, by_the_clock

if TYPE_CHECKING:
    from sim.synchronizer.cam import Cam
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.ripple import Ripple
    from sim.units.convert import Number


GRAZE = 1e-11
"""A round that passes this little inside the blocked arc, in blade intervals, is on its edge: clear."""
READY = 1e-9
"""A gun ready this little before the cam shuts, in steps, is on the edge: late; so little after it opens, in time."""
INSTANT = 1e-8
"""Window in steps up to which it counts as one instant: an impulse."""


@dataclass(frozen=True, slots=True)
class Scatter:
    """What differs from round to round and from burst to burst.

    Attributes
    ----------
    delay_sd_s : float
        Standard deviation of the time from cam to passage, which is normal. [s]
    delay_sd_rad : float
        Standard deviation of that part of the delay that is a turn of the propeller, independent and normal. [rad]
    cycle_sd_s : float
        Standard deviation of the gun's own cycle; its law is that of `sim.synchronizer.cycle_law`. [s]
    hang_share, hang_s : float
        Share of rounds whose primer hangs, and the mean of the delay this adds, which is exponential. It delays the
        passage and the next round alike. [-, s]
    speed_sd : float
        Standard deviation of the propeller speed from burst to burst, as a share of it, at most 0.2. The law is
        normal, cut off `MOST_SPEED_SDS` standard deviations to either side, so that the propeller always turns.
    drift_per_s : float
        Change of the propeller speed during a burst, as a share of it in a second; positive faster. It counts at
        the mean instants of the rounds; see `sim.synchronizer.pace`. [1/s]
    """

    delay_sd_s: float = 0.0
    cycle_sd_s: float = 0.0
    hang_share: float = 0.0
    hang_s: float = 0.0
    speed_sd: float = 0.0
    drift_per_s: float = 0.0
    delay_sd_rad: float = 0.0


NO_SCATTER = Scatter()
MOST_SPEED_SDS = 4.0
"""Standard deviations of the propeller speed beyond which no burst begins; without the cut, one in 16,000 would."""


@dataclass(frozen=True)
class TimedGun:
    """A gun line with the cam that times it, and the speed of the propeller.

    Attributes
    ----------
    line : GunLine
        Propeller, delay, gun, its own rate known, and cam, which is cut: `timed` sees to that. Its speeds are not used.
    spin_rad_s : float
        Propeller speed as a burst begins, above 0. [rad/s]
    scatter : Scatter
        What differs from round to round.
    ripple : Ripple
        How the speed ripples within a turn.

    Notes
    -----
    Everything but `cam`, `opens_rad` and `windows_rad` is by the clock: with a speed that ripples, as the propeller
    would stand at its mean speed; see `sim.synchronizer.ripple`. So is what the leak of the link adds to the delay, by
    the speed of the round, which is the mean one within a turn; `Leak.most_off_rad` bounds the error, and where there
    is one nothing is called exact. From round to round of a drifting speed what leaks changes when the gun is let go.
    Times and places count in steps, the least turn after which the windows of the cam come again: from one opening to
    the next where they are even. Place 0 is the opening of the first window.
    """

    line: GunLine
    spin_rad_s: float
    scatter: Scatter = NO_SCATTER
    ripple: Ripple = STEADY

    @property
    def cam(self) -> Cam:
        """The cam."""
        return self.line.cam_at(self.spin_rad_s)

    @cached_property
    def clock_cam(self) -> Cam:
        """The cam by the clock, turned on by that part of the delay that is an angle."""
        cam = self.cam.turned(self.line.delay_rad) if self.line.delay_rad else self.cam
        return by_the_clock(cam, self.ripple) if self.ripple.depth else cam

    @property
    def interval_s(self) -> float:
        """Time of one step, in seconds."""
        return self.clock_cam.step_rad / self.spin_rad_s

    @cached_property
    def windows(self) -> tuple[tuple[float, float], ...]:
        """Where the windows of one step open and close, in steps; the first opens at 0."""
        cam = self.clock_cam
        first_rad, step_rad = cam.windows[0].opens_rad, cam.step_rad
        return tuple(
            ((opening.opens_rad - first_rad) / step_rad, (opening.closes_rad - first_rad) / step_rad)
            for opening in cam.step_windows
        )

    @property
    def open_share(self) -> float:
        """Share of a step for which the cam is open."""
        cam = self.clock_cam
        return sum(opening.dwell_rad for opening in cam.step_windows) / cam.step_rad

    @property
    def opens(self) -> tuple[float, ...]:
        """Where the windows of one step open, in steps, ascending from 0."""
        return tuple(start for start, _ in self.windows)

    @property
    def shuts(self) -> tuple[float, ...]:
        """From where on they are shut again, one for each; the window of a cam that never shuts ends at 1."""
        if self.never_shuts:
            return (1.0,)
        return tuple(max(end - READY, start + READY) for start, end in self.windows)

    @property
    def never_shuts(self) -> bool:
        """Whether the cam is open all round: the gun fires freely."""
        return self.open_share >= 1.0 - READY

    @property
    def shut_arcs(self) -> tuple[tuple[float, float], ...]:
        """The arc in which it is shut before each opening, that before place 0 ending at 1."""
        opens, shuts = self.opens, self.shuts
        return tuple(zip((shuts[-1], *shuts[:-1]), (1.0, *opens[1:]), strict=True))

    @property
    def blades_per_opening(self) -> float:
        """Blade intervals in one step; no whole number where the windows of a cam meet the blades at several places."""
        cam = self.clock_cam
        return cam.period_turns * self.line.blades / cam.repeats

    @property
    def meetings(self) -> int:
        """At how many places a window meets the blades, from step to step; 1 where they always stand alike."""
        cam = self.clock_cam
        return cam.repeats // math.gcd(cam.period_turns * self.line.blades // self.unlike_blades, cam.repeats)

    @property
    def unlike_blades(self) -> int:
        """Blades that a rippling speed carries past the bore line unlike each other; 1 at an even speed."""
        blades = self.line.blades
        return blades // math.gcd(self.ripple.per_rev, blades) if self.ripple.depth else 1

    def blocked_arcs(self, *, margin: bool = False) -> tuple[tuple[float, float], ...]:
        """Return centre and half length of the arc that each unlike blade blocks, in blade intervals.

        Both as by `half_blocked`; the arcs come again after `unlike_blades` intervals.
        """
        half = self.half_blocked(margin=margin)
        if not self.ripple.depth or half >= 0.5:
            return ((0.0, half),)
        spacing = math.tau / self.line.blades
        ends = [
            [self.ripple.clock_rad(spacing * (blade + side * half)) / spacing for side in (-1.0, 1.0)]
            for blade in range(self.unlike_blades)
        ]
        return tuple((0.5 * (low + high), 0.5 * (high - low)) for low, high in ends)

    @property
    def blade_s(self) -> float:
        """Time from one blade to the next, in seconds."""
        return math.tau / (self.spin_rad_s * self.line.blades)

    @property
    def opens_rad(self) -> float:
        """Propeller angle at which the first window opens, in radians."""
        return self.cam.windows[0].opens_rad

    @property
    def aim(self) -> float:
        """Where a round released as the first window opens passes, in blade intervals from the centre of a blade."""
        opens_rad = self.clock_cam.windows[0].opens_rad
        leak_rad = self.line.leak.extra_rad(self.spin_rad_s)
        return (opens_rad + leak_rad) * self.line.blades / math.tau + self.line.delay_s / self.blade_s

    @property
    def passage_sd(self) -> float:
        """Standard deviation of where a round passes, in blade intervals."""
        return self.delay_sd_s / self.blade_s

    @property
    def delay_sd_s(self) -> float:
        """Standard deviation of the whole delay at this speed, in seconds."""
        return math.hypot(self.scatter.delay_sd_s, self.scatter.delay_sd_rad / self.spin_rad_s)

    @property
    def mean_interval_s(self) -> float:
        """Mean time between rounds that become ready at any place alike, in seconds."""
        wait = sum((end - start) ** 2 for start, end in self.shut_arcs) / 2.0
        return self.line.cycle_s + self.scatter.hang_share * self.scatter.hang_s + wait * self.interval_s

    def leaked_steps(self, share: Number, later_share: Number) -> Number:
        """Return by how many steps less the link leaks at a later share of the speed than at one before.

        So much nearer to the shut arc, as the link sees it, a gun gets ready whose round was released at the former.
        """
        leak, spin = self.line.leak, self.spin_rad_s
        return (leak.extra_rad(spin * share) - leak.extra_rad(spin * later_share)) / self.clock_cam.step_rad

    def at_speed(self, share: float) -> TimedGun:
        """Return the same gun behind a propeller at a share of its speed."""
        return replace(self, spin_rad_s=self.spin_rad_s * share)

    @property
    def windows_rad(self) -> tuple[tuple[float, float], ...]:
        """Propeller angles at which the cam opens, ascending within its period, and closes."""
        return tuple((opening.opens_rad, opening.closes_rad) for opening in self.cam.in_one_turn())

    def half_blocked(self, *, margin: bool = False) -> float:
        """Return half the arc that a blade blocks, in blade intervals; with the margin of one side if asked for.

        It is less than the arc by `GRAZE`, so that a round on the edge is clear whatever rounding does.
        """
        half_rad = 0.5 * self.line.blocked_rad + (self.line.margin_rad if margin else 0.0)
        return half_rad * self.line.blades / math.tau - GRAZE


def timed(line: GunLine, spin_rad_s: float, scatter: Scatter = NO_SCATTER) -> TimedGun:
    """Return a gun behind the cam of its line, or, where that has none, behind the ideal one for this speed.

    Where the closed arcs of the blades overlap, an ideal cam stays shut.
    """
    return TimedGun(replace(line, cam=line.cam_at(spin_rad_s)), spin_rad_s, scatter)


def fitted(line: GunLine, spin_rad_s: float, scatter: Scatter = NO_SCATTER) -> TimedGun:
    """Return a gun behind the ideal cam for one speed, which is open for the whole clear arc between two blades."""
    return timed(replace(line, cam=None), spin_rad_s, scatter)
