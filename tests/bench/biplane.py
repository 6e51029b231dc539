"""One invented biplane in plain numbers, for benches and tests: a heavy rotor or a light one, turning either way."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.polar import Polar
from sim.aerodynamics.slipstream import Slipstream
from sim.flight.motion import Airplane, Body
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.disc import Disc
from sim.propulsion.engine_propeller import Rotor, matched_engine
from sim.propulsion.propeller_fit import fitted_propeller

if TYPE_CHECKING:
    from collections.abc import Mapping

DERIVATIVES = Derivatives(
    lift_alpha=4.1,
    lift_q=2.5,
    lift_elevator=0.27,
    pitch_0=0.02,
    pitch_alpha=-0.3,
    pitch_alpha_dot=-4.5,
    pitch_q=-7.3,
    pitch_elevator=-0.8,
    side_beta=-0.16,
    side_p=-0.007,
    side_r=0.09,
    side_rudder=0.083,
    roll_beta=-0.043,
    roll_p=-0.5,
    roll_r=0.09,
    roll_aileron=-0.235,
    roll_rudder=0.003,
    yaw_beta=0.02,
    yaw_p=-0.04,
    yaw_r=-0.063,
    yaw_aileron=0.025,
    yaw_rudder=-0.041,
)
POLAR = Polar(
    area_m2=23.5,
    span_m=8.56,
    chord_m=1.37,
    aspect_ratio=4.07,
    span_efficiency=0.7,
    drag_zero_lift=0.042,
    lift_zero=0.3,
    lift_max=1.45,
)
BODY = Body(635.0, 870.0, 1060.0, 1750.0, 20.0)
SHAFT = {"power_w": 97e3, "speed_rad_s": 131.0}
PROPELLER = fitted_propeller(pitched_blade(2, 1.02, 0.08), diameter_m=2.62, tip_mach=0.46, efficiency=0.72)

DISC = Disc(arm_m=1.2, height_m=-0.06, share=1.0)
SLIPSTREAM = Slipstream(
    disc_m2=PROPELLER.area_m2,
    wing_share=0.2,
    wing_arm_m=0.06,
    tail_share=0.85,
    tail_arm_m=4.0,
    tail_angle_m2=4.9,
    tail_rate_m2=8.6,
    tail_stream_m2=-0.15,
    tail_setting_m2=0.09,
    elevator_m2=6.3,
    fin_share=0.95,
    fin_above_share=0.6,
    fin_arm_m=4.2,
    fin_height_m=0.35,
    fin_angle_m2=2.4,
    fin_rate_m2=2.9,
    fin_roll_m3=-0.9,
    rudder_m2=1.9,
    recovered_share=0.45,
)


def make(
    *,
    inertia_kg_m2: float = 16.0,
    sense: float = 1.0,
    derivatives: Mapping[str, float] | None = None,
    **changes: Any,
) -> Airplane:
    """Return the biplane: ``make(sense=-1.0, derivatives={"yaw_r": 0.0}, thrust_arm_m=0.1)``."""
    airplane = Airplane(
        body=BODY,
        rotors=(Rotor(inertia_kg_m2),),
        polar=POLAR,
        derivatives=replace(DERIVATIVES, **(derivatives or {})),
        engine=matched_engine(**SHAFT, rotation=sense, friction_torque_n_m=34.0, windage_w=10e3),
        propeller=PROPELLER,
    )
    return replace(airplane, **changes)


def level_state(*, speed_m_s: float = 0.0, altitude_m: float = 0.0, spin_rad_s: float = 0.0) -> tuple[float, ...]:
    """Return the state of an airplane heading north with wings and nose level, not rotating.

    Parameters
    ----------
    speed_m_s : float
        Along the x axis. [m/s]
    altitude_m : float
        [m]
    spin_rad_s : float
        Speed of the engine shaft, clockwise positive. [rad/s]
    """
    return (0.0, 0.0, -altitude_m, 1.0, 0.0, 0.0, 0.0, speed_m_s, 0.0, 0.0, 0.0, 0.0, 0.0, spin_rad_s)
