"""The controls between surfaces and pilot: hinge moments, gearing, weight and friction."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.aerodynamics.hinge_moments import ANGLE_ERROR, DEFLECTION_ERROR, HORN_ERROR, WHOLE_ERROR

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.aerodynamics.hinge_moments import HingeLaw
    from sim.flight.many_airplanes import Draws
    from sim.numerics.number import Number


@dataclass(frozen=True, slots=True)
class ControlSystem:
    """What stands between the control surfaces and the pilot; numbers may be arrays, one entry an airplane.

    Attributes
    ----------
    elevator, aileron, rudder : HingeLaw
        Hinge moments; those of the ailerons of one side.
    elevator_gearing_per_m, aileron_gearing_per_m, rudder_gearing_per_m : float
        Angle of the surface for a unit of travel of the grip, fore and aft and sideways, or of a pedal. [rad/m]
    elevator_weight_n_m : float
        Weight of the elevator times the distance of its centre of gravity behind the hinge. [N m]
    elevator_inertia_kg_m2 : float
        Of the elevator about its hinge, as of an even plate; 0 where its centre of gravity is not behind it. [kg m²]
    aileron_arm_m : float
        Middle of the ailerons from the plane of symmetry. [m]
    roll_relief : float
        What of a change of incidence that is opposite on both sides remains on a wing of finite span, 0 to 1.
    stick_friction_n, pedal_friction_n : float
        Force within which nothing moves, at the grip and at a pedal. [N]
    errors : Mapping of str to float
        Standard deviation of gearings and weight over themselves, by name.
    estimated : tuple of str
        Keys of the scenario that were not given, whose estimates serve.
    """

    elevator: HingeLaw
    aileron: HingeLaw
    rudder: HingeLaw
    elevator_gearing_per_m: Number
    aileron_gearing_per_m: Number
    rudder_gearing_per_m: Number
    elevator_weight_n_m: Number
    elevator_inertia_kg_m2: float
    aileron_arm_m: float
    roll_relief: float
    stick_friction_n: float
    pedal_friction_n: float
    errors: Mapping[str, float]
    estimated: tuple[str, ...] = ()

    @property
    def open_gaps(self) -> tuple[str, ...]:
        """Return the surfaces at whose hinges the gap is open."""
        return tuple(name for name in ("elevator", "aileron", "rudder") if getattr(self, name).open_gap)


SURFACES = ("elevator", "aileron", "rudder")
LEAST = 0.1
"""Of its own size, below which no gearing, weight or part of a hinge moment is drawn."""


def drawn_system(system: ControlSystem, draws: Draws) -> ControlSystem:
    """Return the controls of many airplanes, drawn from their errors; every surface errs by itself.

    Parameters
    ----------
    system : ControlSystem
        With its most likely numbers.
    draws : Draws
        Of the sources; two engines of one airframe have the same controls.
    """
    changed: dict[str, Any] = {
        name: getattr(system, name) * _near_one(draws, name, error) for name, error in system.errors.items() if error
    }
    changed |= {name: _drawn_law(getattr(system, name), name, draws) for name in SURFACES}
    return replace(system, **changed)


def repeated_system(system: ControlSystem, times: int) -> ControlSystem:
    """Return the controls of many airplanes with those of each `times` in a row."""
    laws: dict[str, Any] = {name: _repeated(getattr(system, name), times) for name in SURFACES}
    many: ControlSystem = _repeated(system, times)
    return replace(many, **laws)


def _repeated(part: Any, times: int) -> Any:  # noqa: ANN401
    arrays = {one.name: value for one in fields(part) if isinstance(value := getattr(part, one.name), np.ndarray)}
    return replace(part, **{name: np.repeat(value, times) for name, value in arrays.items()})


def _drawn_law(law: HingeLaw, name: str, draws: Draws) -> HingeLaw:
    """Return a hinge moment drawn; one of a surface that moves as a whole errs by the place of its lift alone."""
    angle = _near_one(draws, f"{name} hinge angle", WHOLE_ERROR if law.all_moving else ANGLE_ERROR)
    if law.all_moving:
        plain = law.plain_angle_per_rad * angle
        return replace(law, plain_angle_per_rad=plain, plain_deflection_per_rad=plain)
    return replace(
        law,
        plain_angle_per_rad=law.plain_angle_per_rad * angle,
        plain_deflection_per_rad=law.plain_deflection_per_rad
        * _near_one(draws, f"{name} hinge deflection", DEFLECTION_ERROR),
        horn_per_rad=law.horn_per_rad * _near_one(draws, f"{name} horn", HORN_ERROR) if law.horn_per_rad else 0.0,
    )


def _near_one(draws: Draws, source: str, error: float) -> NDArray[np.float64]:
    return (1.0 + error * draws.of(source)).clip(LEAST)
