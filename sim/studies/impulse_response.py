"""Response of the nose to a short rudder and a short elevator input, with and without the rotor's angular momentum."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.flight.motion import Airplane, Controls, right_hand_side
from sim.flight.validity import ValidPart, valid_part
from sim.frames import Effect, nose_effect
from sim.numerics.ode import solve
from sim.studies.turns import straight, without_rotor

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane

    Array = NDArray[np.float64]

Input = Literal["rudder kick", "pull-up"]
RUDDER_RAD = math.radians(10.0)
ELEVATOR_RAD = math.radians(5.0)
HELD_S = 0.5
"""Duration of the inputs; afterwards the control is back at its trimmed position."""
TIMES_S = np.linspace(0.0, 3.0, 61)
DEADBAND_DEG = 1e-6


@dataclass(frozen=True, slots=True)
class Disturbance:
    """Response of the nose to one input, and the rotor's part in it.

    Attributes
    ----------
    input : str
        ``rudder kick``: 10° of right rudder for half a second. ``pull-up``: 5° of up elevator, likewise.
    time_s : array, shape (m,)
        From the start of the input. [s]
    pitch_deg, yaw_deg : array, shape (m,)
        Change of attitude and heading from straight flight, nose up and nose right positive. [°]
    pitch_by_spin_deg, yaw_by_spin_deg : float
        The rotor's part, at its largest: response with angular momentum less that without. [°]
    effect : str
        The larger of the two in words, ``nose right``.
    valid_until_s : float or None
        Time at which it leaves the range of validity; None where it stays within. [s]
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes, in the order of time.
    pitch_by_spin_low_deg, pitch_by_spin_high_deg, yaw_by_spin_low_deg, yaw_by_spin_high_deg : float or None
        Ends of the 90 % bands; None where no bands were asked for. [°]
    """

    input: Input
    time_s: Array
    pitch_deg: Array
    yaw_deg: Array
    pitch_by_spin_deg: float
    yaw_by_spin_deg: float
    effect: Effect
    valid_until_s: float | None
    beyond: tuple[str, ...]
    pitch_by_spin_low_deg: float | None = None
    pitch_by_spin_high_deg: float | None = None
    yaw_by_spin_low_deg: float | None = None
    yaw_by_spin_high_deg: float | None = None


def impulse_response(flying: FlyingAirplane) -> tuple[Disturbance, ...]:
    """Return the responses to a rudder kick to the right and to a pull-up, from straight and level flight.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant, speed and altitude.

    Raises
    ------
    NoAnswerError
        When there is no straight flight at that speed.

    Notes
    -----
    Controls move at once and are otherwise held fixed, so that the airplane is compared and not the pilot. Straight
    flight is the same with and without angular momentum, so that both begin in the same state.
    """
    found = straight(flying)
    state, trim = found.state[:, 0].tolist(), found.controls(0)
    still = without_rotor(flying).airplane
    return tuple(_response(name, (flying.airplane, still), state, (trim, held)) for name, held in inputs_from(trim))


def inputs_from(trim: Controls) -> tuple[tuple[Input, Controls], ...]:
    """Return each input with the controls while it is held, from those of straight flight, numbers or arrays."""
    return (
        ("rudder kick", trim._replace(rudder_rad=trim.rudder_rad - RUDDER_RAD)),
        ("pull-up", trim._replace(elevator_rad=trim.elevator_rad - ELEVATOR_RAD)),
    )


def _response(
    name: Input, airplanes: tuple[Airplane, Airplane], state: Sequence[float], controls: tuple[Controls, Controls]
) -> Disturbance:
    """Return the response of an airplane and of the same without angular momentum to controls at trim, then held."""
    spinning, still = (_flown(one, state, *controls) for one in airplanes)
    return _disturbance(name, nose_deg(spinning), nose_deg(still), _valid(airplanes[0], spinning, *controls))


def _disturbance(name: Input, spinning: Array, still: Array, valid: ValidPart) -> Disturbance:
    by_spin = spinning - still
    pitch, yaw = map(float, largest(by_spin))
    started = spinning - spinning[:, :1]
    felt = max(abs(pitch), abs(yaw)) > DEADBAND_DEG
    effect = nose_effect(pitch, yaw) if felt else "none"
    return Disturbance(name, TIMES_S, started[0], started[1], pitch, yaw, effect, valid.valid_until_s, valid.beyond)


def _flown(airplane: Airplane, state: Sequence[float], trim: Controls, held: Controls) -> Array:
    """Return the states over time, shape (14, m)."""
    f = right_hand_side(airplane, lambda t: held if t < HELD_S else trim)
    states: Array = solve(f, state, TIMES_S, breakpoints_s=(HELD_S,)).states.T
    return states


def _valid(airplane: Airplane, states: Array, trim: Controls, held: Controls) -> ValidPart:
    elevator = np.full(len(TIMES_S), trim.elevator_rad)
    elevator[TIMES_S < HELD_S] = held.elevator_rad
    return valid_part(airplane, TIMES_S, states, elevator)


def largest(histories: Array) -> Array:
    """Return of each history, time its last axis, the value that is largest in size, with its sign."""
    place = np.argmax(np.abs(histories), axis=-1)
    found: Array = np.take_along_axis(histories, place[..., None], axis=-1)[..., 0]
    return found


def nose_deg(states: Array) -> Array:
    """Return pitch attitude and heading over time, both in degrees, of a flight or of many."""
    e0, e1, e2, e3 = states[3:7]
    pitch = np.arcsin(2.0 * (e0 * e2 - e3 * e1))
    heading = np.unwrap(np.arctan2(2.0 * (e1 * e2 + e0 * e3), e0**2 + e1**2 - e2**2 - e3**2))
    both: Array = np.degrees(np.array([pitch, heading]))
    return both
