"""Time that slows by itself: from a wait to a release, from release to passage, and just after it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.live.gun import GunState, Round

WAIT_S, LINK_S, FLIGHT_S = 2.2, 1.4, 2.4
"""What a wait for the cam, the way from release to muzzle, and that from muzzle to disc last in the room. [s]"""
AFTER = 0.9
"""Times of flight for which a round is watched beyond the disc."""
PASSAGES_HZ = 1.3
"""Blades that pass the line of fire in a second in the room, at the most, while the gun loads.

As often does the cam change its word, and what shows it its colour: that leaves room for what a visitor changes."""
STEADY_PASSAGES_HZ = 0.4
"""The same where little motion is asked for."""
LOADING = 2.2
"""How much faster than the pace picked the time goes while the gun loads, at the most."""
EASE_S = 0.06


def wanted_pace(
    picked: float, state: GunState, *, wait_s: float, last: Round | None, passages_hz: float, steady: bool = False
) -> float:
    """Return the pace for this moment, seconds on the stage for one in the room.

    Parameters
    ----------
    picked : float
        Pace that the visitor has picked: no more than that while something is to be seen.
    state : GunState
        The gun.
    wait_s : float
        How long a gun that waits has to wait in all. [s]
    last : Round or None
        That passed last.
    passages_hz : float
        Blades that pass in a second on the stage. [1/s]
    steady : bool
        Whether little motion is asked for: no more blades a second than may be.
    """
    if steady:
        picked = min(picked, STEADY_PASSAGES_HZ / passages_hz)
    if state.flying:
        fired = state.flying[0]
        link_s, flight_s = fired.muzzle_s - fired.release_s, fired.pass_s - fired.muzzle_s
        span = (link_s / LINK_S) if state.time_s < fired.muzzle_s else flight_s / FLIGHT_S
        return min(picked, span) if span > 0.0 else picked
    if last is not None and state.time_s < last.pass_s + AFTER * (last.pass_s - last.muzzle_s):
        return min(picked, (last.pass_s - last.muzzle_s) / FLIGHT_S)
    if state.holding and math.isfinite(wait_s):
        return min(picked, max(wait_s, 1e-4) / WAIT_S)
    return picked if steady else max(picked, min(LOADING * picked, PASSAGES_HZ / passages_hz))


def eased(pace: float, wanted: float, elapsed_s: float) -> float:
    """Return a pace on its way to the wanted one: the same ratio in the same time."""
    return wanted * math.pow(pace / wanted, math.exp(-elapsed_s / EASE_S))
