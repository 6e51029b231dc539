"""The answer about the safe speed range of a cam."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed
    from sim.synchronizer.leak import Leak


@dataclass(frozen=True, slots=True)
class SafeBand:
    """Speeds between which every round within the scatter passes clear."""

    from_rpm: float
    to_rpm: float


@dataclass(frozen=True, slots=True)
class StageRow:
    """One stage of the delay, in time and in degrees of the propeller at the highest speed.

    Attributes
    ----------
    name : str
        What happens in it.
    mean_ms, sd_ms, mean_deg, sd_deg : float
        Mean and standard deviation. [ms, °]
    """

    name: str
    mean_ms: float
    sd_ms: float
    mean_deg: float
    sd_deg: float


@dataclass(frozen=True, slots=True)
class SpeedRow:
    """Clearance at one speed.

    Attributes
    ----------
    rpm : float
        Propeller speed. [rpm]
    lead_deg : float
        Turn of the propeller during the mean delay. [°]
    clearance_deg : float
        Angle by which the nearest round within the scatter clears blade and margin; negative where it does not. [°]
    strikes : bool
        Whether a round within the scatter meets a blade, not its margin alone.
    says : str
        The same in a sentence.
    """

    rpm: float
    lead_deg: float
    clearance_deg: float
    strikes: bool
    says: str


@dataclass(frozen=True, slots=True)
class EdgeSensitivity:
    """Sensitivity of the band that covers most of the speed range.

    Attributes
    ----------
    band : SafeBand
        That band.
    from_shift_1_ms_rpm, to_shift_1_ms_rpm : float
        Shift of the lower and upper edge for 1 ms more mean delay. [rpm]
    width_change_1_ms_rpm : float
        Change of the width for 1 ms more standard deviation of the whole delay, of which `sigmas` are counted. [rpm]
    from_shift_1_deg_rpm, to_shift_1_deg_rpm : float
        Shift of the edges for a cam that opens 1° later. [rpm]
    width_change_1_deg_rpm : float
        Change of the width for 1° more margin on each side of a blade. [rpm]
    """

    band: SafeBand
    from_shift_1_ms_rpm: float
    to_shift_1_ms_rpm: float
    width_change_1_ms_rpm: float
    from_shift_1_deg_rpm: float
    to_shift_1_deg_rpm: float
    width_change_1_deg_rpm: float


@dataclass(frozen=True, slots=True)
class PropellerBand:
    """The cam behind one propeller.

    Attributes
    ----------
    powerplant : str
        Name of the engine; empty where there is none.
    blocked_deg, spacing_deg : float
        Arc blocked by one blade, bullet and both margins included; angle from one blade to the next. [°]
    bands : tuple of SafeBand
        Safe speeds with independent scatter: the deviations of the stages combined by root sum square.
    worst_case_bands : tuple of SafeBand
        Safe speeds with every stage at its limit at once, all the same way.
    speeds : tuple of SpeedRow
        Clearance at each speed, with independent scatter.
    serves : bool
        Whether one of `bands` holds all of these speeds.
    longest_dwell_deg : float
        Longest window whose rounds all pass clear from the lowest of these speeds to the highest, 0 where none is. [°]
    best_opens_deg, best_dwell_deg : float or None
        Where a window should open to do so, and for how long, the dwell of the cam where that is short enough; numbers
        that serve as they stand, see `sim.synchronizer.serving_cut`. Meant for even windows, one for each blade, on the
        propeller's shaft. None where no window does. [°]
    unlike_places : int
        Places at which the windows of the cam stand to the blades: 1 where every window meets a blade alike.
    ripple_deg : float
        Largest angle by which the ripple of the speed within a turn, which `bands` and `speeds` leave out, moves a
        passage at these speeds, to either side. [°]
    sensitivity : EdgeSensitivity or None
        None where there is no band.
    edge_margin_share, edge_strike_share : float or None
        Probability that a round released at the worst instant of a window, at the worst of the ends of `bands`, passes
        nearer to a blade than its margin, and that it strikes the blade: by scatter beyond the limit, by hanging fire,
        and as the speed ripples within a turn. None where there is no band.
    """

    powerplant: str
    blocked_deg: float
    spacing_deg: float
    bands: tuple[SafeBand, ...]
    worst_case_bands: tuple[SafeBand, ...]
    speeds: tuple[SpeedRow, ...]
    serves: bool
    longest_dwell_deg: float
    best_opens_deg: float | None
    best_dwell_deg: float | None
    unlike_places: int
    ripple_deg: float
    sensitivity: EdgeSensitivity | None
    edge_margin_share: float | None
    edge_strike_share: float | None


@dataclass(frozen=True, slots=True)
class SafeRangeAnswer(Answer):
    """A cam and its safe speeds.

    Attributes
    ----------
    opens_deg, dwell_deg : float
        Propeller angle at which its first window opens behind the first of the propellers, 0 with blade 1 on the bore
        line, and turn for which it is open, 0 for impulses. [°]
    cam : CamUsed
        The cam with all its windows, behind the first of the propellers.
    cams : dict of CamUsed
        The same behind the propeller of each engine, by its name: they differ where gear, blades or rotation do.
    cut_for : str
        Name of the engine for whose range of speeds its opening is the best; empty where there is no engine.
    best_phase : bool
        Whether it opens there; otherwise its opening is given.
    spare_deg : float
        Clearance at each end of that engine's range with the best place, for the scatter of
        `sim.synchronizer.cam_phase`; negative where not all of it is safe. [°]
    sigmas : float
        Standard deviations of scatter counted as the limit.
    delay_ms, worst_case_ms, root_sum_square_ms : float
        Mean delay from cam to disc at one propeller speed, and its largest deviation by either way of combining the
        stages. [ms]
    delay_rpm : float
        That speed: the highest of the first of the propellers. [rpm]
    time_part_ms, angle_part_deg, time_limit_ms, angle_limit_deg : float
        The mean delay as a time and a turn of the propeller, at every speed, and by how much each deviates with
        independent stages: the lead is the sum of both turns, its deviation their root sum square. [ms, °]
    leak : Leak
        What leaks of an oil column: the third part of the lead.
    ripple_depth : float
        Greatest deviation of the speed within a turn over its mean, which ranges and clearances leave out. [-]
    stages : tuple of StageRow
        The delay, stage by stage.
    propellers : tuple of PropellerBand
        The cam behind each propeller.
    gun : str
        ``first`` or ``second``: of which of two guns all this is; empty where there is but one.
    second_gun_fails : tuple of str or None
        Engines at whose speeds asked for the cam of the second gun does not serve; None where the answer is not that of
        the first of two guns.
    """

    main: ClassVar[str] = "propellers.speeds"

    opens_deg: float
    dwell_deg: float
    cam: CamUsed
    cams: dict[str, CamUsed]
    cut_for: str
    best_phase: bool
    spare_deg: float
    sigmas: float
    delay_ms: float
    worst_case_ms: float
    root_sum_square_ms: float
    delay_rpm: float
    time_part_ms: float
    angle_part_deg: float
    leak: Leak
    time_limit_ms: float
    angle_limit_deg: float
    ripple_depth: float
    stages: tuple[StageRow, ...]
    propellers: tuple[PropellerBand, ...]
    gun: WhichGun = ""
    second_gun_fails: tuple[str, ...] | None = None
