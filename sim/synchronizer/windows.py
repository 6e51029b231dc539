"""The arcs of a propeller turn in which a round may be released so that it passes between the blades."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.gun_line import GunLine

TURN_RAD = 2.0 * np.pi


@dataclass(frozen=True, slots=True)
class ReleaseWindows:
    """Windows of release at each propeller speed; angles are the propeller's, 0 with blade 1 on the bore line.

    Attributes
    ----------
    lead_rad : numpy.ndarray
        Turn of the propeller between release and passage, shape (N,). [rad]
    from_rad, to_rad : numpy.ndarray
        Where each window opens, in [0, 2π) and ascending, and where it closes, after that: shape (N, windows), or
        (N, 0) where no window is left. [rad]
    """

    lead_rad: NDArray[np.float64]
    from_rad: NDArray[np.float64]
    to_rad: NDArray[np.float64]


def release_windows(line: GunLine) -> ReleaseWindows:
    """Return the windows of release over one turn of the propeller, at each speed of a gun line.

    Notes
    -----
    A round released at α passes at α + Ω t, so the windows are [D/2 − Ω t, 2π/B − D/2 − Ω t] and so on round, with D
    the arc that one blade closes. The speed is taken as steady between release and passage.

    Examples
    --------
    >>> from sim.synchronizer.gun_line import GunLine
    >>> found = release_windows(GunLine((40.0 * np.pi,), 2, np.radians(40.0)))
    >>> np.degrees(found.from_rad).round(6).tolist()
    [[20.0, 200.0]]
    """
    lead_rad = np.array(line.spin_rad_s) * line.delay_s
    openings = [
        [(each.opens_rad, each.closes_rad) for each in line.cam_at(spin).in_one_turn()] for spin in line.spin_rad_s
    ]
    windows = np.array(openings).reshape(len(openings), -1, 2)
    return ReleaseWindows(lead_rad, windows[..., 0], windows[..., 1])
