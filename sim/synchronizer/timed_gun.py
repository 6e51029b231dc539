"""A gun line fired through its cam at one propeller speed, with everything that scatters, in turns of the cam."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.synchronizer.gun_line import GunLine


@dataclass(frozen=True, slots=True)
class Scatter:
    """What differs from round to round and from burst to burst.

    Attributes
    ----------
    delay_sd_s : float
        Standard deviation of the time from release to passage. [s]
    cycle_sd_s : float
        Standard deviation of the gun's own cycle. [s]
    hang_share, hang_s : float
        Share of rounds whose primer hangs, and the mean of the delay this adds, which is exponential. It delays the
        passage and the next round alike. [-, s]
    speed_sd : float
        Standard deviation of the propeller speed from burst to burst, as a share of it.
    drift_per_s : float
        Change of the propeller speed during a burst, as a share of it in a second; positive faster. [1/s]
    """

    delay_sd_s: float = 0.0
    cycle_sd_s: float = 0.0
    hang_share: float = 0.0
    hang_s: float = 0.0
    speed_sd: float = 0.0
    drift_per_s: float = 0.0


NO_SCATTER = Scatter()


@dataclass(frozen=True, slots=True)
class TimedGun:
    """A gun line, the cam that times it, and the speed of the propeller.

    Attributes
    ----------
    line : GunLine
        Propeller, delay and gun, its own rate known; its speeds are not used.
    spin_rad_s : float
        Propeller speed as a burst begins, above 0. [rad/s]
    opens_rad : float
        Propeller angle at which the cam first opens, 0 with blade 1 on the bore line. [rad]
    dwell_rad : float
        Turn of the propeller for which it stays open; 0 for an impulse. [rad]
    scatter : Scatter
        What differs from round to round.
    """

    line: GunLine
    spin_rad_s: float
    opens_rad: float
    dwell_rad: float
    scatter: Scatter = NO_SCATTER

    @property
    def interval_s(self) -> float:
        """Time from one opening of the cam to the next, in seconds."""
        return math.tau / (self.spin_rad_s * self.line.openings)

    @property
    def open_share(self) -> float:
        """Open share of that interval."""
        return self.dwell_rad * self.line.openings / math.tau

    @property
    def blades_per_opening(self) -> int:
        """Blade intervals from one opening to the next."""
        return self.line.blades // self.line.openings

    @property
    def blade_s(self) -> float:
        """Time from one blade to the next, in seconds."""
        return math.tau / (self.spin_rad_s * self.line.blades)

    @property
    def aim(self) -> float:
        """Where a round released as the cam opens passes, in blade intervals from the centre of a blade."""
        return self.opens_rad * self.line.blades / math.tau + self.line.delay_s / self.blade_s

    @property
    def windows_rad(self) -> tuple[tuple[float, float], ...]:
        """Propeller angles at which the cam opens, ascending in [0, 2π), and closes; empty where it stays shut."""
        if self.dwell_rad <= 0.0:
            return ()
        spacing = math.tau / self.line.openings
        first = self.opens_rad % spacing
        return tuple(
            (first + spacing * opening, first + spacing * opening + self.dwell_rad)
            for opening in range(self.line.openings)
        )

    def half_blocked(self, *, margin: bool = False) -> float:
        """Return half the arc that a blade blocks, in blade intervals; with the margin of one side if asked for."""
        half_rad = 0.5 * self.line.blocked_rad + (self.line.margin_rad if margin else 0.0)
        return half_rad * self.line.blades / math.tau


def fitted(line: GunLine, spin_rad_s: float, scatter: Scatter = NO_SCATTER) -> TimedGun:
    """Return a gun with the cam fitted to one speed, which is open for the whole clear arc between two blades.

    Where the closed arcs of the blades overlap, its dwell is negative and it never opens.
    """
    return TimedGun(line, spin_rad_s, fitted_opening_rad(line, spin_rad_s), line.clear_rad, scatter)


def fitted_opening_rad(line: GunLine, spin_rad_s: float) -> float:
    """Return the propeller angle at which a cam fitted to one speed opens, in radians."""
    return 0.5 * line.closed_rad - spin_rad_s * line.delay_s
