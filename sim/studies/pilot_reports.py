"""What pilots of airplanes with a rotary reported, asked of an airplane: statements beside what the model gives."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import refuse
from sim.studies.field import field
from sim.studies.field_landing import idle_throttle
from sim.studies.field_place import FieldPlace
from sim.studies.handling import handling
from sim.studies.maneuver import maneuver
from sim.studies.rotor_effect import rotor_shares
from sim.studies.turns import straight
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.maneuver_answer import ManeuverFlight

STEEP_DEG = 60.0
"""Bank of what reports call a steep turn."""
NEARLY_ALL, FELT_DEG, MARKED, FLATTER = 0.8, 2.0, 0.05, 0.2
"""Share of the travel that reports call almost full; change of attitude that a pilot notices; relative difference
that is called marked, and that of glides which makes another approach. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class PilotReport:
    """One statement and what the model gives.

    Attributes
    ----------
    found : str
        What the model gives, in words and numbers.
    agrees : bool
        Whether the statement holds of it.
    """

    found: str
    agrees: bool

    def __str__(self) -> str:
        """Return both in one line."""
        return f"{self.found}: {'agrees' if self.agrees else 'does not agree'}"


def pilot_reports(model: Model, powerplant: str) -> dict[str, PilotReport]:
    """Return each statement beside what the model gives, by a short name.

    Parameters
    ----------
    model : Model
        An airplane that stands on main wheels and a tail wheel or skid.
    powerplant : str
        A rotary that turns clockwise as seen from the cockpit, of which all the statements are.

    Raises
    ------
    InputError
        For another engine.
    """
    flying = model.airplane(powerplant)
    if flying.powerplant.kind != "rotary" or flying.powerplant.rotation != "clockwise":
        refuse("powerplant", "must be a rotary that turns clockwise, as those of the reports")
    asked = _Asked(model, flying)
    return {name: report(asked) for name, report in REPORTS.items()}


class _Asked:
    """The airplane and what several statements ask of it: steep turns, and rudder on the take-off run."""

    def __init__(self, model: Model, flying: FlyingAirplane) -> None:
        self.model, self.flying = model, flying
        steep = handling(model, banks_deg=(-STEEP_DEG, STEEP_DEG)).powerplants[flying.name].turns
        self.left, self.right = steep
        own, stands = field(model).powerplants[flying.name], model.stance()
        if stands is None:
            refuse("weighing.support", "must place two main wheels and a tail wheel or skid behind them, to stand on")
        self.place = FieldPlace(model, flying, stands, surface="short grass", headwind_m_s=0.0)
        self.run = own.rudder_share or 0.0, own.raising_share or 0.0

    def flights(self, name: str) -> dict[str, ManeuverFlight]:
        """Return the flights of a manoeuvre by their side."""
        found = maneuver(self.model, name).flights
        return {flight.side: flight for flight in found if flight.powerplant == self.flying.name}

    def beside(self, name: str, told: Callable[[ManeuverFlight], str]) -> str:
        """Return what is told of a manoeuvre without sides with each other engine."""
        others = (flight for flight in maneuver(self.model, name).flights if flight.powerplant != self.flying.name)
        return "".join(f", with {flight.powerplant} {told(flight)}" for flight in others)


def _foot(share: float) -> str:
    return f"{abs(share):.0%} {'left' if share > 0.0 else 'right'}"


def _stick(share: float) -> str:
    return f"{abs(share):.1%} {'forward' if share > 0.0 else 'back'}"


def _angle(angle_deg: float) -> str:
    return brief("nose_up_deg", round(angle_deg, 1), digits=3)


def _nose(asked: _Asked) -> PilotReport:
    both = [turn.gyro_pitch_n_m for turn in (asked.left, asked.right)]
    left, right = (brief("gyro_pitch_n_m", abs(moment), digits=3) for moment in both)
    ways = ["nose up" if moment > 0.0 else "nose down" for moment in both]
    found = f"moment of the rotor {left} {ways[0]} in the left turn, {right} {ways[1]} in the right one"
    return PilotReport(found, both[0] > 0.0 > both[1])


def _rolled(asked: _Asked) -> PilotReport:
    flown = asked.flights("roll-in")
    left, right = (flown[side].nose_down_deg for side in ("left", "right"))
    found = f"nose falls {_angle(right)} to the right, {_angle(left)} to the left"
    return PilotReport(found, right > left + FELT_DEG)


def _stick_in_turns(asked: _Asked) -> PilotReport:
    speed = np.array([asked.flying.speed_m_s])
    left, right = (
        float(rotor_shares(asked.flying, speed, math.radians(bank))["elevator"][0]) for bank in (-STEEP_DEG, STEEP_DEG)
    )
    return PilotReport(f"for the rotor left {_stick(left)}, right {_stick(right)}", left > 0.0 > right)


def _left_foot(asked: _Asked) -> PilotReport:
    left, right = asked.left.rudder_share, asked.right.rudder_share
    found = f"rudder {_foot(left)} in the left turn, {_foot(right)} in the right one"
    return PilotReport(found, min(left, right) > 0.0)


def _full_in_right(asked: _Asked) -> PilotReport:
    right = asked.right.rudder_share
    return PilotReport(f"rudder {_foot(right)} in the right turn", right >= NEARLY_ALL)


def _right_foot_in_left(asked: _Asked) -> PilotReport:
    left = asked.left.rudder_share
    return PilotReport(f"rudder {_foot(left)} in the left turn", left <= -NEARLY_ALL)


def _long_way(asked: _Asked) -> PilotReport:
    around, across = (abs(angle / turn.turn_rate_deg_s) for angle, turn in ((270.0, asked.left), (90.0, asked.right)))
    left, right = (brief("time_to_90_s", time, digits=2) for time in (around, across))
    return PilotReport(f"three quarters of a circle to the left {left}, one to the right {right}", around < across)


def _settled(asked: _Asked) -> PilotReport:
    both = [abs(turn.turn_rate_deg_s) for turn in (asked.left, asked.right)]
    left, right = (brief("turn_rate_deg_s", rate, digits=3) for rate in both)
    return PilotReport(f"{left} to the left, {right} to the right", max(both) - min(both) < MARKED * max(both))


def _entered(asked: _Asked) -> PilotReport:
    flown = asked.flights("turn")
    left, right = (flown[side].time_to_90_s or math.inf for side in ("left", "right"))
    told = [brief("time_to_90_s", time, digits=3) for time in (right, left)]
    return PilotReport(f"the first quarter of a circle {told[0]} to the right, {told[1]} to the left", right < left)


def _pulled(asked: _Asked) -> PilotReport:
    up = asked.flights("pull")["up"]
    found = f"heading {_angle(up.nose_right_deg)} to the right, {_angle(up.nose_left_deg)} to the left"
    return PilotReport(found, up.nose_left_deg > up.nose_right_deg)


def _tail_heavy(asked: _Asked) -> PilotReport:
    share = float(asked.flying.travel.shares(straight(asked.flying))["elevator"][0])
    return PilotReport(f"stick {_stick(share)} in level flight", share > 0.0)


def _burst(asked: _Asked) -> PilotReport:
    slam = asked.flights("slam")[""]
    others = asked.beside("slam", lambda flight: _angle(flight.nose_up_deg))
    return PilotReport(f"nose up {_angle(slam.nose_up_deg)}{others}", slam.nose_up_deg > FELT_DEG)


def _banked(flight: ManeuverFlight) -> float:
    return max(flight.bank_left_deg, flight.bank_right_deg)


def _rocked(asked: _Asked) -> PilotReport:
    bank = _banked(asked.flights("blip")[""])
    others = asked.beside("blip", lambda flight: _angle(_banked(flight)))
    return PilotReport(f"bank {_angle(bank)} with the controls fixed{others}", bank > FELT_DEG)


def _idle(asked: _Asked) -> PilotReport:
    level, idle = (abs(float(straight(asked.flying, power=power).spin_rad_s[0])) for power in (None, "idle"))
    return PilotReport(f"the engine turns at {idle / level:.0%} of its speed in level flight", idle < level)


def _glides(asked: _Asked) -> PilotReport:
    place = asked.place
    speed = place.approach_m_s
    cut, idle = (float(-1.0 / place.gradient(speed, throttle)[0]) for throttle in (0.0, idle_throttle(place)))
    told = f"glide of {idle:.1f} at idle, {cut:.1f} with the ignition cut"
    return PilotReport(told, idle > (1.0 + FLATTER) * cut)


def _right_rudder(asked: _Asked) -> PilotReport:
    steady, _ = asked.run
    return PilotReport(f"rudder {_foot(steady)} on the run, the tail not moving", steady < 0.0)


def _swings(asked: _Asked) -> PilotReport:
    steady, rising = asked.run
    found = f"rudder {_foot(rising)} as the tail comes up, {_foot(steady)} at that speed"
    return PilotReport(found, rising < steady < 0.0)


REPORTS: dict[str, Callable[[_Asked], PilotReport]] = {
    "nose in steep turns": _nose,
    "nose as it rolls in": _rolled,
    "stick in turns": _stick_in_turns,
    "left foot in both turns": _left_foot,
    "almost full left rudder to the right": _full_in_right,
    "full right rudder to the left": _right_foot_in_left,
    "the long way round": _long_way,
    "settled turns": _settled,
    "entering a turn": _entered,
    "nose pulled up": _pulled,
    "tail-heavy": _tail_heavy,
    "burst of power": _burst,
    "ignition back on": _rocked,
    "spiral at idle": _idle,
    "approach at idle": _glides,
    "right rudder on take-off": _right_rudder,
    "tail coming up": _swings,
}
"""Short name of a statement -> what asks it."""
