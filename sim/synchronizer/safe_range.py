"""The speeds at which a cam, cut once, lets every round pass clear; and where it should open to serve a range best."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, tau
from typing import TYPE_CHECKING

from sim.synchronizer.windows import passing_clearance_rad

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.synchronizer.gun_line import GunLine


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
        Largest deviation of the delay to either side, below the mean. [s]
    """

    line: GunLine
    dwell_rad: float
    spread_s: float

    @property
    def spacing_rad(self) -> float:
        """Angle from one blade to the next, in radians."""
        return tau / self.line.blades

    @property
    def room_rad(self) -> float:
        """Clear arc less the cam's window, in radians; negative where the window is too long at any speed."""
        return self.line.clear_rad - self.dwell_rad

    @property
    def least_s(self) -> float:
        """The shortest delay, in seconds."""
        return self.line.delay_s - self.spread_s

    @property
    def most_s(self) -> float:
        """The longest delay, in seconds."""
        return self.line.delay_s + self.spread_s


@dataclass(frozen=True, slots=True)
class Band:
    """Propeller speeds between which every round passes clear, in rad/s."""

    from_rad_s: float
    to_rad_s: float


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
    A round released in [α1, α2] passes between α1 + Ω (t − s) and α2 + Ω (t + s). With the clear arc [A1, A2]
    between any two blades, the speeds run from (A1 − α1)/(t − s) to (A2 − α2)/(t + s): one band for each number of
    blades that pass between release and passage.

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
    lowest = ceil(-(first_clear + cam.room_rad) / cam.spacing_rad)
    found = []
    for lap in range(lowest, lowest + 10_000):
        start = (first_clear + lap * cam.spacing_rad) / cam.least_s
        end = (first_clear + cam.room_rad + lap * cam.spacing_rad) / cam.most_s
        if start > most_rad_s:
            break
        if end > max(start, 0.0):
            found.append(Band(max(start, 0.0), end))
    return found


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
    swept = to_rad_s * cam.most_s - from_rad_s * cam.least_s
    spare_rad = 0.5 * (cam.room_rad - swept)
    inward_rad = spare_rad if cam.room_rad < 0.0 else max(spare_rad, 0.0)
    return 0.5 * cam.line.closed_rad - from_rad_s * cam.least_s + inward_rad, spare_rad


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
    """Return the sensitivity of the edges of a band: the slopes of its closed form.

    A band that begins at standstill has its lower edge there whatever the delay; its slopes there are 0.
    """
    least, most = 1.0 / cam.least_s, 1.0 / cam.most_s
    return EdgeSlopes(
        from_per_delay=-band.from_rad_s * least,
        to_per_delay=-band.to_rad_s * most,
        width_per_spread=-(band.from_rad_s * least + band.to_rad_s * most),
        from_per_angle=-least if band.from_rad_s > 0.0 else 0.0,
        to_per_angle=-most,
        width_per_margin=-(least + most),
    )


def clearance_rad(cam: CamWindow, opens_rad: float, spin_rad_s: float) -> float:
    """Return by what angle the nearest round within the spread clears a blade and its margin; negative: it meets it."""
    first = opens_rad + spin_rad_s * cam.least_s
    return passing_clearance_rad(cam.line, first, opens_rad + cam.dwell_rad + spin_rad_s * cam.most_s)


def common(first: Sequence[Band], second: Sequence[Band]) -> list[Band]:
    """Return the speeds that lie in a band of either row, both ascending."""
    pairs = ((max(a.from_rad_s, b.from_rad_s), min(a.to_rad_s, b.to_rad_s)) for a in first for b in second)
    return sorted((Band(low, high) for low, high in pairs if high > low), key=lambda band: band.from_rad_s)
