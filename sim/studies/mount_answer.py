"""What `sim.studies.mount` answers: loads of every case, and the worst of each bolt and tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.structure.bolts import Bolt
    from sim.structure.load_cases import MountedPowerplant


@dataclass(frozen=True, slots=True)
class BoltLoad:
    """One bolt in one case, at limit load.

    Attributes
    ----------
    name : str
        As in the scenario.
    shear_n : float
        Across it. [N]
    axial_n : float
        Along it, tension positive. [N]
    shear_right_n, shear_down_n : float
        The two parts of the shear. [N]
    stress_pa : float
        Tension and shear together on the shank, √(σ² + 3 τ²). [Pa]
    """

    name: str
    shear_n: float
    axial_n: float
    shear_right_n: float
    shear_down_n: float
    stress_pa: float


@dataclass(frozen=True, slots=True)
class TubeLoad:
    """One tube in one case.

    Attributes
    ----------
    name : str
        As in the scenario.
    axial_n : float
        At limit load, tension positive. [N]
    euler_margin : float
        Euler's load over the push at ultimate load, less 1; none in tension.
    margin : float
        The same with stocky tubes and pull counted: strength over load at ultimate, less 1.
    slenderness : float
        Length over radius of gyration.
    """

    name: str
    axial_n: float
    euler_margin: float
    margin: float
    slenderness: float


@dataclass(frozen=True, slots=True)
class MountCase:
    """One load case of one powerplant, on the airframe at the point where the shaft axis meets the firewall.

    Attributes
    ----------
    powerplant, name, rule : str
        Whose, what happens, where the case comes from.
    limit_force_n, ultimate_force_n : tuple of float
        Forward, right, down. [N]
    limit_moment_n_m, ultimate_moment_n_m : tuple of float
        Right wing down, nose up, nose right. [N m]
    bolts : tuple of BoltLoad
        At limit load.
    worst_bolt : str
        The one with the greatest stress; empty where no bolts are given.
    tubes : tuple of TubeLoad
        At limit load.
    """

    powerplant: str
    name: str
    rule: str
    limit_force_n: tuple[float, float, float]
    limit_moment_n_m: tuple[float, float, float]
    ultimate_force_n: tuple[float, float, float]
    ultimate_moment_n_m: tuple[float, float, float]
    bolts: tuple[BoltLoad, ...]
    worst_bolt: str
    tubes: tuple[TubeLoad, ...]


@dataclass(frozen=True, slots=True)
class WorstBolt:
    """The case that asks most of one bolt.

    Attributes
    ----------
    bolt, powerplant, case : str
        Which, with which engine, when.
    shear_n, axial_n : float
        At limit load. [N]
    stress_pa : float
        On the shank at limit load. [Pa]
    """

    bolt: str
    powerplant: str
    case: str
    shear_n: float
    axial_n: float
    stress_pa: float


@dataclass(frozen=True, slots=True)
class WorstTube:
    """The case that asks most of one tube.

    Attributes
    ----------
    tube, powerplant, case : str
        Which, with which engine, when.
    axial_n : float
        At limit load, tension positive. [N]
    euler_margin : float
        At ultimate load in that case; none in tension.
    margin : float
        The least of all cases, at ultimate load: above 0 holds.
    slenderness : float
        Length over radius of gyration.
    """

    tube: str
    powerplant: str
    case: str
    axial_n: float
    euler_margin: float
    margin: float
    slenderness: float


@dataclass(frozen=True, slots=True)
class MountAnswer(Answer):
    """The mount under every case.

    Attributes
    ----------
    engine_move_m : dict of float
        How far each powerplant stands from where it is drawn, aft positive. [m]
    hung : dict of MountedPowerplant
        What hangs on it, by powerplant.
    cases : tuple of MountCase
        Powerplant by powerplant.
    worst_bolts, worst_tubes : tuple
        One row for each bolt and tube.
    bolt_pattern : tuple of Bolt
        As in the scenario.
    ultimate_factor : float
        Ultimate over limit load.
    redundancy : int or None
        Tubes beyond those needed; none without a truss.
    """

    main: ClassVar[str] = "worst_bolts"

    engine_move_m: dict[str, float]
    hung: dict[str, MountedPowerplant]
    cases: tuple[MountCase, ...]
    worst_bolts: tuple[WorstBolt, ...]
    worst_tubes: tuple[WorstTube, ...]
    bolt_pattern: tuple[Bolt, ...]
    ultimate_factor: float
    redundancy: int | None
