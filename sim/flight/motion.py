"""The equations of motion: six degrees of freedom, a quaternion, and a shaft with rotors coupled to the airframe.

The same function serves one flight, a batch of flights, linearisation and symbolic derivation::

    rates = motion(airplane, functions)                   # (state, controls) -> rates of the state
    f = right_hand_side(airplane, controls, functions)    # (t, state) -> rates, for `sim.numerics.ode`

The state is a sequence of the 14 numbers `STATE`: north, east, down [m]; e0 to e3, the unit quaternion that turns
body into earth components; u, v, w [m/s]; p, q, r [rad/s]; and the spin of the engine shaft relative to the airframe
[rad/s], clockwise positive. Its components are floats (``functions=math``), arrays with one
entry per flight (`sim.numerics.number.ARRAY_MATH`), complex numbers (`cmath`) or symbols (`sympy`): the equations
contain no comparison.

`Controls` are numbers, arrays, or a function of time that returns them; where that function is discontinuous, give
the integrator the times as `breakpoints_s`. No wing area and no propeller torque and thrust, or
``sea_level_density_kg_m3=0``, is flight without air; ``gravity_m_s2=0`` is flight without weight.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.aerodynamics.airplane_loads import airplane_loads
from sim.aerodynamics.forces import SPEED_FLOOR_M_S, Derivatives
from sim.aerodynamics.polar import NO_WING, Polar
from sim.aerodynamics.slipstream import Slipstream
from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3, density_ratio
from sim.flight.shaft_inertia import free_shaft_inertias_kg_m2, rotor_sums
from sim.numerics.array_kernel import ArrayKernel
from sim.numerics.number import ARRAY_MATH
from sim.numerics.scalar_kernel import scalar_kernel
from sim.numerics.trace import record
from sim.propulsion.disc import Disc, disc_loads
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor, shaft_loads

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.aerodynamics.strips import Strips
    from sim.numerics.number import MathFunctions, Number
    from sim.numerics.trace import Trace

STATE: Final = ("north", "east", "down", "e0", "e1", "e2", "e3", "u", "v", "w", "p", "q", "r", "spin")


class Controls(NamedTuple):
    """Positions of the controls, each a number or an array with one entry per flight.

    Attributes
    ----------
    elevator_rad, aileron_rad, rudder_rad : float
        Positive makes a negative moment: nose down, left roll, nose left. [rad]
    throttle : float
        0 is the ignition cut, 1 full throttle.
    shaft_torque_n_m : float
        Torque on the shaft from the airframe in addition to the engine's, clockwise positive. [N m]
    """

    elevator_rad: Number = 0.0
    aileron_rad: Number = 0.0
    rudder_rad: Number = 0.0
    throttle: Number = 0.0
    shaft_torque_n_m: Number = 0.0


@dataclass(frozen=True, slots=True)
class Body:
    """Mass and inertia, with the rotors' inertia across the shaft but without that about it.

    Attributes
    ----------
    mass_kg : float
        Total mass, rotors included. [kg]
    inertia_roll_kg_m2, inertia_pitch_kg_m2, inertia_yaw_kg_m2 : float
        Moments of inertia about the centre of gravity. [kg m²]
    inertia_product_kg_m2 : float
        Product of inertia ∫ x z dm. [kg m²]
    """

    mass_kg: float
    inertia_roll_kg_m2: float
    inertia_pitch_kg_m2: float
    inertia_yaw_kg_m2: float
    inertia_product_kg_m2: float = 0.0


@dataclass(frozen=True, slots=True)
class Airplane:
    """An airplane with one shaft.

    Attributes
    ----------
    body : Body
    rotors : tuple of Rotor
        All that turns with the shaft; without rotors its speed is constant.
    polar : Polar
    derivatives : Derivatives
    engine : Engine
    propeller : Propeller
    disc : Disc
        Where it turns.
    slipstream : Slipstream
        What lies in it.
    strips : Strips or None
        What it flies with past the stall; without them its lift is bounded and nothing else stalls.
    shaft_tilt_rad : float
        Inclination of the shaft to the x axis, nose up positive. [rad]
    thrust_arm_m : float
        Distance of the thrust line below the centre of gravity. [m]
    gravity_m_s2 : float
        [m/s²]
    sea_level_density_kg_m3 : float
        Air density at sea level; 0 for no air. [kg/m³]
    """

    body: Body
    rotors: tuple[Rotor, ...] = ()
    polar: Polar = NO_WING
    derivatives: Derivatives = field(default_factory=Derivatives)
    engine: Engine = field(default_factory=Engine)
    propeller: Propeller = field(default_factory=Propeller)
    disc: Disc = field(default_factory=Disc)
    slipstream: Slipstream = field(default_factory=Slipstream)
    strips: Strips | None = None
    shaft_tilt_rad: float = 0.0
    thrust_arm_m: float = 0.0
    gravity_m_s2: float = GRAVITY_M_S2
    sea_level_density_kg_m3: float = SEA_LEVEL_KG_M3


def right_hand_side(
    airplane: Airplane, controls: Controls | Callable[[float], Controls], functions: MathFunctions = math
) -> Callable[[float, Number], Number]:
    """Return f(t, state), the rates of the 14 states.

    Parameters
    ----------
    airplane : Airplane
    controls : Controls or function
        Constant, or a function of time in seconds.
    functions : module
        `math` for floats, `ARRAY_MATH` for real arrays: the equations are then traced once, in about 3 ms, and
        evaluated as a kernel (`sim.numerics`). With `cmath` or `sympy` they are evaluated directly. For complex arrays
        use `motion`.
    """
    if functions is not math and functions is not ARRAY_MATH:
        rates = motion(airplane, functions)
        return lambda t, state: rates(state, controls if isinstance(controls, Controls) else controls(t))
    if isinstance(controls, Controls):
        constant = record(lambda recorded: lambda state: motion(airplane, recorded)(state, controls), len(STATE))
        if functions is ARRAY_MATH:
            return ArrayKernel(constant)
        kernel = scalar_kernel(constant)
        return lambda t, state: kernel(state)  # noqa: ARG005
    if functions is ARRAY_MATH:
        return ArrayKernel(_traced(airplane), controls)
    kernel = _scalar_kernel(airplane)
    return lambda t, state: kernel((*state, *controls(t)))


def motion_of_floats(airplane: Airplane) -> Callable[[Sequence[float], Sequence[float]], tuple[float, ...]]:
    """Return `motion` for floats; that of an airplane with strips, thousands of operations, is traced and compiled."""
    if airplane.strips is None:
        return motion(airplane)
    kernel = _scalar_kernel(airplane)
    return lambda state, controls: kernel((*state, *controls))


@lru_cache(maxsize=8)
def _scalar_kernel(airplane: Airplane) -> Callable[..., tuple[float, ...]]:
    """Return the motion as a function of states and controls; flights that differ in their controls share it."""
    return scalar_kernel(_traced(airplane))


def _traced(airplane: Airplane) -> Trace:
    return record(lambda recorded: motion(airplane, recorded), len(STATE), len(Controls._fields))


def motion(airplane: Airplane, functions: MathFunctions = math) -> Callable[[Number, Number], tuple[Number, ...]]:
    """Return the function (state, controls) -> rates of the 14 states.

    Parameters
    ----------
    airplane : Airplane
    functions : module
        Source of `sqrt` and `atan`: `math`, `ARRAY_MATH`, `cmath` or `sympy`.

    Notes
    -----
    Rigid airframe, flat non-rotating earth, air at rest, a propeller whose inertia across the shaft is the same in
    every direction (three or more blades, or two blades averaged over a turn). Without air, weight and engine the
    equations conserve momentum and energy.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, sections 4.3 to 4.6 (rotor terms).

    Examples
    --------
    >>> free = Airplane(Body(600.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(10.0),), gravity_m_s2=0.0)
    >>> at_rest = (0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 130.0)
    >>> right_hand_side(free, Controls())(0.0, at_rest)[10:13]
    (0.0, 0.0, 0.0)
    """
    air = airplane_loads(
        airplane.polar, airplane.derivatives, airplane.slipstream, airplane.strips, functions=functions
    )
    shaft = shaft_loads(airplane.engine, airplane.propeller, functions)
    across = disc_loads(
        airplane.engine, airplane.propeller, airplane.disc, airplane.shaft_tilt_rad, functions=functions
    )
    rotation = _rotation(airplane)
    along_x, along_z = math.cos(airplane.shaft_tilt_rad), -math.sin(airplane.shaft_tilt_rad)
    per_mass, gravity, arm = 1.0 / airplane.body.mass_kg, airplane.gravity_m_s2, airplane.thrust_arm_m

    def rates(state: Number, controls: Number) -> tuple[Number, ...]:
        _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, spin = state
        density = airplane.sea_level_density_kg_m3 * density_ratio(-down)
        moving = (u, v, w, p, q, r)
        s = shaft((spin, along_x * u + along_z * w), density, controls)
        a = air(moving, density, controls, (s.thrust, s.propeller))
        d = across(moving, spin, density)
        to_earth = _to_earth(e0, e1, e2, e3)
        (_, _, _), (_, _, _), (down_x, down_y, down_z) = to_earth
        u_dot = per_mass * (a.x + d.x + along_x * s.thrust) + gravity * down_x + r * v - q * w
        v_dot = per_mass * (a.y + d.y) + gravity * down_y + p * w - r * u
        w_dot = per_mass * (a.z + d.z + along_z * s.thrust) + gravity * down_z + q * u - p * v
        alpha_dot = (u * w_dot - w * u_dot) / (u * u + w * w + SPEED_FLOOR_M_S**2)
        pitch = a.pitch + d.pitch + a.pitch_per_alpha_dot * alpha_dot + arm * s.thrust
        roll, yaw = a.roll + d.roll, a.yaw + d.yaw
        return (
            *(x * u + y * v + z * w for x, y, z in to_earth),
            -0.5 * (e1 * p + e2 * q + e3 * r),
            0.5 * (e0 * p + e2 * r - e3 * q),
            0.5 * (e0 * q + e3 * p - e1 * r),
            0.5 * (e0 * r + e1 * q - e2 * p),
            u_dot,
            v_dot,
            w_dot,
            *rotation((roll, pitch, yaw), (p, q, r, spin), s),
        )

    return rates


def _to_earth(e0: Number, e1: Number, e2: Number, e3: Number) -> tuple[tuple[Number, Number, Number], ...]:
    """Return the rows north, east, down of the matrix that turns body into earth components."""
    s0, s1, s2, s3 = e0 * e0, e1 * e1, e2 * e2, e3 * e3
    d1, d2, d3 = e1 + e1, e2 + e2, e3 + e3
    return (
        ((s0 - s3) + (s1 - s2), d1 * e2 - d3 * e0, d1 * e3 + d2 * e0),
        (d1 * e2 + d3 * e0, (s0 - s3) - (s1 - s2), d2 * e3 - d1 * e0),
        (d1 * e3 - d2 * e0, d2 * e3 + d1 * e0, (s0 + s3) - (s1 + s2)),
    )


def _rotation(airplane: Airplane) -> Callable[[Number, Number, Number], tuple[Number, Number, Number, Number]]:
    """Return the function (moment, (p, q, r, spin), shaft loads) -> rates of p, q, r and spin.

    With I, A and B the sums of the rotors' inertia times their gear ratio to the powers 0, 1 and 2, and s the shaft
    direction, the angular momentum of the rotors about the shaft is H = I ω·s + A Ω. Shaft and airplane obey

        A ω̇·s + B Ω̇ = engine − windage − ratio × propeller torque =: Q
        J ω̇ + (I ω̇·s + A Ω̇) s + ω × (J ω + H s) = M − (windage + propeller torque) s

    Eliminating Ω̇ leaves the constant matrix J + (I − A²/B) s sᵀ, which is inverted once.
    """
    body, ratio = airplane.body, airplane.propeller.ratio
    sx, sz = math.cos(airplane.shaft_tilt_rad), -math.sin(airplane.shaft_tilt_rad)
    polar, coupling, shaft_inertia = rotor_sums(airplane)
    per_shaft_inertia = 1.0 / shaft_inertia if airplane.rotors else 0.0
    xx, yy, zz = body.inertia_roll_kg_m2, body.inertia_pitch_kg_m2, body.inertia_yaw_kg_m2
    xz = -body.inertia_product_kg_m2
    kxx, kxz, kzz = free_shaft_inertias_kg_m2(airplane)
    jxx, jxz, jzz = xx + polar * sx * sx, xz + polar * sx * sz, zz + polar * sz * sz
    determinant = kxx * kzz - kxz * kxz
    ixx, ixz, izz, iyy = kzz / determinant, -kxz / determinant, kxx / determinant, 1.0 / yy

    def rates(moment: Number, velocity: Number, shaft: Number) -> tuple[Number, Number, Number, Number]:
        roll, pitch, yaw = moment
        p, q, r, spin = velocity
        hx, hy, hz = jxx * p + jxz * r + sx * coupling * spin, yy * q, jxz * p + jzz * r + sz * coupling * spin
        torque = shaft.engine - shaft.windage - ratio * shaft.propeller
        reaction = shaft.windage + shaft.propeller + coupling * per_shaft_inertia * torque
        mx, mz = roll - q * hz + r * hy - sx * reaction, yaw - p * hy + q * hx - sz * reaction
        p_dot, r_dot = ixx * mx + ixz * mz, ixz * mx + izz * mz
        q_dot = iyy * (pitch - r * hx + p * hz)
        return p_dot, q_dot, r_dot, per_shaft_inertia * (torque - coupling * (sx * p_dot + sz * r_dot))

    return rates
