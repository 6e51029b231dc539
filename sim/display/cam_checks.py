"""The checks on cam, follower and hand force: the ones the search for a smallest cam has to satisfy."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from sim.display.checks import OWN, Check, Limit, check, rounded_down, rounded_up
from sim.display.contact import MATERIALS
from sim.display.evaluation import CamProperties, driven, evaluate
from sim.display.guard import OPERATING_FORCE_LIMIT_N, TIP_FORCE_LIMIT_N
from sim.display.lamp_error import lamp_errors, total
from sim.display.rise_laws import LAWS, LawName
from sim.units.convert import rpm

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.display.display import Display
    from sim.display.spring import Spring

PRESSURE_LIMIT_DEG = {"translating": 30.0, "swinging": 35.0}
FLOAT_MARGIN = 3.0
FLOAT_CEILING_RAD_S = 8.0 * math.pi
"""Most propeller speed at which the roller may still stay on the cam, 240 a minute: two fifths of 600, at which slow
engines idle. Above it nothing follows the cam, so that it could time nothing on an engine. Own limit. [rad/s]"""
LEAST_WALL_M = 0.004
LEAST_DWELL_DEG = 1.0
MOST_LAMP_ERROR_DEG = 3.0
STEP_M = 0.0005
"""Base circles are sought in steps of this. [m]"""
MOST_BASE_M = 0.3
"""Largest base circle a cure is sought among. [m]"""

_NORTON = "Norton, ch. 8"
"""Design of Machinery."""


def cam_limits(display: Display, spring: Spring, cam: CamProperties) -> tuple[Limit, ...]:
    """Return every limit that depends on law, rise or base circle, for one cam or a grid of them."""
    roller, angle = display.follower.roller_radius_m, np.degrees(cam.pressure_angle_rad)
    pressure, least_float = PRESSURE_LIMIT_DEG[display.follower.kind], rpm(FLOAT_MARGIN * display.cam_top_speed_rad_s)
    ceiling = rpm(FLOAT_CEILING_RAD_S * display.cam_ratio)
    stress, cutter = MATERIALS[display.cam.material].contact_limit_pa, cam.concave_per_m * display.cam.cutter_radius_m
    error, high, low = (np.degrees(each) for each in (cam.lamp_error_rad, cam.high_dwell_rad, cam.low_dwell_rad))
    return (
        Limit("pressure angle", "pressure_angle_deg", angle, "at most", pressure, _NORTON),
        Limit(
            "pitch curve over roller radius", "pitch_over_roller", cam.pitch_radius_m / roller, "at least", 2.0, _NORTON
        ),
        Limit("cutter over concave radius", "cutter_over_hollow", cutter, "at most", 1.0, "geometry"),
        Limit("contact stress", "contact_stress_pa", cam.contact_stress_pa, "at most", stress, f"Hertz; {OWN}"),
        Limit("float speed", "float_speed_rpm", rpm(cam.float_rad_s), "at least", least_float, OWN),
        Limit("float ceiling", "float_speed_rpm", rpm(cam.float_rad_s), "at most", ceiling, OWN),
        Limit("cam diameter", "cam_diameter_m", cam.cam_diameter_m, "at most", display.cam.space_m, "space given"),
        Limit("wall around the shaft", "shaft_wall_m", cam.shaft_wall_m, "at least", LEAST_WALL_M, OWN),
        Limit("high dwell", "high_dwell_deg", high, "at least", LEAST_DWELL_DEG, OWN),
        Limit("low dwell", "low_dwell_deg", low, "at least", LEAST_DWELL_DEG, OWN),
        Limit("lamp error", "lamp_error_deg", error, "at most", MOST_LAMP_ERROR_DEG, OWN),
        _hand_limit(display, spring, cam),
    )


def _hand_limit(display: Display, spring: Spring, cam: CamProperties) -> Limit:
    """Return the limit on the force at a crank, or at a blade tip before a motor's clutch slips."""
    drives = [driven(display, spring, float(each)) for each in cam.cam_torque_n_m.ravel()]
    shape = cam.cam_torque_n_m.shape
    if display.handle.kind == "crank":
        forces = np.reshape([each.crank_force_n for each in drives], shape)
        most = min(OPERATING_FORCE_LIMIT_N, display.handle.most_force_n)
        return Limit("crank force", "grip_force_n", forces, "at most", most, "ADA 2010, 309.4, or as given")
    forces = np.reshape([each.tip_force_n for each in drives], shape)
    return Limit("tip force at the slip clutch", "tip_force_n", forces, "at most", TIP_FORCE_LIMIT_N, "ISO 14120")


def cam_checks(
    display: Display, spring: Spring, law: LawName, *, rise_rad: float, base_radius_m: float
) -> tuple[Check, ...]:
    """Return the checks of one cam, each failure with the nearest change that would correct it.

    Parameters
    ----------
    display, spring : Display, Spring
        What is fixed, and the chosen spring.
    law : str
        Law of motion.
    rise_rad, base_radius_m : float
        Cam angle of a rise, and radius with the follower down. [rad], [m]
    """
    cam = evaluate(display, spring, law, rise_rad=np.asarray(rise_rad), base_radius_m=np.asarray(base_radius_m))
    size = (law, rise_rad, base_radius_m)
    return tuple(
        check(limit if limit.passes else replace(limit, cure=_cure(limit, display, spring, size)))
        for limit in cam_limits(display, spring, cam)
    )


def _cure(limit: Limit, display: Display, spring: Spring, cam: tuple[LawName, float, float]) -> str:
    """Return the nearest change that would let a failed limit pass."""
    value, windows = float(limit.value), display.window.openings
    fewer = f"at most {windows} lobes" if display.cam.lobes > windows else ""
    window_deg = math.degrees(display.window_rad)
    rest_deg, crank_m = 360.0 / display.cam.lobes - window_deg, display.handle.crank_radius_m * value / limit.limit
    simple: dict[str, Callable[[], str]] = {
        "float speed": lambda: (
            f"turn the propeller no faster than "
            f"{rounded_down('float_speed_rpm', value / FLOAT_MARGIN / display.cam_ratio)}, or raise the preload"
        ),
        "float ceiling": lambda: fewer or "a lower preload or spring rate, or a shorter rise",
        "cam diameter": lambda: f"a space of at least {rounded_up('cam_diameter_m', value)}",
        "wall around the shaft": lambda: (
            f"a base circle of at least {rounded_up('base_radius_m', display.cam.shaft_radius_m + LEAST_WALL_M, 0.5)} "
            "radius"
        ),
        "high dwell": lambda: _shorter_rise(window_deg, "longer"),
        "low dwell": lambda: _shorter_rise(rest_deg, "shorter"),
        "lamp error": lambda: fewer or _steeper(display, cam, value),
        "crank force": lambda: f"a crank of at least {rounded_up('hand_crank_m', crank_m, 1.0)} radius",
        "tip force at the slip clutch": lambda: "a softer spring or a longer rise",
    }
    return simple[limit.name]() if limit.name in simple else _nearest_base(limit, display, spring, cam)


def _steeper(display: Display, cam: tuple[LawName, float, float], error_deg: float) -> str:
    """Return the longest rise at which the lamp errs no more than it may: part of its error does not depend on it."""
    law, rise_rad, base_m = cam
    least = lamp_errors(display, LAWS[law].velocity_peak, np.asarray(1e-9), np.asarray(base_m))
    fixed_deg = math.degrees(float(total(least)))
    if fixed_deg >= MOST_LAMP_ERROR_DEG:
        return "a larger base circle, or as many lobes as windows"
    longest = math.degrees(rise_rad) * (MOST_LAMP_ERROR_DEG - fixed_deg) / (error_deg - fixed_deg)
    return f"a rise of at most {rounded_down('rise_deg', longest)}"


def _shorter_rise(room_deg: float, window: str) -> str:
    """Return the longest rise that leaves a dwell in so much of the cam, or which window would have room for one."""
    if room_deg <= LEAST_DWELL_DEG:
        return f"a gun's cam with a {window} window, or the ideal cam"
    return f"a rise of at most {rounded_down('rise_deg', room_deg - LEAST_DWELL_DEG)}"


def _nearest_base(limit: Limit, display: Display, spring: Spring, cam: tuple[LawName, float, float]) -> str:
    """Return the base circle, in steps, nearest to the one tried at which the limit would be kept."""
    law, rise_rad, base_radius_m = cam
    tried = STEP_M * np.arange(1, round(MOST_BASE_M / STEP_M) + 1, dtype=np.float64)
    grid = evaluate(display, spring, law, rise_rad=np.asarray(rise_rad), base_radius_m=np.asarray(tried))
    limits = cam_limits(display, spring, grid)
    passing = tried[next(each for each in limits if each.name == limit.name).passes]
    if not passing.size and limit.name == "contact stress" and math.isfinite(float(limit.value)):
        wider = display.cam.face_width_m * (float(limit.value) / limit.limit) ** 2
        return f"a cam thickness of at least {rounded_up('face_width_m', wider)}"
    if not passing.size:
        return (
            f"another follower: no base circle up to {rounded_up('base_radius_m', MOST_BASE_M)} would do with this one"
        )
    nearest = float(passing[np.argmin(np.abs(passing - base_radius_m))])
    side = "at least" if nearest > base_radius_m else "at most"
    across_m = 2.0 * (nearest + display.cam.lift_m)
    room = (
        f", in a space of at least {rounded_up('cam_diameter_m', across_m)}" if across_m > display.cam.space_m else ""
    )
    return f"a base circle of {side} {rounded_up('base_radius_m', nearest)} radius{room}"


def laws_to_try(law: LawName | None) -> tuple[LawName, ...]:
    """Return the laws of motion to try: the one asked for, or all of finite jerk, the fundamental rule of cams."""
    return (law,) if law else tuple(name for name, each in LAWS.items() if math.isfinite(each.jerk_peak))
