"""The proof of fit of a display: its motion, and the gap between its cam and what the follower carries."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from shapely import Polygon, affinity

from sim.display.assembly.follower import placed
from sim.display.assembly.interference import Clash, Motion, clashes, shape_of
from sim.display.schedule import lift_fraction, schedule_of

if TYPE_CHECKING:
    from collections.abc import Callable

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


def _cam_gap(assembly: Assembly, plan: Plan, motion: Motion) -> Callable[[Polygon], float]:
    """Return the least gap over a turn between the cam and a shape that moves with the follower.

    Cam angles are sampled; between two of them the cam moves by at most its radius, and the follower by its largest
    slope, times half a step, which is taken off.
    """
    part = assembly.part("cam")
    cam = shape_of(part.slabs[0], part)
    schedule = schedule_of(plan.display, plan.found)
    count = math.ceil(schedule.period_rad / CAM_STEP_RAD)
    angles = schedule.period_rad * np.arange(count) / count
    lifts, slopes, _ = (plan.display.cam.lift_m * each for each in lift_fraction(schedule, angles))
    turned = [affinity.rotate(cam, float(angle), origin=(0.0, 0.0), use_radians=True) for angle in angles]
    step = schedule.period_rad / count / 2.0
    spare = (plan.cam_radius_m + float(np.max(np.abs(slopes)))) * step

    def gap(shape: Polygon) -> float:
        pairs = zip(turned, lifts, strict=True)
        return float(min(each.distance(motion.lifted(shape, float(lift))) for each, lift in pairs)) - spare

    return gap
