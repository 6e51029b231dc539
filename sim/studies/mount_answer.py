"""The answer of a mount: its load cases, and the most severe of each bolt and tube."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer
from sim.structures.load_cases import Case

if TYPE_CHECKING:
    from sim.structures.bolts import Bolt, BoltLoad
    from sim.structures.load_cases import MountedPowerplant
    from sim.structures.truss import Node, TubeLoad
    from sim.studies.mount_isolators import IsolatedEngine
    from sim.studies.standing import StandsBy


@dataclass(frozen=True, slots=True)
class MountCase(Case):
    """A load case of one powerplant, and how the mount bears it.

    Attributes
    ----------
    powerplant : str
        Whose.
    ultimate_force_n, ultimate_moment_n_m : tuple of float
        As at limit load. [N, N m]
    bolts : tuple of BoltLoad
        At limit load.
    worst_bolt : str
        The one with the least margin; empty without bolts.
    tubes : tuple of TubeLoad
        At limit load, their margins at ultimate load.
    """

    powerplant: str
    ultimate_force_n: tuple[float, float, float]
    ultimate_moment_n_m: tuple[float, float, float]
    bolts: tuple[BoltLoad, ...]
    worst_bolt: str
    tubes: tuple[TubeLoad, ...]


@dataclass(frozen=True, slots=True)
class WorstBolt:
    """The case that sets one bolt, by its margin.

    Attributes
    ----------
    bolt, powerplant, case : str
        Which, with which engine, in which case.
    shear_n, axial_n : float
        At limit load. [N]
    stress_pa : float
        On the shank at limit load. [Pa]
    margin, margin_low : float
        The least of all cases, at ultimate load: adequate from 0; and the lower end of its 90 % band.
    """

    bolt: str
    powerplant: str
    case: str
    shear_n: float
    axial_n: float
    stress_pa: float
    margin: float
    margin_low: float


@dataclass(frozen=True, slots=True)
class WorstTube:
    """The case that sets one tube, by its margin.

    Attributes
    ----------
    tube, powerplant, case : str
        Which, with which engine, in which case.
    axial_n : float
        At limit load, tension positive. [N]
    euler_margin : float
        At ultimate load in that case; none in tension.
    margin, margin_low : float
        The least of all cases, at ultimate load: adequate from 0; and the lower end of its 90 % band.
    least_size : str
        The lightest standard tube that bears all cases, with the loads of this one; empty where there is none.
    slenderness : float
        Length over radius of gyration.
    """

    tube: str
    powerplant: str
    case: str
    axial_n: float
    euler_margin: float
    margin: float
    margin_low: float
    least_size: str
    slenderness: float


@dataclass(frozen=True, slots=True)
class MountTube:
    """One tube of the mount, with the engine where it stands.

    Attributes
    ----------
    tube, start, end : str
        Its name, and those of the nodes that it joins.
    length_m : float
        Between these nodes. [m]
    diameter_m, wall_m : float
        Outside diameter and wall. [m]
    """

    tube: str
    start: str
    end: str
    length_m: float
    diameter_m: float
    wall_m: float


@dataclass(frozen=True, slots=True)
class MountAnswer(Answer):
    """The mount under every case.

    Attributes
    ----------
    powerplant : str
        The one that hangs on the mount: bolts and tubes are loaded by it alone.
    engine_move_m : dict of float
        How far each powerplant stands from where it is drawn, aft positive. [m]
    stands_by : dict of str
        Why: ``asked``, as the question moves it; ``move``, as the scenario does; ``target``, its move is not given, to
        the CG target; ``drawn``, nor can the airplane be balanced with it.
    target_move_m : dict of float or None
        From where it is drawn to the CG target, whichever it is; None where there is no such place. [m]
    outside : tuple of str
        Loadings outside the limits of the centre of gravity with the engine on the mount where it stands.
    serves_from_m, serves_to_m : float or None
        From where it is drawn, the range that keeps every loading within them; None where there is none. [m]
    hung : dict of MountedPowerplant
        Each powerplant as it stands on the mount.
    cases : tuple of MountCase
        Powerplant by powerplant.
    worst_bolts, worst_tubes : tuple
        One row for each bolt and tube.
    worst_bolt, worst_tube : str
        Those with the least margin of all; empty without.
    bolt_pattern : tuple of Bolt
        As in the scenario.
    nodes : tuple of Node
        Of the truss, those held by the engine moved with it.
    tubes : tuple of MountTube
        Of the truss, as long as they then are.
    ultimate_factor : float
        Ultimate over limit load.
    redundancy : int or None
        Degree of static indeterminacy of the truss; none without a truss.
    isolators : IsolatedEngine or None
        The engine on its isolators; None where the mount has none.
    sources : tuple of str
        Materials of bolts and tubes, and where their allowables come from.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    load_factor : float
        Limit load factor of the airplane, as in the scenario. Not part of the JSON object.
    """

    main: ClassVar[str] = "worst_bolts"
    headline: ClassVar[tuple[str, ...]] = ("mass_kg", "ahead_m", "engine_move_m", "stress_pa", "margin")

    powerplant: str
    engine_move_m: dict[str, float]
    stands_by: dict[str, StandsBy]
    target_move_m: dict[str, float | None]
    outside: tuple[str, ...]
    serves_from_m: float | None
    serves_to_m: float | None
    hung: dict[str, MountedPowerplant]
    cases: tuple[MountCase, ...]
    worst_bolts: tuple[WorstBolt, ...]
    worst_tubes: tuple[WorstTube, ...]
    worst_bolt: str
    worst_tube: str
    bolt_pattern: tuple[Bolt, ...]
    nodes: tuple[Node, ...]
    tubes: tuple[MountTube, ...]
    ultimate_factor: float
    redundancy: int | None
    isolators: IsolatedEngine | None
    sources: tuple[str, ...]
    remarks: tuple[str, ...]
    load_factor: float = field(metadata=ASIDE)
