"""Radii of gyration against span and length: an inertia in another unit, or boxes of items that are not its size."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.model import Model
    from sim.model.plausibility.remark import Examined, Remark, Usual


AXES = ("roll", "pitch", "yaw")


def usual_radius(model: Model, axis: str) -> tuple[Usual, float, str]:
    """Return the usual radius of gyration about an axis, over what size of the airplane [m], and that in words."""
    half_span_m, half_length_m = 0.5 * model.wing.span_m, 0.5 * model.airframe.body_length_m
    sizes = {
        "roll": (limits.ROLL_RADIUS, half_span_m, "half the span"),
        "pitch": (limits.PITCH_RADIUS, half_length_m, "half the length"),
        "yaw": (limits.YAW_RADIUS, 0.5 * (half_span_m + half_length_m), "half the mean of span and length"),
    }
    return sizes[axis]


def unlike_an_airplane(model: Model, mass_kg: float, inertia_kg_m2: float, axis: str) -> bool:
    """Return whether no airplane of this size has such a moment of inertia about an axis."""
    usual, size_m, _ = usual_radius(model, axis)
    return not usual.holds(sqrt(max(0.0, inertia_kg_m2) / mass_kg) / size_m)


GYRATION = {
    "roll": "the radius of gyration in roll with {name}, over {length},",
    "pitch": "the radius of gyration in pitch with {name}, over {length},",
    "yaw": "the radius of gyration in yaw with {name}, over {length},",
}
"""Axis -> what is unusual."""


def radii_of_gyration(examined: Examined) -> Iterator[Remark]:
    """Yield radii of gyration, over half the span or the length, unlike those of airplanes."""
    model = examined.model
    for name in model.powerplants:
        flown = model.flown_mass(name)
        for axis in AXES:
            usual, size_m, words = usual_radius(model, axis)
            inertia_kg_m2 = getattr(flown.body, f"inertia_{axis}_kg_m2")
            yield from unusual(
                usual,
                sqrt(max(0.0, inertia_kg_m2) / flown.body.mass_kg)
                / size_m,  # below 0 where a list contradicts the keys
                key=f"airplane.inertia_{axis}",
                what=told(GYRATION[axis], name=name, length=words),
                cure="Check mass and inertia and their units."
                if flown.source == "given"
                else "Check inertia, and stations and sizes of the items.",
            )
