"""What each powerplant asks of the engine mount: load cases at the firewall, force in every bolt and every tube."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from sim.structure.bolts import Bolt, bolt_forces
from sim.structure.load_cases import ULTIMATE, Case, load_cases
from sim.structure.truss import Node, Tube, solve_truss, truss_faults
from sim.studies.mount_answer import BoltLoad, MountAnswer, MountCase, TubeLoad, WorstBolt, WorstTube
from sim.studies.mount_masses import engine_moves, hung_bodies, place_faults

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.scenario.mount import MountTable
    from sim.scenario.tables import Scenario


def mount_loads(scenario: Scenario, *, engine_move_m: float | None = None) -> MountAnswer:
    """Return what every powerplant of a scenario asks of its mount.

    Parameters
    ----------
    scenario : Scenario
        With a table ``mount``.
    engine_move_m : float, optional
        Engines, and the nodes of the truss bolted to them, moved from where they are drawn, aft positive. Without it
        each stands where it brings the loaded centre of gravity on target, where the scenario can be balanced. [m]

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
    tubes, faults = _tubes(mount), [*place_faults(scenario, mount), *_truss_faults(mount)]
    if faults:
        raise InputError(faults)
    moves = engine_moves(scenario, engine_move_m)
    hung = hung_bodies(scenario, mount, moves)
    bolts = tuple(Bolt(name, bolt.right_m, -bolt.up_m, bolt.diameter_m) for name, bolt in mount.bolt.items())
    solved = [
        _case(name, case, bolts, (_nodes(mount, moves[name]), tubes))
        for name, body in hung.items()
        for case in load_cases(body, load_factor=mount.load_factor, side_factor=mount.side_factor)
    ]
    cases = tuple(case for case, _ in solved)
    return MountAnswer(
        moves,
        hung,
        cases,
        tuple(_worst_bolts(bolts, cases)) if bolts else (),
        worst_tubes=tuple(_worst_tubes(tubes, cases)) if tubes else (),
        bolt_pattern=bolts,
        ultimate_factor=ULTIMATE,
        redundancy=solved[0][1],
    )


def _truss_faults(mount: MountTable) -> Iterator[Fault]:
    if mount.node or mount.tube:
        yield from truss_faults(_nodes(mount, 0.0), _tubes(mount))


def _nodes(mount: MountTable, move_m: float) -> tuple[Node, ...]:
    return tuple(
        Node(name, (node.ahead_m - (move_m if node.held == "engine" else 0.0), node.right_m, -node.up_m), node.held)
        for name, node in mount.node.items()
    )


def _tubes(mount: MountTable) -> tuple[Tube, ...]:
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
