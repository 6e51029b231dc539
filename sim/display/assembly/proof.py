"""The proof of fit of a display: its motion, and the gap between its cam and what the follower carries."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from shapely import Polygon, affinity

from sim.display.assembly.follower import placed
from sim.display.assembly.interference import Clash, Motion, clashes, shape_of
from sim.display.schedule import lift_fraction, schedule_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.display.assembly.plan import Plan

CAM_STEP_RAD = math.radians(0.5)


def motion_of(plan: Plan) -> Motion:
    """Return how far lead plate and follower of a display move."""
    at, turn = placed(plan)
    up = (-math.sin(turn), math.cos(turn)) if plan.slides else (0.0, 0.0)
    arm = 0.0 if plan.slides else plan.display.follower.arm_m
    return Motion(plan.swing_rad, plan.display.cam.lift_m, up, at, arm)


def interference(assembly: Assembly, plan: Plan, of: Part | Fastener | None = None) -> tuple[Clash, ...]:
    """Return every pair of parts that meet somewhere; none where the display can be built and turned.

    Parameters
    ----------
    assembly, plan : Assembly, Plan
        The display and how it is laid out.
    of : Part, Fastener or None
        What it is asked about, None for everything.
    """
    motion = motion_of(plan)
    return clashes(assembly, motion, _cam_gap(assembly, plan, motion), of)


def with_follower_down(assembly: Assembly, plan: Plan) -> Assembly:
    """Return a display whose cam is turned until the follower is down, as one turns it to slide it on.

    All that turns with the shaft is turned with it, by the least turn that does it.
    """
    angles, lifts, _ = _lifts(plan)
    turns = np.remainder(angles[lifts == np.min(lifts)] + math.pi, math.tau) - math.pi
    turn = float(turns[np.argmin(np.abs(turns))])
    group = assembly.part("cam").group
    along, aside = math.cos(turn), math.sin(turn)

    def there(each: Part | Fastener) -> tuple[float, float]:
        return each.x_m * along - each.y_m * aside, each.x_m * aside + each.y_m * along

    def turned(part: Part) -> Part:
        x_m, y_m = there(part)
        return replace(part, x_m=x_m, y_m=y_m, placed_rad=part.placed_rad + turn)

    def taken_along(screw: Fastener) -> Fastener:
        x_m, y_m = there(screw)
        return replace(screw, x_m=x_m, y_m=y_m)

    parts = (turned(each) if each.group == group else each for each in assembly.parts)
    screws = (taken_along(each) if each.group == group else each for each in assembly.fasteners)
    return replace(assembly, parts=tuple(parts), fasteners=tuple(screws))


def _lifts(plan: Plan) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Return turns of the cam from where it is drawn, over a period, with lifts and their slopes. [rad, m, m/rad]."""
    schedule = schedule_of(plan.display, plan.found)
    count = math.ceil(schedule.period_rad / CAM_STEP_RAD)
    angles = schedule.period_rad * np.arange(count) / count
    lifts, slopes, _ = (plan.display.cam.lift_m * each for each in lift_fraction(schedule, angles))
    return angles, lifts, slopes


def _cam_gap(assembly: Assembly, plan: Plan, motion: Motion) -> Callable[[Polygon], float]:
    """Return the least gap over a turn between the cam and a shape that moves with the follower.

    Cam angles are sampled; between two of them the cam moves by at most its radius, and the follower by its largest
    slope, times half a step, which is taken off.
    """
    part = assembly.part("cam")
    cam = shape_of(part.slabs[0], part)
    angles, lifts, slopes = _lifts(plan)
    turned = [affinity.rotate(cam, float(angle), origin=(0.0, 0.0), use_radians=True) for angle in angles]
    step = float(angles[1]) / 2.0
    spare = (plan.cam_radius_m + float(np.max(np.abs(slopes)))) * step

    def gap(shape: Polygon) -> float:
        pairs = zip(turned, lifts, strict=True)
        return float(min(each.distance(motion.lifted(shape, float(lift))) for each, lift in pairs)) - spare

    return gap
