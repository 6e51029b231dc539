"""The properties of one cam, or of a whole grid of cams at once, that decide whether it is good."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, TypedDict

import numpy as np

from sim.display.cam_profile import roller_path, roller_speed
from sim.display.contact import MATERIALS, contact_stress
from sim.display.drive import Drive, drive
from sim.display.lamp_error import lamp_errors, total
from sim.display.loads import contact_force, float_speed, torque
from sim.display.rise_laws import LAWS, LawName, motion

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray, Motion
    from sim.display.spring import Spring


class Held(TypedDict):
    """What presses the roller on the cam, as `contact_force` and `float_speed` take it."""

    preload_n: float
    rate_n_per_m: float
    mass_kg: float


SAMPLES = 241
"""Points on a rise, and as many on the fall: the relative error of a peak is below 1e-4."""


@dataclass(frozen=True, slots=True)
class CamProperties:
    """Properties of cams, arrays of the same shape; not-a-number where the arm cannot reach.

    Attributes
    ----------
    pressure_angle_rad : array
        Largest of a turn. [rad]
    pitch_radius_m : array
        Smallest radius of curvature of the pitch curve where it is convex. [m]
    concave_per_m : array
        Largest curvature where the outline is concave, 0 where it is convex throughout. [1/m]
    contact_stress_pa : array
        Largest of a turn, at rest or at top speed. [Pa]
    cam_torque_n_m : array
        Largest of a turn, at rest or at top speed. [N m]
    float_rad_s : array
        Cam speed above which the roller leaves the cam. [rad/s]
    roller_rad_s : array
        Largest speed of the roller about its pin at top speed. [rad/s]
    cam_diameter_m : array
        Circle the cam sweeps. [m]
    shaft_wall_m : array
        From the bore of the cam to its base circle. [m]
    high_dwell_rad, low_dwell_rad : array
        Cam angle with the follower up and down. [rad]
    lamp_error_rad : array
        Propeller angle by which the lamp is early or late, all causes at their worst. [rad]
    """

    pressure_angle_rad: FloatArray
    pitch_radius_m: FloatArray
    concave_per_m: FloatArray
    contact_stress_pa: FloatArray
    cam_torque_n_m: FloatArray
    float_rad_s: FloatArray
    roller_rad_s: FloatArray
    cam_diameter_m: FloatArray
    shaft_wall_m: FloatArray
    high_dwell_rad: FloatArray
    low_dwell_rad: FloatArray
    lamp_error_rad: FloatArray


def flanks(
    law: LawName, rise_rad: FloatArray, lift_m: float, *, fall: bool = True
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return lift and its two derivatives along rise and fall, on a new last axis. [m].

    Parameters
    ----------
    law : str
        Law of motion.
    rise_rad : array
        Cam angle of the rise, any shape. [rad]
    lift_m : float
        Full lift. [m]
    fall : bool
        Whether the fall is included; it mirrors the rise, so an in-line slide does not need it.
    """
    rise, velocity, acceleration, _ = _sampled(law)
    width = np.asarray(rise_rad)[..., None]
    first, second = lift_m * velocity / width, lift_m * acceleration / width**2
    lift = np.broadcast_to(lift_m * rise, first.shape)
    if not fall:
        return np.asarray(lift), first, second
    both = ((lift, lift), (first, -first), (second, second))
    up_and_down = [np.concatenate(pair, axis=-1) for pair in both]
    return up_and_down[0], up_and_down[1], up_and_down[2]


@cache
def _sampled(law: LawName) -> Motion:
    """Return the motion of a law at the samples of a rise; nobody writes into it."""
    return motion(law, np.linspace(0.0, 1.0, SAMPLES))


def evaluate(
    display: Display, spring: Spring, law: LawName, *, rise_rad: FloatArray, base_radius_m: FloatArray
) -> CamProperties:
    """Return the properties of cams with this law, at rises and base circles that broadcast together.

    Parameters
    ----------
    display : Display
        What is fixed.
    spring : Spring
        The chosen spring.
    law : str
        Law of motion.
    rise_rad, base_radius_m : array
        Cam angle of a rise and radius with the follower down. [rad], [m]
    """
    rise, base = np.broadcast_arrays(np.asarray(rise_rad, dtype=float), np.asarray(base_radius_m, dtype=float))
    in_line = display.follower.kind == "translating" and display.follower.offset_m == 0.0
    moving = flanks(law, rise, display.cam.lift_m, fall=not in_line)
    roller = display.follower.roller_radius_m
    path = roller_path(display.follower, base[..., None], np.zeros(1), moving)
    held = at_roller(display, spring)
    force = np.maximum(
        contact_force(**held, cam_rad_s=display.cam_top_speed_rad_s, lift_m=moving[0], acceleration_m=moving[2]),
        contact_force(**held, cam_rad_s=0.0, lift_m=moving[0], acceleration_m=moving[2]),
    )
    sharpest = np.max(path.curvature_per_m, axis=-1)
    errors = lamp_errors(display, LAWS[law].velocity_peak, rise, base)
    return CamProperties(
        pressure_angle_rad=np.max(np.abs(path.pressure_angle_rad), axis=-1),
        pitch_radius_m=1.0 / sharpest,
        concave_per_m=np.max(_concave(path.curvature_per_m, roller), axis=-1),
        contact_stress_pa=np.max(_stress(display, force, path.pressure_angle_rad, path.curvature_per_m), axis=-1),
        cam_torque_n_m=np.max(np.abs(torque(force, moving[1])), axis=-1),
        float_rad_s=float_speed(**held, lift_m=moving[0], acceleration_m=moving[2]),
        roller_rad_s=np.max(roller_speed(path, roller, display.cam_top_speed_rad_s), axis=-1),
        cam_diameter_m=2.0 * np.max(np.abs(path.centre_m - roller * path.normal), axis=-1),
        shaft_wall_m=base - display.cam.shaft_radius_m,
        high_dwell_rad=display.window_rad - rise,
        low_dwell_rad=2.0 * np.pi / display.cam.lobes - display.window_rad - rise,
        lamp_error_rad=total(errors),
    )


def at_roller(display: Display, spring: Spring) -> Held:
    """Return preload and rate of the spring as the roller feels them, and the mass there. [N], [N/m], [kg]."""
    ratio = display.spring_ratio
    preload, rate = spring.preload_n * ratio, spring.rate_n_per_m * ratio**2
    return {"preload_n": preload, "rate_n_per_m": rate, "mass_kg": display.follower_kg}


def _concave(curvature: FloatArray, roller_radius_m: float) -> FloatArray:
    """Return the curvature where the outline is concave, 0 elsewhere."""
    concave: FloatArray = np.where(curvature < 0.0, -curvature / (1.0 - roller_radius_m * curvature), 0.0)
    return concave


def _stress(display: Display, force: FloatArray, pressure_angle: FloatArray, curvature: FloatArray) -> FloatArray:
    """Return the contact stress, infinite where the outline has a cusp."""
    roller = display.follower.roller_radius_m
    left = 1.0 - roller * curvature
    sum_of_curvatures = np.where(left > 0.0, 1.0 / (roller * np.where(left > 0.0, left, 1.0)), np.inf)
    bodies = (MATERIALS[display.cam.material], MATERIALS["steel"])
    normal = np.maximum(force, 0.0) / np.cos(pressure_angle)
    return contact_stress(normal, display.cam.face_width_m, sum_of_curvatures, bodies)


def driven(display: Display, spring: Spring, cam_torque_n_m: float) -> Drive:
    """Return what hand or motor has to give to turn a cam whose largest torque is this. [N m]."""
    return drive(
        display.propeller,
        display.handle,
        cam_torque_n_m=cam_torque_n_m,
        cam_ratio=display.cam_ratio,
        rise_energy_j=spring.rise_energy_j,
    )
