"""How an airplane stands on its wheels with one powerplant, and whether that is good or poor practice."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final

from sim.aerodynamics.strips_lift_max import stall_alpha_rad
from sim.model.plausibility.remark import Usual

if TYPE_CHECKING:
    from sim.model.airplane import FlyingAirplane
    from sim.model.plausibility.propeller import Clearance
    from sim.studies.field_place import FieldPlace

PRACTICE: Final = "common practice, no source"
SHORT_OF_STALL: Final = Usual(0.0, 4.0, PRACTICE, "stall_alpha_deg")
"""Angle of attack of the stall over the attitude on all wheels: so a three-point landing touches a little above it."""
NOSE_OVER: Final = Usual(16.0, 25.0, PRACTICE, "nose_over_deg")
"""At the least of it braked wheels, whose friction is 0.3 of their load, do not stand it on its nose."""
STRIKES: Final = "strikes"
"""Of a propeller that reaches the ground."""
OVERTURN: Final = Usual(None, 63.0, PRACTICE, "overturn_deg")


def stance_of(place: FieldPlace, clearance: Clearance | None) -> dict[str, Any]:
    """Return the stance of the one airplane of a place, and its verdicts, by the fields of `FieldOf`.

    Parameters
    ----------
    place : FieldPlace
    clearance : Clearance or None
        Of its propeller.

    Notes
    -----
    Tipped about its wheels an airplane stands on its nose where they drag the tangent of the nose-over angle of its
    weight or more.
    """
    gear, ahead_m = place.gear, float(place.gear.ahead_m[0])
    found = {
        "tail_down_deg": math.degrees(gear.tail_down_rad),
        "stall_alpha_deg": math.degrees(stalling_rad(place.flying)),
        "nose_over_deg": math.degrees(math.atan2(ahead_m, gear.below_m)),
        "nose_over_friction": ahead_m / gear.below_m,
        "overturn_deg": place.overturn_deg(),
    }
    held = {
        "tail_down_deg": (SHORT_OF_STALL, found["stall_alpha_deg"] - found["tail_down_deg"]),
        "nose_over_deg": (NOSE_OVER, found["nose_over_deg"]),
        "overturn_deg": (OVERTURN, found["overturn_deg"]),
    }
    above = {
        "propeller_clearance_m": clearance.level_clearance_m if clearance else None,
        "propeller_clearance_tail_down_m": clearance.standing_clearance_m if clearance else None,
    }
    held |= {name: (clearance.usual, value) for name, value in above.items() if clearance and value is not None}
    verdicts = {name: "good" if usual.holds(value) else "poor" for name, (usual, value) in held.items()}
    verdicts |= {name: STRIKES for name, value in above.items() if value is not None and value <= 0.0}
    return {**found, **above, "verdicts": verdicts}


def stalling_rad(flying: FlyingAirplane) -> float:
    """Return the angle of attack of greatest lift in trimmed straight flight without power [rad].

    Of its strips; where it has none, where the line of attached flow reaches the greatest lift.
    """
    polar, d = flying.airplane.polar, flying.airplane.derivatives
    if flying.strips is None:
        return float(polar.attached_to_rad(d.lift_alpha))
    return stall_alpha_rad(flying.strips(), polar, d)
