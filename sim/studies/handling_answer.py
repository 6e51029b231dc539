"""What ``whirlgate handling`` answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from sim.flight.force_limits import Force, Held
    from sim.flight.turn_limits import Limit
    from sim.studies.carried_mass import BandedMass
    from sim.studies.forces_answer import StickForces
    from sim.studies.modes import GradedMode
    from sim.studies.turns import Power


@dataclass(frozen=True, slots=True)
class SteadyTurn:
    """One steady turn with the ball centred.

    Attributes
    ----------
    bank_deg, turn_rate_deg_s : float
        Right positive. [°, °/s]
    load_factor : float
        Across the wing.
    alpha_deg, sideslip_deg : float
        Incidence; wind from the right positive. [°]
    elevator_deg, aileron_deg, rudder_deg : float
        A positive deflection makes a negative moment: nose down, left roll, nose left. [°]
    elevator_share, aileron_share, rudder_share : float
        Deflection as a fraction of the travel to that side, same sign.
    spin_rad_s : float
        Of the engine shaft, clockwise positive. [rad/s]
    gyro_pitch_n_m, gyro_yaw_n_m : float
        Gyroscopic moment on the airframe, nose up and nose right positive. [N m]
    stick_force_n, stick_side_force_n, pedal_force_n : float
        That the pilot exerts: back, right, and with the right foot positive; without friction. [N]
    force_held : str
        How long a pilot can hold them, by 14 CFR 23.143(c): ``minutes``, ``a moment``, or ``no``.
    past_minutes, past_moment : tuple of str
        Which of them are larger than a pilot holds for minutes, and for a moment: ``stick force``, ``sideways force``,
        ``pedal force``.
    holds : bool
        Whether controls, wing and engine can hold it.
    limit : str or None
        The limit that is exceeded where they cannot.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes: its numbers are indicative there.
    elevator_share_low, elevator_share_high, aileron_share_low, aileron_share_high : float or None
        Ends of the 90 % band; None where no bands were asked for.
    rudder_share_low, rudder_share_high : float or None
        Likewise.
    gyro_pitch_low_n_m, gyro_pitch_high_n_m, gyro_yaw_low_n_m, gyro_yaw_high_n_m : float or None
        Likewise. [N m]
    stick_force_low_n, stick_force_high_n, stick_side_force_low_n, stick_side_force_high_n : float or None
        Likewise. [N]
    pedal_force_low_n, pedal_force_high_n : float or None
        Likewise. [N]
    holds_probability : float or None
        Of the airplanes drawn, the share that can hold it.
    """

    bank_deg: float
    turn_rate_deg_s: float
    load_factor: float
    alpha_deg: float
    sideslip_deg: float
    elevator_deg: float
    aileron_deg: float
    rudder_deg: float
    elevator_share: float
    aileron_share: float
    rudder_share: float
    spin_rad_s: float
    gyro_pitch_n_m: float
    gyro_yaw_n_m: float
    stick_force_n: float
    stick_side_force_n: float
    pedal_force_n: float
    force_held: Held | None
    past_minutes: tuple[Force, ...]
    past_moment: tuple[Force, ...]
    holds: bool
    limit: Limit | None
    beyond: tuple[str, ...] = ()
    elevator_share_low: float | None = None
    elevator_share_high: float | None = None
    aileron_share_low: float | None = None
    aileron_share_high: float | None = None
    rudder_share_low: float | None = None
    rudder_share_high: float | None = None
    gyro_pitch_low_n_m: float | None = None
    gyro_pitch_high_n_m: float | None = None
    gyro_yaw_low_n_m: float | None = None
    gyro_yaw_high_n_m: float | None = None
    stick_force_low_n: float | None = None
    stick_force_high_n: float | None = None
    stick_side_force_low_n: float | None = None
    stick_side_force_high_n: float | None = None
    pedal_force_low_n: float | None = None
    pedal_force_high_n: float | None = None
    holds_probability: float | None = None


@dataclass(frozen=True, slots=True)
class PowerplantHandling:
    """How the airplane handles with one powerplant.

    Attributes
    ----------
    kind : str
        ``rotary`` or ``fixed``.
    polar_inertia_kg_m2 : float
        Angular momentum per rad/s of the engine shaft. [kg m²]
    spin_rad_s, angular_momentum_kg_m2_s : float
        In straight flight, clockwise positive. [rad/s, kg m²/s]
    turns : tuple of SteadyTurn
        In the order of the banks.
    steepest_left_deg, steepest_right_deg : float
        Steepest bank that can be held each way, left negative; 0 where straight flight cannot be held. [°]
    steepest_left_limit, steepest_right_limit : str or None
        The limit that is reached there; None where none is up to 85°.
    force_left_deg, force_right_deg : float
        Steepest bank of those whose forces a pilot can hold for a moment, by 14 CFR 23.143(c). [°]
    force_left_limit, force_right_limit : str or None
        The force that is too large beyond: ``stick force``, ``sideways force`` or ``pedal force``; None where another
        limit is reached before.
    steepest_left_beyond, steepest_right_beyond : tuple of str
        Bounds of `sim.flight.validity` that these turns pass.
    steepest_left_low_deg, steepest_left_high_deg, steepest_right_low_deg, steepest_right_high_deg : float or None
        Ends of their 90 % bands; None where no bands were asked for. [°]
    modes : tuple of GradedMode
        In straight flight.
    free_modes : tuple of GradedMode
        There with stick and pedals free, at the forces of that flight; none where elevator or rudder is overbalanced.
    forces : StickForces
        At the controls beside those of the turns.
    modes_beyond : tuple of str
        Bounds of `sim.flight.validity` that straight flight passes.
    modes_not_held : str or None
        Which limit straight flight exceeds, and how much power it lacks; None where the airplane can fly so.
    polar_inertia_low_kg_m2, polar_inertia_high_kg_m2, spin_low_rad_s, spin_high_rad_s : float or None
        Likewise. [kg m², rad/s]
    angular_momentum_low_kg_m2_s, angular_momentum_high_kg_m2_s : float or None
        Likewise. [kg m²/s]
    drawn_roots : array of complex or None
        Roots of straight flight of the airplanes drawn, those with an imaginary part of at least 0; None without bands.
        Not part of the JSON object. [1/s]
    """

    kind: str
    polar_inertia_kg_m2: float
    spin_rad_s: float
    angular_momentum_kg_m2_s: float
    turns: tuple[SteadyTurn, ...]
    steepest_left_deg: float
    steepest_right_deg: float
    steepest_left_limit: Limit | None
    steepest_right_limit: Limit | None
    force_left_deg: float
    force_right_deg: float
    force_left_limit: Force | None
    force_right_limit: Force | None
    modes: tuple[GradedMode, ...]
    free_modes: tuple[GradedMode, ...]
    forces: StickForces
    steepest_left_beyond: tuple[str, ...] = ()
    steepest_right_beyond: tuple[str, ...] = ()
    modes_beyond: tuple[str, ...] = ()
    modes_not_held: str | None = None
    steepest_left_low_deg: float | None = None
    steepest_left_high_deg: float | None = None
    steepest_right_low_deg: float | None = None
    steepest_right_high_deg: float | None = None
    polar_inertia_low_kg_m2: float | None = None
    polar_inertia_high_kg_m2: float | None = None
    spin_low_rad_s: float | None = None
    spin_high_rad_s: float | None = None
    angular_momentum_low_kg_m2_s: float | None = None
    angular_momentum_high_kg_m2_s: float | None = None
    drawn_roots: NDArray[np.complex128] | None = field(default=None, metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class Handling(Answer):
    """The answer of `whirlgate handling`.

    Attributes
    ----------
    speed_m_s, altitude_m : float
        [m/s, m]
    powerplants : dict of str to PowerplantHandling
        By name, in the order of the scenario.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    power : str or None
        At which the airplane climbs or descends; None in level flight. Not part of the JSON object.
    """

    main: ClassVar[str] = "powerplants.turns"
    headline: ClassVar[tuple[str, ...]] = ("steepest_left_deg", "steepest_right_deg")

    speed_m_s: float
    altitude_m: float
    powerplants: dict[str, PowerplantHandling]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    power: Power | None = field(default=None, metadata=ASIDE)
