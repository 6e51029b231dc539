"""What a field says of an airplane with one powerplant."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.studies.bands import ends_of
from sim.studies.field_landing import landing
from sim.studies.field_place import demand_run, raising_swing
from sim.studies.field_stance import stance_of
from sim.studies.field_wind import WindHeld, winds_held

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.landing_run import Blip
    from sim.model.plausibility.propeller import Clearance
    from sim.studies.field_place import FieldPlace, TakeOff

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class FieldOf:
    """Ground and field with one powerplant.

    Attributes
    ----------
    lift_off_m_s, touchdown_m_s : float
        Airspeeds: 1.1 and 1.05 times the stall, more where the attitude on all wheels does not let the wing lift so
        much. [m/s]
    ground_run_m, take_off_time_s : float
        From standstill to lift-off. [m, s]
    to_50_ft_m : float or None
        From standstill to 50 ft above the ground; None where full power does not climb. [m]
    tail_up_m_s : float or None
        Airspeed at which the tail is raised: half that of lift-off, or where full down elevator lifts it; None where
        that is not before lift-off. [m/s]
    rudder_share, raising_share : float or None
        Of the travel, left positive: rudder that holds the nose at that speed, and while the tail comes up.
    glide_ratio, glide_m_s : float
        Flattest glide, ignition cut, propeller turned by the air: distance over height, and its airspeed. [-, m/s]
    glide_spin_rad_s, glide_drag_n : float
        Speed of the shaft there, at least 0, next to none where friction stops it; drag of the propeller.
        [rad/s, N]
    bare_glide_ratio : float
        Greatest lift over drag without a propeller, at its own airspeed.
    from_50_ft_m : float
        From 50 ft above the ground to standstill, the engine cut. [m]
    landing_run_m, braked_run_m : float
        Of it from touchdown, without brakes and with them. [m]
    running_run_m : float or None
        Landing run with the engine kept running, a rotary by its ignition, another at idle throttle; None where it does
        not come to a stop. [m]
    running_thrust_n : float
        What it pulls then at touchdown, in the mean. [N]
    blip_share, blip_end_share : float or None
        Of a rotary: rudder of its travel, left positive, that the ignition coming on asks for at touchdown, at once and
        when the propeller has gained speed, just before it is cut; beyond that with the ignition off.
    winds : tuple of WindHeld
        Wind across take-off, approach and touchdown that the controls hold, from the left and from the right.
    tail_down_deg, stall_alpha_deg : float
        Attitude on all wheels, and angle of attack of the stall: greatest lift of the strips in trim, power off.
        [degrees]
    nose_over_deg, nose_over_friction : float
        From the vertical through the main wheels' contact back to the centre of gravity, the airplane level, and the
        friction of the wheels over its weight that then stands it on its nose; 16° to 25° are common practice, no
        source. [degrees, -]
    overturn_deg : float
        Slope from the line through a main wheel and the tail wheel up to the centre of gravity: more than 63 tips over
        in a turn (common practice, no source). [degrees]
    propeller_clearance_m, propeller_clearance_tail_down_m : float or None
        Blade tip above the ground, the airplane level, and on all wheels. [m]
    verdicts : dict of str
        ``good`` or ``poor`` of those that a practice is known for, by their names, ``strikes`` of a propeller that
        reaches the ground: see `sim.studies.field_stance`.
    curve_speeds_m_s, curve_distances_m : tuple of float
        Airspeed and distance of the take-off run. [m/s, m]
    lift_off_low_m_s, lift_off_high_m_s, touchdown_low_m_s, touchdown_high_m_s, tail_up_low_m_s, tail_up_high_m_s,
    glide_low_m_s, glide_high_m_s : float or None
        Ends of the 90 % bands; None where no bands were asked for. [m/s]
    ground_run_low_m, ground_run_high_m, to_50_ft_low_m, to_50_ft_high_m, from_50_ft_low_m, from_50_ft_high_m,
    landing_run_low_m, landing_run_high_m, braked_run_low_m, braked_run_high_m, running_run_low_m, running_run_high_m :
    float or None
        Likewise. [m]
    running_thrust_low_n, running_thrust_high_n : float or None
        Likewise. [N]
    glide_ratio_low, glide_ratio_high, rudder_share_low, rudder_share_high, raising_share_low, raising_share_high,
    blip_share_low, blip_share_high, blip_end_share_low, blip_end_share_high : float or None
        Likewise.
    take_off_probability, climb_out_probability, stop_probability : float or None
        Of the airplanes drawn, the shares that lift off, that climb over 50 ft, and that come to a stop with the engine
        kept running; None where no bands were asked for.
    """

    lift_off_m_s: float
    touchdown_m_s: float
    ground_run_m: float
    take_off_time_s: float
    to_50_ft_m: float | None
    tail_up_m_s: float | None
    rudder_share: float | None
    raising_share: float | None
    glide_ratio: float
    glide_m_s: float
    glide_spin_rad_s: float
    glide_drag_n: float
    bare_glide_ratio: float
    from_50_ft_m: float
    landing_run_m: float
    braked_run_m: float
    running_run_m: float | None
    running_thrust_n: float
    blip_share: float | None
    blip_end_share: float | None
    winds: tuple[WindHeld, ...]
    tail_down_deg: float
    stall_alpha_deg: float
    nose_over_deg: float
    nose_over_friction: float
    overturn_deg: float
    propeller_clearance_m: float | None
    propeller_clearance_tail_down_m: float | None
    verdicts: dict[str, str]
    curve_speeds_m_s: tuple[float, ...]
    curve_distances_m: tuple[float, ...]
    lift_off_low_m_s: float | None = None
    lift_off_high_m_s: float | None = None
    touchdown_low_m_s: float | None = None
    touchdown_high_m_s: float | None = None
    tail_up_low_m_s: float | None = None
    tail_up_high_m_s: float | None = None
    ground_run_low_m: float | None = None
    ground_run_high_m: float | None = None
    to_50_ft_low_m: float | None = None
    to_50_ft_high_m: float | None = None
    rudder_share_low: float | None = None
    rudder_share_high: float | None = None
    raising_share_low: float | None = None
    raising_share_high: float | None = None
    glide_ratio_low: float | None = None
    glide_ratio_high: float | None = None
    glide_low_m_s: float | None = None
    glide_high_m_s: float | None = None
    from_50_ft_low_m: float | None = None
    from_50_ft_high_m: float | None = None
    landing_run_low_m: float | None = None
    landing_run_high_m: float | None = None
    braked_run_low_m: float | None = None
    braked_run_high_m: float | None = None
    running_run_low_m: float | None = None
    running_run_high_m: float | None = None
    running_thrust_low_n: float | None = None
    running_thrust_high_n: float | None = None
    blip_share_low: float | None = None
    blip_share_high: float | None = None
    blip_end_share_low: float | None = None
    blip_end_share_high: float | None = None
    take_off_probability: float | None = None
    climb_out_probability: float | None = None
    stop_probability: float | None = None


def field_of(
    place: FieldPlace,
    drawn: FieldPlace | None,
    clearance: Clearance | None,
    *,
    raising_s: float,
    blip: Blip,
) -> FieldOf:
    """Return everything about one powerplant, with bands where airplanes are drawn.

    Parameters
    ----------
    place, drawn : FieldPlace, FieldPlace or None
        Of the airplane, and of those drawn.
    clearance : Clearance or None
        Of its propeller.
    raising_s : float
        Time in which the tail comes up. [s]
    blip : Blip
        Of a rotary's ignition on the landing run.

    Raises
    ------
    NoAnswerError
        Where it does not lift off.
    """
    off = place.take_off(raising_s)
    demand_run(off.run, place.flying.name)
    values = {name: float(value[0]) for name, value in _numbers(place, off, raising_s, blip).items()}
    known: dict[str, Any] = {name: value if math.isfinite(value) else None for name, value in values.items()}
    farther = np.diff(off.run.distances_m[:, 0], prepend=-1.0) > 0.0  # parts share their ends
    found = FieldOf(
        **known,
        take_off_time_s=float(off.run.time_s[0]),
        winds=(),
        **place.glide_drag(),
        **stance_of(place, clearance),
        curve_speeds_m_s=tuple(off.run.speeds_m_s[farther, 0].tolist()),
        curve_distances_m=tuple(off.run.distances_m[farther, 0].tolist()),
    )
    if drawn is None:
        return replace(found, winds=winds_held(place, off, raising_s))
    many = drawn.take_off(raising_s)
    bands: dict[str, Any] = _bands(known, _numbers(drawn, many, raising_s, blip))
    return replace(found, winds=winds_held(place, off, raising_s, (drawn, many)), **bands)


def _numbers(place: FieldPlace, off: TakeOff, raising_s: float, blip: Blip) -> dict[str, Array]:
    """Return every number of each airplane that has a band, by its name."""
    swung = raising_swing(place, off, raising_s)
    gliding, ratio = place.glide()
    landed = landing(place, blip)
    return {
        "lift_off_m_s": place.lift_off_m_s,
        "touchdown_m_s": place.touchdown_m_s,
        "ground_run_m": off.run.distance_m,
        "to_50_ft_m": place.over_obstacle_m(off.run.distance_m),
        "tail_up_m_s": off.tail_up_m_s,
        "rudder_share": swung.rudder_share,
        "raising_share": swung.raising_share,
        "glide_ratio": ratio,
        "glide_m_s": gliding,
        "from_50_ft_m": landed.run_m + place.descent_m(),
        "landing_run_m": landed.run_m,
        "braked_run_m": landed.braked_m,
        "running_run_m": landed.running_m,
        "running_thrust_n": landed.running_thrust_n,
        "blip_share": landed.blip_share,
        "blip_end_share": landed.blip_end_share,
    }


def _bands(known: dict[str, Any], numbers: dict[str, Array]) -> dict[str, float | None]:
    """Return the ends of the bands of what the airplane has, and what share of the airplanes drawn has it."""
    ends = ends_of({name: values for name, values in numbers.items() if known[name] is not None})
    shares = {
        "take_off_probability": "ground_run_m",
        "climb_out_probability": "to_50_ft_m",
        "stop_probability": "running_run_m",
    }
    return ends | {name: float(np.mean(np.isfinite(numbers[of]))) for name, of in shares.items()}
