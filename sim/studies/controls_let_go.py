"""Pedals, or stick and pedals, let go in level flight: where the airplane balances, and whether it stays there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.flight.control_forces import ControlForces, control_forces
from sim.flight.free_controls import free_controls
from sim.flight.let_go import let_go
from sim.flight.modes import modes, system_matrix
from sim.flight.validity import passed_in_turns
from sim.studies.forces_answer import LetGo
from sim.studies.turns import turns

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.flight.modes import Mode
    from sim.flight.motion import Controls
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.numerics.number import Number

SHARES = ("elevator_share", "aileron_share", "rudder_share")
NOWHERE: dict[str, Any] = dict.fromkeys(
    ("speed_m_s", "bank_deg", "turn_rate_deg_s", "sideslip_deg", "climb_rate_m_s", *SHARES), math.nan
)


def controls_let_go(flying: FlyingAirplane) -> Iterator[LetGo]:
    """Yield the flights with the pedals let go, with stick and pedals and a trimmed elevator, with nothing held.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant, speed and altitude; the throttle is that of its level flight. Where elevator or rudder
        does not centre, or there is no such flight, none is yielded.
    """
    level = turns(flying, [0.0])
    if not level.found[0] or _floating(flying, level) is None:
        return
    pull = control_forces(flying.airplane, flying.controls, level).stick_n
    nothing = ControlForces(0.0, 0.0, 0.0)
    for what, keeps, hands in (
        ("pedals", nothing, False),
        ("all, trimmed", nothing._replace(stick_n=pull), True),
        ("all", nothing, True),
    ):
        found = let_go(flying.airplane, flying.controls, level, keeps, hands=hands)
        if found is None:
            yield LetGo(what, **NOWHERE, time_to_double_s=None)
        else:
            yield _described(flying, what, found, hands=hands)


def _described(flying: FlyingAirplane, what: str, found: Turns, *, hands: bool) -> LetGo:
    shares: dict[str, Any] = {f"{name}_share": float(share[0]) for name, share in flying.travel.shares(found).items()}
    speed = float(np.linalg.norm(found.state[7:10, 0]))
    growing = _growing(flying, found, hands=hands)
    return LetGo(
        what,
        speed_m_s=speed,
        bank_deg=math.degrees(found.bank_rad[0]),
        turn_rate_deg_s=math.degrees(found.turn_rate_rad_s[0]),
        sideslip_deg=math.degrees(found.sideslip_rad[0]),
        climb_rate_m_s=speed * math.sin(found.climb_rad[0]),
        **shares,
        time_to_double_s=growing.time_to_double_s if growing else None,
        grows=growing.name if growing else "",
        beyond=passed_in_turns(flying.airplane, found)[0],
    )


def _growing(flying: FlyingAirplane, found: Turns, *, hands: bool) -> Mode | None:
    """Return the mode that grows fastest about a flight; None where nothing does."""
    steady, floating = found.controls(0), _floating(flying, found)
    if floating is None:
        return None

    def pedals_free(at_state: Number) -> Controls:
        return steady._replace(rudder_rad=floating(at_state).rudder_rad)

    matrix = system_matrix(flying.airplane, found.state[:, 0].tolist(), floating if hands else pedals_free)
    fastest = max(modes(matrix), key=lambda mode: mode.real_per_s)
    return fastest if fastest.time_to_double_s is not None else None


def _floating(flying: FlyingAirplane, found: Turns) -> Callable[[Number], Controls] | None:
    return free_controls(flying.airplane, flying.controls, found.state[:, 0].tolist(), found.controls(0))
