"""The controls of a scenario's airplane: hinge moments by its geometry, gearing by the travel in the cockpit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from sim.aerodynamics.hinge_moments import HingeLaw, hinge_law
from sim.aerodynamics.lattice_airplane import CARRY_THROUGH
from sim.atmosphere import GRAVITY_M_S2
from sim.flight.control_system import ControlSystem

if TYPE_CHECKING:
    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.scenario.tables import Scenario

TRAVELS: Final = {"stick_travel": 0.40, "stick_side_travel": 0.40, "pedal_travel": 0.20}
"""Of grip and pedal from stop to stop, where none is given [m], ± `TRAVEL_ERROR` (common practice, no source)."""
TRAVEL_ERROR: Final = 0.2
"""Standard deviation over itself of such an estimate."""
FRICTIONS: Final = {"stick_friction": 9.0, "pedal_friction": 18.0}
"""Where none is given [N]: 2 and 4 lbf, by half to twice (common practice, no source)."""
AREA_MASS_KG_M2, MASS_ARM_SHARE, WEIGHT_ERROR = 2.4, 0.4, 0.4
"""Mass of a fabric-covered elevator over its area [kg/m²], its centre of gravity behind the hinge over its chord, and
the standard deviation of their product over itself (common practice, no source)."""
PLATE: Final = 4.0 / 3.0
"""Moment of inertia of an even plate about its edge over its mass times the square of the arm of its middle."""


def control_system(scenario: Scenario, airframe: Airframe, polar: Polar) -> ControlSystem:
    """Return what stands between the control surfaces and the pilot of a scenario's airplane.

    Parameters
    ----------
    scenario : Scenario
        Travels of surfaces, grip and pedals, balance, gaps, weight.
    airframe, polar : Airframe, Polar
        Geometry, and the wing as one equivalent monoplane.
    """
    elevator, rudder, aileron = scenario.elevator, scenario.rudder, scenario.aileron
    travel = {key: getattr(scenario.controls, f"{key}_m") or estimate for key, estimate in TRAVELS.items()}
    friction = {
        key: estimate if given is None else given
        for key, estimate in FRICTIONS.items()
        for given in [getattr(scenario.controls, f"{key}_n")]
    }
    turned: dict[str, Any] = {
        "elevator_gearing_per_m": (elevator.up_travel_rad + elevator.down_travel_rad) / travel["stick_travel"],
        "aileron_gearing_per_m": 2.0 * aileron.travel_rad / travel["stick_side_travel"],
        "rudder_gearing_per_m": 2.0 * rudder.travel_rad / travel["pedal_travel"],
    }
    weight_n_m, arm_m, weight_error = _weight(scenario, airframe)
    aspect = polar.aspect_ratio
    return ControlSystem(
        **_laws(scenario, airframe, polar),
        **turned,
        elevator_weight_n_m=weight_n_m,
        elevator_inertia_kg_m2=PLATE * max(weight_n_m * arm_m, 0.0) / GRAVITY_M_S2 if arm_m > 0.0 else 0.0,
        aileron_arm_m=0.25 * (airframe.aileron_from + airframe.aileron_to) * airframe.wing.span_m,
        roll_relief=aspect / (aspect + 4.0),
        stick_friction_n=friction["stick_friction"],
        pedal_friction_n=friction["pedal_friction"],
        errors={
            **{name: _error(scenario, key) for name, key in zip(turned, TRAVELS, strict=True)},
            "elevator_weight_n_m": weight_error,
        },
        estimated=tuple(_estimated(scenario)),
    )


def _laws(scenario: Scenario, airframe: Airframe, polar: Polar) -> dict[str, HingeLaw]:
    """Return the hinge moments of the three surfaces, by name."""
    tail, fin = airframe.tailplane, airframe.fin
    above_m2 = CARRY_THROUGH * airframe.body_depth_m * fin.chord_m
    planes = airframe.wing.planes[: airframe.aileron_planes]
    chord_m = sum(plane.chord_m**2 * plane.span_m for plane in planes)
    span_m = sum(plane.span_m for plane in planes)
    return {
        "elevator": hinge_law(
            flap_span_m=tail.span_m,
            chord_m=tail.chord_m,
            chord_share=tail.flap_share,
            whole_m2=tail.area_m2,
            section_slope=tail.section_slope,
            balance_share=scenario.elevator.balance_share,
            sealed=scenario.elevator.gap == "sealed",
        ),
        "aileron": hinge_law(
            flap_span_m=0.5 * (airframe.aileron_to - airframe.aileron_from) * span_m,
            chord_m=(chord_m / span_m) ** 0.5,
            chord_share=airframe.aileron_chord_share,
            whole_m2=polar.area_m2,
            section_slope=airframe.wing.mean("section_slope"),
            balance_share=scenario.aileron.balance_share,
            sealed=scenario.aileron.gap == "sealed",
        ),
        "rudder": hinge_law(
            flap_span_m=fin.span_m,
            chord_m=fin.chord_m,
            chord_share=fin.flap_share,
            whole_m2=fin.area_m2 + above_m2,
            section_slope=fin.section_slope,
            balance_share=scenario.rudder.balance_share,
            sealed=scenario.rudder.gap == "sealed",
        ),
    }


def _weight(scenario: Scenario, airframe: Airframe) -> tuple[float, float, float]:
    """Return the weight of the elevator times its arm behind the hinge [N m], the arm [m], the error of the first."""
    tail, table = airframe.tailplane, scenario.elevator
    chord_m = tail.flap_share * tail.chord_m
    mass_kg = AREA_MASS_KG_M2 * tail.span_m * chord_m if table.mass_kg is None else table.mass_kg
    arm_m = MASS_ARM_SHARE * chord_m if table.mass_arm_m is None else table.mass_arm_m
    given = [table.mass_kg, table.mass_arm_m]
    return mass_kg * GRAVITY_M_S2 * arm_m, arm_m, WEIGHT_ERROR if None in given else 0.0


def _error(scenario: Scenario, key: str) -> float:
    """Return the standard deviation of a travel in the cockpit over itself."""
    given = getattr(scenario.controls, f"{key}_m")
    return scenario.tolerances.get(f"controls.{key}", 0.0) / given if given else TRAVEL_ERROR


def _estimated(scenario: Scenario) -> list[str]:
    """Return the keys of the controls that the scenario leaves out."""
    table = scenario.controls
    found = [f"controls.{key}" for key in TRAVELS if getattr(table, f"{key}_m") is None]
    found += [f"controls.{key}" for key in FRICTIONS if getattr(table, f"{key}_n") is None]
    return found + [f"elevator.{key}" for key, given in _weights(scenario) if given is None]


def _weights(scenario: Scenario) -> tuple[tuple[str, float | None], ...]:
    return ("mass", scenario.elevator.mass_kg), ("mass_arm", scenario.elevator.mass_arm_m)
