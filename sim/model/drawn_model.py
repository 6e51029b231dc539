"""What a drawing of an airplane shows besides its wing: wheels, ground, firewall, engine, and what is aboard."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from sim.airframe.loading import FUEL, PASSENGER, PILOT

if TYPE_CHECKING:
    from sim.airframe.masses import Item
    from sim.model.model import Model
    from sim.model.plausibility.supports import Stance
    from sim.model.powerplant import Powerplant
    from sim.model.weights import Weights
    from sim.scenario.tables import Scenario

SHOWN = (PILOT, PASSENGER, FUEL)
SEAT = "seat"
"""Groups of items that a drawing shows; of the others those that move with the engine, and by its name a seat."""


@dataclass(frozen=True, slots=True)
class Wheel:
    """A wheel, skid or jack of the weighing.

    Attributes
    ----------
    name : str
        As in the scenario.
    station_m, buttline_m, waterline_m : float
        Of its contact, airplane level: aft of the datum, right, up. [m]
    radius_m : float
        From axle to contact; 0 for a skid or jack. [m]
    """

    name: str
    station_m: float
    buttline_m: float
    waterline_m: float
    radius_m: float


@dataclass(frozen=True, slots=True)
class TurningCylinders:
    """The cylinders of a rotary engine as they lie about its shaft.

    Attributes
    ----------
    cylinders : int
        Their number.
    inner_radius_m, outer_radius_m : float
        From the shaft axis to their feet and heads. [m]
    diameter_m : float
        Of one, over its fins. [m]
    """

    cylinders: int
    inner_radius_m: float
    outer_radius_m: float
    diameter_m: float


class DrawnModel:
    """What a drawing shows of a model; `sim.model.model.Model` is one."""

    _scenario: Scenario

    @property
    def thrust_line_m(self) -> float:
        """Waterline of engine and propeller. [m]."""
        raise NotImplementedError

    def powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name, or the first of the file."""
        raise NotImplementedError

    def has_list(self, powerplant: str) -> bool:
        """Return whether everything that has mass with a powerplant is listed with its place."""
        raise NotImplementedError

    def weights(self, powerplant: str) -> Weights:
        """Return everything that has mass in the loaded airplane with a powerplant, as listed."""
        raise NotImplementedError

    @cached_property
    def wheels(self) -> tuple[Wheel, ...]:
        """Supports of the weighing; none where the airplane was not weighed."""
        table = self._scenario.weighing
        return tuple(
            Wheel(name, row.station_m, row.buttline_m, row.waterline_m, row.radius_m or 0.0)
            for name, row in (table.support if table else {}).items()
        )

    def stance(self: Model) -> Stance | None:  # type: ignore[misc] # a model is whole when it is asked
        """Return how the airplane stands on its wheels; None where its supports do not say."""
        from sim.model.plausibility.remark import Examined
        from sim.model.plausibility.supports import stance

        return stance(Examined(self._scenario, self))

    @property
    def firewall_station_m(self) -> float | None:
        """Station of the firewall, None where the scenario does not say. [m]."""
        table = self._scenario.mount
        return table.firewall_m if table else None

    @property
    def thrust_line_given(self) -> bool:
        """Whether the scenario says how high engine and propeller are."""
        table = self._scenario.balance
        return table is not None and "thrust_line_m" in table.model_fields_set

    def turning_cylinders(self, powerplant: str) -> TurningCylinders | None:
        """Return the cylinders of a rotary engine; None for a fixed one, and where the scenario does not describe them.

        Parameters
        ----------
        powerplant : str
            Name of one of the powerplants.
        """
        table = self._scenario.powerplant[powerplant]
        parts = table.parts if table.kind == "rotary" else None
        radius_m = getattr(parts, "cylinder_radius_m", None)
        if radius_m is None:
            return None
        half_m, diameter_m = 0.5 * getattr(parts, "cylinder_length_m", 0.0), getattr(parts, "cylinder_diameter_m", 0.0)
        return TurningCylinders(table.cylinders, radius_m - half_m, radius_m + half_m, diameter_m)

    def length_of(self, key: str) -> tuple[float, float] | None:
        """Return a length of the scenario and its standard error, 0 where none is given; None where it holds none [m].

        Parameters
        ----------
        key : str
            Dotted, as ``wing.span`` or ``item.pilot.station``.
        """
        from sim.scenario.keys import holds_length

        if not holds_length(key):
            return None
        first, _, rest = key.partition(".")
        *way, last = rest.rsplit(".", 1) if first == "item" else rest.split(".")
        at, place = getattr(self._scenario, first), key
        for name in way:
            number = next((n for n, one in enumerate(at) if one.name == name), None) if first == "item" else None
            place = key if number is None else f"item.{number + 1}.{last}"
            at = at[number] if number is not None else at.get(name) if isinstance(at, dict) else getattr(at, name, None)
        value = getattr(at, f"{last}_m", None)
        return None if value is None else (value, self._scenario.tolerances.get(place, 0.0))

    def items_drawn(self, powerplant: str) -> tuple[Item, ...]:
        """Return who and what is aboard and what moves with the engine, each where the file has it now.

        Parameters
        ----------
        powerplant : str
            Name of one of the powerplants; without an item list with it there is none.
        """
        if not self.has_list(powerplant):
            return ()
        move_m, engines = self._scenario.powerplant[powerplant].move_m, {powerplant, f"{powerplant} propeller"}
        return tuple(
            replace(item, station_m=item.station_m + item.move_m + (move_m if item.moves_with_engine else 0.0))
            for item in self.weights(powerplant).items
            if item.name not in engines
            and (item.group in SHOWN or item.moves_with_engine or item.name.split()[0].rstrip("s") == SEAT)
        )
