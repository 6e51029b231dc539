"""What a display does at the hardest hand: its slip clutch and its drag brake decide."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.brake import BRAKE_OUTER_M, MAGNET_M, MAGNET_RADIUS_M
from sim.display.assembly.plan import BRAKE_DISC_M
from sim.display.evaluation import at_roller
from sim.display.hand_speed import (
    BRAKE_SCATTER,
    CLUTCH_SCATTER,
    WorstHand,
    clutch_torque,
    drag_of_pair,
    flashes,
    most_in_a_second,
    pairs_needed,
    spun,
)
from sim.display.loads import contact_force, torque
from sim.display.schedule import lift_fraction, schedule_of
from sim.units.convert import rpm

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray
    from sim.display.search import FoundCam
    from sim.display.spring import Spring

POINTS = 720


def pair_drag(display: Display) -> float:
    """Return the drag of one pair of magnets on the crank shaft, at the propeller shaft. [N m s]."""
    own = drag_of_pair(
        disc_m=BRAKE_OUTER_M / 2.0, thickness_m=BRAKE_DISC_M, magnet_m=MAGNET_M, radius_m=MAGNET_RADIUS_M
    )
    return own / display.handle.gear**2


def magnet_pairs(display: Display, cam_torque_n_m: float) -> int:
    """Return how many pairs of magnets keep the worst hand below the speed that the builder allows."""
    clutch = float(clutch_torque(display.handle.friction_torque_n_m, display.cam_ratio * cam_torque_n_m))
    return pairs_needed(clutch, pair_drag(display), display.propeller.top_speed_rad_s)


def worst_hand(display: Display, found: FoundCam, spring: Spring) -> WorstHand:
    """Return what the display does at the hardest hand.

    Parameters
    ----------
    display, found, spring : Display, FoundCam, Spring
        What is specified, the cam and the spring.
    """
    load = cam_torque(display, found, spring)
    peak = float(np.max(np.abs(load)))
    clutch = float(clutch_torque(display.handle.friction_torque_n_m, peak))
    drag = magnet_pairs(display, peak / display.cam_ratio) * pair_drag(display)
    period = math.tau / display.window.openings
    scale = POINTS / period

    def at(angle: float) -> float:
        return float(load[int(angle * scale) % POINTS])

    inertia = display.propeller.polar_inertia_kg_m2
    angles, speeds = spun(
        clutch_n_m=clutch * (1.0 + CLUTCH_SCATTER),
        drag_n_m_s=drag * (1.0 - BRAKE_SCATTER),
        inertia_kg_m2=inertia,
        load_n_m=at,
    )
    fastest = float(np.max(speeds))
    lit = flashes(angles, from_rad=display.window.from_rad, period_rad=period)
    return WorstHand(
        rpm=rpm(fastest),
        flashes_per_s=float(most_in_a_second(lit)),
        tip_m_s=fastest * display.propeller.diameter_m / 2.0,
        energy_j=inertia * fastest**2 / 2.0,
    )


def cam_torque(display: Display, found: FoundCam, spring: Spring) -> FloatArray:
    """Return the torque of the cam at the propeller shaft from one window to the next, slowly turned. [N m]."""
    period = math.tau / display.window.openings
    cam_rad = np.arange(POINTS) * period / POINTS * display.cam_ratio
    lift, slope, bend = (display.cam.lift_m * each for each in lift_fraction(schedule_of(display, found), cam_rad))
    force = contact_force(**at_roller(display, spring), cam_rad_s=0.0, lift_m=lift, acceleration_m=bend)
    return display.cam_ratio * torque(force, slope)
