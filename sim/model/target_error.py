"""How well the station of the wanted centre of gravity is known: the ± of the wing, its place, and the target."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, Any

from sim.scenario.fields import ScenarioTable, key_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.scenario.tables import Scenario

PLACES = ("wing.", "layout.", "balance.")
"""Tables whose keys place the target."""


def target_error_m(scenario: Scenario, target_m: Callable[[Scenario], float]) -> float:
    """Return the standard error of the station of the target [m].

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    target_m : callable
        Station of the target in a scenario. [m]

    Notes
    -----
    Each value with a ± is moved by it, the others stay; the changes add up as independent errors do.
    """
    errors = {key: error for key, error in scenario.tolerances.items() if key.startswith(PLACES) and error > 0.0}
    if not errors:
        return 0.0
    usual_m = target_m(scenario)
    changed = (target_m(_varied(scenario, key.split("."), error)) for key, error in errors.items())
    return hypot(*(station_m - usual_m for station_m in changed))


def _varied(table: Any, way: list[str], by: float) -> Any:  # noqa: ANN401
    """Return a table, a row or a list with the number at the end of a way of keys larger by an amount."""
    if not way:
        return table + by
    key, *rest = way
    if isinstance(table, ScenarioTable):
        name = next(name for name in type(table).model_fields if key_of(name) == key)
        return table.model_copy(update={name: _varied(getattr(table, name), rest, by)})
    if isinstance(table, dict):
        return {**table, key: _varied(table[key], rest, by)}
    place = int(key) - 1
    return [*table[:place], _varied(table[place], rest, by), *table[place + 1 :]]
