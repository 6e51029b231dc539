"""What the pilot holds at stick and pedals in steady flight."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.aerodynamics.slipstream import Drive, stream_at_tail
from sim.aerodynamics.tail_loads import fin_side, tail_lift
from sim.atmosphere import density_ratio
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.engine_propeller import shaft_loads

if TYPE_CHECKING:
    from sim.flight.control_system import ControlSystem
    from sim.flight.motion import Airplane
    from sim.flight.trim import Turns
    from sim.numerics.number import Number


class ControlForces(NamedTuple):
    """Forces that the pilot exerts, one entry a turn; not-a-number where there is none.

    At the grip, back positive; at the grip, right positive; with the right foot positive, with the left negative. [N]
    """

    stick_n: Number
    stick_side_n: Number
    pedal_n: Number


def control_forces(airplane: Airplane, system: ControlSystem, found: Turns) -> ControlForces:
    """Return the forces at the controls in steady turns.

    Parameters
    ----------
    airplane : Airplane
        Of the turns; or one a turn, of `many_airplanes`, and `system` with as many.
    system : ControlSystem
        Between surfaces and pilot.
    found : Turns
        From `sim.flight.trim.steady_turns` with that airplane.

    Notes
    -----
    A surface's moment about its hinge times the angle that a unit of travel turns it by. Tailplane and fin with the
    whole flow of the equations of motion: downwash, rates, slipstream and swirl; elevator with its weight at the load
    factor; friction left out. Hinge moments are linear in incidence and deflection: light beyond some 15° of either.
    The weights of the ailerons balance each other, the hinge of the rudder is upright, and its weight turns it only
    where the ball is out.
    """
    at, slip = stream_of(airplane, found.state, found.throttle), airplane.slipstream
    v, w, p, q, r = found.state[8:13]
    elevator = system.elevator.moment_n_m(
        tail_lift(slip, (at.speed, w, q), found.elevator_rad, at.tail), TAIL_PRESSURE * at.tail[1] * found.elevator_rad
    )
    rudder = system.rudder.moment_n_m(
        fin_side(slip, (v, p, r), found.rudder_rad, at.fin) + at.swirl_n, at.fin[1] * found.rudder_rad
    )
    return ControlForces(
        system.elevator_gearing_per_m * (elevator + system.elevator_weight_n_m * found.load_factor),
        system.aileron_gearing_per_m * _ailerons(airplane, system, found, at),
        system.rudder_gearing_per_m * rudder,
    )


def hands_off_turn_rad(airplane: Airplane, system: ControlSystem, found: Turns) -> Number:
    """Return by how much to turn the tailplane, leading edge up positive, for no stick force fore and aft [rad].

    Parameters
    ----------
    airplane, system, found : Airplane, ControlSystem, Turns
        As for `control_forces`.

    Notes
    -----
    The lift of the tail stays, so that nothing else changes: the elevator turns back by the turn over its
    effectiveness, and its hinge moment with it.
    """
    law, pull_n = system.elevator, control_forces(airplane, system, found).stick_n
    pressure = TAIL_PRESSURE * stream_of(airplane, found.state, found.throttle).tail[1]
    return law.effectiveness * pull_n / (system.elevator_gearing_per_m * law.by_deflection_m3 * pressure)


class StreamOf(NamedTuple):
    """Airspeed [m/s]; half the density times speed, and dynamic pressure, of flight and at tailplane and fin.

    And the side force of the fin by swirl [N].
    """

    speed: Number
    full: Number
    tail: tuple[Number, Number]
    fin: tuple[Number, Number]
    swirl_n: Number


def stream_of(airplane: Airplane, state: Number, throttle: Number) -> StreamOf:
    """Return what meets tailplane and fin in a state of flight.

    Parameters
    ----------
    airplane : Airplane
        Whose state it is.
    state : sequence of 14 arrays
        As in `sim.flight.motion`.
    throttle : float or array
        0 to 1.
    """
    _, _, down, *_, u, v, w, _, _, _, spin = state
    density = airplane.sea_level_density_kg_m3 * density_ratio(-down)
    speed = np.sqrt(u * u + v * v + w * w)
    tilt, slip = airplane.shaft_tilt_rad, airplane.slipstream
    shaft = shaft_loads(airplane.engine, airplane.propeller, ARRAY_MATH)(
        (spin, np.cos(tilt) * u - np.sin(tilt) * w), density, (0.0, 0.0, 0.0, throttle, 0.0)
    )
    stream = stream_at_tail(slip, ARRAY_MATH)(speed, density, Drive(shaft.thrust, shaft.propeller, 0.0))
    along, full = 0.5 * density * speed, 0.5 * density * speed * speed
    tail, fin = (
        ((along + share * stream.along), (full + share * stream.full)) for share in (slip.tail_share, slip.fin_share)
    )
    return StreamOf(speed, full, tail, fin, stream.swirl_n)


def _ailerons(airplane: Airplane, system: ControlSystem, found: Turns, at: StreamOf) -> Number:
    """Return the moment of the ailerons of both sides that would increase the deflection. [N m].

    Rolling makes opposite incidences on both sides, yawing opposite pressures; lift alike on both does nothing else.
    """
    law, remains = system.aileron, system.roll_relief
    rolling, yawing = found.state[10] / at.speed, found.state[12] / at.speed
    rolled = remains * rolling * system.aileron_arm_m - (1.0 - remains) * law.effectiveness * found.aileron_rad
    wing_rad = airplane.polar.lift_max * found.lift_ratio / (law.lift_area_m2 / airplane.polar.area_m2)
    yawed = -2.0 * yawing * system.aileron_arm_m * wing_rad
    return (
        2.0
        * at.full
        * law.volume_m3
        * (law.deflection_per_rad * found.aileron_rad + law.angle_per_rad * (rolled + yawed))
    )
