"""The same kick of the rudder and the same pull of the stick with an engine, and with its spin taken away."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.flight.motion import Airplane, Controls, right_hand_side
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
"""How long the kick and the pull are held; then the control goes back to where it held straight flight."""
TIMES_S = np.linspace(0.0, 3.0, 61)
DEADBAND_DEG = 1e-6


@dataclass(frozen=True, slots=True)
class Disturbance:
    """How the nose answers one input, and how much of that the spin causes.

    Attributes
    ----------
    input : str
        ``rudder kick``: 10° of right rudder for half a second. ``pull-up``: 5° of up elevator as long.
    time_s : array, shape (m,)
        From the start of the input. [s]
    pitch_deg, yaw_deg : array, shape (m,)
        Turn of the nose from straight flight, nose up and nose right positive. [°]
    pitch_by_spin_deg, yaw_by_spin_deg : float
        The largest part of it that the spin causes: with spin less without, sign kept. [°]
    effect : str
        The larger of the two in the pilot's words.
    """

    input: Input
    time_s: Array
    pitch_deg: Array
    yaw_deg: Array
    pitch_by_spin_deg: float
    yaw_by_spin_deg: float
    effect: Effect


def kick_and_pull(flying: FlyingAirplane) -> tuple[Disturbance, ...]:
    """Return the answers to a rudder kick to the right and to a pull-up, out of straight and level flight.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, engine, speed and altitude.

    Raises
    ------
    NoAnswerError
        When there is no straight flight at its speed.

    Notes
    -----
    Controls move at once and are otherwise held: what is compared is the airplane, not the pilot. Straight flight is
    the same with and without spin, so that both start alike.
    """
    found = straight(flying)
    state, trim = found.state[:, 0].tolist(), found.controls(0)
    kicked = trim._replace(rudder_rad=trim.rudder_rad - RUDDER_RAD)
    pulled = trim._replace(elevator_rad=trim.elevator_rad - ELEVATOR_RAD)
    still = without_rotor(flying).airplane
    inputs: tuple[tuple[Input, Controls], ...] = (("rudder kick", kicked), ("pull-up", pulled))
    return tuple(
        _disturbance(name, _nose(flying.airplane, state, trim, held), _nose(still, state, trim, held))
        for name, held in inputs
    )


def _disturbance(name: Input, spinning: Array, still: Array) -> Disturbance:
    by_spin = spinning - still
    pitch, yaw = (float(row[np.argmax(np.abs(row))]) for row in by_spin)
    started = spinning - spinning[:, :1]
    felt = max(abs(pitch), abs(yaw)) > DEADBAND_DEG
    return Disturbance(name, TIMES_S, started[0], started[1], pitch, yaw, nose_effect(pitch, yaw) if felt else "none")


def _nose(airplane: Airplane, state: Sequence[float], trim: Controls, held: Controls) -> Array:
    """Return pitch attitude and heading over time, both in degrees."""
    f = right_hand_side(airplane, lambda t: held if t < HELD_S else trim)
    flown = solve(f, state, TIMES_S, breakpoints_s=(HELD_S,)).states
    e0, e1, e2, e3 = flown[:, 3:7].T
    pitch = np.arcsin(2.0 * (e0 * e2 - e3 * e1))
    heading = np.unwrap(np.arctan2(2.0 * (e1 * e2 + e0 * e3), e0**2 + e1**2 - e2**2 - e3**2))
    both: Array = np.degrees(np.array([pitch, heading]))
    return both
