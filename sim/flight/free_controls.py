"""Stick and pedals let go, or held with an unchanged force: elevator and rudder go where their hinges let them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.aerodynamics.tail_loads import fin_side, tail_lift
from sim.flight.control_forces import stream_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.control_system import ControlSystem
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number


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
    Elevator and rudder without mass and friction, their hinge moments those of the steady flight, as with a trimmer
    or a spring of constant force; ailerons stay. An elevator with mass lags behind, and its weight moves it as the load
    factor changes: a real airplane lies between this and controls held.
    """
    slip, throttle = airplane.slipstream, controls.throttle

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
    if not all(float(slope) < 0.0 for _, slope in steady):
        return None
    held = [here + slope * at for (here, slope), at in zip(steady, (controls[0], controls[2]), strict=True)]

    def floating(at_state: Number) -> Controls:
        pairs = zip(held, moments(at_state), strict=True)
        elevator, rudder = ((keeps - here) / slope for keeps, (here, slope) in pairs)
        return controls._replace(elevator_rad=elevator, rudder_rad=rudder)

    return floating
