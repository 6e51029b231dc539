"""The answer of the study of firing windows: windows, lead and rate at each propeller speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed


@dataclass(frozen=True, slots=True)
class FiringWindow:
    """One window of release.

    Attributes
    ----------
    window : str
        Which it is: ``window 1``.
    from_deg, to_deg : float
        From an angle in [0, 360), or in as many turns as the cam takes to come round, to an angle after it. [°]
    clearance_deg : float
        Angle by which the nearest round released in it clears blade and margin. Negative where one does not: the least
        angle by which the window would have to be moved for that. A round strikes a blade, not its margin alone, where
        that is more than the margin. [°]
    """

    window: str
    from_deg: float
    to_deg: float
    clearance_deg: float


@dataclass(frozen=True, slots=True)
class WindowsRow:
    """Windows and rate at one propeller speed; angles are the propeller's, 0 with blade 1 on the bore line.

    Attributes
    ----------
    powerplant : str
        Name of the engine; empty where there is none.
    rotation : str
        ``clockwise`` or ``anticlockwise``: sense of the propeller, seen from the cockpit; empty where it is not known.
    rpm : float
        Propeller speed. [rpm]
    blade_interval_ms : float
        Time from one blade to the next. [ms]
    blocked_deg : float
        Arc blocked by one blade, bullet and both margins included. [°]
    margin_deg : float
        Margin on each side of a blade. [°]
    open_deg, open_ms : float
        Length of the longest window of the cam, and its time; 0 for impulses and where there is none. [°, ms]
    lead_deg : float
        Turn of the propeller between cam and passage. [°]
    windows_deg : tuple of FiringWindow
        Windows of release over one turn, or over the turns in which the cam comes round, ascending; empty where there
        is none.
    rounds_per_min : float or None
        Steady rate of fire; None where the gun's own rate is not given. [1/min]
    rounds_per_pattern, intervals_per_pattern : int or None
        Rounds per repeating cycle of blade intervals; None where nothing repeats.
    note : str
        A sentence where there is no window, or where rounds of a window strike a blade or pass within its margin; else
        empty.
    """

    powerplant: str
    rotation: str
    rpm: float
    blade_interval_ms: float
    blocked_deg: float
    margin_deg: float
    open_deg: float
    open_ms: float
    lead_deg: float
    windows_deg: tuple[FiringWindow, ...]
    rounds_per_min: float | None
    rounds_per_pattern: int | None
    intervals_per_pattern: int | None
    note: str


@dataclass(frozen=True, slots=True)
class WindowsAnswer(Answer):
    """The firing windows.

    Attributes
    ----------
    rows : tuple of WindowsRow
        One for each speed of each powerplant, in the order asked for.
    cam : CamUsed
        The cam whose windows they are, with the first powerplant.
    cams : dict of CamUsed
        The same with each powerplant, by its name.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    gun : str
        ``first`` or ``second``: of which of two guns all this is; empty where there is but one.
    second_gun_meets : tuple of str or None
        Engines behind which rounds of the second gun strike a blade or pass within its margin, or have no window, at
        any of the speeds; None where the answer is not that of the first of two guns.
    """

    rows: tuple[WindowsRow, ...]
    cam: CamUsed
    cams: dict[str, CamUsed]
    remarks: tuple[str, ...]
    gun: WhichGun = ""
    second_gun_meets: tuple[str, ...] | None = None
