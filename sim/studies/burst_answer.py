"""The answer about bursts through the propeller: counted, and exact beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.studies.cam_answer import CamUsed
    from sim.synchronizer.shared_gaps import SharedGaps

BINS = 120
"""Equal parts of the blade interval in which passages are counted."""


@dataclass(frozen=True, slots=True)
class RoundIntervals:
    """Times from round to round of one gun, in ms."""

    mean: float
    sd: float
    min: float
    max: float


@dataclass(frozen=True, slots=True)
class PassageAngles:
    """Propeller angles at passage, in degrees from the centre of the blade before."""

    mean: float
    sd: float


@dataclass(frozen=True, slots=True)
class SpeedRipple:
    """Greatest deviation of the speed within a turn over its mean, ripples in a turn, and where one is fastest."""

    depth: float
    per_rev: int
    peak_deg: float


@dataclass(frozen=True, slots=True)
class FirstRound:
    """Time from pulling the trigger, at any propeller angle alike, to the release of the first round, in ms."""

    mean: float
    max: float


@dataclass(frozen=True, slots=True)
class StrikeChance:
    """How often a blade is struck, as one would say it.

    Attributes
    ----------
    strike_share : float
        Probability that a round strikes a blade: the exact one, without one that counted; where none was counted, the
        upper end of its 95 % confidence interval.
    is_limit : bool
        Whether it is that upper end.
    rounds_per_sortie : int
        Rounds of one gun in a sortie.
    sortie_share : float
        Probability that a sortie so long has a strike of any gun, its rounds independent; strikes of one burst come
        together, so that it is somewhat less.
    guns : int
        Number of guns, each of which fires so many rounds.
    """

    strike_share: float
    is_limit: bool
    rounds_per_sortie: int
    sortie_share: float
    guns: int = 1


@dataclass(frozen=True, slots=True)
class ExactBurst:
    """The same from the exact probability density, without simulation.

    Attributes
    ----------
    strikes_per_1000 : float
        Rounds in a thousand that meet a blade, however rare.
    rounds_per_min : float
        Rate of all guns together. [1/min]
    clear_share : float
        Share of rounds that meet no blade.
    margin_kept_share : float
        Share that also keeps the margin.
    settled_strikes_per_1000, settled_rounds_per_min : float or None
        The same of continuous fire, at a speed that does not drift; None where that has no exact form. [-, 1/min]
    error_per_1000 : float
        Bound on the error of the strikes in a thousand: of the integral over the speed, and of rounding.
    method : str
        Method of calculation.
    """

    strikes_per_1000: float
    rounds_per_min: float
    clear_share: float
    margin_kept_share: float
    settled_strikes_per_1000: float | None
    settled_rounds_per_min: float | None
    error_per_1000: float
    method: str


@dataclass(frozen=True, slots=True)
class GunFigures:
    """One of two guns.

    Attributes
    ----------
    gun : str
        ``first`` or ``second``.
    rounds : int
        Rounds simulated.
    strikes_per_1000, exact_strikes_per_1000 : float
        As simulated and as they are exactly; the latter None where there is no exact form.
    rounds_per_min : float
        Its rate within bursts. [1/min]
    opens_deg : float
        Least propeller angle of a turn at which its cam opens, 0 with blade 1 on its own bore line. [°]
    delay_ms : float
        Mean time from cam to passage through the disc. [ms]
    bore_turn_deg : float
        Turn of the propeller that brings blade 1 from straight up to its bore line. [°]
    """

    gun: str
    rounds: int
    strikes_per_1000: float
    exact_strikes_per_1000: float | None
    rounds_per_min: float
    opens_deg: float
    delay_ms: float
    bore_turn_deg: float


@dataclass(frozen=True, slots=True)
class BurstAnswer(Answer):
    """The statistics of simulated bursts.

    Attributes
    ----------
    rounds, strikes : int
        Rounds simulated, and those that met a blade.
    strikes_per_1000, standard_error_per_1000 : float
        Share, and one standard error of it, bursts taken as independent.
    interval_95_per_1000 : tuple of float
        Limits between which the true share lies with 95 % confidence.
    rounds_per_min : float
        Rate of all guns together, within bursts. [1/min]
    interval_ms : RoundIntervals
        Time from round to round of one gun. [ms]
    pass_angle_deg : PassageAngles
        Propeller angle at passage, from the centre of the blade before, 0 to one blade interval. [°]
    clear_share, margin_kept_share : float
        Share of rounds that met no blade, and that kept the margin as well.
    method : str
        Method of calculation.
    seed : int
        Random seed.
    powerplant : str
        Name of the engine; empty where there is none.
    rotation : str
        ``clockwise`` or ``anticlockwise``: sense of the propeller, seen from the cockpit; empty where it is not known.
    rpm : float
        Propeller speed as a burst begins. [rpm]
    blades : int
        Blades of the propeller.
    guns : int
        Number of synchronized guns.
    rounds_per_burst : int
        Rounds of one gun in a burst.
    blocked_deg, margin_deg : float
        Arc blocked by one blade, the bullet included; margin on each side. [°]
    opens_deg, dwell_deg : float
        Propeller angle at which the first window of the cam opens, 0 with blade 1 on the bore line, and for which it is
        open; 0 for an impulse. [°]
    cam : CamUsed
        The cam with all its windows.
    passed_share : tuple of float
        Share of rounds that passed in each equal part of the blade interval.
    exact : ExactBurst or None
        None where there is no exact form.
    exact_note : str
        Why there is no exact form, of the burst or of continuous fire.
    chance : StrikeChance
        How often a blade is struck.
    ripple : SpeedRipple
        How the speed ripples within a turn.
    untimed : bool
        Whether the gun fired without the gear.
    untimed_strikes_per_1000 : float
        Strikes of the same gun without the gear, whose rounds pass at any angle alike: the blocked share of a turn.
    untimed_rounds_per_min : float
        Rate of all guns without the gear. [1/min]
    first_round_ms : FirstRound
        Wait of the first round for the cam. [ms]
    at_once_share : float
        Share of trigger pulls at which the gun fires at once.
    each_gun : tuple of GunFigures
        The figures of two guns apart; none for a single one.
    shared_gaps : SharedGaps or None
        How often a round of each passes through one gap between two blades; None for a single gun.
    """

    rounds: int
    strikes: int
    strikes_per_1000: float
    standard_error_per_1000: float
    interval_95_per_1000: tuple[float, float]
    rounds_per_min: float
    interval_ms: RoundIntervals
    pass_angle_deg: PassageAngles
    clear_share: float
    margin_kept_share: float
    method: str
    seed: int
    powerplant: str
    rotation: str
    rpm: float
    blades: int
    guns: int
    rounds_per_burst: int
    blocked_deg: float
    margin_deg: float
    opens_deg: float
    dwell_deg: float
    cam: CamUsed
    passed_share: tuple[float, ...]
    exact: ExactBurst | None
    exact_note: str
    chance: StrikeChance
    ripple: SpeedRipple
    untimed: bool
    untimed_strikes_per_1000: float
    untimed_rounds_per_min: float
    first_round_ms: FirstRound
    at_once_share: float
    each_gun: tuple[GunFigures, ...] = ()
    shared_gaps: SharedGaps | None = None
