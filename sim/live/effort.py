"""What a flight takes: the work of hand and feet, from where they are in level flight, and the wander of the nose."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.live.flight import Flyer

    State = tuple[float, ...]

ELEVATOR, RUDDER = 14, 16
"""Where they stand in the state."""


@dataclass(frozen=True, slots=True)
class Effort:
    """Sums over a flight so far: full travel for a second is 1 s of hand or feet.

    Attributes
    ----------
    left_s, right_s : float
        How long it was banked to each side. [s]
    feet_left_s, feet_right_s : float
        Departure of the rudder from its place in level flight over its travel, either way positive, summed over the
        time that it was banked to each side. [s]
    hand_s : float
        The same of the elevator, over its travel to the side in use, over the whole time. [s]
    wander_rad : float
        Way of the nose about the direction of flight: the length of the line that angle of attack and sideslip draw.
        [rad]
    """

    left_s: float = 0.0
    right_s: float = 0.0
    feet_left_s: float = 0.0
    feet_right_s: float = 0.0
    hand_s: float = 0.0
    wander_rad: float = 0.0

    @property
    def feet_left_share(self) -> float:
        """Mean departure of the rudder while banked to the left, over its travel, 0..2; 0 where it never was."""
        return _mean(self.feet_left_s, self.left_s)

    @property
    def feet_right_share(self) -> float:
        """Mean departure of the rudder while banked to the right, over its travel, 0..2; 0 where it never was."""
        return _mean(self.feet_right_s, self.right_s)

    @property
    def hand_share(self) -> float:
        """Mean departure of the elevator, over its travel, 0..2; 0 before the flight has begun."""
        return _mean(self.hand_s, self.left_s + self.right_s)


def _mean(sum_s: float, time_s: float) -> float:
    return sum_s / time_s if time_s else 0.0


def further(done: Effort, who: Flyer, before: State, after: State, *, step_s: float) -> Effort:
    """Return the effort after a step, by the trapezoidal rule.

    Parameters
    ----------
    done : Effort
        Before the step.
    who : Flyer
        Whose level flight and travel are meant.
    before, after : tuple of float
        States at both ends of the step; the bank is that at its end.
    step_s : float
        Its length. [s]
    """
    (hand, feet, *nose), (hand_then, feet_then, *nose_then) = (_held(who, state) for state in (before, after))
    e0, e1, e2, e3 = after[3:7]
    right = e2 * e3 + e0 * e1 > 0.0
    feet_s = 0.5 * step_s * (feet + feet_then)
    return Effort(
        done.left_s + (0.0 if right else step_s),
        done.right_s + (step_s if right else 0.0),
        done.feet_left_s + (0.0 if right else feet_s),
        done.feet_right_s + (feet_s if right else 0.0),
        done.hand_s + 0.5 * step_s * (hand + hand_then),
        done.wander_rad + math.dist(nose, nose_then),
    )


def _held(who: Flyer, state: State) -> tuple[float, float, float, float]:
    """Return the departures of elevator and rudder, angle of attack and sideslip [-, -, rad, rad]."""
    travel = who.flying.travel
    elevator_rad, rudder_rad = (state[place] - who.start[place] for place in (ELEVATOR, RUDDER))
    most_rad = travel.elevator_up_rad if elevator_rad < 0.0 else travel.elevator_down_rad
    u, v, w = state[7:10]
    sideslip_rad = math.atan2(v, math.hypot(u, w))
    return abs(elevator_rad) / most_rad, abs(rudder_rad) / travel.rudder_rad, math.atan2(w, u), sideslip_rad
