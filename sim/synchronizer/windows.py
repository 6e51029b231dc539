"""The windows of a cam at each propeller speed, and by how much the rounds released in them clear the blades."""

from __future__ import annotations

from dataclasses import dataclass
from math import tau
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.synchronizer.cam import Opening
    from sim.synchronizer.gun_line import GunLine


@dataclass(frozen=True, slots=True)
class ReleaseWindow:
    """One window at one propeller speed.

    Attributes
    ----------
    from_rad, to_rad : float
        Propeller angles at which it opens, in [0, period), 0 with blade 1 on the bore line, and closes after it. [rad]
    clearance_rad : float
        By what angle the nearest round released in it clears blade and margin; negative where one meets them. [rad]
    """

    from_rad: float
    to_rad: float
    clearance_rad: float


@dataclass(frozen=True, slots=True)
class ReleaseWindows:
    """The windows at one propeller speed.

    Attributes
    ----------
    lead_rad : float
        Turn of the propeller between cam and passage. [rad]
    windows : tuple of ReleaseWindow
        Those of one period of the cam, ascending; empty where it stays shut.
    """

    lead_rad: float
    windows: tuple[ReleaseWindow, ...]


def release_windows(line: GunLine) -> Iterator[ReleaseWindows]:
    """Yield the windows of the cam of a gun line at each of its speeds.

    Notes
    -----
    A round released at α passes at α + Ω t. The ideal windows are therefore [D/2 − Ω t, 2π/B − D/2 − Ω t] and so on
    round, with D the arc that one blade closes. The speed is taken as steady between cam and passage, and the delay
    without scatter.

    Examples
    --------
    >>> from math import degrees, pi, radians
    >>> from sim.synchronizer.gun_line import GunLine
    >>> found = next(release_windows(GunLine((40.0 * pi,), 2, radians(40.0))))
    >>> [round(degrees(window.from_rad), 6) for window in found.windows]
    [20.0, 200.0]
    """
    for spin_rad_s in line.spin_rad_s:
        lead_rad = line.lead_rad(spin_rad_s)
        openings = line.cam_at(spin_rad_s).in_one_turn()
        yield ReleaseWindows(lead_rad, tuple(_window(line, opening, lead_rad) for opening in openings))


def _window(line: GunLine, opening: Opening, lead_rad: float) -> ReleaseWindow:
    clear = passing_clearance_rad(line, opening.opens_rad + lead_rad, opening.closes_rad + lead_rad)
    return ReleaseWindow(opening.opens_rad, opening.closes_rad, clear)


def passing_clearance_rad(line: GunLine, first_rad: float, last_rad: float) -> float:
    """Return by what angle rounds that pass from one angle to another clear the nearest blade and its margin.

    Parameters
    ----------
    line : GunLine
        Blades and the arcs that they close.
    first_rad, last_rad : float
        Propeller angles at passage of the first and the last of the rounds, 0 with blade 1 on the bore line. [rad]

    Returns
    -------
    float
        Negative where one of them meets a blade or its margin: the least angle by which all of them would have to pass
        earlier or later to do so no more, where they fit between two blades. [rad]
    """
    spacing_rad = tau / line.blades
    after = (first_rad - 0.5 * line.closed_rad) % spacing_rad
    room = line.clear_rad - (last_rad - first_rad)
    return max(min(after, room - after), min(after - spacing_rad, room - after + spacing_rad))
