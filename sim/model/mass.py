"""What of an airplane has mass: its items with each powerplant, as the scales correct them, and what it flies with."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from sim.errors import InputError
from sim.model.flown_mass import given_mass, listed_mass, set_keys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.airframe.loading import CgLimits
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Item
    from sim.airframe.mean_chord import MeanChord
    from sim.airframe.weighing_data import Weighed, Weighing
    from sim.airframe.wing import Wing
    from sim.model.flown_mass import FlownMass
    from sim.model.plausibility.remark import Remark
    from sim.model.plausibility.remarks import Topic
    from sim.model.powerplant import Powerplant
    from sim.model.scales_and_list import Compared
    from sim.model.weights import Weights
    from sim.scenario.tables import Scenario
    from sim.units.parsing import Measured


class MassModel:
    """What of a model has mass; `sim.model.model.Model` is one.

    Notes
    -----
    One mass state a powerplant: every study that asks for a mass, a centre of gravity or an inertia reads it.
    """

    _scenario: Scenario
    _weights: dict[str, Weights]
    _stood_states: dict[str, MassState]
    _states: dict[str, MassState]
    _flown: dict[str, FlownMass]
    _cg_ranges: dict[str, tuple[float, float]]

    @property
    def wing(self) -> Wing:
        """Geometry of the wing, plane by plane."""
        raise NotImplementedError

    def usual_powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name; for None that of the balance table, else the first of the file."""
        raise NotImplementedError

    def weights(self, powerplant: str) -> Weights:
        """Return everything that has mass in the loaded airplane with a powerplant, as listed.

        Raises
        ------
        InputError
            Every missing station and mass at once.
        """
        if powerplant not in self._weights:
            from sim.model.weights import weights

            self._weights[powerplant] = weights(self._scenario, powerplant)
        return self._weights[powerplant]

    def mass_state(self, powerplant: str) -> MassState:
        """Return the items with a powerplant, corrected by the scales where the airplane was weighed.

        Raises
        ------
        InputError
            As `weights`, and a weighing that cannot be right.
        """
        if powerplant not in self._states:
            self._states[powerplant] = self.as_stood(powerplant).as_flown().moved(self.engine_move_m(powerplant))
        return self._states[powerplant]

    def as_stood(self, powerplant: str) -> MassState:
        """Return the items as the scales correct them, before any of them or the engine was moved."""
        from sim.model.corrected_list import corrected_list

        if powerplant not in self._stood_states:
            self._stood_states[powerplant] = corrected_list(self, powerplant)
        return self._stood_states[powerplant]

    def remarks(self, topic: Topic | None = None) -> tuple[Remark, ...]:
        """Return what is unusual about the scenario, all of it or what concerns one study."""
        raise NotImplementedError

    @cached_property
    def weighed(self) -> Weighed | None:
        """Weight and centre of gravity by the scales; None where the airplane was not weighed.

        Raises
        ------
        InputError
            A weighing that cannot be right.
        """
        scales = self.weighing
        if scales is None:
            return None
        from sim.airframe.list_correction import with_errors
        from sim.airframe.masses import total
        from sim.model.weighing import weighed

        return weighed(scales, total(with_errors(item) for item in self.stood_on_scales(scales)))

    @cached_property
    def compared(self) -> Compared | None:
        """Scales and item list compared; None where the airplane was not weighed."""
        from sim.model.scales_and_list import compared

        return compared(self)

    def stood_on_scales(self, scales: Weighing) -> tuple[Item, ...]:
        """Return the items that stood on the scales, as listed, the engine where it stood then."""
        return scales.there(scales.stood(self.weights(scales.powerplant).items))

    @cached_property
    def weighing(self) -> Weighing | None:
        """Readings of the scales under the airplane; None where it was not weighed."""
        table = self._scenario.weighing
        if table is None:
            return None
        from sim.model.weighing import engine_on_scales, weighing

        name = self.usual_powerplant(engine_on_scales(self._scenario, table)).name
        return weighing(self._scenario, table, self.weights(name))

    @property
    def set_on_scales(self) -> tuple[str, ...]:
        """Keys that settings change of what stood on the scales: corrections of the list, which the scales overrule."""
        from sim.model.weights import settings_of

        scales = self.weighing
        return () if scales is None else tuple(settings_of(self._scenario, self.stood_on_scales(scales)))

    def flown_mass(self, powerplant: str) -> FlownMass:
        """Return mass, centre of gravity and inertia that the airplane flies with, loaded as listed.

        Parameters
        ----------
        powerplant : str
            Name of one of the powerplants.

        Notes
        -----
        The item list serves where it is complete and the wing has its station; the keys of the scenario where not. A
        key that settings give goes before the list.
        """
        if powerplant not in self._flown:
            self._flown[powerplant] = self._flying_mass(powerplant)
        return self._flown[powerplant]

    def _flying_mass(self, powerplant: str) -> FlownMass:
        station_m = self.key_station_m
        if station_m is None or not self.has_list(powerplant):
            return given_mass(self._scenario, powerplant, station_m)
        state, usual = self.mass_state(powerplant), self.usual_powerplant().name
        whole = state.whole()
        reference = self.as_stood(usual if self.has_list(usual) else powerplant).whole()
        return listed_mass(
            self._scenario,
            powerplant,
            whole,
            reference=reference.inertia_kg_m2,
            key_station_m=station_m,
            disc_station_m=self.weights(powerplant).propeller_station_m,
            source="as weighed" if state.as_weighed else "item list",
        )

    def has_list(self, powerplant: str) -> bool:
        """Return whether everything that has mass with a powerplant is listed with its place."""
        from sim.model.weights import listed

        if not listed(self._scenario, powerplant):
            return False
        try:
            self.weights(powerplant)
        except InputError:  # masses are missing: `balance` names them
            return False
        return True

    def can_balance(self, powerplant: str) -> bool:
        """Return whether there are limits, the place of the wing, and an item list with that powerplant."""
        placed = self._scenario.balance is not None and self._scenario.layout is not None
        return placed and self.has_list(powerplant)

    def cg_range(self, powerplant: str) -> tuple[float, float]:
        """Return the foremost and the aftmost centre of gravity of all loadings, shares of the mean chord.

        Without item list or limits both are that of the loaded airplane.
        """
        if powerplant not in self._cg_ranges:
            shares = self._cg_shares(powerplant)
            self._cg_ranges[powerplant] = min(shares), max(shares)
        return self._cg_ranges[powerplant]

    def _cg_shares(self, powerplant: str) -> list[float]:
        if not self.can_balance(powerplant):
            station_m = self.flown_mass(powerplant).cg_station_m
            wing = self._scenario.wing
            by_keys = 0.25 - wing.arm_m / wing.chord_m
            return [by_keys if station_m is None else 0.01 * self.mean_chord.percent(station_m)]
        from sim.airframe.loading import loadings, pilots_kg
        from sim.airframe.masses import total

        state = self.mass_state(powerplant)
        flown = loadings(state, pilots_kg(state.items, self.limits))
        return [0.01 * self.mean_chord.percent(total(loading.state.items).cg_station_m) for loading in flown]

    @property
    def derived_keys(self) -> frozenset[str]:
        """Keys of the scenario in whose place the item list serves: to vary them alone would vary nothing.

        The mass is none of them where an engine without a complete list flies with it, the moments of inertia are none
        where they stand beside the list. ``wing.arm`` is one for all engines as soon as one has a list: it says where
        the arms of the tail are measured from, which a list has at one place.
        """
        from sim.model.weights import DERIVED_ARMS, DERIVED_INERTIAS, DERIVED_MASS

        flown = {name: self.flown_mass(name) for name in self._scenario.powerplant}
        places = [name for name, mass in flown.items() if mass.source != "given"]
        if not places:
            return frozenset()
        keys = [
            *DERIVED_ARMS,
            *(f"powerplant.{name}.{arm}" for name in places for arm in ("thrust_arm", "propeller.arm")),
        ]
        keys += DERIVED_MASS if len(places) == len(flown) else ()
        keys += () if any(mass.inertia_stated for mass in flown.values()) else DERIVED_INERTIAS
        return frozenset(keys) - set_keys(self._scenario)

    def engine_move_m(self, powerplant: str) -> float:
        """Return how far the scenario moves an engine aft of its stations [m]."""
        return self._scenario.powerplant[powerplant].move_m

    def move_is_given(self, powerplant: str) -> bool:
        """Return whether the scenario says where an engine stands, be it where it is drawn."""
        return "move_m" in self._scenario.powerplant[powerplant].model_fields_set

    @cached_property
    def limits(self) -> CgLimits:
        """Limits of the centre of gravity, and who flies."""
        from sim.model.weighing import limits

        return limits(self._scenario)

    @cached_property
    def flight_keys(self) -> Mapping[str, Measured]:
        """Mass, inertia and arms as the scenario states them, by its keys, with their standard deviations."""
        from sim.model.weights import flight_keys

        return flight_keys(self._scenario)

    @property
    def thrust_line_m(self) -> float:
        """Waterline of engine and propeller. [m]."""
        from sim.model.weights import thrust_line_m

        return thrust_line_m(self._scenario)

    @cached_property
    def mean_chord(self) -> MeanChord:
        """Mean aerodynamic chord of the wing in stations, each plane weighted by its lift."""
        from sim.airframe.mean_chord import wing_mean_chord
        from sim.model.wing import leading_edge_station_m

        table = self._scenario.balance
        return wing_mean_chord(
            self.wing,
            leading_edge_station_m(self._scenario),
            lower_efficiency=table.lower_efficiency if table else 1.0,
        )

    @property
    def key_station_m(self) -> float | None:
        """Centre of gravity that the arms in the scenario are measured from, aft of the datum; None without a layout.

        ``wing.arm`` is how far the quarter of the mean chord lies aft of it. [m].
        """
        if self._scenario.layout is None:
            return None
        return self.mean_chord.station_m(0.25) - self._scenario.wing.arm_m
