"""Manoeuvres that show the effect of a rotor: some with fixed controls, some flown by the pilot model."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from sim.flight.actuation import INTEGRATORS
from sim.flight.autopilot import pilot_law
from sim.flight.pilot_functions import ONE, PilotFunctions
from sim.flight.spin_pilot import FREE_S, spin_law

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.flight.actuation import ControlLaw
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number

ManeuverName = Literal["rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam", "take-off", "spin-entry"]

BEGIN_S: Final = 1.0
"""Steady flight before the first control movement."""
ROLL_RATE_RAD_S: Final = math.radians(45.0)
"""Rate of change of the bank commanded in a turn or reversal."""


@dataclass(frozen=True, slots=True)
class Maneuver:
    """Definition of a manoeuvre.

    Attributes
    ----------
    meaning : str
        Description.
    sides : tuple of str
        The two directions, the positive one first; one empty string where there is only one.
    flown_s : float
        Duration of the record. [s]
    share : float
        Deflection of the control that is moved, as a fraction of its travel; 0 where the pilot model flies.
    held_s : float
        Time for which the deflection is held. [s]
    begins_banked : bool
        Whether it starts from the steady turn to the other side.
    begins_idle : bool
        Whether it starts from steady flight at idle, and not from level flight.
    begins_slow : bool
        Whether it starts near the stall where no speed is asked for.
    begins_turning_rad : float
        Bank of the steady turn to its own side that it starts from; 0 for straight flight. [rad]
    """

    meaning: str
    sides: tuple[str, ...]
    flown_s: float
    share: float = 0.0
    held_s: float = 1.0
    begins_banked: bool = False
    begins_idle: bool = False
    begins_slow: bool = False
    begins_turning_rad: float = 0.0

    def bank_at_start_rad(self, sign: Number, bank_rad: float) -> Number:
        """Return the bank of the steady flight that it starts from, right wing down positive [rad].

        Parameters
        ----------
        sign : float
            +1 for the first of its sides, −1 for the second.
        bank_rad : float
            Target bank of a turn or reversal, positive. [rad]
        """
        return -sign * bank_rad if self.begins_banked else sign * self.begins_turning_rad


MANEUVERS: Final[dict[ManeuverName, Maneuver]] = {
    "rudder-kick": Maneuver("rudder deflected and returned, other controls fixed", ("right", "left"), 8.0, share=0.5),
    "pull": Maneuver("elevator deflected and returned, other controls fixed", ("up", "down"), 8.0, share=0.3),
    "roll-in": Maneuver("aileron deflected and returned, other controls fixed", ("right", "left"), 10.0, share=0.5),
    "turn": Maneuver("level flight into a turn, pilot model holds height and ball", ("right", "left"), 25.0),
    "reversal": Maneuver(
        "steady turn into the opposite one, pilot model holds height and ball",
        ("right", "left"),
        15.0,
        begins_banked=True,
    ),
    "blip": Maneuver("ignition cut and restored, controls fixed", ("",), 12.0),
    "slam": Maneuver("from steady flight at idle to full throttle, controls fixed", ("",), 12.0, begins_idle=True),
    "spin-entry": Maneuver(
        "stick back with rudder and opposite aileron, hands off, recovery controls, pull-out",
        ("right", "left"),
        20.0,
        share=0.5,
        held_s=4.0,
        begins_slow=True,
    ),
    "take-off": Maneuver(
        "from standstill on short grass, tail raised, climb at one airspeed; pilot model holds heading", ("",), 20.0
    ),
}


@dataclass(frozen=True, slots=True)
class ManeuverPlan:
    """Commands of one manoeuvre to one side, for `sim.flight.actuation.fly`.

    Attributes
    ----------
    control_law : function
        Commands of the controls.
    breakpoints_s : tuple of float
        Times at which they are discontinuous. [s]
    """

    control_law: ControlLaw
    breakpoints_s: tuple[float, ...]


def plan(
    name: ManeuverName,
    airplane: Airplane,
    travel: Travel,
    *,
    maneuver: Maneuver,
    sign: Number,
    bank_rad: float,
    state: Sequence[Number],
    controls: Controls,
    functions: PilotFunctions = ONE,
) -> ManeuverPlan:
    """Return the commands of a manoeuvre that starts from a steady state, or of many flights from one each.

    Parameters
    ----------
    name : str
        A key of `MANEUVERS`.
    airplane : Airplane
    travel : Travel
    maneuver : Maneuver
        That of `MANEUVERS`, or an adjusted one.
    sign : float
        +1 for the first of its sides, −1 for the second.
    bank_rad : float
        Target bank of a turn or reversal, positive. [rad]
    state : sequence of 14 floats
        At the start.
    controls : Controls
        At the start.
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights: airplane, sign, state and controls are then arrays with one entry for each.
    """
    end = BEGIN_S + maneuver.held_s
    if name == "spin-entry":
        times = (BEGIN_S, end, end + FREE_S)
        law = spin_law(
            airplane,
            travel,
            sign=sign,
            share=maneuver.share,
            times_s=times,
            start=state,
            controls=controls,
            functions=functions,
        )
        return ManeuverPlan(law, times)
    if name in ("turn", "reversal"):
        start = maneuver.bank_at_start_rad(sign, bank_rad)
        ramp_s = bank_rad * (2.0 if maneuver.begins_banked else 1.0) / ROLL_RATE_RAD_S

        def bank(t: float) -> Number:
            return start + (sign * bank_rad - start) * max(0.0, min(1.0, (t - BEGIN_S) / ramp_s))

        law = pilot_law(airplane, bank, start=state, controls=controls, functions=functions)
        return ManeuverPlan(law, (BEGIN_S, BEGIN_S + ramp_s))
    moved = {
        "rudder-kick": controls._replace(rudder_rad=controls.rudder_rad - sign * maneuver.share * travel.rudder_rad),
        "roll-in": controls._replace(aileron_rad=controls.aileron_rad - sign * maneuver.share * travel.aileron_rad),
        "pull": controls._replace(
            elevator_rad=controls.elevator_rad
            - sign * maneuver.share * (travel.elevator_up_rad * (sign > 0.0) + travel.elevator_down_rad * (sign < 0.0))
        ),
        "blip": controls._replace(throttle=0.0),
        "slam": controls._replace(throttle=1.0),
    }[name]
    back = moved if name == "slam" else controls
    return ManeuverPlan(_stepped(controls, moved, back, end), (BEGIN_S, end))


def adjusted(maneuver: Maneuver, *, share: float | None, held_s: float | None, flown_s: float | None) -> Maneuver:
    """Return a manoeuvre with another deflection, time held or duration, where given."""
    return replace(
        maneuver,
        share=maneuver.share if share is None else share,
        held_s=maneuver.held_s if held_s is None else held_s,
        flown_s=maneuver.flown_s if flown_s is None else flown_s,
    )


def _stepped(before: Controls, during: Controls, after: Controls, end_s: float) -> ControlLaw:
    """Return the law that moves the controls to one position at `BEGIN_S` and to another at `end_s`."""
    no_integrals = (0.0,) * INTEGRATORS

    def law(
        t: float,
        state: tuple[float, ...],  # noqa: ARG001
        rates: tuple[float, ...],  # noqa: ARG001
        integrals: tuple[float, ...],  # noqa: ARG001
    ) -> tuple[tuple[float, ...], tuple[float, ...]]:
        now = before if t < BEGIN_S else during if t < end_s else after
        return now[:4], no_integrals

    return law
