"""Where and how long a cam should open to serve a range of speeds, in figures as they are marked out and printed."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, degrees, floor
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.synchronizer.safe_range import CamWindow

FINEST = 6
"""Most digits after the decimal point of an angle in degrees; a cut that needs more is none."""
ROUNDING = 1e-9
"""Share of a step by which an angle may lie beyond its bound: the rounding error of the computation."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A window that serves a range as it stands here: both angles are round numbers, not rounded ones.

    Attributes
    ----------
    opens_deg : float
        Propeller angle at which it opens, in [0, angle from blade to blade), 0 with a blade on the bore line. [°]
    dwell_deg : float
        Turn of the propeller for which it is open: that of the cam where it is short enough, else the longest. [°]
    """

    opens_deg: float
    dwell_deg: float


def serving_cut(cam: CamWindow, from_rad_s: float, to_rad_s: float) -> Cut | None:
    """Return the cut whose rounds all pass clear from one speed to another; None where no window does.

    Parameters
    ----------
    cam : CamWindow
        The window, wherever it opens, and the gun line behind it.
    from_rad_s, to_rad_s : float
        Working range of the propeller. [rad/s]

    Notes
    -----
    The opening is a multiple of a tenth of a degree, and so is a dwell shorter than the cam's, or of a hundredth and so
    on where none of these serves. What is longer is rounded down and what opens too early is rounded up, so that the
    numbers serve as they are printed.

    Examples
    --------
    >>> from math import radians
    >>> from sim.synchronizer.gun_line import GunLine
    >>> from sim.synchronizer.safe_range import CamWindow
    >>> cam = CamWindow(GunLine((), 2, radians(30.0), delay_s=0.008), radians(150.0), 0.001)
    >>> serving_cut(cam, 100.0, 200.0)
    Cut(opens_deg=154.9, dwell_deg=86.9)
    """
    least_rad, most_rad = cam.extremes_rad(from_rad_s, to_rad_s)
    first_deg = degrees(0.5 * cam.line.closed_rad - least_rad) % cam.line.spacing_deg
    room_deg = degrees(cam.line.clear_rad - most_rad + least_rad)
    cuts = (
        _to(10**decimals, first_deg, first_deg + room_deg, degrees(cam.dwell_rad)) for decimals in range(1, FINEST + 1)
    )
    return next((cut for cut in cuts if cut), None)


def _to(parts: int, first_deg: float, last_deg: float, dwell_deg: float) -> Cut | None:
    """Return the cut in such parts of a degree that opens and closes between two angles; None where there is none."""
    earliest = ceil(first_deg * parts - ROUNDING)
    if dwell_deg > last_deg - first_deg + ROUNDING:
        kept_deg = floor(last_deg * parts - earliest + ROUNDING) / parts
        return Cut(earliest / parts, kept_deg) if kept_deg > 0.0 else None
    latest = floor((last_deg - dwell_deg) * parts + ROUNDING)
    middle = round(0.5 * (first_deg + last_deg - dwell_deg) * parts)
    return Cut(min(max(middle, earliest), latest) / parts, dwell_deg) if earliest <= latest else None
