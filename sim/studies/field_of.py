"""What a field says of an airplane with one powerplant."""

from __future__ import annotations

from dataclasses import dataclass


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
    from_50_ft_m : float
        From 50 ft above the ground to standstill, the engine cut. [m]
    landing_run_m : float
        Of it from touchdown. [m]
    tail_down_deg, stall_alpha_deg : float
        Attitude on all wheels, and angle of attack of the stall. [degrees]
    nose_over_deg : float
        From the vertical through the main wheels' contact back to the centre of gravity, the airplane level. [degrees]
    overturn_deg : float
        Slope from the line through a main wheel and the tail wheel up to the centre of gravity: more than 63 tips over
        in a turn. [degrees]
    propeller_clearance_m, propeller_clearance_tail_down_m : float or None
        Blade tip above the ground, the airplane level, and on all wheels. [m]
    curve_speeds_m_s, curve_distances_m : tuple of float
        Airspeed and distance of the take-off run. [m/s, m]
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
    from_50_ft_m: float
    landing_run_m: float
    tail_down_deg: float
    stall_alpha_deg: float
    nose_over_deg: float
    overturn_deg: float
    propeller_clearance_m: float | None
    propeller_clearance_tail_down_m: float | None
    curve_speeds_m_s: tuple[float, ...]
    curve_distances_m: tuple[float, ...]
