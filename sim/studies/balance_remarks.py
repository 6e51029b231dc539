"""What a balance has to say beside its numbers: where scenario, item list and scales do not bear each other out."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.mean_chord import mean_chord
from sim.model.weights import planes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Total
    from sim.scenario.tables import Scenario
    from sim.studies.weighing import WeighingAnswer

LEAST_APART = 0.02
"""Share by which item list and airplane.mass may differ whatever their errors: a list never holds every bolt."""
BUILD_UP = 0.1
"""Share by which an inertia built up from boxes may be off, see `sim.airframe.masses.total`."""


def remarks(scenario: Scenario, whole: Total, scales: WeighingAnswer | None) -> Iterator[str]:
    """Yield what the reader of a balance must know, a sentence each.

    Parameters
    ----------
    scenario : Scenario
        That was balanced.
    whole : Total
        The loaded airplane of its item list.
    scales : WeighingAnswer or None
        Its weighing.
    """
    apart = [*_mass_and_inertia(scenario, whole), *_centre(scenario, whole)]
    if apart:
        yield (
            f"The flights go by keys that the items do not bear out: {', '.join(apart)} than the items give. "
            "Mend the items, or let --write set the keys."
        )
    places = [support.station_m for support in scenario.weighing.support.values()] if scenario.weighing else []
    if places and not min(places) <= whole.cg_station_m <= max(places):
        yield "The estimated centre of gravity lies outside the wheels: the airplane would not stand on them."
    if scales is not None and scales.suspicions and scales.suspicions[0].strength > 1.0:
        first = scales.suspicions[0]
        yield (
            f"The scales make the group {first.group} suspect, {'heavier' if first.correction_kg > 0.0 else 'lighter'} "
            "than listed: a suspicion from two numbers, not a fact."
        )
    if any(row.mass_kg is None for row in scenario.item):
        yield "Masses marked as past builds are shares of empty weight: weigh the part to know better."


def wing_arm_m(scenario: Scenario, cg_station_m: float) -> float:
    """Return how far the quarter chord, mean of the planes, lies aft of a centre of gravity [m].

    Parameters
    ----------
    scenario : Scenario
        With ``layout.leading_edge``.
    cg_station_m : float
        [m]
    """
    return mean_chord(planes(scenario, 1.0)).station_m(0.25) - cg_station_m


def _mass_and_inertia(scenario: Scenario, whole: Total) -> Iterator[str]:
    given, errors = scenario.airplane, scenario.tolerances
    tensor = whole.inertia_kg_m2
    mass_band = hypot(2.0 * whole.mass_error_kg, 2.0 * errors.get("airplane.mass", 0.0), LEAST_APART * whole.mass_kg)
    rows = [("mass", given.mass_kg, whole.mass_kg, mass_band)]
    rows += [
        (key, said, built, hypot(BUILD_UP * built, 2.0 * errors.get(f"airplane.{key}", 0.0)))
        for key, said, built in (
            ("inertia_roll", given.inertia_roll_kg_m2, tensor.xx),
            ("inertia_pitch", given.inertia_pitch_kg_m2, tensor.yy),
            ("inertia_yaw", given.inertia_yaw_kg_m2, tensor.zz),
        )
    ]
    for key, said, built, band in rows:
        if abs(said - built) > band:
            over = 100.0 * (said / built - 1.0)
            yield f"airplane.{key} is {abs(over):.0f} % {'more' if over > 0.0 else 'less'}"


def _centre(scenario: Scenario, whole: Total) -> Iterator[str]:
    said, built = scenario.wing.arm_m, wing_arm_m(scenario, whole.cg_station_m)
    band = hypot(2.0 * whole.cg_error_m, 2.0 * scenario.tolerances.get("wing.arm", 0.0))
    if abs(said - built) > max(band, LEAST_APART * scenario.wing.chord_m):
        share = 100.0 * (said - built) / scenario.wing.chord_m
        yield f"wing.arm lies {abs(share):.0f} % of the chord farther {'aft' if share > 0.0 else 'forward'}"
