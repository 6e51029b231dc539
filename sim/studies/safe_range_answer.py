"""What the safe speed band of a cam is reported as."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from sim.answer import Answer


@dataclass(frozen=True, slots=True)
class SafeBand:
    """Speeds between which every round inside the scatter counted passes clear."""

    from_rpm: float
    to_rpm: float


@dataclass(frozen=True, slots=True)
class StageRow:
    """One stage of the delay, in time and in degrees of the propeller at the highest speed asked for.

    Attributes
    ----------
    name : str
        In words.
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
    """How one speed is served.

    Attributes
    ----------
    rpm : float
        Propeller speed. [rpm]
    lead_deg : float
        Turn of the propeller in the mean delay. [°]
    clearance_deg : float
        By which the nearest round inside the scatter clears blade and margin; negative: it does not. [°]
    says : str
        The same in a sentence.
    """

    rpm: float
    lead_deg: float
    clearance_deg: float
    says: str


@dataclass(frozen=True, slots=True)
class Price:
    """What moves the edges of the band that serves most of the range asked for.

    Attributes
    ----------
    from_shift_1_ms_rpm, to_shift_1_ms_rpm : float
        Of the lower and upper edge, for a millisecond more mean delay. [rpm]
    width_change_1_ms_rpm : float
        Of the width, for a millisecond more scatter to each side. [rpm]
    from_shift_1_deg_rpm, to_shift_1_deg_rpm : float
        Of the edges, for a cam that opens a degree later. [rpm]
    width_change_1_deg_rpm : float
        Of the width, for a degree more margin on each side of a blade. [rpm]
    """

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
        The scenario's name for the engine; empty without a scenario.
    blocked_deg, spacing_deg : float
        Arc blocked by one blade, bullet and both margins in it; from one blade to the next. [°]
    bands : tuple of SafeBand
        With independent scatter, the stages' squares summed.
    worst_case_bands : tuple of SafeBand
        With every stage off by its limit at once, all the same way.
    speeds : tuple of SpeedRow
        How the speeds asked for are served, with independent scatter.
    price : Price or None
        None where there is no band.
    """

    powerplant: str
    blocked_deg: float
    spacing_deg: float
    bands: tuple[SafeBand, ...]
    worst_case_bands: tuple[SafeBand, ...]
    speeds: tuple[SpeedRow, ...]
    price: Price | None


@dataclass(frozen=True, slots=True)
class CamBand(Answer):
    """A cam and what it serves.

    Attributes
    ----------
    opens_deg, dwell_deg : float
        Propeller angle at which it opens, 0 with blade 1 on the bore line, and for how long. [°]
    cut_for : str
        The engine it is cut for, and how its place was found.
    spare_deg : float
        What is left at each end of that engine's range with the best cut; negative: not all of it can be served. [°]
    sigmas : float
        Standard deviations of scatter counted.
    delay_ms, worst_case_ms, root_sum_square_ms : float
        Mean delay from cam to disc, and how far it strays either way of counting. [ms]
    stages : tuple of StageRow
        The delay, stage by stage.
    propellers : tuple of PropellerBand
        The cam behind each propeller.
    """

    main: ClassVar[str] = "propellers.speeds"

    opens_deg: float
    dwell_deg: float
    cut_for: str
    spare_deg: float
    sigmas: float
    delay_ms: float
    worst_case_ms: float
    root_sum_square_ms: float
    stages: tuple[StageRow, ...]
    propellers: tuple[PropellerBand, ...]
