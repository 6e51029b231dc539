"""What a cam says, what a gun does, and how a round and the blades meet; and how high the follower stands.

One sense everywhere, that of the display: the follower is raised, and the lamp lit, where the gun may fire. A view is
of one gun; where there is a second, it has a view of its own.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

from sim.live.gun import touches, wait_rad

if TYPE_CHECKING:
    from sim.live.gun import Round
    from viz.stage.snapshot import BladesView

CamState = Literal["now", "not_now", "none", "fast"]
CamTold = Literal["now", "not_now", "turns", "none", "fast"]
GunState = Literal["fires", "waits", "loads", "rests"]
Crossing = Literal["close", "held", "clear", "through", "hit", "none"]
DOINGS: tuple[GunState, ...] = ("fires", "waits", "loads", "rests")
RAMP_RAD = math.radians(9.0)
IMPULSE_RAD = math.radians(8.0)
BLURRED = 0.3
"""From this blur on the propeller is drawn as a disc, and its cam is not seen."""
SEEN_AFTER = 1.0
"""Times of flight for which a round, or splinters, are seen after the disc."""
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
    return "now" if raised(view) > 0.0 else "not_now"


def raised(view: BladesView) -> float:
    """Return the lift 0..1 of the follower just now."""
    return lift(view.gun.windows_rad, view.angle_rad, view.gun.line.action, view.gun.cam.period_turns)


def told_cam(view: BladesView, gear: str) -> CamTold:
    """Return what is told of the cam: its state, or that it is too fast to be seen.

    Where its word is none about the gun, which loads or has been let go already, what it does in all: ``turns``.
    """
    if blurred(view):
        return "fast"
    state, does = cam_state(view, gear), gun_state(view)
    if state != "none" and (does == "loads" or (does == "fires" and state == "not_now")):
        return "turns"
    return state


def blurred(view: BladesView) -> bool:
    """Return whether the propeller is drawn as a disc."""
    return view.blur > BLURRED


def gun_state(view: BladesView) -> GunState:
    """Return what the gun does: a round is under way, it waits for the cam, it loads, or its trigger rests."""
    if view.flying:
        return "fires"
    if view.holding:
        return "waits"
    if view.time_s < view.ready_s:
        return "loads"
    return "rests"


def guns(view: BladesView) -> tuple[BladesView, ...]:
    """Return the views of all guns."""
    return (view,) if view.second is None else (view, view.second)


def doing(view: BladesView) -> GunState:
    """Return what the guns do, of two that of which there is more to tell."""
    return min(map(gun_state, guns(view)), key=DOINGS.index)


def latest(view: BladesView) -> Round | None:
    """Return the round of any gun that passed last."""
    return max((each.last for each in guns(view) if each.last), key=lambda last: last.pass_s, default=None)


def told_of(view: BladesView, gear: str) -> BladesView:
    """Return the gun of which cam and ghost are told.

    That whose round is in the air and gets to the disc first; else whose round has just got there, is being let go, or
    which has the shortest wait, or is loaded first.
    """
    if view.second is None:
        return view
    return min(guns(view), key=lambda each: _turn_to_be_told(each, gear))


def _turn_to_be_told(view: BladesView, gear: str) -> tuple[int, float]:
    """Return what is the less, the sooner a gun is told of."""
    if view.flying and view.time_s >= view.flying[0].muzzle_s:
        return 0, view.flying[0].pass_s
    if (gone := since_passage(view)) is not None and gone <= SEEN_AFTER:
        return 1, gone
    if view.flying:
        return 2, view.flying[0].pass_s
    if gun_state(view) != "waits":
        return (4, view.ready_s) if gun_state(view) == "loads" else (5, 0.0)
    return 3, 0.0 if gear == "none" else wait_rad(view.gun, view.angle_rad)


def trigger_state(view: BladesView, gear: str) -> CamState:
    """Return what the trigger shows: ``not_now`` wherever no gun that does not fire would, were it pressed."""
    if blurred(view):
        return "fast"
    shown = [_trigger_state(each, gear) for each in guns(view)]
    return next((each for each in shown if each != "not_now"), "not_now")


def _trigger_state(view: BladesView, gear: str) -> CamState:
    if gun_state(view) == "fires":
        return "none" if gear == "none" else "now"
    return "not_now" if view.time_s < view.ready_s else cam_state(view, gear)


def crossing(view: BladesView, gear: str) -> Crossing:
    """Return how a round and the blades meet.

    ``through`` or ``hit`` where one has just passed; else whether the blade will be out of the way, ``clear``, or not,
    ``close``, when the round under way gets there, or one that is released now would. ``held`` where it would be out
    of the way and the cam still waits: it keeps a margin, for other speeds and for scatter. ``none`` where no round can
    be released: the gun loads, or the cam never trips.
    """
    if view.flying:
        return "close" if touches(view.gun, view.arrival_rad) else "clear"
    if (gone := since_passage(view)) is not None and gone <= SEEN_AFTER:
        return "hit" if view.last and view.last.struck else "through"
    if view.arrival_rad is None or gun_state(view) == "loads":
        return "none"
    if touches(view.gun, view.arrival_rad):
        return "close"
    return "held" if cam_state(view, gear) == "not_now" else "clear"


def since_passage(view: BladesView) -> float | None:
    """Return how long ago the last round crossed the disc, in times of flight; None where there was none."""
    if view.last is None or view.time_s < view.last.pass_s:
        return None
    return (view.time_s - view.last.pass_s) / max(view.gun.line.flight_s, 1e-6)
