"""Remarks of a balance: where scenario, item list and scales contradict each other."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Total
    from sim.airframe.weighing_suspects import AboardGuess
    from sim.model.model import Model
    from sim.model.weights import Weights
    from sim.studies.weighing import WeighingAnswer

LEAST_APART = 0.02
"""Share by which item list and airplane.mass may differ whatever their errors: a list never holds every bolt."""
BUILD_UP = 0.1
"""Relative error of an inertia built up from boxes, see `sim.airframe.masses.total`."""


def remarks(model: Model, weights: Weights, whole: Total, scales: WeighingAnswer | None) -> Iterator[str]:
    """Yield what the reader of a balance must know, a sentence each.

    Parameters
    ----------
    model : Model
        The airplane.
    weights : Weights
        Its item list with the powerplant.
    whole : Total
        The loaded airplane by that list.
    scales : WeighingAnswer or None
        Its weighing.
    """
    apart = [*_mass_and_inertia(model, whole), *_wing_arm(model, whole)]
    if apart:
        yield (
            f"Keys used for flight disagree with the item list: {', '.join(apart)} than the items give. "
            "Correct the items, or write the keys from the balance."
        )
    places = [support.station_m for support in model.weighing.supports.values()] if model.weighing else []
    if places and not min(places) <= whole.cg_station_m <= max(places):
        yield "The estimated centre of gravity lies outside the supports: the airplane would tip over."
    if scales is not None and scales.aboard_guess:
        yield _aboard(scales.aboard_guess)
    elif scales is not None and scales.suspicions:
        first = scales.suspicions[0]
        way = "heavier" if first.correction_kg > 0.0 else "lighter"
        yield f"The weighing suggests that the group {first.group} is {way} than listed: check it first."
    if weights.from_past:
        yield "Masses marked (past builds) are estimated from the group's share of empty weight: weigh the parts."


def _aboard(guess: AboardGuess) -> str:
    name, where = guess.group if guess.whole else guess.items[0], "left out" if guess.left_out else "aboard"
    return f"The weighing suggests that the {name} was {where}: if so, every number here is wrong; see weighing.aboard."


def wing_arm_m(model: Model, cg_station_m: float) -> float:
    """Return how far the quarter chord, mean of the planes, lies aft of a centre of gravity [m].

    Parameters
    ----------
    model : Model
        Of a scenario with ``layout.leading_edge``.
    cg_station_m : float
        Aft of the datum. [m]
    """
    return model.quarter_chord_station_m - cg_station_m


def _mass_and_inertia(model: Model, whole: Total) -> Iterator[str]:
    mass_band_kg = hypot(2.0 * whole.mass_error_kg, LEAST_APART * whole.mass_kg)
    tensor = whole.inertia_kg_m2
    rows = [("airplane.mass", whole.mass_kg, mass_band_kg)]
    rows += [
        (f"airplane.inertia_{axis}", built, BUILD_UP * built)
        for axis, built in (("roll", tensor.xx), ("pitch", tensor.yy), ("yaw", tensor.zz))
    ]
    for key, built, band in rows:
        stated = model.flight_keys[key]
        if abs(stated.value - built) > hypot(band, 2.0 * stated.tolerance):
            over = 100.0 * (stated.value / built - 1.0)
            yield f"{key} is {abs(over):.0f} % {'more' if over > 0.0 else 'less'}"


def _wing_arm(model: Model, whole: Total) -> Iterator[str]:
    stated, built_m = model.flight_keys["wing.arm"], wing_arm_m(model, whole.cg_station_m)
    chord_m = model.wing.nominal.chord_m
    band_m = hypot(2.0 * whole.cg_error_m, 2.0 * stated.tolerance)
    if abs(stated.value - built_m) > max(band_m, LEAST_APART * chord_m):
        share = 100.0 * (stated.value - built_m) / chord_m
        yield f"wing.arm lies {abs(share):.0f} % of the chord farther {'aft' if share > 0.0 else 'forward'}"
