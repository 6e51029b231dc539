"""The item list corrected by the scales: least squares over both, and the same airframe with another engine."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.airframe.list_refusal import refuse_negative
from sim.airframe.loading import USEFUL
from sim.airframe.mass_state import MassState, own_errors, spread
from sim.airframe.weighing_data import LIMIT
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed
    from sim.airframe.weighing_suspected import Doubts

UNSURE_SHARE = 0.05
"""Relative standard error of the mass of an item without one, where scales correct the list: an estimate of ours."""
UNSURE_STATION_M = 0.5 * INCH_M
UNSURE_WATERLINE_M = 2.0 * INCH_M
"""Standard errors of the place of an item without them, likewise."""
STEPS = 6
"""Of the least squares: the centre of gravity is not linear in the masses, and each step gains three digits."""
DOUBT = {2: 9.210340371976184, 3: 11.344866730144373}
"""Gap between list and scales, squared in standard errors, that chance passes once in a hundred, by observations."""


def corrected(
    items: Iterable[Item], weighed: Weighed, there: Iterable[str], *, doubts: Doubts | None = None
) -> MassState:
    """Return the items as the scales correct them, all their errors tied together.

    Parameters
    ----------
    items : iterable of Item
        Everything with mass, with the powerplant that was in the airplane.
    weighed : Weighed
        What the scales gave.
    there : iterable of str
        Names of the items that stood on the scales; the others stay as listed.
    doubts : Doubts or None
        What is added to the errors of both where they contradict each other, see `sim.airframe.weighing_tested.doubts`;
        those of all items grow by one factor.

    Raises
    ------
    InputError
        When an item would have to weigh less than nothing: list and scales are not of one airplane; with the load that
        was likely aboard, or not, see `sim.airframe.list_refusal`.

    Notes
    -----
    Weighted least squares over list and scales at once: mass, station and waterline of every item are unknowns whose
    listed values are observations; weight, centre of gravity and, where two attitudes give it, its height are more
    of them. The smallest corrections, measured by each one's own error, are taken. A height that contradicts the list
    beyond `LIMIT` standard errors is a matter of attitudes, supports or waterlines and not of masses, as in
    `sim.airframe.weighing_gap`: it corrects nothing, and what it would have made of station and height, had the error
    been one of the scales, widens their ±. An item of the empty airplane without ± counts as `UNSURE_SHARE` of its
    mass and `UNSURE_STATION_M`, `UNSURE_WATERLINE_M` of its place: else the scales could not correct it. Where the gap
    is more than chance explains (one in a hundred), the covariance grows by that much: one item is wrong beyond its ±,
    and nobody knows which.

    References
    ----------
    Ghilani, Adjustment Computations, chapter on the general least squares method (observations and constraints).
    """
    import numpy as np

    names = frozenset(there)
    items = tuple(with_errors(item) if item.name in names else item for item in items)
    count, own = len(items), np.array(own_errors(items))
    start = np.array([[i.mass_kg for i in items], [i.station_m for i in items], [i.waterline_m for i in items]])
    aboard = np.array([float(item.name in names) for item in items])
    seen, scatter = _observed(weighed)
    listed, refused = own**2, np.zeros(3)
    gap, spread, _ = _gap(start, start, aboard, observed=(seen, scatter), listed=listed)
    if len(seen) > 2 and gap[2] ** 2 > LIMIT**2 * spread[2, 2]:
        refused = scatter[:, 2] * gap[2] / spread[2, 2]
        seen, scatter = seen[:2], scatter[:2, :2]
    if doubts is not None:
        scatter = scatter + np.array(doubts.of_scales)[: len(seen), : len(seen)]
        listed = listed * _wider(start, aboard, listed, np.array(doubts.of_list))
    gap, spread, _ = _gap(start, start, aboard, observed=(seen, scatter), listed=listed)
    square = float(gap @ np.linalg.solve(spread, gap))
    grown = square / len(seen) if square > DOUBT[len(seen)] else 1.0
    state = start
    for _ in range(STEPS):
        left, spread, design = _gap(start, state, aboard, observed=(seen, scatter), listed=listed)
        gain = listed[:, None] * np.linalg.solve(spread, design).T
        state = start + (gain @ left).reshape(3, count)
    covariance = grown * (np.diag(listed) - gain @ design * listed)
    along = np.concatenate([np.zeros(count), refused[1] * aboard, refused[2] * aboard])
    covariance += np.outer(along, along)
    refuse_negative(items, state[0].tolist(), weighed, names)
    return MassState(_with(items, state, covariance), covariance, as_weighed=True)


def _with(items: Sequence[Item], state: NDArray, covariance: NDArray) -> tuple[Item, ...]:  # type: ignore[type-arg]
    """Return items with masses, stations and waterlines of a state, and their standard errors."""
    import numpy as np

    errors = np.sqrt(np.maximum(np.diag(covariance), 0.0)).reshape(3, len(items)).tolist()
    masses, stations, waterlines = state.tolist()
    return tuple(
        replace(
            item,
            mass_kg=masses[k],
            station_m=stations[k],
            waterline_m=waterlines[k],
            mass_error_kg=errors[0][k],
            station_error_m=errors[1][k],
            waterline_error_m=errors[2][k],
        )
        for k, item in enumerate(items)
    )


def _wider(start: NDArray, aboard: NDArray, listed: NDArray, doubt: NDArray) -> float:  # type: ignore[type-arg]
    """Return the factor by which the variances of all items grow, so that mass and station have their doubt in them."""
    import numpy as np

    _, design = _weighed_of(start, aboard, 2)
    own = design @ (listed[:, None] * design.T)
    return 1.0 + float(np.trace(np.linalg.solve(own, doubt[:2, :2])))


def with_errors(item: Item) -> Item:
    """Return an item of the empty airplane with an error for whatever it states none."""
    if item.group in USEFUL:
        return item
    return replace(
        item,
        mass_error_kg=item.mass_error_kg or UNSURE_SHARE * item.mass_kg,
        station_error_m=item.station_error_m or UNSURE_STATION_M,
        waterline_error_m=item.waterline_error_m or UNSURE_WATERLINE_M,
    )


def _observed(weighed: Weighed) -> tuple[NDArray, NDArray]:  # type: ignore[type-arg]
    """Return weight, station and, where known, height of the centre of gravity by the scales, and their covariance."""
    import numpy as np

    seen = [weighed.mass_kg, weighed.cg_station_m]
    if weighed.cg_waterline_m is not None:
        seen.append(weighed.cg_waterline_m)
    return np.array(seen), np.array(weighed.covariance)[: len(seen), : len(seen)]


def _gap(
    start: NDArray,  # type: ignore[type-arg]
    state: NDArray,  # type: ignore[type-arg]
    aboard: NDArray,  # type: ignore[type-arg]
    *,
    observed: tuple[NDArray, NDArray],  # type: ignore[type-arg]
    listed: NDArray,  # type: ignore[type-arg]
) -> tuple[NDArray, NDArray, NDArray]:  # type: ignore[type-arg]
    """Return scales less list, linear about a state, its covariance, and the derivatives of what scales would give."""
    seen, scatter = observed
    predicted, design = _weighed_of(state, aboard, len(seen))
    spread = design @ (listed[:, None] * design.T) + scatter
    return seen - predicted - design @ (start - state).ravel(), spread, design


def _weighed_of(state: NDArray, aboard: NDArray, observations: int) -> tuple[NDArray, NDArray]:  # type: ignore[type-arg]
    """Return what scales would give of masses, stations and waterlines, and its derivatives by all of them."""
    import numpy as np

    masses, stations, waterlines = state
    masses = masses * aboard
    mass = masses.sum()
    station, height = masses @ stations / mass, masses @ waterlines / mass
    none, share = np.zeros_like(masses), masses / mass
    design = np.array(
        [
            [*aboard, *none, *none],
            [*(aboard * (stations - station) / mass), *share, *none],
            [*(aboard * (waterlines - height) / mass), *none, *share],
        ]
    )
    return np.array([mass, station, height])[:observations], design[:observations]


def with_another_engine(weighed: MassState, items: Sequence[Item]) -> MassState:
    """Return the items with another powerplant; those that were on the scales are taken as the scales left them.

    Parameters
    ----------
    weighed : MassState
        As corrected, with the powerplant that was weighed.
    items : sequence of Item
        As listed with the other one; an item is the same where name and group are.
    """
    import numpy as np

    if weighed.covariance is None:
        return MassState(tuple(items))
    place = {(item.name, item.group): k for k, item in enumerate(weighed.items)}
    shared = [item for item in items if (item.name, item.group) in place]
    rest = [item for item in items if (item.name, item.group) not in place]
    picked = [place[item.name, item.group] for item in shared]
    count = len(weighed.items)
    rows = np.concatenate([np.array(picked, dtype=int) + count * kind for kind in range(3)])
    known = tuple(weighed.items[k] for k in picked)
    everything = (*known, *rest)
    covariance = spread(weighed.covariance[np.ix_(rows, rows)], len(known), everything)
    return MassState(everything, covariance, as_weighed=True)
