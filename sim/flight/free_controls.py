"""Stick and pedals let go, or held with an unchanged force: elevator and rudder go where their hinges let them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.aerodynamics.tail_loads import fin_side, tail_lift
from sim.flight.control_forces import stream_of
from sim.flight.motion import motion
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.control_system import ControlSystem
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number

COMPLEX_STEP = 1e-30


def free_controls(
    airplane: Airplane, system: ControlSystem, state: Number, controls: Controls
) -> Callable[[Number], Controls] | None:
    """Return the controls that a state takes with stick and pedals free; None where one of them does not centre.

    Parameters
    ----------
    airplane : Airplane
        Whose flight it is.
    system : ControlSystem
        Between surfaces and pilot.
    state, controls : sequence of 14 floats, Controls
        Of the steady flight about which it moves.

    Notes
    -----
    Elevator and rudder without friction, what is held at their hinges that of the steady flight, as with a trimmer or
    a spring of constant force; ailerons stay. The weight of the elevator turns it as the load factor at the tail
    changes, a bob weight: linear in deflection about the steady flight. Its moment of inertia is left out; it would let
    it lag behind what is as fast as the elevator swings on its own.
    """
    slip, throttle, weight = airplane.slipstream, controls.throttle, system.elevator_weight_n_m
    at_tail = _load_at_tail(airplane)

    def moments(at_state: Number) -> tuple[tuple[Number, Number], tuple[Number, Number]]:
        """Return, of elevator and rudder, the hinge moment without deflection and its growth with it."""
        at = stream_of(airplane, at_state, throttle)
        v, w, p, q, r = at_state[8:13]
        elevator, rudder = system.elevator, system.rudder
        by_tail = elevator.by_lift_m * tail_lift(slip, (at.speed, w, q), 0.0, at.tail)
        by_fin = rudder.by_lift_m * (fin_side(slip, (v, p, r), 0.0, at.fin) + at.swirl_n)
        return (
            (by_tail, at.tail[1] * (elevator.by_lift_m * slip.elevator_m2 + elevator.by_deflection_m3 * TAIL_PRESSURE)),
            (by_fin, at.fin[1] * (rudder.by_lift_m * slip.rudder_m2 + rudder.by_deflection_m3)),
        )

    steady = moments(np.asarray(state, float))
    begun = np.asarray(state, float)
    stepped = controls._replace(elevator_rad=controls.elevator_rad + 1j * COMPLEX_STEP)
    heavier = weight * float(np.imag(at_tail(begun, stepped))) / COMPLEX_STEP
    if not all(float(slope) < 0.0 for _, slope in steady) or steady[0][1] + heavier >= 0.0:
        return None
    held = [here + slope * at for (here, slope), at in zip(steady, (controls[0], controls[2]), strict=True)]

    steady_load = float(at_tail(begun, controls))

    def floating(at_state: Number) -> Controls:
        (by_tail, stiff), (by_fin, rudder_stiff) = moments(at_state)
        turned = controls._replace(rudder_rad=(held[1] - by_fin) / rudder_stiff)
        bob = weight * (at_tail(at_state, turned) - steady_load) - heavier * controls.elevator_rad
        return turned._replace(elevator_rad=(held[0] - by_tail - bob) / (stiff + heavier))

    return floating


def _load_at_tail(airplane: Airplane) -> Callable[[Number, Controls], Number]:
    """Return the specific force upward at the tail, in units of gravity, as a function of state and controls."""
    rates = motion(airplane, ARRAY_MATH)

    def load(state: Number, controls: Controls) -> Number:
        e0, e1, e2, e3, u, v, _, p, q = state[3:12]
        y_dot = rates(tuple(state), controls)
        down_z = e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
        turning = q * u - p * v - y_dot[9] - airplane.slipstream.tail_arm_m * y_dot[11]
        return down_z + turning / airplane.gravity_m_s2

    return load
