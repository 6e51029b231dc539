"""The equations of motion: six degrees of freedom, a quaternion, and a shaft whose rotors push back.

One text for everything that flies::

    rates = motion(airplane, functions)             # (state, controls) -> rates of the state
    f = right_hand_side(airplane, controls, functions)    # (t, state) -> rates, for `sim.numerics.ode`

The state is a tuple or an array of the 14 rows `STATE`: north, east, down [m]; e0 to e3, the unit quaternion that
turns body into earth components; u, v, w [m/s]; p, q, r [rad/s]; spin of the engine shaft against the airframe
[rad/s], clockwise positive. `still_state` makes one. It may hold floats (`functions=math`), rows of a (14, N) array
(`sim.numerics.number.ARRAY_MATH`), complex numbers (`cmath`) or symbols (`sympy`): straight-line arithmetic without
comparisons.
`Controls` are numbers, rows, or a function of time that returns them; where that function jumps, give the integrator
its jumps as `breakpoints_s`.
`Airplane` gathers `Body`, `Polar`, `Derivatives`, `Engine`, `Propeller` and `Rotor`; no wing area and no propeller
torque or thrust, or `sea_level_density_kg_m3=0`, is flight without air, `gravity_m_s2=0` flight without weight, and
`Controls.shaft_torque_n_m` a given torque between engine and airframe.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.aerodynamics.forces import STILL_M_S, Derivatives, air_loads
from sim.aerodynamics.polar import Polar
from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3, density_ratio
from sim.numerics.array_kernel import ArrayKernel
from sim.numerics.number import ARRAY_MATH
from sim.numerics.scalar_kernel import scalar_kernel
from sim.numerics.trace import record
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor, shaft_loads

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number

STATE: Final = ("north", "east", "down", "e0", "e1", "e2", "e3", "u", "v", "w", "p", "q", "r", "spin")


class Controls(NamedTuple):
    """What the pilot's hands and feet do; each a number or a row.

    Attributes
    ----------
    elevator_rad, aileron_rad, rudder_rad : float
        Positive makes a negative moment: nose down, left roll, nose left. [rad]
    throttle : float
        0 is the ignition cut, 1 full gas.
    shaft_torque_n_m : float
        A torque on the shaft from the airframe besides the engine's, clockwise positive. [N m]
    """

    elevator_rad: Number = 0.0
    aileron_rad: Number = 0.0
    rudder_rad: Number = 0.0
    throttle: Number = 0.0
    shaft_torque_n_m: Number = 0.0


@dataclass(frozen=True, slots=True)
class Body:
    """Mass and inertia, without the rotors' inertia about the shaft but with that across it.

    Attributes
    ----------
    mass_kg : float
        Of everything, rotors included. [kg]
    inertia_roll_kg_m2, inertia_pitch_kg_m2, inertia_yaw_kg_m2 : float
        About the centre of gravity. [kg m²]
    inertia_product_kg_m2 : float
        ∫ x z dm. [kg m²]
    """

    mass_kg: float
    inertia_roll_kg_m2: float
    inertia_pitch_kg_m2: float
    inertia_yaw_kg_m2: float
    inertia_product_kg_m2: float = 0.0


NO_WING: Final = Polar(
    area_m2=0.0,
    span_m=1.0,
    chord_m=1.0,
    aspect_ratio=1.0,
    span_efficiency=1.0,
    drag_zero_lift=0.0,
    lift_zero=0.0,
    lift_max=1.0,
)


@dataclass(frozen=True, slots=True)
class Airplane:
    """All numbers of one airplane with one shaft.

    Attributes
    ----------
    body : Body
    rotors : tuple of Rotor
        All that turns with the shaft; none leaves the spin as it is.
    polar : Polar
    derivatives : Derivatives
    engine : Engine
    propeller : Propeller
    shaft_tilt_rad : float
        Shaft nose up against the x axis positive. [rad]
    thrust_arm_m : float
        Of the thrust line below the centre of gravity. [m]
    gravity_m_s2 : float
        [m/s²]
    sea_level_density_kg_m3 : float
        Of the air; 0 for none. [kg/m³]
    """

    body: Body
    rotors: tuple[Rotor, ...] = ()
    polar: Polar = NO_WING
    derivatives: Derivatives = field(default_factory=Derivatives)
    engine: Engine = field(default_factory=Engine)
    propeller: Propeller = field(default_factory=Propeller)
    shaft_tilt_rad: float = 0.0
    thrust_arm_m: float = 0.0
    gravity_m_s2: float = GRAVITY_M_S2
    sea_level_density_kg_m3: float = SEA_LEVEL_KG_M3


def still_state(*, speed_m_s: float = 0.0, altitude_m: float = 0.0, spin_rad_s: float = 0.0) -> tuple[float, ...]:
    """Return the state of an airplane heading north, wings and nose level, not turning.

    Parameters
    ----------
    speed_m_s : float
        Along the x axis. [m/s]
    altitude_m : float
        [m]
    spin_rad_s : float
        Of the engine shaft, clockwise positive. [rad/s]
    """
    return (0.0, 0.0, -altitude_m, 1.0, 0.0, 0.0, 0.0, speed_m_s, 0.0, 0.0, 0.0, 0.0, 0.0, spin_rad_s)


def right_hand_side(
    airplane: Airplane, controls: Controls | Callable[[float], Controls], functions: MathFunctions = math
) -> Callable[[float, Number], Number]:
    """Return f(t, state), the rates of the 14 states.

    Parameters
    ----------
    airplane : Airplane
    controls : Controls or function
        Held, or a function of the time in seconds.
    functions : module
        `math` for a sequence of floats, `ARRAY_MATH` for real rows of an array; the equations are then traced once, in
        about 2 ms, and run as a kernel (`sim.numerics`). `cmath` or `sympy` run the equations as they stand; for
        complex rows take `motion`.
    """
    if functions is not math and functions is not ARRAY_MATH:
        rates = motion(airplane, functions)
        return lambda t, state: rates(state, controls if isinstance(controls, Controls) else controls(t))
    if isinstance(controls, Controls):
        held = record(lambda recorder: lambda state: motion(airplane, recorder)(state, controls), len(STATE))
        if functions is ARRAY_MATH:
            return ArrayKernel(held)
        fixed = scalar_kernel(held)
        return lambda t, state: fixed(state)  # noqa: ARG005
    moved = record(lambda recorder: motion(airplane, recorder), len(STATE), len(Controls._fields))
    if functions is ARRAY_MATH:
        return ArrayKernel(moved, controls)
    moving = scalar_kernel(moved)
    return lambda t, state: moving((*state, *controls(t)))


def motion(airplane: Airplane, functions: MathFunctions = math) -> Callable[[Number, Number], tuple[Number, ...]]:
    """Return the function (state, controls) -> rates of the 14 states.

    Parameters
    ----------
    airplane : Airplane
    functions : module
        `math`, `ARRAY_MATH`, `cmath` or `sympy`: where `sqrt` and `atan` are taken from.

    Notes
    -----
    Rigid airframe, flat earth that does not turn, air at rest, a propeller of even inertia all round (three or more
    blades, or two averaged over a turn). Without air, weight and engine, momentum and energy are kept exactly.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, sections 4.3 to 4.6 (rotor terms).

    Examples
    --------
    >>> free = Airplane(Body(600.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(10.0),), gravity_m_s2=0.0)
    >>> right_hand_side(free, Controls())(0.0, still_state(spin_rad_s=130.0))[10:13]
    (0.0, 0.0, 0.0)
    """
    air = air_loads(airplane.polar, airplane.derivatives, functions)
    shaft = shaft_loads(airplane.engine, airplane.propeller, functions)
    turn = _turning(airplane)
    along_x, along_z = math.cos(airplane.shaft_tilt_rad), -math.sin(airplane.shaft_tilt_rad)
    per_mass, gravity, arm = 1.0 / airplane.body.mass_kg, airplane.gravity_m_s2, airplane.thrust_arm_m

    def rates(state: Number, controls: Number) -> tuple[Number, ...]:
        _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, spin = state
        density = airplane.sea_level_density_kg_m3 * density_ratio(-down)
        a = air((u, v, w, p, q, r), density, controls)
        s = shaft((spin, along_x * u + along_z * w), density, controls)
        to_earth = _to_earth(e0, e1, e2, e3)
        (_, _, _), (_, _, _), (down_x, down_y, down_z) = to_earth
        u_dot = per_mass * (a.x + along_x * s.thrust) + gravity * down_x + r * v - q * w
        v_dot = per_mass * a.y + gravity * down_y + p * w - r * u
        w_dot = per_mass * (a.z + along_z * s.thrust) + gravity * down_z + q * u - p * v
        alpha_dot = (u * w_dot - w * u_dot) / (u * u + w * w + STILL_M_S**2)
        pitch = a.pitch + a.pitch_per_alpha_dot * alpha_dot + arm * s.thrust
        return (
            *(x * u + y * v + z * w for x, y, z in to_earth),
            -0.5 * (e1 * p + e2 * q + e3 * r),
            0.5 * (e0 * p + e2 * r - e3 * q),
            0.5 * (e0 * q + e3 * p - e1 * r),
            0.5 * (e0 * r + e1 * q - e2 * p),
            u_dot,
            v_dot,
            w_dot,
            *turn((a.roll, pitch, a.yaw), (p, q, r, spin), s),
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


def _turning(airplane: Airplane) -> Callable[[Number, Number, Number], tuple[Number, Number, Number, Number]]:
    """Return the function (moment, (p, q, r, spin), shaft loads) -> rates of p, q, r and spin.

    With I, A and B the sums of the rotors' inertia times their ratio to the powers 0, 1 and 2, and s the shaft
    direction, the rotors' own momentum is H = I ω·s + A Ω, and the shaft and the whole airplane obey

        A ω̇·s + B Ω̇ = engine − windage − ratio × propeller torque =: Q
        J ω̇ + (I ω̇·s + A Ω̇) s + ω × (J ω + H s) = M − (windage + propeller torque) s

    so that Ω̇ goes out and leaves the constant matrix J + (I − A²/B) s sᵀ, inverted here once.
    """
    body, ratio = airplane.body, airplane.propeller.ratio
    sx, sz = math.cos(airplane.shaft_tilt_rad), -math.sin(airplane.shaft_tilt_rad)
    whole, once, twice = (sum(x.polar_inertia_kg_m2 * x.ratio**n for x in airplane.rotors) for n in (0, 1, 2))
    per_twice = 1.0 / twice if twice else 0.0
    locked = whole - once * once * per_twice
    xx, yy, zz = body.inertia_roll_kg_m2, body.inertia_pitch_kg_m2, body.inertia_yaw_kg_m2
    xz = -body.inertia_product_kg_m2
    kxx, kxz, kzz = xx + locked * sx * sx, xz + locked * sx * sz, zz + locked * sz * sz
    wxx, wxz, wzz = xx + whole * sx * sx, xz + whole * sx * sz, zz + whole * sz * sz
    size = kxx * kzz - kxz * kxz
    ixx, ixz, izz, iyy = kzz / size, -kxz / size, kxx / size, 1.0 / yy

    def turn(moment: Number, turning: Number, shaft: Number) -> tuple[Number, Number, Number, Number]:
        roll, pitch, yaw = moment
        p, q, r, spin = turning
        hx, hy, hz = wxx * p + wxz * r + sx * once * spin, yy * q, wxz * p + wzz * r + sz * once * spin
        drive = shaft.engine - shaft.windage - ratio * shaft.propeller
        back = shaft.windage + shaft.propeller + once * per_twice * drive
        mx, mz = roll - q * hz + r * hy - sx * back, yaw - p * hy + q * hx - sz * back
        p_dot, r_dot = ixx * mx + ixz * mz, ixz * mx + izz * mz
        q_dot = iyy * (pitch - r * hx + p * hz)
        return p_dot, q_dot, r_dot, per_twice * (drive - once * (sx * p_dot + sz * r_dot))

    return turn
