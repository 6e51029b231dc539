"""A gun line through a turning propeller with everything that scatters, and the same in turns of the cam."""

from __future__ import annotations

from dataclasses import dataclass

TURN_RAD = 6.283185307179586


@dataclass(frozen=True, slots=True)
class GunLine:
    """What a burst is fired through.

    Attributes
    ----------
    spin_rad_s : float
        Propeller speed as a burst begins, above 0. [rad/s]
    blades, openings : int
        Blades, and windows or impulses of the cam in a turn; `openings` divides `blades`.
    opens_rad : float
        Propeller angle at which the cam first opens, 0 with blade 1 on the bore line. [rad]
    window_rad : float
        How long it stays open; 0 for an impulse cam. [rad]
    blocked_rad, margin_rad : float
        Arc blocked by one blade, the bullet in it; and what should stay clear on each side. [rad]
    delay_s, delay_sd_s : float
        From release to passage through the disc, and its standard deviation: link, lock, barrel, flight. [s]
    cycle_s, cycle_sd_s : float
        The gun's own cycle, and its standard deviation. [s]
    hang_share, hang_s : float
        Share of rounds whose primer hangs, and by how long on the average; how long is exponential. It delays
        the passage and the next round alike. [-, s]
    speed_sd : float
        Standard deviation of the propeller speed from burst to burst, as a share of it.
    drift_per_s : float
        Change of the propeller speed during a burst, as a share of it in a second; positive faster. [1/s]
    """

    spin_rad_s: float
    blades: int
    openings: int
    opens_rad: float
    window_rad: float
    blocked_rad: float
    margin_rad: float
    delay_s: float
    cycle_s: float
    delay_sd_s: float = 0.0
    cycle_sd_s: float = 0.0
    hang_share: float = 0.0
    hang_s: float = 0.0
    speed_sd: float = 0.0
    drift_per_s: float = 0.0

    @property
    def interval_s(self) -> float:
        """Time from one opening of the cam to the next, in seconds."""
        return TURN_RAD / (self.spin_rad_s * self.openings)

    @property
    def open_share(self) -> float:
        """Open share of that interval."""
        return self.window_rad * self.openings / TURN_RAD

    @property
    def blades_per_opening(self) -> int:
        """Blade intervals from one opening to the next."""
        return self.blades // self.openings

    @property
    def blade_s(self) -> float:
        """Time from one blade to the next, in seconds."""
        return TURN_RAD / (self.spin_rad_s * self.blades)

    @property
    def aim(self) -> float:
        """Where a round released as the cam opens passes, in blade intervals from the centre of a blade."""
        return self.opens_rad * self.blades / TURN_RAD + self.delay_s / self.blade_s

    def half_blocked(self, *, margin: bool = False) -> float:
        """Return half the arc that a blade blocks, in blade intervals; with the margin of one side if asked for."""
        return (0.5 * self.blocked_rad + (self.margin_rad if margin else 0.0)) * self.blades / TURN_RAD
