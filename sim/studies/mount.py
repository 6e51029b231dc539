"""The loads of each powerplant on the engine mount: load cases at the firewall, every bolt and every tube."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer
from sim.errors import refuse
from sim.structure.bolts import Bolt, BoltLoad, bolt_loads
from sim.structure.load_cases import ULTIMATE, Case, MountedPowerplant, load_cases
from sim.structure.truss import Node, TubeLoad, solve_truss
from sim.studies.balance import move_on_target_m
from sim.studies.mount_remarks import remarks
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.model.model import Model
    from sim.model.mount import Mount


@dataclass(frozen=True, slots=True)
class MountCase:
    """One load case of one powerplant, on the airframe at the point where the shaft axis meets the firewall.

    Attributes
    ----------
    powerplant, name, rule : str
        Powerplant, condition, and the rule that the case comes from.
    limit_force_n, ultimate_force_n : tuple of float
        Forward, right, down. [N]
    limit_moment_n_m, ultimate_moment_n_m : tuple of float
        Right wing down, nose up, nose right. [N m]
    bolts : tuple of BoltLoad
        At limit load.
    worst_bolt : str
        The one with the greatest stress; empty without bolts.
    tubes : tuple of TubeLoad
        At limit load, their margins at ultimate load.
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
    """The most severe case of one bolt.

    Attributes
    ----------
    bolt, powerplant, case : str
        Which, with which engine, in which case.
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
    """The most severe case of one tube.

    Attributes
    ----------
    tube, powerplant, case : str
        Which, with which engine, in which case.
    axial_n : float
        At limit load, tension positive. [N]
    euler_margin : float
        At ultimate load in that case; none in tension.
    margin : float
        The least of all cases, at ultimate load: adequate above 0.
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
    powerplant : str
        The one that hangs on the mount: bolts and tubes are loaded by it alone.
    engine_move_m : dict of float
        How far each powerplant stands from where it is drawn, aft positive. [m]
    hung : dict of MountedPowerplant
        Each powerplant as it stands on the mount.
    cases : tuple of MountCase
        Powerplant by powerplant.
    worst_bolts, worst_tubes : tuple
        One row for each bolt and tube.
    bolt_pattern : tuple of Bolt
        As in the scenario.
    ultimate_factor : float
        Ultimate over limit load.
    redundancy : int or None
        Degree of static indeterminacy of the truss; none without a truss.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    load_factor : float
        Limit load factor of the airplane, as in the scenario. Not part of the JSON object.
    """

    main: ClassVar[str] = "worst_bolts"

    powerplant: str
    engine_move_m: dict[str, float]
    hung: dict[str, MountedPowerplant]
    cases: tuple[MountCase, ...]
    worst_bolts: tuple[WorstBolt, ...]
    worst_tubes: tuple[WorstTube, ...]
    bolt_pattern: tuple[Bolt, ...]
    ultimate_factor: float
    redundancy: int | None
    remarks: tuple[str, ...]
    load_factor: float = field(metadata=ASIDE)


def mount(model: Model, *, powerplant: str | None = None, engine_move_m: float | None = None) -> MountAnswer:
    """Return the loads of a powerplant on its mount, beside those of the others at the firewall.

    Parameters
    ----------
    model : Model
        Of a scenario with the table ``mount``.
    powerplant : str or None
        Name of the one that hangs on the mount; None for that of its table, else the one that is balanced.
    engine_move_m : float or None
        Engines, and the nodes of the truss bolted to them, moved from where they are drawn, aft positive. None: each
        stands where it brings the loaded centre of gravity on target, where the airplane can be balanced. [m]

    Raises
    ------
    InputError
        When the scenario does not say where engine and firewall stand, its tubes make no truss, or the move brings
        an engine aft of the firewall.
    NoAnswerError
        When the bolts stand in one line, or the truss is a mechanism.
    """
    drawn, moves_m = model.mount, _moves_m(model, engine_move_m)
    hangs = model.powerplant(powerplant or drawn.powerplant).name
    engines = {
        name: replace(one, ahead_m=one.ahead_m - moves_m[name] + model.engine_move_m(name))
        for name, one in drawn.engines.items()
    }
    _demand_ahead(drawn, engines, engine_move_m)
    solved = [
        _solved(name, case, drawn if name == hangs else replace(drawn, bolts=(), tubes=()), moves_m[name])
        for name, engine in engines.items()
        for case in load_cases(engine, load_factor=drawn.load_factor, side_factor=drawn.side_factor)
    ]
    cases = tuple(case for case, _ in solved)
    own = [case for case in cases if case.powerplant == hangs]
    return MountAnswer(
        powerplant=hangs,
        engine_move_m=moves_m,
        hung=engines,
        cases=cases,
        worst_bolts=tuple(_worst_bolts(own)),
        worst_tubes=tuple(_worst_tubes(own)),
        bolt_pattern=drawn.bolts,
        ultimate_factor=ULTIMATE,
        redundancy=next(redundancy for case, redundancy in solved if case.powerplant == hangs),
        remarks=(*remarks(model, hangs, moved=engine_move_m is not None), *model.remark_texts("mount")),
        load_factor=drawn.load_factor,
    )


def _demand_ahead(drawn: Mount, engines: Mapping[str, MountedPowerplant], engine_move_m: float | None) -> None:
    """Refuse a move that takes the mass centre of what hangs on the mount from ahead of the firewall to behind it."""
    past = [one.ahead_m for name, one in drawn.engines.items() if one.ahead_m > 0.0 >= engines[name].ahead_m]
    if past and engine_move_m is not None:
        most, came = brief("engine_move_m", min(past)), brief("engine_move_m", engine_move_m)
        refuse("engine_move_m", f'must be below {most}, where the CG on the mount reaches the firewall, got "{came}"')


def _moves_m(model: Model, engine_move_m: float | None) -> dict[str, float]:
    """Return how far each powerplant stands aft of where it is drawn."""
    if engine_move_m is not None:
        return dict.fromkeys(model.mount.engines, engine_move_m)
    return {
        name: model.engine_move_m(name) + (move_on_target_m(model, name) if model.can_balance(name) else 0.0)
        for name in model.mount.engines
    }


def _moved(nodes: Sequence[Node], move_m: float) -> tuple[Node, ...]:
    """Return the nodes with those bolted to the engine moved aft."""
    return tuple(
        replace(node, place_m=(node.place_m[0] - move_m, *node.place_m[1:])) if node.held == "engine" else node
        for node in nodes
    )


def _solved(powerplant: str, case: Case, drawn: Mount, move_m: float) -> tuple[MountCase, int | None]:
    """Return one case solved, and the redundancy of the truss."""
    load = case.limit_force_n, case.limit_moment_n_m
    bolts = bolt_loads(drawn.bolts, *load) if drawn.bolts else ()
    truss = (
        solve_truss(_moved(drawn.nodes, move_m), drawn.tubes, force_n=load[0], moment_n_m=load[1], ultimate=ULTIMATE)
        if drawn.tubes
        else None
    )
    solved = MountCase(
        powerplant=powerplant,
        name=case.name,
        rule=case.rule,
        limit_force_n=case.limit_force_n,
        limit_moment_n_m=case.limit_moment_n_m,
        ultimate_force_n=_ultimate(case.limit_force_n),
        ultimate_moment_n_m=_ultimate(case.limit_moment_n_m),
        bolts=bolts,
        worst_bolt=max(bolts, key=lambda bolt: bolt.stress_pa).name if bolts else "",
        tubes=truss.members if truss else (),
    )
    return solved, truss.redundancy if truss else None


def _ultimate(limit: tuple[float, float, float]) -> tuple[float, float, float]:
    return ULTIMATE * limit[0], ULTIMATE * limit[1], ULTIMATE * limit[2]


def _worst_bolts(cases: Sequence[MountCase]) -> Iterator[WorstBolt]:
    for place, bolt in enumerate(cases[0].bolts):
        case = max(cases, key=lambda case: case.bolts[place].stress_pa)
        load = case.bolts[place]
        yield WorstBolt(
            bolt.name, case.powerplant, case.name, load.shear_n, axial_n=load.axial_n, stress_pa=load.stress_pa
        )


def _worst_tubes(cases: Sequence[MountCase]) -> Iterator[WorstTube]:
    for place, tube in enumerate(cases[0].tubes):
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
