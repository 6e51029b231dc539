"""The arcs of a propeller turn in which a round may be released so that it passes between the blades."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

TURN_RAD = 2.0 * np.pi


@dataclass(frozen=True, slots=True)
class ReleaseWindows:
    """Windows of release at each propeller speed; angles are the propeller's, 0 with blade 1 on the bore line.

    Attributes
    ----------
    lead_rad : numpy.ndarray
        How far the propeller turns between release and passage, shape (N,). [rad]
    open_rad : float
        Length of one window; 0 where the blocked arcs meet. [rad]
    from_rad, to_rad : numpy.ndarray
        Where each window opens, in [0, 2π) and ascending, and where it closes, after that: shape (N, windows), or
        (N, 0) where no window is left. [rad]
    """

    lead_rad: NDArray[np.float64]
    open_rad: float
    from_rad: NDArray[np.float64]
    to_rad: NDArray[np.float64]


def release_windows(
    spin_rad_s: ArrayLike, *, blades: int, blocked_rad: float, delay_s: float, openings: int | None = None
) -> ReleaseWindows:
    """Return the windows of release over one turn of the propeller, for each speed.

    Parameters
    ----------
    spin_rad_s : array_like
        Propeller speeds, above 0, shape (N,) or a number. [rad/s]
    blades : int
        Blades, evenly spaced.
    blocked_rad : float
        Arc that one blade blocks, bullet and both margins in it. [rad]
    delay_s : float
        Time from release to passage through the disc: link, lock, barrel and flight. [s]
    openings : int, optional
        Windows used in a turn where the cam opens less often than the blades pass; divides `blades`.

    Notes
    -----
    A round released at α passes at α + Ω t, so the windows are [D/2 − Ω t, 2π/B − D/2 − Ω t] and so on round.
    The speed is taken as steady between release and passage.

    Examples
    --------
    >>> found = release_windows(40.0 * np.pi, blades=2, blocked_rad=np.radians(40.0), delay_s=0.0)
    >>> np.degrees(found.from_rad).round(6).tolist()
    [[20.0, 200.0]]
    """
    lead_rad = np.atleast_1d(np.asarray(spin_rad_s, dtype=float)) * delay_s
    open_rad = max(0.0, TURN_RAD / blades - blocked_rad)
    count = (openings or blades) if open_rad > 0.0 else 0
    spacing_rad = TURN_RAD / max(count, 1)
    first_rad = np.mod(0.5 * blocked_rad - lead_rad, spacing_rad)
    first_rad[first_rad >= spacing_rad] = 0.0
    from_rad = first_rad[:, None] + np.arange(count) * spacing_rad
    to_rad = np.minimum(from_rad + open_rad, from_rad + spacing_rad)
    return ReleaseWindows(lead_rad, open_rad, from_rad, to_rad)
