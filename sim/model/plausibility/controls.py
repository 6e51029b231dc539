"""The controls: gearing by the travel in the cockpit, weight of the elevator, and surfaces that do not centre."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.flight.stick_free import hinge_slopes
from sim.model.plausibility import limits
from sim.model.plausibility.remark import Remark, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined


def gearing(examined: Examined) -> Iterator[Remark]:
    """Yield a grip or a pedal that goes unusually far or little from stop to stop."""
    for key, usual, moved, what in (
        ("stick_travel", limits.STICK_TRAVEL, "elevator.up_travel and down_travel", "the travel of the grip"),
        ("stick_side_travel", limits.STICK_TRAVEL, "aileron.travel", "the sideways travel of the grip"),
        ("pedal_travel", limits.PEDAL_TRAVEL, "rudder.travel", "the travel of a pedal"),
    ):
        travel_m = getattr(examined.scenario.controls, f"{key}_m")
        if travel_m is not None:
            cure = told("It is from stop to stop, for {moved}; forces at the control go with its inverse.", moved=moved)
            yield from unusual(usual, travel_m, key=f"controls.{key}", what=what, cure=cure)


def elevator_weight(examined: Examined) -> Iterator[Remark]:
    """Yield an elevator that is unusually light or heavy for its area."""
    mass_kg, tail = examined.scenario.elevator.mass_kg, examined.model.airframe.tailplane
    if mass_kg:
        spread = mass_kg / (tail.span_m * tail.chord_m * tail.flap_share)
        what = "the mass over the area behind the hinge"
        yield from unusual(
            limits.ELEVATOR_SPREAD, spread, key="elevator.mass", what=what, cure="Check that it is of both halves."
        )


def centring(examined: Examined) -> Iterator[Remark]:
    """Yield surfaces so far balanced that the air would carry them to their stops."""
    flying = next(iter(examined.model.airplanes()))
    system, slip, relief = flying.controls, flying.airplane.slipstream, flying.controls.roll_relief
    rudder, aileron = system.rudder, system.aileron
    slopes = {
        "elevator": hinge_slopes(flying.airplane, system.elevator).elevator_m3,
        "rudder": rudder.by_lift_m * slip.rudder_m2 + rudder.by_deflection_m3,
        "aileron": aileron.deflection_per_rad - (1.0 - relief) * aileron.effectiveness * aileron.angle_per_rad,
    }
    for name, slope in slopes.items():
        if slope >= 0.0:
            key = f"{name}.balance_share"
            yield Remark(
                key,
                told(
                    "{key}: with so much area ahead of the hinge the air carries the {name} to its stop; a pilot would "
                    "have to hold it back. Take less, or check the area behind the hinge.",
                    key=key,
                    name=name,
                ),
            )
