"""What `propeller` answers: coefficients of a propeller, and propellers on the engines of an airplane."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Literal

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    from sim.model.powerplant import EngineKind
    from sim.propulsion.propeller_choice import SuitingPropeller
    from sim.propulsion.propeller_curve import PropellerPoint

Verdict = Literal["suits", "over-propped", "under-propped"]


@dataclass(frozen=True, slots=True)
class PropellerAnswer(Answer):
    """Coefficients of one propeller against advance ratio, in incompressible flow.

    Attributes
    ----------
    blades : int
        Their number.
    turn_deg : float
        Angle by which every blade is turned as a whole, coarser positive. [°]
    figure_of_merit : float
        At rest.
    best_efficiency, best_advance_ratio : float or None
        Best efficiency of the points, and where; None where none gives thrust.
    points : tuple of PropellerPoint
        In the order asked for.
    curve : tuple of PropellerPoint
        As `points`, close enough for a smooth line; not in JSON.
    """

    main: ClassVar[str] = "points"

    blades: int
    turn_deg: float
    figure_of_merit: float
    best_efficiency: float | None
    best_advance_ratio: float | None
    points: tuple[PropellerPoint, ...]
    curve: tuple[PropellerPoint, ...] = field(metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class MatchedPoint:
    """A propeller on its engine at full throttle, at one airspeed.

    Attributes
    ----------
    speed_m_s : float
        Airspeed along the shaft. [m/s]
    rpm : float
        Propeller speed. [rpm]
    thrust_n, power_w : float
        Thrust, and power absorbed by the propeller; negative where it brakes, and where the air drives it and through
        it the engine. [N, W]
    tip_mach : float
        Mach number of the tips, airspeed included.
    efficiency : float or None
        Thrust times airspeed over power; None where there is no thrust or no power is absorbed.
    """

    speed_m_s: float
    rpm: float
    thrust_n: float
    power_w: float
    tip_mach: float
    efficiency: float | None


@dataclass(frozen=True, slots=True)
class Suitability:
    """Whether a propeller suits its engine at an airspeed, and which would.

    Attributes
    ----------
    design_speed_m_s : float
        The airspeed. [m/s]
    verdict : str
        ``suits``; ``over-propped``: full throttle does not reach full speed there; ``under-propped``: it would pass it.
    rpm_share, static_rpm_share : float
        Speed at which full throttle turns the engine at that airspeed and at rest, were it free, over full speed.
    full_power_speed_m_s : float or None
        Airspeed at which full throttle turns it at full speed; None where at none. [m/s]
    tip_mach : float
        At full speed and that airspeed.
    ground_clearance_m, least_clearance_m : float or None
        Height of the disc above the ground, and what a rule asks for; None where the scenario does not tell. [m]
    suggestions : tuple of SuitingPropeller
        Propellers with as many blades of the same planform that absorb full power at full speed at that airspeed,
        within tip Mach number, clearance and usual pitches; where none is near the present diameter, the nearest
        that are.
    """

    design_speed_m_s: float
    verdict: Verdict
    rpm_share: float
    static_rpm_share: float
    full_power_speed_m_s: float | None
    tip_mach: float
    ground_clearance_m: float | None
    least_clearance_m: float | None
    suggestions: tuple[SuitingPropeller, ...]


@dataclass(frozen=True, slots=True)
class MatchedPropeller:
    """One powerplant's propeller on its engine.

    Attributes
    ----------
    blades : int
        Their number.
    diameter_m, pitch_m : float
        From tip to tip; geometric pitch. [m]
    static_thrust_n, static_rpm : float
        At rest and full throttle. [N, rpm]
    figure_of_merit : float
        At rest.
    thrust_share : float
        Thrust over that of the blades alone: not 1 where the scenario gives the best efficiency.
    full_rpm : float
        Propeller speed at full engine speed. Where a point has it, full throttle would exceed it, and the pilot
        throttles back. [rpm]
    closed_power_w : float
        What the engine's friction and windage take at full speed with the throttle closed. Where the air drives the
        propeller with more, the engine would exceed its full speed. [W]
    remarks : tuple of str
        What else a designer would ask about.
    points : tuple of MatchedPoint
        At each airspeed.
    coefficients : tuple of PropellerPoint
        Against advance ratio, at the tip Mach number of rest.
    suitability : Suitability
        Whether it suits the engine, and which would.
    curve, coefficient_curve : tuple of MatchedPoint, tuple of PropellerPoint
        As `points` and `coefficients`, close enough for smooth lines; not in JSON.
    """

    blades: int
    diameter_m: float
    pitch_m: float
    static_thrust_n: float
    static_rpm: float
    figure_of_merit: float
    thrust_share: float
    full_rpm: float
    closed_power_w: float
    remarks: tuple[str, ...]
    points: tuple[MatchedPoint, ...]
    coefficients: tuple[PropellerPoint, ...]
    suitability: Suitability
    curve: tuple[MatchedPoint, ...] = field(metadata=ASIDE)
    coefficient_curve: tuple[PropellerPoint, ...] = field(metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class PropellersAnswer(Answer):
    """The propeller of each powerplant of an airplane on its engine.

    Attributes
    ----------
    title : str
        Name of the airplane.
    altitude_m : float
        In the standard atmosphere. [m]
    turn_deg : float
        Angle by which every blade is turned as a whole, coarser positive. [°]
    remarks : tuple of str
        What is unusual in the scenario, where it concerns a propeller.
    powerplants : dict of MatchedPropeller
        By name, in the order of the scenario.
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    """

    main: ClassVar[str] = "powerplants.points"

    title: str
    altitude_m: float
    turn_deg: float
    remarks: tuple[str, ...]
    powerplants: dict[str, MatchedPropeller]
    engine_kinds: dict[str, EngineKind] = field(metadata=ASIDE)
