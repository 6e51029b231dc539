"""A loaded airplane with one engine, its limits and every loading: what the parts of a balance are taken from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from sim.airframe.engine_position import moves_that_serve
from sim.airframe.loading import USEFUL, CgLimits, loadings, pilots_kg
from sim.airframe.masses import total

if TYPE_CHECKING:
    from sim.airframe.loading import Loading
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Total
    from sim.airframe.mean_chord import MeanChord
    from sim.model.model import Model


@dataclass(frozen=True)
class Balanced:
    """The airplane with one engine where it stands.

    Attributes
    ----------
    state : MassState
        Loaded as listed.
    limits : CgLimits
        Of its centre of gravity, and who flies.
    chord : MeanChord
        What they are shares of.
    """

    state: MassState
    limits: CgLimits
    chord: MeanChord

    @cached_property
    def whole(self) -> Total:
        """Everything together."""
        return self.state.whole()

    @cached_property
    def empty(self) -> Total:
        """Everything but occupants, baggage and fuel."""
        return total(item for item in self.state.items if item.group not in USEFUL)

    @cached_property
    def flown(self) -> tuple[Loading, ...]:
        """Every loading."""
        return loadings(self.state, pilots_kg(self.state.items, self.limits))

    @cached_property
    def each(self) -> tuple[Total, ...]:
        """Every loading together."""
        return tuple(loading.state.whole() for loading in self.flown)

    @property
    def target_m(self) -> float:
        """Wanted station of the centre of gravity [m]."""
        return self.chord.station_m(self.limits.target)

    @cached_property
    def moved_kg(self) -> float:
        """What moves with the engine [kg]."""
        return sum(item.mass_kg for item in self.state.items if item.moves_with_engine)

    @property
    def bounds_m(self) -> tuple[float, float]:
        """Stations of the forward and the aft limit [m]."""
        return self.chord.station_m(self.limits.forward_limit), self.chord.station_m(self.limits.aft_limit)

    @cached_property
    def outside(self) -> tuple[str, ...]:
        """Names of the loadings outside the limits."""
        forward_m, aft_m = self.bounds_m
        pairs = zip(self.flown, self.each, strict=True)
        return tuple(loading.name for loading, at in pairs if not forward_m <= at.cg_station_m <= aft_m)

    @property
    def served_m(self) -> tuple[float, float] | None:
        """Moves of the engine from where it stands that keep every loading within the limits, or None [m]."""
        forward_m, aft_m = self.bounds_m
        return moves_that_serve(self.each, moved_mass_kg=self.moved_kg, forward_limit_m=forward_m, aft_limit_m=aft_m)

    def moved(self, move_m: float) -> Balanced:
        """Return the airplane with the engine, and all that moves with it, moved aft by `move_m` [m]."""
        return Balanced(self.state.moved(move_m), self.limits, self.chord)


def balanced(model: Model, powerplant: str) -> Balanced:
    """Return an airplane with one of its powerplants, where the scenario has it.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables item, balance and layout.
    powerplant : str
        Name of one of its powerplants.

    Raises
    ------
    InputError
        What is missing, and a weighing that cannot be right.
    """
    limits, chord = model.limits, model.mean_chord  # asked for first: what is missing there is told first
    return Balanced(model.mass_state(powerplant), limits, chord)
