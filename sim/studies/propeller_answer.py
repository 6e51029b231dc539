"""What `propeller` answers: coefficients of a propeller, and propellers on the engines of an airplane."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.propulsion.propeller_curve import PropellerPoint


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
    """

    main: ClassVar[str] = "points"

    blades: int
    turn_deg: float
    figure_of_merit: float
    best_efficiency: float | None
    best_advance_ratio: float | None
    points: tuple[PropellerPoint, ...]


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
        Thrust, and power absorbed by the propeller. [N, W]
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
class MatchedPropeller:
    """One powerplant's propeller on its engine.

    Attributes
    ----------
    static_thrust_n, static_rpm : float
        At rest and full throttle. [N, rpm]
    figure_of_merit : float
        At rest.
    thrust_share : float
        Thrust over that of the blades alone: not 1 where the scenario gives the best efficiency.
    full_rpm : float
        Propeller speed at full engine speed. Where a point has it, full throttle would exceed it, and the pilot
        throttles back. [rpm]
    remarks : tuple of str
        What else a designer would ask about.
    points : tuple of MatchedPoint
        At each airspeed.
    coefficients : tuple of PropellerPoint
        Against advance ratio, at the tip Mach number of rest.
    """

    static_thrust_n: float
    static_rpm: float
    figure_of_merit: float
    thrust_share: float
    full_rpm: float
    remarks: tuple[str, ...]
    points: tuple[MatchedPoint, ...]
    coefficients: tuple[PropellerPoint, ...]


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
    """

    main: ClassVar[str] = "powerplants.points"

    title: str
    altitude_m: float
    turn_deg: float
    remarks: tuple[str, ...]
    powerplants: dict[str, MatchedPropeller]
