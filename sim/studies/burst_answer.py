"""What bursts through the propeller are reported as: counted, and exact beside it."""

from __future__ import annotations

from dataclasses import dataclass

from sim.answer import Answer

BINS = 120
"""Parts of the blade interval in the picture of where rounds passed."""


@dataclass(frozen=True, slots=True)
class Times:
    """Times from round to round of one gun, in ms."""

    mean: float
    sd: float
    min: float
    max: float


@dataclass(frozen=True, slots=True)
class Angles:
    """Where rounds passed, in degrees from the centre of the blade before."""

    mean: float
    sd: float


@dataclass(frozen=True, slots=True)
class ExactBurst:
    """The same from the exact density, without firing.

    Attributes
    ----------
    strikes_per_1000 : float
        However rare.
    rounds_per_min : float
        Of all guns together. [1/min]
    clear_share : float
        Share of rounds that meet no blade.
    margin_kept_share : float
        Share that also keeps the margin.
    settled_strikes_per_1000, settled_rounds_per_min : float
        What endless fire settles to. [-, 1/min]
    method : str
        How it was found, and what is left out.
    """

    strikes_per_1000: float
    rounds_per_min: float
    clear_share: float
    margin_kept_share: float
    settled_strikes_per_1000: float
    settled_rounds_per_min: float
    method: str


@dataclass(frozen=True, slots=True)
class BurstAnswer(Answer):
    """What was counted.

    Attributes
    ----------
    rounds, strikes : int
        Fired, and of these met a blade.
    strikes_per_1000, standard_error_per_1000 : float
        Share, and one standard error of it, bursts taken as independent.
    interval_95_per_1000 : tuple of float
        Between these the true share lies with 95 % confidence.
    rounds_per_min : float
        Of all guns together, within bursts. [1/min]
    interval_ms : Times
        From round to round of one gun. [ms]
    pass_angle_deg : Angles
        Propeller angle at passage, from the centre of the blade before, 0 to one blade interval. [°]
    clear_share, margin_kept_share : float
        Share of rounds that met no blade, and that kept the margin as well.
    method : str
        How it was found.
    seed : int
        Gives the same numbers again.
    powerplant : str
        The scenario's name for the engine; empty without a scenario.
    rpm : float
        Propeller speed as a burst begins. [rpm]
    blades : int
        Blades of the propeller.
    guns : int
        Guns, each timed alike.
    rounds_per_burst : int
        Rounds of one gun in a burst.
    blocked_deg, margin_deg : float
        Arc blocked by one blade, the bullet in it; margin on each side. [°]
    passed_share : tuple of float
        Share of rounds that passed in each equal part of the blade interval.
    exact : ExactBurst or None
        None where there is no exact form; `exact_note` then says why.
    exact_note : str
        What the exact form leaves out, or why there is none.
    """

    rounds: int
    strikes: int
    strikes_per_1000: float
    standard_error_per_1000: float
    interval_95_per_1000: tuple[float, float]
    rounds_per_min: float
    interval_ms: Times
    pass_angle_deg: Angles
    clear_share: float
    margin_kept_share: float
    method: str
    seed: int
    powerplant: str
    rpm: float
    blades: int
    guns: int
    rounds_per_burst: int
    blocked_deg: float
    margin_deg: float
    passed_share: tuple[float, ...]
    exact: ExactBurst | None
    exact_note: str
