"""How well a powerplant is known: power and polar inertia."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final

from sim.model.powerplant import powerplant
from sim.rotor.parts import momentum_inertia

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario

POWER_ERROR: Final = 0.03
"""Standard error of a stated power over itself where the scenario gives none: an estimate of ours."""
PARTS_ERROR: Final = 0.06
MASS_ALONE_ERROR: Final = 0.15
"""Standard errors, over themselves, of an engine's polar inertia built up from parts, and of a propeller's from mass
and diameter: 90 % within 10 and within 25 %, estimates of ours."""


def power_error(scenario: Scenario, name: str) -> float:
    """Return one standard deviation of a powerplant's power over itself: its own ± where it has one.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    name : str
        Of the powerplant.
    """
    error = scenario.tolerances.get(f"powerplant.{name}.power", 0.0)
    return error / scenario.powerplant[name].power_w if error else POWER_ERROR


def inertia_error(scenario: Scenario, name: str) -> float:
    """Return one standard deviation of a powerplant's polar inertia over itself.

    From every ± of its table, and from building it up where the polar inertia of engine or propeller is not given.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    name : str
        Of the powerplant.
    """
    from sim.scenario.fields import key_of

    table, start = scenario.powerplant[name], f"powerplant.{name}."
    built = powerplant(name, table)
    present = built.polar_inertia_kg_m2
    if not present:
        return 0.0

    def raised(part: Any, steps: list[str], error: float) -> Any:  # noqa: ANN401
        name = next(name for name in type(part).model_fields if key_of(name) == steps[0])
        value = getattr(part, name)
        return part.model_copy(update={name: raised(value, steps[1:], error) if steps[1:] else value + error})

    changed = (
        raised(table, key.removeprefix(start).split("."), error)
        for key, error in scenario.tolerances.items()
        if key.startswith(start)
    )
    return math.hypot(
        *(powerplant(name, one).polar_inertia_kg_m2 / present - 1.0 for one in changed),
        PARTS_ERROR * momentum_inertia(built.contributions[:-1]) / present if built.running_gear else 0.0,
        MASS_ALONE_ERROR * momentum_inertia(built.contributions[-1:]) / present
        if table.propeller.polar_inertia_kg_m2 is None
        else 0.0,
    )
