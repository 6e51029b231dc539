"""Manoeuvres that show what a rotor does: some with frozen controls, some flown by a simple pilot."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from sim.flight.actuation import MEMORY
from sim.flight.autopilot import pilot

if TYPE_CHECKING:
    from sim.flight.actuation import Wanted
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane, Controls

ManeuverName = Literal["rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam"]

BEGIN_S: Final = 1.0
"""Steady flight before anything is moved."""
ROLL_RATE_RAD_S: Final = math.radians(45.0)
"""At which the pilot asks for more bank."""


@dataclass(frozen=True, slots=True)
class Maneuver:
    """What a manoeuvre is.

    Attributes
    ----------
    meaning : str
        In a sentence.
    sides : tuple of str
        The two directions, the positive one first; one empty word where there is none.
    flown_s : float
        How long it is watched. [s]
    share : float
        Of the travel, of the control that is moved; 0 where a pilot flies.
    held_s : float
        How long it is held. [s]
    begins_banked : bool
        Whether it starts from the steady turn to the other side.
    """

    meaning: str
    sides: tuple[str, ...]
    flown_s: float
    share: float = 0.0
    held_s: float = 1.0
    begins_banked: bool = False


MANEUVERS: Final[dict[ManeuverName, Maneuver]] = {
    "rudder-kick": Maneuver("rudder over and back, stick frozen", ("right", "left"), 8.0, share=0.5),
    "pull": Maneuver("elevator over and back, all else frozen", ("up", "down"), 8.0, share=0.3),
    "roll-in": Maneuver("aileron over and back, all else frozen", ("right", "left"), 10.0, share=0.5),
    "turn": Maneuver("rolled into a turn, height and ball held by a pilot", ("right", "left"), 25.0),
    "reversal": Maneuver(
        "from a steady turn into the opposite one by a pilot", ("right", "left"), 15.0, begins_banked=True
    ),
    "blip": Maneuver("ignition cut and back, all else frozen", ("",), 12.0),
    "slam": Maneuver("from idle to full throttle, all else frozen", ("",), 12.0),
}


@dataclass(frozen=True, slots=True)
class ManeuverPlan:
    """One manoeuvre to one side, ready to be flown.

    Attributes
    ----------
    wanted : function
        What the pilot wants, for `sim.flight.actuation.fly`.
    breakpoints_s : tuple of float
        Where that jumps. [s]
    """

    wanted: Wanted
    breakpoints_s: tuple[float, ...]


def plan(
    name: ManeuverName,
    airplane: Airplane,
    travel: Travel,
    *,
    kind: Maneuver,
    sign: float,
    bank_rad: float,
    state: tuple[float, ...],
    controls: Controls,
) -> ManeuverPlan:
    """Return a manoeuvre ready to be flown from a steady state.

    Parameters
    ----------
    name : str
        A key of `MANEUVERS`.
    airplane : Airplane
        That flies it.
    travel : Travel
        Of its controls.
    kind : Maneuver
        `MANEUVERS` or one with another share, time or length.
    sign : float
        +1 for the first of its sides, −1 for the second.
    bank_rad : float
        That a pilot rolls to, positive. [rad]
    state : tuple of 14 floats
        At the start.
    controls : Controls
        At the start.
    """
    end = BEGIN_S + kind.held_s
    if name in ("turn", "reversal"):
        start = -sign * bank_rad if kind.begins_banked else 0.0
        return _piloted(airplane, state, controls, (start, sign * bank_rad))
    moved = {
        "rudder-kick": controls._replace(rudder_rad=controls.rudder_rad - sign * kind.share * travel.rudder_rad),
        "roll-in": controls._replace(aileron_rad=controls.aileron_rad - sign * kind.share * travel.aileron_rad),
        "pull": controls._replace(elevator_rad=controls.elevator_rad - sign * kind.share * _stroke(travel, sign)),
        "blip": controls._replace(throttle=0.0),
        "slam": controls._replace(throttle=1.0),
    }[name]
    back = moved if name == "slam" else controls
    return ManeuverPlan(_stepped(controls, moved, back, end), (BEGIN_S, end))


def adjusted(kind: Maneuver, *, share: float | None, held_s: float | None, flown_s: float | None) -> Maneuver:
    """Return a kind of manoeuvre with another share of travel, time held or time watched, where given."""
    given = {"share": share, "held_s": held_s, "flown_s": flown_s}
    return replace(kind, **{name: value for name, value in given.items() if value is not None})  # type: ignore[arg-type]


def _stroke(travel: Travel, sign: float) -> float:
    return travel.elevator_up_rad if sign > 0.0 else travel.elevator_down_rad


def _stepped(before: Controls, during: Controls, after: Controls, end_s: float) -> Wanted:
    """Return a pilot who moves to one position at `BEGIN_S` and to the next at `end_s`."""
    idle = (0.0,) * MEMORY

    def wanted(
        t: float,
        state: tuple[float, ...],  # noqa: ARG001
        rates: tuple[float, ...],  # noqa: ARG001
        memory: tuple[float, ...],  # noqa: ARG001
    ) -> tuple[tuple[float, ...], ...]:
        now = before if t < BEGIN_S else during if t < end_s else after
        return now[:4], idle

    return wanted


def _piloted(
    airplane: Airplane, state: tuple[float, ...], controls: Controls, banks_rad: tuple[float, float]
) -> ManeuverPlan:
    """Return a pilot who asks for another bank at `BEGIN_S`, at `ROLL_RATE_RAD_S`."""
    start, end = banks_rad
    ramp_s = abs(end - start) / ROLL_RATE_RAD_S

    def bank(t: float) -> float:
        return start + (end - start) * max(0.0, min(1.0, (t - BEGIN_S) / ramp_s))

    return ManeuverPlan(pilot(airplane, bank, start=state, controls=controls), (BEGIN_S, BEGIN_S + ramp_s))
