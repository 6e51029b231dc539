"""What each powerplant asks of the engine mount: load cases at the firewall, force in every bolt and every tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from sim.mount.bolts import Bolt, bolt_forces
from sim.mount.cases import ULTIMATE, Case, Hung, disc_thrust, load_cases
from sim.mount.truss import Node, Tube, solve_truss, truss_faults
from sim.studies.powerplants import spin

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.scenario.mount import Mount
    from sim.scenario.powerplant import AnyPowerplant
    from sim.scenario.tables import Scenario


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
class MountAnswer:
    """The mount under every case.

    Attributes
    ----------
    hung : dict of Hung
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

    hung: dict[str, Hung]
    cases: tuple[MountCase, ...]
    worst_bolts: tuple[WorstBolt, ...]
    worst_tubes: tuple[WorstTube, ...]
    bolt_pattern: tuple[Bolt, ...]
    ultimate_factor: float
    redundancy: int | None


def mount_loads(scenario: Scenario, *, engine_move_m: float = 0.0) -> MountAnswer:
    """Return what every powerplant of a scenario asks of its mount.

    Parameters
    ----------
    scenario : Scenario
        With a table ``mount``.
    engine_move_m : float
        Engines moved from where they are drawn, aft positive. [m]

    Raises
    ------
    InputError
        When the scenario does not say where engine and firewall stand, or its tubes make no truss.
    NoAnswerError
        When the bolts stand in one line, or the truss is a mechanism.
    """
    mount = scenario.mount
    if mount is None:
        raise InputError([Fault("mount", "is missing; give the table mount with firewall and bolts")])
    nodes, tubes = _nodes(mount), _tubes(mount)
    faults = [fault for name, engine in scenario.powerplant.items() for fault in _place_faults(name, engine, mount)]
    faults += truss_faults(nodes, tubes) if nodes or tubes else []
    if faults:
        raise InputError(faults)
    hung = {name: _hung(name, engine, mount, engine_move_m) for name, engine in scenario.powerplant.items()}
    bolts = tuple(Bolt(name, bolt.right_m, -bolt.up_m, bolt.diameter_m) for name, bolt in mount.bolt.items())
    solved = [
        _case(name, case, bolts, (nodes, tubes))
        for name, body in hung.items()
        for case in load_cases(body, load_factor=mount.load_factor, side_factor=mount.side_factor)
    ]
    return MountAnswer(
        hung,
        tuple(case for case, _ in solved),
        tuple(_worst_bolts(bolts, [case for case, _ in solved])),
        tuple(_worst_tubes(tubes, [case for case, _ in solved])),
        bolt_pattern=bolts,
        ultimate_factor=ULTIMATE,
        redundancy=solved[0][1],
    )


def _place_faults(name: str, engine: AnyPowerplant, mount: Mount) -> Iterator[Fault]:
    hung = mount.hung.get(name)
    if hung is not None and hung.ahead_m is not None:
        return
    other = f"or give mount.hung.{name}.ahead"
    if mount.firewall_m is None:
        yield Fault("mount.firewall", f"is missing; give the station of the firewall, {other}")
    if engine.station_m is None:
        yield Fault(f"powerplant.{name}.station", f"is missing; give the station of the engine's CG, {other}")


def _hung(name: str, engine: AnyPowerplant, mount: Mount, engine_move_m: float) -> Hung:
    """Return a powerplant as it hangs; the propeller stands at the engine's CG unless the table hung says more."""
    said = mount.hung.get(name)
    ahead_m = said.ahead_m if said else None
    if ahead_m is None:
        ahead_m = (mount.firewall_m or 0.0) - (engine.station_m or 0.0)
    mass_kg = said.mass_kg if said else None
    turning = spin(name, engine)
    backward = -1.0 if engine.gear_ratio < 0.0 else 1.0
    return Hung(
        mass_kg=engine.mass_kg + (engine.propeller.mass_kg or 0.0) if mass_kg is None else mass_kg,
        ahead_m=ahead_m - engine_move_m,
        below_m=-said.up_m if said else 0.0,
        thrust_n=disc_thrust(engine.power_w, engine.propeller.diameter_m),
        torque_n_m=-turning.sense * backward * engine.power_w / abs(engine.speed_rad_s * engine.gear_ratio),
        cylinders=engine.cylinders,
        momentum_kg_m2_s=turning.momentum_kg_m2_s(engine.speed_rad_s),
        pulsing_momentum_kg_m2_s=turning.pulsing_momentum_kg_m2_s(engine.speed_rad_s),
    )


def _nodes(mount: Mount) -> tuple[Node, ...]:
    return tuple(Node(name, (node.ahead_m, node.right_m, -node.up_m), node.held) for name, node in mount.node.items())


def _tubes(mount: Mount) -> tuple[Tube, ...]:
    return tuple(
        Tube(name, tube.start, tube.end, tube.diameter_m, tube.wall_m, mount.modulus_pa, mount.yield_strength_pa)
        for name, tube in mount.tube.items()
    )


def _case(
    powerplant: str, case: Case, bolts: Sequence[Bolt], truss: tuple[tuple[Node, ...], tuple[Tube, ...]]
) -> tuple[MountCase, int | None]:
    """Return one case solved, and the redundancy of the truss."""
    loads = _bolt_loads(bolts, case) if bolts else ()
    nodes, tubes = truss
    solved = (
        solve_truss(nodes, tubes, force_n=case.limit_force_n, moment_n_m=case.limit_moment_n_m, ultimate=ULTIMATE)
        if tubes
        else None
    )
    members = solved.members if solved else ()
    return (
        MountCase(
            powerplant,
            case.name,
            case.rule,
            case.limit_force_n,
            limit_moment_n_m=case.limit_moment_n_m,
            ultimate_force_n=_factored(case.limit_force_n),
            ultimate_moment_n_m=_factored(case.limit_moment_n_m),
            bolts=loads,
            worst_bolt=max(loads, key=lambda load: load.stress_pa).name if loads else "",
            tubes=tuple(
                TubeLoad(m.name, m.axial_n, m.euler_margin, m.margin, slenderness=m.slenderness) for m in members
            ),
        ),
        solved.redundancy if solved else None,
    )


def _factored(vector: tuple[float, float, float]) -> tuple[float, float, float]:
    return ULTIMATE * vector[0], ULTIMATE * vector[1], ULTIMATE * vector[2]


def _bolt_loads(bolts: Sequence[Bolt], case: Case) -> tuple[BoltLoad, ...]:
    forces = bolt_forces(bolts, case.limit_force_n, case.limit_moment_n_m)
    return tuple(
        BoltLoad(bolt.name, f.shear_n, f.axial_n, f.right_n, shear_down_n=f.down_n, stress_pa=f.stress_pa(bolt.area_m2))
        for bolt, f in zip(bolts, forces, strict=True)
    )


def _worst_bolts(bolts: Sequence[Bolt], cases: Sequence[MountCase]) -> Iterator[WorstBolt]:
    for place, bolt in enumerate(bolts):
        case = max(cases, key=lambda case: case.bolts[place].stress_pa)
        load = case.bolts[place]
        yield WorstBolt(
            bolt.name, case.powerplant, case.name, load.shear_n, axial_n=load.axial_n, stress_pa=load.stress_pa
        )


def _worst_tubes(tubes: Sequence[Tube], cases: Sequence[MountCase]) -> Iterator[WorstTube]:
    for place, tube in enumerate(tubes):
        case = min(cases, key=lambda case: case.tubes[place].margin)
        load = case.tubes[place]
        yield WorstTube(
            tube.name,
            case.powerplant,
            case.name,
            load.axial_n,
            euler_margin=load.euler_margin,
            margin=load.margin,
            slenderness=load.slenderness,
        )
