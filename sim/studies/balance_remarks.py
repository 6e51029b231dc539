"""Remarks of a balance: where scenario, item list and scales contradict each other."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.model.flown_mass import LEAST_APART, inertia_apart, mass_apart
from sim.model.plausibility.inertia import unlike_an_airplane
from sim.studies.weighing_remarks import of_scales
from sim.told import together, told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Inertia, Total
    from sim.model.model import Model
    from sim.model.weighing_answer import WeighingAnswer

CORRECTION = (
    "a correction of the list, and the scales still decide weight and CG together. For a change since the weighing set "
    "the item's move, or list what joined with added = true; for another pilot than was weighed give weighing.pilot."
)


def remarks(model: Model, powerplant: str, scales: WeighingAnswer | None) -> Iterator[str]:
    """Yield what the reader of a balance must know, a sentence each.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str
        Engine that it is balanced with.
    scales : WeighingAnswer or None
        Its weighing.
    """
    whole = model.mass_state(powerplant).whole()
    apart = [*_mass(model, whole), *_inertia(model, whole), *_wing_arm(model, whole)]
    if apart:
        yield told(
            "Keys of the scenario disagree with the item list: {keys} than the items give. Flights take mass and CG of "
            "the list; moments of inertia so far apart they take from the keys, as if swung. Correct the items, or "
            "write the keys from the balance.",
            keys=together(apart, ", "),
        )
    yield from _points(model, powerplant, whole)
    yield from _exact(model, powerplant) if scales is None else of_scales(scales)
    yield from _set_on_scales(model)
    if model.weights(powerplant).from_past:
        yield "Masses marked (past builds) are estimated from the group's share of empty weight: weigh the parts."


def _set_on_scales(model: Model) -> Iterator[str]:
    """Yield that a changed item of an airplane as weighed is a corrected list, not a changed airplane."""
    keys = model.set_on_scales
    if keys:
        yield told(
            "{keys} was set, of what stood on the scales: {rest}"
            if len(keys) == 1
            else "{keys} were set, of what stood on the scales: {rest}",
            keys=", ".join(keys),
            rest=CORRECTION,
        )


def _exact(model: Model, powerplant: str) -> Iterator[str]:
    """Yield that items of an airplane that was not weighed count as exact where they state no ±."""
    empty = [item for item in model.weights(powerplant).items if item.group not in USEFUL]
    bare = sum(not (item.mass_error_kg and item.station_error_m) for item in empty)
    if bare:
        yield told(
            "{bare} of {all} items of the empty airplane state no ± of mass or of station, which then counts as exact: "
            "the ± of weight, CG and move of the engine are too small. Write them, or weigh the airplane.",
            bare=bare,
            all=len(empty),
        )


def wing_arm_m(model: Model, cg_station_m: float) -> float:
    """Return how far the quarter of the mean chord lies aft of a centre of gravity [m].

    Parameters
    ----------
    model : Model
        Of a scenario with ``layout.leading_edge``.
    cg_station_m : float
        Aft of the datum. [m]
    """
    return model.mean_chord.station_m(0.25) - cg_station_m


def _mass(model: Model, whole: Total) -> Iterator[str]:
    stated = model.flight_keys["airplane.mass"]
    if mass_apart(stated, whole):
        yield _compared("airplane.mass", stated.value, whole.mass_kg)


def unlike_axes(model: Model, mass_kg: float, tensor: Inertia) -> list[str]:
    """Return the axes about which no airplane has the moment of inertia that the items give."""
    built = {"roll": tensor.xx, "pitch": tensor.yy, "yaw": tensor.zz}
    return [axis for axis, of in built.items() if unlike_an_airplane(model, mass_kg, of, axis)]


def _points(model: Model, powerplant: str, whole: Total) -> Iterator[str]:
    """Yield that items without sizes make moments of inertia that no airplane has."""
    axes = unlike_axes(model, whole.mass_kg, whole.inertia_kg_m2)
    items = [item for item in model.weights(powerplant).items if item.mass_kg > 0.0]
    bare = [item for item in items if not (item.length_m or item.width_m or item.height_m)]
    if axes and bare:
        yield told(
            "{bare} of {all} items state no length, width or height and count as points: about {axes} they give a "
            "moment of inertia that no airplane of this size has. Give the wings their spans as widths, fuselage and "
            "tail their lengths; until then those of the airplane table are flown, and --write leaves them as they "
            "are.",
            bare=len(bare),
            all=len(items),
            axes=together(axes, " and "),
        )


def _inertia(model: Model, whole: Total) -> Iterator[str]:
    tensor = whole.inertia_kg_m2
    if unlike_axes(model, whole.mass_kg, tensor):
        return
    for axis, built in (("roll", tensor.xx), ("pitch", tensor.yy), ("yaw", tensor.zz)):
        key = f"airplane.inertia_{axis}"
        stated = model.flight_keys[key]
        if inertia_apart(stated.value, built, stated.tolerance):
            yield _compared(key, stated.value, built)


def _compared(key: str, stated: float, built: float) -> str:
    over = 100.0 * (stated / built - 1.0)
    return told("{key} is {over} % more" if over > 0.0 else "{key} is {over} % less", key=key, over=f"{abs(over):.0f}")


def _wing_arm(model: Model, whole: Total) -> Iterator[str]:
    stated, built_m = model.flight_keys["wing.arm"], wing_arm_m(model, whole.cg_station_m)
    chord_m = model.wing.nominal.chord_m
    band_m = hypot(2.0 * whole.cg_error_m, 2.0 * stated.tolerance)
    if abs(stated.value - built_m) > max(band_m, LEAST_APART * chord_m):
        share = 100.0 * (stated.value - built_m) / chord_m
        yield told(
            "{key} lies {share} % of the chord farther aft"
            if share > 0.0
            else "{key} lies {share} % of the chord farther forward",
            key="wing.arm",
            share=f"{abs(share):.0f}",
        )
