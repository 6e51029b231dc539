"""What ``whirlgate maneuver`` answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from sim.flight.maneuver import Maneuver
    from sim.model.powerplant import EngineKind
    from sim.studies.carried_mass import BandedMass

    Array = NDArray[np.float64]
    Bands = dict[str, tuple[Array, Array]]
    """Column -> ends of its band against time."""


@dataclass(frozen=True, slots=True)
class ManeuverFlight:
    """Largest values of one flight; changes are from the start of the manoeuvre.

    Attributes
    ----------
    powerplant, side : str
        Powerplant, and direction of the manoeuvre; empty where it has none.
    nose_up_deg, nose_down_deg, nose_right_deg, nose_left_deg : float
        Largest change of pitch attitude and of heading each way, at least 0. [°]
    bank_right_deg, bank_left_deg : float
        Largest bank each way, at least 0. [°]
    height_lost_m, height_gained_m : float
        At least 0. [m]
    time_to_90_s : float or None
        Until the heading has changed by 90°. [s]
    side_to_90 : str
        ``right`` or ``left``, to which it then has; empty where it does not.
    peak_elevator_share, peak_aileron_share, peak_rudder_share : float
        Deflection of the largest size as a fraction of travel to that side, −1 to 1, signed as in
        `sim.studies.handling_answer.SteadyTurn`.
    least_load_factor, greatest_load_factor : float
        1 in straight flight.
    peak_sideslip_deg : float
        Largest size. [°]
    limits : tuple of str
        Limits reached: control travel, rate at which a pilot moves them, lift of the wing.
    valid_until_s : float or None
        Time from which on the flight is indicative, beyond a bound; None where it stays within all. [s]
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes, in the order of time.
    nose_up_low_deg, nose_up_high_deg, nose_down_low_deg, nose_down_high_deg, nose_right_low_deg,
    nose_right_high_deg, nose_left_low_deg, nose_left_high_deg, bank_right_low_deg, bank_right_high_deg,
    bank_left_low_deg, bank_left_high_deg, peak_sideslip_low_deg, peak_sideslip_high_deg : float or None
        Ends of the 90 % bands; None where no bands were asked for. [°]
    height_lost_low_m, height_lost_high_m, height_gained_low_m, height_gained_high_m : float or None
        Likewise. [m]
    time_to_90_low_s, time_to_90_high_s : float or None
        Likewise; None too for an end that the flight does not reach in time. [s]
    peak_elevator_share_low, peak_elevator_share_high, peak_aileron_share_low, peak_aileron_share_high,
    peak_rudder_share_low, peak_rudder_share_high, least_load_factor_low, least_load_factor_high,
    greatest_load_factor_low, greatest_load_factor_high : float or None
        Likewise.
    verdict : str
        Of a spin entry, one of `sim.studies.maneuver_spin.VERDICTS`; empty in other manoeuvres. Its attitude passes the
        vertical, so that pitch, heading and bank mean nothing and are not numbers.
    autorotation_s, spin_turns : float or None
        Longest time beyond the angle of attack of the stall with a rotation about the flight path to one side, and
        turns about it in that time. [s, –]
    crossed_rate_deg_s, free_rate_deg_s : float or None
        Rotation about the flight path at the end of the crossed controls, and of hands off, either way round. [°/s]
    crossed_alpha_deg, spin_axis_deg, helix_radius_m : float or None
        Mean angle of attack over the last half second of the crossed controls, angle of the axis of rotation to the
        vertical, and radius of the helix of the flight path. [°, °, m]
    free_stop_s : float or None
        From letting go until the rotation has stopped and the wing flies; None where it goes on until the recovery. [s]
    recovery_s : float or None
        From the recovery controls until then; 0 where it had stopped before; None where it does not stop. [s]
    level_s : float or None
        From the recovery controls until the airplane no longer descends; None where it still does at the end. [s]
    pull_out_alpha_deg : float or None
        Largest angle of attack after the rotation has stopped. [°]
    spun_probability : float or None
        Of the airplanes drawn that fly it, the share whose verdict is ``spun``.
    autorotation_low_s, autorotation_high_s, spin_turns_low, spin_turns_high, crossed_rate_low_deg_s,
    crossed_rate_high_deg_s, free_rate_low_deg_s, free_rate_high_deg_s, crossed_alpha_low_deg, crossed_alpha_high_deg,
    spin_axis_low_deg, spin_axis_high_deg, helix_radius_low_m, helix_radius_high_m, free_stop_low_s, free_stop_high_s,
    recovery_low_s, recovery_high_s, level_low_s, level_high_s, pull_out_alpha_low_deg, pull_out_alpha_high_deg :
    float or None
        Ends of their 90 % bands.
    lift_off_s, lift_off_m_s, ground_run_m : float or None
        Of a take-off, until the last wheel leaves the ground, and airspeed there; None where it does not, and in other
        manoeuvres. [s, m/s, m]
    climb_m_s : float or None
        Of a take-off, airspeed of the climb that the pilot holds. [m/s]
    field_lift_off_m_s, field_run_m, field_rudder_share : float or None
        Of a take-off, lift-off, run and rudder while the tail comes up (of its travel, left positive) by the study
        `field`, whose bands are those of these numbers too. [m/s, m, -]
    flown_probability : float or None
        Of the airplanes drawn, the share that has a steady flight to start from and does not diverge.
    """

    powerplant: str
    side: str
    nose_up_deg: float
    nose_down_deg: float
    nose_right_deg: float
    nose_left_deg: float
    bank_right_deg: float
    bank_left_deg: float
    height_lost_m: float
    height_gained_m: float
    time_to_90_s: float | None
    peak_elevator_share: float
    peak_aileron_share: float
    peak_rudder_share: float
    least_load_factor: float
    greatest_load_factor: float
    peak_sideslip_deg: float
    limits: tuple[str, ...]
    valid_until_s: float | None
    beyond: tuple[str, ...]
    nose_up_low_deg: float | None = None
    nose_up_high_deg: float | None = None
    nose_down_low_deg: float | None = None
    nose_down_high_deg: float | None = None
    nose_right_low_deg: float | None = None
    nose_right_high_deg: float | None = None
    nose_left_low_deg: float | None = None
    nose_left_high_deg: float | None = None
    bank_right_low_deg: float | None = None
    bank_right_high_deg: float | None = None
    bank_left_low_deg: float | None = None
    bank_left_high_deg: float | None = None
    height_lost_low_m: float | None = None
    height_lost_high_m: float | None = None
    height_gained_low_m: float | None = None
    height_gained_high_m: float | None = None
    time_to_90_low_s: float | None = None
    time_to_90_high_s: float | None = None
    peak_elevator_share_low: float | None = None
    peak_elevator_share_high: float | None = None
    peak_aileron_share_low: float | None = None
    peak_aileron_share_high: float | None = None
    peak_rudder_share_low: float | None = None
    peak_rudder_share_high: float | None = None
    least_load_factor_low: float | None = None
    least_load_factor_high: float | None = None
    greatest_load_factor_low: float | None = None
    greatest_load_factor_high: float | None = None
    peak_sideslip_low_deg: float | None = None
    peak_sideslip_high_deg: float | None = None
    side_to_90: str = ""
    verdict: str = ""
    autorotation_s: float | None = None
    spin_turns: float | None = None
    crossed_rate_deg_s: float | None = None
    free_rate_deg_s: float | None = None
    crossed_alpha_deg: float | None = None
    spin_axis_deg: float | None = None
    helix_radius_m: float | None = None
    free_stop_s: float | None = None
    recovery_s: float | None = None
    level_s: float | None = None
    pull_out_alpha_deg: float | None = None
    spun_probability: float | None = None
    autorotation_low_s: float | None = None
    autorotation_high_s: float | None = None
    spin_turns_low: float | None = None
    spin_turns_high: float | None = None
    crossed_rate_low_deg_s: float | None = None
    crossed_rate_high_deg_s: float | None = None
    free_rate_low_deg_s: float | None = None
    free_rate_high_deg_s: float | None = None
    crossed_alpha_low_deg: float | None = None
    crossed_alpha_high_deg: float | None = None
    spin_axis_low_deg: float | None = None
    spin_axis_high_deg: float | None = None
    helix_radius_low_m: float | None = None
    helix_radius_high_m: float | None = None
    free_stop_low_s: float | None = None
    free_stop_high_s: float | None = None
    recovery_low_s: float | None = None
    recovery_high_s: float | None = None
    level_low_s: float | None = None
    level_high_s: float | None = None
    pull_out_alpha_low_deg: float | None = None
    pull_out_alpha_high_deg: float | None = None
    lift_off_s: float | None = None
    lift_off_m_s: float | None = None
    ground_run_m: float | None = None
    climb_m_s: float | None = None
    field_lift_off_m_s: float | None = None
    field_run_m: float | None = None
    field_rudder_share: float | None = None
    flown_probability: float | None = None


@dataclass(frozen=True, slots=True)
class ManeuverAnswer(Answer):
    """The answer of ``whirlgate maneuver``.

    Attributes
    ----------
    maneuver, meaning : str
        Its name and a short description.
    air_loads : str
        ``strips`` or ``linear``: what it is flown with.
    speed_m_s, altitude_m : float
        At the start. [m/s, m]
    flights : tuple of ManeuverFlight
        Powerplant by powerplant, to each side.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What must be known of the masses, a sentence each.
    histories, definition : tuple of dict, Maneuver
        Columns in time of each flight, by their quantity, and the manoeuvre as flown; not in JSON.
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    bands : tuple of dict
        Of each flight the ends of the 90 % band of each column against time; attitude, heading and height as changes
        from the start. Empty where no bands were asked for; not in JSON.
    """

    main: ClassVar[str] = "flights"

    maneuver: str
    meaning: str
    air_loads: str
    speed_m_s: float
    altitude_m: float
    flights: tuple[ManeuverFlight, ...]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    histories: tuple[dict[str, Array], ...] = field(metadata=ASIDE)
    definition: Maneuver = field(metadata=ASIDE)
    engine_kinds: dict[str, EngineKind] = field(metadata=ASIDE)
    bands: tuple[Bands, ...] = field(default=(), metadata=ASIDE)
