"""What the cam says and what the gun does at a moment, each as a caption key; and how high the follower stands.

One sense everywhere, that of the display: the follower is raised, and the lamp lit, where the gun may fire.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from viz.stage.snapshot import BladesView

CamState = Literal["now", "not_now", "none", "fast"]
GunState = Literal["fires", "waits", "loads", "rests"]
RAMP_RAD = math.radians(9.0)
IMPULSE_RAD = math.radians(8.0)
FAST_PACE = 0.1
"""From this pace on a visitor cannot follow single rounds: the cam's word would only flicker."""


def lift(windows_rad: tuple[tuple[float, float], ...], angle_rad: float, action: str, turns: int = 1) -> float:
    """Return the lift 0..1 of the follower at a propeller angle, above 0 just where the gun may fire.

    Parameters
    ----------
    windows_rad : tuple of (float, float)
        Where the cam opens and closes; an impulse comes in the middle. [rad]
    angle_rad : float
        Of the propeller. [rad]
    action : str
        ``interrupter`` or ``impulse``.
    turns : int
        Turns of the propeller after which the windows come again.
    """
    period_rad = turns * math.tau
    high = 0.0
    for opens, closes in windows_rad:
        half = IMPULSE_RAD + RAMP_RAD if action == "impulse" else 0.5 * (closes - opens)
        away = abs(math.remainder(angle_rad - 0.5 * (opens + closes), period_rad))
        high = max(high, (half - away) / RAMP_RAD)
    share = min(high, 1.0)
    return share * share * (3.0 - 2.0 * share)


def cam_state(view: BladesView, gear: str) -> CamState:
    """Return what the cam says: ``now`` where the follower is raised."""
    if gear == "none":
        return "none"
    raised = lift(view.gun.windows_rad, view.angle_rad, view.gun.line.action, view.gun.cam.period_turns)
    return "now" if raised > 0.0 else "not_now"


def gun_state(view: BladesView) -> GunState:
    """Return what the gun does: a round is under way, it waits for the cam, it loads, or its trigger rests."""
    if view.flying:
        return "fires"
    if view.holding:
        return "waits"
    if view.time_s < view.ready_s:
        return "loads"
    return "rests"
