"""One mass state: items with the errors of their masses and places, loaded and moved.

Scales tie items together: what one group is heavier another must be lighter. So the state keeps the whole covariance,
and every sum taken of it carries the right error.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import TYPE_CHECKING

from sim.airframe.masses import Item, total

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.masses import Total


@dataclass(frozen=True, slots=True, eq=False)
class MassState:
    """Items and how well they are known together.

    Attributes
    ----------
    items : tuple of Item
        With the masses and places that are counted.
    covariance : array or None
        Of all masses, then all stations, then all waterlines, shape (3n, 3n), SI; None where every item has the
        errors that it states itself, independent of the others.
    as_weighed : bool
        Whether scales corrected the list.
    """

    items: tuple[Item, ...]
    covariance: NDArray | None = None  # type: ignore[type-arg] # numpy loads with a weighing alone
    as_weighed: bool = False

    def whole(self) -> Total:
        """Return everything together, with the standard errors that the covariance gives.

        Raises
        ------
        InputError
            As `sim.airframe.masses.total`.
        """
        found = total(self.items)
        count = len(self.items)
        station, height = found.cg_station_m, found.cg_waterline_m
        return replace(
            found,
            mass_error_kg=self.error([1.0] * count),
            cg_error_m=self.error(
                [(item.station_m - station) / found.mass_kg for item in self.items],
                [item.mass_kg / found.mass_kg for item in self.items],
            ),
            cg_waterline_error_m=self.error(
                [(item.waterline_m - height) / found.mass_kg for item in self.items],
                None,
                [item.mass_kg / found.mass_kg for item in self.items],
            ),
        )

    def error(
        self,
        by_mass: Sequence[float],
        by_station: Sequence[float] | None = None,
        by_waterline: Sequence[float] | None = None,
    ) -> float:
        """Return the standard error of a result from its derivatives.

        Parameters
        ----------
        by_mass, by_station, by_waterline : sequence of float
            Change of the result with each item's mass, station and waterline, in the order of the items; None for 0.
        """
        none = [0.0] * len(self.items)
        gradient = [*by_mass, *(by_station or none), *(by_waterline or none)]
        if self.covariance is None:
            return sqrt(sum((g * e) ** 2 for g, e in zip(gradient, own_errors(self.items), strict=True)))
        import numpy as np

        slope = np.array(gradient)
        return sqrt(max(float(slope @ self.covariance @ slope), 0.0))

    def changed(self, change: Callable[[Item], Item]) -> MassState:
        """Return the state with every item changed; one that has no mass, or none of its error, is known exactly."""
        items = tuple(change(item) for item in self.items)
        if self.covariance is None:
            return replace(self, items=items)
        import numpy as np

        pairs = zip(items, self.items, strict=True)
        shares = [new.mass_kg / old.mass_kg if old.mass_kg and new.mass_error_kg else 0.0 for new, old in pairs]
        scale = np.array([*shares, *[1.0] * (2 * len(items))])
        return replace(self, items=items, covariance=scale[:, None] * self.covariance * scale)

    def scaled(self, shares: Mapping[str, float]) -> MassState:
        """Return the state with some items, by name, at a share of their mass, as a tank half full is."""
        return self.changed(lambda item: _at(item, shares[item.name]) if item.name in shares else item)

    def moved(self, move_m: float) -> MassState:
        """Return the state with everything that moves with the engine moved aft by `move_m` [m]."""
        if move_m == 0.0:
            return self
        return self.changed(
            lambda item: replace(item, station_m=item.station_m + move_m) if item.moves_with_engine else item
        )

    def as_flown(self) -> MassState:
        """Return the state with every item moved by what is still to be moved of it."""
        if not any(item.move_m for item in self.items):
            return self
        return self.changed(lambda item: replace(item, station_m=item.station_m + item.move_m, move_m=0.0))


def _at(item: Item, share: float) -> Item:
    return replace(item, mass_kg=share * item.mass_kg, mass_error_kg=share * item.mass_error_kg)


def own_errors(items: Sequence[Item]) -> list[float]:
    """Return the errors that items state themselves: of all masses, then stations, then waterlines [kg, m, m]."""
    return [
        *(item.mass_error_kg for item in items),
        *(item.station_error_m for item in items),
        *(item.waterline_error_m for item in items),
    ]


def spread(covariance: NDArray, known: int, items: Sequence[Item]) -> NDArray:  # type: ignore[type-arg]
    """Return the covariance of `known` items within that of more, the others at their own errors."""
    import numpy as np

    count = len(items)
    whole = np.diag(np.array(own_errors(items)) ** 2)
    places = np.concatenate([np.arange(known) + count * kind for kind in range(3)])
    whole[np.ix_(places, places)] = covariance
    return whole
