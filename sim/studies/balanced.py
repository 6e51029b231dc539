"""A loaded airplane with one engine, its limits and every loading: what the parts of a balance are taken from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from sim.airframe.loading import PILOT, USEFUL, CgLimits, loadings
from sim.airframe.masses import total

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.loading import Loading
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Item, Total
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
        return loadings(self.state, _pilots_kg(self.state.items, self.limits))

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


def _pilots_kg(items: Sequence[Item], limits: CgLimits) -> list[float]:
    usual_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    if usual_kg <= 0.0:
        return [0.0]
    return sorted({kg for kg in (limits.pilot_lightest_kg, usual_kg, limits.pilot_heaviest_kg) if kg is not None})
