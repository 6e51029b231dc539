"""The answer about the rate of fire against propeller speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed


@dataclass(frozen=True, slots=True)
class RatePoint:
    """The steady rate at one speed.

    Attributes
    ----------
    rpm : float
        Propeller speed. [rpm]
    rounds_per_min : float
        Without scatter. [1/min]
    scattered_rounds_per_min : float or None
        With the scatter of the cycle; None where it does not scatter, or too little for an exact form. [1/min]
    rounds_per_pattern, intervals_per_pattern : int or None
        Rounds per repeating cycle of blade intervals; None where nothing repeats.
    """

    rpm: float
    rounds_per_min: float
    scattered_rounds_per_min: float | None
    rounds_per_pattern: int | None
    intervals_per_pattern: int | None


@dataclass(frozen=True, slots=True)
class RateStep:
    """One plateau: a fixed ratio of rounds to blade intervals, from one speed up to another.

    Within it the rate is proportional to the speed.
    """

    rounds_per_pattern: int
    intervals_per_pattern: int
    from_rpm: float
    to_rpm: float
    from_rounds_per_min: float
    to_rounds_per_min: float


@dataclass(frozen=True, slots=True)
class RateMap:
    """Rate of fire over the gun's own rate, against propeller speed and that own rate.

    Attributes
    ----------
    rpm, gun_rounds_per_min : tuple of float
        The axes. [rpm, 1/min]
    kept_share : tuple of tuple of float
        Rate over own rate: a row for each of the gun's own rates.
    """

    rpm: tuple[float, ...]
    gun_rounds_per_min: tuple[float, ...]
    kept_share: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Staircase:
    """The rate of one gun behind one propeller over a range of speeds.

    Attributes
    ----------
    powerplant : str
        Name of the engine; empty where there is none.
    action : str
        ``interrupter`` or ``impulse``.
    gun_rounds_per_min : float
        The gun's own rate. [1/min]
    rows : tuple of RatePoint
        The rate at each speed.
    plateaus : tuple of RateStep
        Every pattern up to the longest asked for, between the lowest and the highest speed.
    longest : int or None
        Rounds of the longest pattern listed among the plateaus; None where all of them are of one round, as those of
        impulses at even angles are.
    covered_share : float
        Share of the speed range that those plateaus cover; longer patterns fill the rest.
    cycle_scatter_ms : float
        Standard deviation of the gun's cycle for the scattered rate. [ms]
    over_rates : RateMap or None
        The rate against the gun's own rate as well, where asked for.
    """

    powerplant: str
    action: str
    gun_rounds_per_min: float
    rows: tuple[RatePoint, ...]
    plateaus: tuple[RateStep, ...]
    longest: int | None
    covered_share: float
    cycle_scatter_ms: float
    over_rates: RateMap | None


@dataclass(frozen=True, slots=True)
class RateAnswer(Answer):
    """The rate of fire.

    Attributes
    ----------
    staircases : tuple of Staircase
        One for each powerplant.
    cam : CamUsed
        The cam behind which the gun fires, with the first powerplant.
    cams : dict of CamUsed
        The same with each, by its name.
    gun : str
        ``first`` or ``second``: of which of two guns all this is; empty where there is but one.
    """

    staircases: tuple[Staircase, ...]
    cam: CamUsed
    cams: dict[str, CamUsed]
    gun: WhichGun = ""
