"""What is found of a gap between item list and scales: groups, places, scales and loads that may be wrong."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from sim.told import together, told

NEARLY_CERTAIN = 0.9
"""Probability from which on a cause is named before everything else: an estimate of ours."""
MOST_SAID = 0.99
"""Probability that is said of what is more probable: the priors are not so good."""


def percent(probability: float) -> str:
    """Return a probability in words, never as certainty."""
    return f"{100.0 * min(probability, MOST_SAID):.0f} %"


@dataclass(frozen=True, slots=True)
class Suspicion:
    """One group of the item list, if it alone is wrong.

    Attributes
    ----------
    group : str
        Name of the group.
    estimate_kg, estimate_error_kg : float
        Its mass by the item list, and the standard error of that. [kg]
    correction_kg, correction_error_kg : float
        Change of its mass that explains the gap best, heavier positive, and its standard error. [kg]
    correction_moment_n_m : float
        Change of its moment about the datum with it, tail heavy positive. [N m]
    probability : float
        That it is the one in error, of all causes that were tested.
    chi_square : float
        Of the gap that this correction leaves; one degree of freedom, two where the height counts.
    """

    group: str
    estimate_kg: float
    estimate_error_kg: float
    correction_kg: float
    correction_error_kg: float
    correction_moment_n_m: float
    probability: float
    chi_square: float


@dataclass(frozen=True, slots=True)
class AboardGuess:
    """Pilot or fuel that was on the scales and not in the list, or the reverse.

    Attributes
    ----------
    group : str
        Its group.
    items : tuple of str
        Names of the items of it that are meant.
    whole : bool
        Whether these are all items of the group.
    left_out : bool
        Whether the list has them aboard and the scales do not; False for the reverse.
    mass_kg : float
        Their listed mass. [kg]
    station_m : float
        Their listed station. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    group: str
    items: tuple[str, ...]
    whole: bool
    left_out: bool
    mass_kg: float
    station_m: float
    probability: float

    @property
    def named(self) -> str:
        """Who, and which of the two: ``pilot aboard``, ``fuel left out``."""
        who = self.group if self.whole else self.items[0]
        return told("{who} left out" if self.left_out else "{who} aboard", who=who)

    @property
    def nearly_certain(self) -> bool:
        """Whether it may be named as the cause."""
        return self.probability >= NEARLY_CERTAIN


@dataclass(frozen=True, slots=True)
class EngineElsewhere:
    """The engine, with all that moves with it, at another station than written.

    Attributes
    ----------
    move_m, move_error_m : float
        From there to where it explains the gap best, aft positive, and the standard error. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    move_m: float
    move_error_m: float
    probability: float
    named: ClassVar[str] = "engine at another station"


@dataclass(frozen=True, slots=True)
class ItemElsewhere:
    """An item of the list at another station than written.

    Attributes
    ----------
    item : str
        Its name.
    station_m : float
        As written. [m]
    item_move_m, item_move_error_m : float
        From there to where it explains the gap best, aft positive, and the standard error. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    item: str
    station_m: float
    item_move_m: float
    item_move_error_m: float
    probability: float

    @property
    def named(self) -> str:
        """Which: ``station of battery in the list``."""
        return told("station of {item} in the list", item=self.item)


@dataclass(frozen=True, slots=True)
class UnitSlip:
    """An item of the list whose mass was written in the other unit.

    Attributes
    ----------
    item : str
        Its name.
    estimate_kg : float
        As listed. [kg]
    mass_kg : float
        In the other unit. [kg]
    probability : float
        Of this cause, of all that were tested.
    """

    item: str
    estimate_kg: float
    mass_kg: float
    probability: float

    @property
    def written(self) -> str:
        """What its number is: ``kilograms, not pounds``."""
        return "kilograms, not pounds" if self.mass_kg > self.estimate_kg else "pounds, not kilograms"


@dataclass(frozen=True, slots=True)
class SupportElsewhere:
    """The supports of one axle at another station than written.

    Attributes
    ----------
    supports : tuple of str
        Their names.
    support_move_m, support_move_error_m : float
        From there to where they explain the gap best, aft positive, and the standard error. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    supports: tuple[str, ...]
    support_move_m: float
    support_move_error_m: float
    probability: float

    @property
    def named(self) -> str:
        """Which: ``support of left and right elsewhere``."""
        return told("support of {supports} elsewhere", supports=together(self.supports, " and "))


@dataclass(frozen=True, slots=True)
class ScaleMisread:
    """A scale that reads wrong by the same at every attitude.

    Attributes
    ----------
    support : str
        Where it stands.
    misread_kg, misread_error_kg : float
        What it reads too much to explain the gap best, and the standard error. [kg]
    probability : float
        Of this cause, of all that were tested.
    """

    support: str
    misread_kg: float
    misread_error_kg: float
    probability: float

    @property
    def named(self) -> str:
        """Which, and the way: ``scale under left too high``."""
        way = "scale under {support} too high" if self.misread_kg > 0.0 else "scale under {support} too low"
        return told(way, support=self.support)


Elsewhere = EngineElsewhere | ItemElsewhere | SupportElsewhere | ScaleMisread
"""What may be wrong beside a mass of the list and a load."""


@dataclass(frozen=True, slots=True)
class CauseKinds:
    """How probable each kind of cause is, all causes of it together; they sum to 1.

    Attributes
    ----------
    listed_mass_probability : float
        That a mass in the item list is wrong.
    load_probability : float
        That pilot or fuel were aboard and not in the list, or the reverse.
    station_probability : float
        That the station of an item in the list is wrong.
    engine_probability, supports_probability, scales_probability : float
        That the engine, or a support, is elsewhere, or that a scale misreads.
    errors_alone_probability : float
        That nothing but the stated errors made the gap.
    """

    listed_mass_probability: float
    load_probability: float
    station_probability: float
    engine_probability: float
    supports_probability: float
    scales_probability: float
    errors_alone_probability: float

    def given_listed_mass(self, probability: float) -> float:
        """Return the probability of a group, of all causes, as that where a mass in the list is what is wrong."""
        return probability / self.listed_mass_probability if self.listed_mass_probability else 0.0
