"""The two legs of a stall, into it and out of it, of one airplane or of many."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.flight.stall_pilot import recovering, slowing

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.control_travel import Travel
    from sim.flight.history import History
    from sim.flight.motion import Airplane, Controls
    from sim.flight.pilot_functions import PilotFunctions
    from sim.numerics.number import Number

SAMPLE_S: Final = 0.05
RECOVERY_S: Final = 14.0


@dataclass(frozen=True, slots=True)
class Entered:
    """Steady flight from which a stall is entered; numbers may be arrays, one entry a flight, as `fly` takes them.

    Attributes
    ----------
    airplane : Airplane
        As it flies, with strips.
    travel : Travel
        Stops of the controls.
    state : sequence of 14 floats, or array of shape (14, N)
        In steady flight.
    controls : Controls
        In it.
    bank_rad : float
        Held into the stall, right wing down positive. [rad]
    level_stall_m_s : float
        Speed of the stall with the wings level. [m/s]
    pull_s : float
        Time in which the stick comes back from trim to its stop. [s]
    fly : function
        `sim.flight.actuation.fly`, or `sim.flight.many_flights.fly_many` of many flights.
    functions : PilotFunctions
        `ONE` or `MANY`, as `fly` asks for.
    """

    airplane: Airplane
    travel: Travel
    state: Any
    controls: Controls
    bank_rad: Number
    level_stall_m_s: Number
    pull_s: float
    fly: Callable[..., History]
    functions: PilotFunctions

    def approached(self, length: float, **ended: Any) -> History:  # noqa: ANN401
        """Return the flight toward the stall, for a time over that of the pull, or as `fly` ends it before."""
        law = slowing(
            self.airplane,
            self.travel,
            state=tuple(self.state),
            controls=self.controls,
            bank_rad=self.bank_rad,
            pull_s=self.pull_s,
            functions=self.functions,
        )
        times_s = np.arange(0.0, length * self.pull_s, SAMPLE_S)
        return self.fly(
            self.airplane, self.travel, law, state=self.state, controls=self.controls, times_s=times_s, **ended
        )

    def recovered(self, state: Any, held: Controls, reaction_s: float) -> History:  # noqa: ANN401
        """Return the flight from the stall on, whose state and controls are given, the pilot reacting after a time."""
        law = recovering(
            self.airplane,
            start=tuple(self.state),
            controls=self.controls,
            held=held,
            stall_m_s=self.level_stall_m_s,
            reaction_s=reaction_s,
            functions=self.functions,
        )
        return self.fly(
            self.airplane,
            self.travel,
            law,
            state=state,
            controls=held,
            times_s=np.arange(0.0, RECOVERY_S, SAMPLE_S),
            breakpoints_s=(reaction_s,) if reaction_s else (),
        )
