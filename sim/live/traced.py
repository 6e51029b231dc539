"""What the viewer computes frame by frame, recorded once: for a page that computes the same elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from sim.flight.actuation import INTEGRATORS, hands
from sim.flight.motion import STATE, Controls, motion
from sim.live.assisted import assisted, outlook, recovery
from sim.live.flight import by_stick, spin_momentum
from sim.live.gun import passage, wait_rad
from sim.numerics.trace import record
from sim.rotor.couple import gyroscopic_moment
from sim.rotor.cylinders import pin_radius

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from sim.live.engine import EngineSetup
    from sim.live.flight import Flyer
    from sim.numerics.trace import Trace
    from sim.synchronizer.timed_gun import TimedGun

POSITIONS = 4
"""Controls in the state of the closed loop: elevator, aileron, rudder, throttle."""
LENGTH = len(STATE) + POSITIONS + INTEGRATORS
"""Of that state."""


class FlightTraces(NamedTuple):
    """An airplane flown by a pilot, by nobody, or by one who recovers it.

    Attributes
    ----------
    motion : Trace
        (14 states, 4 controls) -> rates of the states.
    pilot, nobody, recovery : Trace
        (whole state, rates of the 14, bank told) -> rates of controls and integrals.
    outlook : Trace
        Whole state -> `sim.live.assisted.Outlook`, and the couple on the nose, up and right positive. [N m]
    """

    motion: Trace
    pilot: Trace
    nobody: Trace
    recovery: Trace
    outlook: Trace


class GunTraces(NamedTuple):
    """A timed gun.

    Attributes
    ----------
    wait : Trace
        Propeller angle -> turn of the propeller until a ready gun is released. [rad]
    passage : Trace
        (propeller angle at release, deviation of the delay in standard deviations) -> time to the disc [s], angle there
        [rad], whether it meets a blade.
    """

    wait: Trace
    passage: Trace


def flight_traces(who: Flyer) -> FlightTraces:
    """Return the flight of an airplane, recorded: that of `sim.live.flight.pilot_step` but for the step."""
    flying = who.flying

    def moved(functions: Any) -> Callable[..., Any]:  # noqa: ANN401
        rates = motion(flying.flown, functions)
        return lambda state, positions: rates(state, Controls(*positions))

    def by(law: Callable[..., Any]) -> Trace:
        def build(functions: Any) -> Callable[..., Any]:  # noqa: ANN401
            told: list[Any] = [0.0]
            follow = hands(flying.travel, law(lambda: told[0], functions), functions)

            def followed(y: Any, rates: Any, bank: Any) -> Any:  # noqa: ANN401
                told[0] = bank[0]
                return follow(0.0, y, rates)

            return followed

        return record(build, LENGTH, len(STATE), 1)

    def seen(functions: Any) -> Callable[..., Any]:  # noqa: ANN401
        return lambda y: (
            *outlook(who, y, functions),
            *gyroscopic_moment(spin_momentum(who, y[10], y[13]), y[11], y[12]),
        )

    return FlightTraces(
        motion=record(moved, len(STATE), POSITIONS),
        pilot=by(lambda bank_rad, functions: assisted(who, bank_rad, functions)),
        nobody=by(lambda bank_rad, functions: by_stick(who, lambda: (0.0, 0.0, 0.0, 0.0))),  # noqa: ARG005
        recovery=by(lambda bank_rad, functions: recovery(who, functions)),  # noqa: ARG005
        outlook=record(seen, LENGTH),
    )


def gun_traces(gun: TimedGun) -> GunTraces:
    """Return the timing of a gun at its speed, recorded."""
    return GunTraces(
        wait=record(lambda functions: lambda angle: (wait_rad(gun, angle[0], functions),), 1),
        passage=record(lambda functions: lambda x: passage(gun, x[0], x[1], functions), 2),
    )


def piston_trace(setup: EngineSetup) -> Trace:
    """Return angle of a cylinder from its crankpin [rad] -> distance of its piston pin from the shaft [m], recorded."""
    crank_m, rod_m = setup.crank_radius_m, setup.rod_length_m
    return record(
        lambda functions: lambda x: (pin_radius(x[0], functions, crank_radius_m=crank_m, rod_length_m=rod_m),), 1
    )
