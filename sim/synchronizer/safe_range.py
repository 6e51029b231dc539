"""The speeds at which a cam, cut once, lets every round pass clear; and where it should open to serve a range best."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, hypot, sqrt, tau
from typing import TYPE_CHECKING

from sim.synchronizer.leaky_range import clear_spans, least_at
from sim.synchronizer.windows import passing_clearance_rad

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.leaky_range import ClearSpan

NARROW = 1e-2
"""Width of a band over its speed up to which a link that leaks has it left out."""


@dataclass(frozen=True, slots=True)
class CamWindow:
    """The window of a cam and the gun line behind it, whose delay carries a round from the window to the blades.

    Attributes
    ----------
    line : GunLine
        Blades, closed arcs and mean delay.
    dwell_rad : float
        Turn of the propeller for which the cam is open; 0 for an impulse. [rad]
    spread_s : float
        Largest deviation to either side of that part of the delay that is a time, below its mean. [s]
    spread_rad : float
        Largest deviation to either side of that part that is a turn of the propeller. [rad]
    at_once : bool
        Whether both deviate the same way at once, and add; else they are independent, and add in squares.
    """

    line: GunLine
    dwell_rad: float
    spread_s: float
    spread_rad: float = 0.0
    at_once: bool = False

    @property
    def spacing_rad(self) -> float:
        """Angle from one blade to the next, in radians."""
        return tau / self.line.blades

    @property
    def room_rad(self) -> float:
        """Clear arc less the cam's window, in radians; negative where the window is too long at any speed."""
        return self.line.clear_rad - self.dwell_rad

    def leads_rad(self, spin_rad_s: float) -> tuple[float, float]:
        """Return the shortest and the longest lead at a speed, in radians."""
        time_rad = spin_rad_s * self.spread_s
        off_rad = time_rad + self.spread_rad if self.at_once else hypot(time_rad, self.spread_rad)
        mean_rad = self.line.lead_rad(spin_rad_s)
        return mean_rad - off_rad, mean_rad + off_rad

    def slopes_s(self, spin_rad_s: float) -> tuple[float, float]:
        """Return the change of both with the speed, in seconds."""
        off_s = self.spread_s
        if not self.at_once and self.spread_rad:
            off_s *= spin_rad_s * self.spread_s / hypot(spin_rad_s * self.spread_s, self.spread_rad)
        mean_s = self.line.delay_s + self.line.leak.slope_s(spin_rad_s)
        return mean_s - off_s, mean_s + off_s

    def extremes_rad(self, from_rad_s: float, to_rad_s: float) -> tuple[float, float]:
        """Return the shortest and the longest lead of all speeds from one to another, in radians."""
        longest_rad = self.leads_rad(to_rad_s)[1]
        if not self.line.leak.counts:
            return self.leads_rad(from_rad_s)[0], longest_rad
        shortest_at = min(max(least_at(self, 0), from_rad_s), to_rad_s)
        return self.leads_rad(shortest_at)[0], max(self.leads_rad(from_rad_s)[1], longest_rad)

    def tight_speeds_at(self, lead_rad: float) -> tuple[float, float]:
        """Return the speeds at which the shortest and the longest lead are of an angle if nothing leaks, in rad/s.

        Notes
        -----
        With c = λ - θ0 the roots of (t² - s²) Ω² - 2 t c Ω + c² - φ² = 0, where t ± s is the time and ± φ the angle
        that deviates: the larger one for the shortest lead. With φ = 0, and where both deviate at once, straight lines.
        Negative where the lead is longer at every speed.
        """
        mean_s, time_s, angle_rad = self.line.delay_s, self.spread_s, self.spread_rad
        rest_rad = lead_rad - self.line.delay_rad
        if self.at_once or not angle_rad:
            return (rest_rad + angle_rad) / (mean_s - time_s), (rest_rad - angle_rad) / (mean_s + time_s)
        even = mean_s**2 - time_s**2
        root = sqrt((time_s * rest_rad) ** 2 + even * angle_rad**2)
        return (mean_s * rest_rad + root) / even, (mean_s * rest_rad - root) / even


@dataclass(frozen=True, slots=True)
class Band:
    """Propeller speeds between which every round passes clear.

    Attributes
    ----------
    from_rad_s, to_rad_s : float
        First and last. [rad/s]
    from_longest, to_shortest : bool
        Whether the longest lead ends it at the first, and the shortest at the last, both falling as the speed grows:
        behind a link that leaks. Else the shortest lead does at the first, the longest at the last.
    """

    from_rad_s: float
    to_rad_s: float
    from_longest: bool = False
    to_shortest: bool = False


def bands(cam: CamWindow, opens_rad: float, most_rad_s: float) -> list[Band]:
    """Return the bands of safe propeller speed that begin below `most_rad_s`, ascending.

    Parameters
    ----------
    cam : CamWindow
        With a mean delay above its spread.
    opens_rad : float
        Propeller angle at which the window opens, 0 with blade 1 on the bore line. [rad]
    most_rad_s : float
        Highest speed looked at. [rad/s]

    Notes
    -----
    A round released in [α1, α2] passes between α1 + λ1 and α2 + λ2, the shortest and the longest lead. With the clear
    arc [A1, A2] between any two blades, the speeds run from that of λ1 = A1 − α1 to that of λ2 = A2 − α2: one band for
    each number of blades that pass between cam and passage. Where all of the delay t ± s is a time, these are
    (A1 − α1)/(t − s) and (A2 − α2)/(t + s). Where the link leaks, the lead falls at first as the speed grows: up to two
    bands for each number of blades. Those narrower than `NARROW`, which crowd above the speed at which the link never
    trips, are left out.

    Examples
    --------
    >>> from math import radians
    >>> from sim.synchronizer.gun_line import GunLine
    >>> cam = CamWindow(GunLine((), 2, radians(30.0), delay_s=0.008), radians(60.0), 0.001)
    >>> found = bands(cam, radians(-15.0), 300.0)[0]
    >>> round(found.from_rad_s * 30 / 3.141592653589793, 1), round(found.to_rad_s * 30 / 3.141592653589793, 1)
    (714.3, 2222.2)
    """
    if cam.room_rad < 0.0:
        return []
    first_clear = 0.5 * cam.line.closed_rad - opens_rad
    if cam.line.leak.counts:
        return _leaky_bands(cam, first_clear, most_rad_s)
    lowest = ceil((cam.leads_rad(0.0)[1] - first_clear - cam.room_rad) / cam.spacing_rad)
    found = []
    for lap in range(lowest, lowest + 10_000):
        start = cam.tight_speeds_at(first_clear + lap * cam.spacing_rad)[0]
        end = cam.tight_speeds_at(first_clear + cam.room_rad + lap * cam.spacing_rad)[1]
        if start > most_rad_s:
            break
        if end > max(start, 0.0):
            found.append(Band(max(start, 0.0), end))
    return found


def _leaky_bands(cam: CamWindow, first_clear_rad: float, most_rad_s: float) -> list[Band]:
    """Return them where the link leaks: of ever more blades passed, until neither branch of the lead has one."""
    least_rad = cam.leads_rad(least_at(cam, 1))[1]
    lowest = ceil((least_rad - first_clear_rad - cam.room_rad) / cam.spacing_rad)
    found: list[Band] = []
    for lap in range(lowest, lowest + 10_000):
        first_rad = first_clear_rad + lap * cam.spacing_rad
        spans = clear_spans(cam, first_rad, first_rad + cam.room_rad)
        kept = [Band(*one) for one in spans if one.from_rad_s <= most_rad_s and _is_wide(one)]
        if not kept and lap > lowest + 1:
            break
        found += kept
    return sorted(found, key=lambda band: band.from_rad_s)


def _is_wide(one: ClearSpan) -> bool:
    return one.to_rad_s - one.from_rad_s > NARROW * one.from_rad_s


def best_opening(cam: CamWindow, from_rad_s: float, to_rad_s: float) -> tuple[float, float]:
    """Return the angle at which the cam should open to serve a range of speeds best, and the clearance it leaves.

    Parameters
    ----------
    cam : CamWindow
        The window, wherever it opens.
    from_rad_s, to_rad_s : float
        Working range of the propeller. [rad/s]

    Returns
    -------
    tuple of float
        Propeller angle of opening, and the clearance left at each end of the range. Negative: the range is too wide
        for the window; the angle then makes the band that begins at `from_rad_s`, the widest inside the range. [rad]

    Notes
    -----
    A window that is longer than the clear arc has no band; it is then placed as far beyond that arc at either end of
    the range.
    """
    least_rad, most_rad = cam.extremes_rad(from_rad_s, to_rad_s)
    spare_rad = 0.5 * (cam.room_rad - most_rad + least_rad)
    inward_rad = spare_rad if cam.room_rad < 0.0 else max(spare_rad, 0.0)
    return 0.5 * cam.line.closed_rad - least_rad + inward_rad, spare_rad


def longest_dwell_rad(cam: CamWindow, from_rad_s: float, to_rad_s: float) -> float:
    """Return the longest window whose rounds all pass clear from one speed to another, where it opens best.

    Negative where no window serves the range: the lead changes over it by more than the clear arc. [rad]
    """
    least_rad, most_rad = cam.extremes_rad(from_rad_s, to_rad_s)
    return cam.line.clear_rad - (most_rad - least_rad)


@dataclass(frozen=True, slots=True)
class EdgeSlopes:
    """Sensitivity of the edges of a band, in (rad/s)/s and (rad/s)/rad.

    Attributes
    ----------
    from_per_delay, to_per_delay : float
        Change of the lower and upper edge with the mean delay.
    width_per_spread : float
        Change of the band's width with the spread to either side.
    from_per_angle, to_per_angle : float
        Change of the edges with the angle at which the cam opens.
    width_per_margin : float
        Change of the width with the margin on each side of a blade.
    """

    from_per_delay: float
    to_per_delay: float
    width_per_spread: float
    from_per_angle: float
    to_per_angle: float
    width_per_margin: float


def edge_slopes(cam: CamWindow, band: Band) -> EdgeSlopes:
    """Return the sensitivity of the edges of a band: by the slope of the lead that ends it there.

    A band that begins at standstill has its lower edge there whatever the delay; its slopes there are 0.
    """
    place, other = int(band.from_longest), int(not band.to_shortest)
    least, most = 1.0 / cam.slopes_s(band.from_rad_s)[place], 1.0 / cam.slopes_s(band.to_rad_s)[other]
    inward, outward = 1.0 - 2.0 * place, 2.0 * other - 1.0  # -1 where the other lead ends it
    near, far = _per_spread(cam, band.from_rad_s) * inward, _per_spread(cam, band.to_rad_s) * outward
    return EdgeSlopes(
        from_per_delay=-band.from_rad_s * least,
        to_per_delay=-band.to_rad_s * most,
        width_per_spread=-(near * least + far * most),
        from_per_angle=-least if band.from_rad_s > 0.0 else 0.0,
        to_per_angle=-most,
        width_per_margin=-(inward * least + outward * most),
    )


def _per_spread(cam: CamWindow, spin_rad_s: float) -> float:
    """Return the change of the lead's deviation with that of the time, in rad/s."""
    if cam.at_once or not cam.spread_rad:
        return spin_rad_s
    return spin_rad_s**2 * cam.spread_s / hypot(spin_rad_s * cam.spread_s, cam.spread_rad)


def clearance_rad(cam: CamWindow, opens_rad: float, spin_rad_s: float) -> float:
    """Return by what angle the nearest round within the spread clears a blade and its margin; negative: it meets it."""
    least_rad, most_rad = cam.leads_rad(spin_rad_s)
    return passing_clearance_rad(cam.line, opens_rad + least_rad, opens_rad + cam.dwell_rad + most_rad)


def common(first: Sequence[Band], second: Sequence[Band]) -> list[Band]:
    """Return the speeds that lie in a band of either row, both ascending."""
    pairs = (
        (max(a, b, key=lambda band: band.from_rad_s), min(a, b, key=lambda band: band.to_rad_s))
        for a in first
        for b in second
    )
    found = (Band(low.from_rad_s, high.to_rad_s, low.from_longest, high.to_shortest) for low, high in pairs)
    return sorted((band for band in found if band.to_rad_s > band.from_rad_s), key=lambda band: band.from_rad_s)
