"""What ``whirlgate maneuver`` answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from sim.flight.maneuver import Maneuver
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
    peak_elevator_share, peak_aileron_share, peak_rudder_share : float
        Largest deflection as a fraction of travel, 0 to 1.
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
    spin_turns : float or None
        Of a spin entry, turns until the recovery begins; None in other manoeuvres.
    crossed_rate_deg_s, free_rate_deg_s : float or None
        Rotation at the end of the crossed controls, and of hands off, either way round. [°/s]
    recovery_s : float or None
        From the recovery controls until the rotation has stopped and the wing flies; None where it does not. [s]
    spin_turns_low, spin_turns_high, crossed_rate_low_deg_s, crossed_rate_high_deg_s, free_rate_low_deg_s,
    free_rate_high_deg_s, recovery_low_s, recovery_high_s : float or None
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
    spin_turns: float | None = None
    crossed_rate_deg_s: float | None = None
    free_rate_deg_s: float | None = None
    recovery_s: float | None = None
    spin_turns_low: float | None = None
    spin_turns_high: float | None = None
    crossed_rate_low_deg_s: float | None = None
    crossed_rate_high_deg_s: float | None = None
    free_rate_low_deg_s: float | None = None
    free_rate_high_deg_s: float | None = None
    recovery_low_s: float | None = None
    recovery_high_s: float | None = None
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
    bands : tuple of dict
        Of each flight the ends of the 90 % band of each column against time; attitude, heading and height as changes
        from the start. Empty where no bands were asked for; not in JSON.
    """

    main: ClassVar[str] = "flights"

    maneuver: str
    meaning: str
    speed_m_s: float
    altitude_m: float
    flights: tuple[ManeuverFlight, ...]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    histories: tuple[dict[str, Array], ...] = field(metadata=ASIDE)
    definition: Maneuver = field(metadata=ASIDE)
    bands: tuple[Bands, ...] = field(default=(), metadata=ASIDE)
