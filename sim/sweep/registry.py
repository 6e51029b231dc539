"""Every study that a sweep can ask of a scenario, by the name of its command."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, get_args

from sim.errors import did_you_mean, refuse
from sim.flight.maneuver import ManeuverName
from sim.model.display import display_of_scenario
from sim.model.gun_options import setups
from sim.studies import derivatives, handling, layout, maneuver, modes, speeds
from sim.studies import rotor_effect as handling_summary
from sim.studies.balance import balance
from sim.studies.burst import asked_burst
from sim.studies.compare import compare
from sim.studies.cooling import asked_warmth
from sim.studies.exhibit import exhibit
from sim.studies.mount import mount_loads
from sim.studies.rate import SWEEP, rate
from sim.studies.safe_range import asked_band
from sim.studies.windows import windows
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.scenario.tables import Scenario

ROUNDS = 100_000
"""Fired for each point that asks for bursts, from the same seed; the exact answer stands beside them."""

MANEUVERS: Final = get_args(ManeuverName)

QUESTIONS: Final[dict[str, Callable[[Scenario], object]]] = {
    "compare": compare,
    "handling": handling.study,
    "summary": handling_summary.study,
    "modes": modes.study,
    "derivatives": derivatives.study,
    "speeds": speeds.study,
    "layout": layout.study,
    "balance": balance,
    "mount": mount_loads,
    "windows": lambda scenario: windows(setups(loaded=scenario)),
    "rate": lambda scenario: rate(setups(loaded=scenario, sweep=SWEEP)),
    "safe_range": lambda scenario: asked_band(loaded=scenario),
    "burst": lambda scenario: asked_burst(loaded=scenario, rounds=ROUNDS, seed=1),
    "cooling": lambda scenario: asked_warmth(loaded=scenario),
    "exhibit": lambda scenario: exhibit(display_of_scenario(scenario)),
    **{
        f"maneuver.{name}": lambda scenario, name=name: maneuver.study(scenario, name).answer  # type: ignore[misc]
        for name in MANEUVERS
    },
}
"""Name -> the study's answer to a scenario."""


def split(key: str, where: str) -> tuple[str, str]:
    """Return the study that a dotted key begins with, and the path into its answer.

    Raises
    ------
    InputError
        When it begins with none.
    """
    study, _, path = key.partition(".")
    if study == "maneuver":
        name, _, path = path.partition(".")
        if name not in MANEUVERS:
            known = f"must name a manoeuvre after maneuver, {', '.join(MANEUVERS)}"
            refuse(where, f"{known}, got {quoted(name)}{did_you_mean(name, MANEUVERS)}")
        study = f"maneuver.{name}"
    elif study not in QUESTIONS:
        known = ", ".join(dict.fromkeys(name.partition(".")[0] for name in QUESTIONS))
        refuse(where, f"must begin with a study, {known}, got {quoted(study)}{did_you_mean(study, QUESTIONS)}")
    return study, path
