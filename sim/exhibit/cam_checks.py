"""The checks on cam, follower and hand force: the ones the search for a smallest cam has to satisfy."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.exhibit.cam import LAWS, LawName
from sim.exhibit.checks import OWN, Check, Row, check, rounded_down, rounded_up
from sim.exhibit.contact import MATERIALS
from sim.exhibit.evaluation import CamNumbers, driven, evaluate
from sim.exhibit.guard import OPERATING_FORCE_LIMIT_N, TIP_FORCE_LIMIT_N

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.exhibit.display import Display
    from sim.exhibit.spring import Spring

PRESSURE_LIMIT_DEG = {"translating": 30.0, "swinging": 35.0}
FLOAT_MARGIN = 2.0
LEAST_WALL_MM = 4.0
LEAST_DWELL_DEG = 1.0
MOST_LAMP_ERROR_DEG = 0.5
STEP_M = 0.0005
"""Base circles are sought in half millimetres. [m]"""

_NORTON = "Norton, ch. 8"
"""Design of Machinery."""
_PER_RPM = math.pi / 30.0


def cam_rows(display: Display, spring: Spring, numbers: CamNumbers) -> tuple[Row, ...]:
    """Return every limit that depends on law, rise or base circle, for one cam or a grid of them."""
    material = MATERIALS[display.cam.material]
    ratio = numbers.pitch_radius_m / display.follower.roller_radius_m
    top_rpm = display.cam_top_speed_rad_s / _PER_RPM
    return (
        Row(
            "pressure angle",
            "°",
            np.degrees(numbers.pressure_angle_rad),
            "at most",
            PRESSURE_LIMIT_DEG[display.follower.kind],
            _NORTON,
        ),
        Row("pitch over roller radius", "", ratio, "at least", 2.0, _NORTON),
        Row(
            "cutter over hollow radius",
            "",
            numbers.hollow_per_m * display.cam.cutter_radius_m,
            "at most",
            1.0,
            "geometry",
        ),
        Row(
            "contact stress",
            "MPa",
            numbers.contact_stress_pa / 1e6,
            "at most",
            material.contact_limit_pa / 1e6,
            f"Hertz; {OWN}",
        ),
        Row("float speed", "rpm", numbers.float_rad_s / _PER_RPM, "at least", FLOAT_MARGIN * top_rpm, OWN),
        Row("cam diameter", "mm", numbers.cam_diameter_m * 1e3, "at most", display.cam.space_m * 1e3, "space given"),
        Row("wall round the shaft", "mm", numbers.wall_m * 1e3, "at least", LEAST_WALL_MM, OWN),
        Row("dwell up", "°", np.degrees(numbers.high_dwell_rad), "at least", LEAST_DWELL_DEG, OWN),
        Row("dwell down", "°", np.degrees(numbers.low_dwell_rad), "at least", LEAST_DWELL_DEG, OWN),
        Row("lamp error", "°", np.degrees(numbers.lamp_error_rad), "at most", MOST_LAMP_ERROR_DEG, OWN),
        _hand_row(display, spring, numbers),
    )


def _hand_row(display: Display, spring: Spring, numbers: CamNumbers) -> Row:
    """Return the limit on the force at a crank, or at a blade tip before a motor's clutch slips."""
    if display.handle.kind == "crank":
        forces = [driven(display, spring, float(each)).crank_force_n for each in numbers.cam_torque_n_m.ravel()]
        return Row(
            "crank force",
            "N",
            np.reshape(forces, numbers.cam_torque_n_m.shape),
            "at most",
            min(OPERATING_FORCE_LIMIT_N, display.handle.most_force_n),
            "ADA 2010, 309.4, or as given",
        )
    tips = [driven(display, spring, float(each)).tip_force_n for each in numbers.cam_torque_n_m.ravel()]
    return Row(
        "tip force at the slip clutch",
        "N",
        np.reshape(tips, numbers.cam_torque_n_m.shape),
        "at most",
        TIP_FORCE_LIMIT_N,
        "ISO 14120",
    )


def cam_checks(
    display: Display, spring: Spring, law: LawName, *, rise_rad: float, base_radius_m: float
) -> tuple[Check, ...]:
    """Return the checks of one cam, each failure with the nearest change that would mend it.

    Parameters
    ----------
    display, spring : Display, Spring
        What is fixed, and the chosen spring.
    law : str
        Law of motion.
    rise_rad, base_radius_m : float
        Cam angle of a rise, and radius with the follower down. [rad], [m]
    """
    numbers = evaluate(display, spring, law, rise_rad=np.asarray(rise_rad), base_radius_m=np.asarray(base_radius_m))
    rows = cam_rows(display, spring, numbers)
    return tuple(
        check(row, "" if row.passes else _cure(row, display, spring, (law, rise_rad, base_radius_m))) for row in rows
    )


def _cure(row: Row, display: Display, spring: Spring, cam: tuple[LawName, float, float]) -> str:
    """Return the nearest change that would let a failed row pass."""
    value = float(row.value)
    rise_deg = math.degrees(cam[1])
    fixed_window = math.degrees(display.window_rad)
    period = 360.0 / display.cam.lobes
    longer_mm = display.handle.crank_radius_m * 1e3 * value / row.limit
    simple: dict[str, Callable[[], str]] = {
        "float speed": lambda: (
            f"turn the propeller no faster than "
            f"{rounded_down(value / FLOAT_MARGIN / display.cam_ratio):g} rpm, or raise the preload"
        ),
        "cam diameter": lambda: f"a space of at least {rounded_up(value):g} mm",
        "wall round the shaft": lambda: (
            f"a base circle of at least {rounded_up(display.cam.shaft_radius_m * 1e3 + LEAST_WALL_MM, 0.5):g} mm radius"
        ),
        "dwell up": lambda: f"a rise of at most {rounded_down(fixed_window - LEAST_DWELL_DEG):g}°",
        "dwell down": lambda: f"a rise of at most {rounded_down(period - fixed_window - LEAST_DWELL_DEG):g}°",
        "lamp error": lambda: f"a rise of at most {rounded_down(rise_deg * MOST_LAMP_ERROR_DEG / value):g}°",
        "crank force": lambda: f"a crank of at least {rounded_up(longer_mm, 1.0):g} mm radius",
        "tip force at the slip clutch": lambda: "a softer spring or a longer rise",
    }
    if row.name in simple:
        return simple[row.name]()
    return _nearest_base(row, display, spring, cam)


def _nearest_base(row: Row, display: Display, spring: Spring, cam: tuple[LawName, float, float]) -> str:
    """Return the base circle, in half millimetres, nearest to the one tried at which the row would pass."""
    law, rise_rad, base_radius_m = cam
    tried = STEP_M * np.arange(1, 601, dtype=np.float64)
    rows = cam_rows(
        display, spring, evaluate(display, spring, law, rise_rad=np.asarray(rise_rad), base_radius_m=np.asarray(tried))
    )
    passing = tried[next(each for each in rows if each.name == row.name).passes]
    if not passing.size and row.name == "contact stress" and math.isfinite(float(row.value)):
        wider_mm = display.cam.face_width_m * 1e3 * (float(row.value) / row.limit) ** 2
        return f"a cam thickness of at least {rounded_up(wider_mm):g} mm"
    if not passing.size:
        return "another follower: no base circle up to 300 mm would do with this one"
    nearest = passing[np.argmin(np.abs(passing - base_radius_m))]
    side = "at least" if nearest > base_radius_m else "at most"
    return f"a base circle of {side} {nearest * 1e3:g} mm radius"


def all_laws(wished: LawName | None) -> tuple[LawName, ...]:
    """Return the laws to try: the one wished for, or all."""
    return (wished,) if wished else tuple(LAWS)
