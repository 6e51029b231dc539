"""A loaded airplane with one engine, its limits and every loading: what the parts of a balance are taken from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL, CgLimits, loadings, pilots_kg
from sim.airframe.masses import total

if TYPE_CHECKING:
    from sim.airframe.loading import Loading
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Total
    from sim.airframe.mean_chord import MeanChord


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
