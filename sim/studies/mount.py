"""The loads of each powerplant on the engine mount: load cases at the firewall, every bolt and every tube."""

from __future__ import annotations

from dataclasses import asdict, replace
from math import dist
from typing import TYPE_CHECKING, TypedDict

from sim.errors import refuse
from sim.structures.bolts import bolt_loads
from sim.structures.load_cases import ULTIMATE, load_cases
from sim.structures.truss import solve_truss
from sim.studies.balanced import balanced
from sim.studies.mount_answer import MountAnswer, MountCase, MountTube
from sim.studies.mount_isolators import isolated
from sim.studies.mount_remarks import remarks
from sim.studies.mount_worst import worst
from sim.studies.standing import move_on_target, placed, standing
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.model import Model
    from sim.model.mount import Mount
    from sim.structures.load_cases import Case, MountedPowerplant
    from sim.structures.truss import Node


def mount(model: Model, *, powerplant: str | None = None, engine_move_m: float | None = None) -> MountAnswer:
    """Return the loads of a powerplant on its mount, beside those of the others at the firewall.

    Parameters
    ----------
    model : Model
        Of a scenario with the table ``mount``.
    powerplant : str or None
        Name of the one that hangs on the mount; None for that of its table, else the one that is balanced.
    engine_move_m : float or None
        The engine on the mount, and the nodes of the truss bolted to it, moved from where the scenario has it, aft
        positive. None: it stands, as the others do, where its key ``move`` puts it; without one where it brings the
        loaded centre of gravity to the target, and where it is drawn where the airplane cannot be balanced. [m]

    Raises
    ------
    InputError
        When the scenario does not say where engine and firewall stand, its tubes make no truss, or the move brings
        the engine aft of the firewall.
    NoAnswerError
        When the bolts or isolators stand in one line, the truss is a mechanism, or no plausible move brings the centre
        of gravity to the target.
    """
    given = model.mount
    hangs = model.powerplant(powerplant or given.powerplant).name
    moved = engine_move_m is not None
    if engine_move_m is not None:
        model = model.with_engine_at(hangs, model.engine_move_m(hangs) + engine_move_m)
        _demand_ahead(given.engines[hangs], model.mount.engines[hangs], engine_move_m)
    stands = {name: standing(model, name) for name in given.engines}
    if stands[hangs].by == "drawn" and model.can_balance(hangs):
        move_on_target(model, hangs, balanced(model, hangs))  # says why there is no such place
    there = placed(model)
    drawn = there.mount
    nodes = _moved(drawn.nodes, stands[hangs].move_m)
    solved = [
        _solved(name, case, drawn if name == hangs else replace(drawn, bolts=(), tubes=()), nodes)
        for name, engine in drawn.engines.items()
        for case in load_cases(engine, load_factor=drawn.load_factor, side_factor=drawn.side_factor)
    ]
    cases = tuple(case for case, _ in solved)
    own, tubes = [case for case in cases if case.powerplant == hangs], tuple(_tubes(drawn, nodes))
    return MountAnswer(
        powerplant=hangs,
        engine_move_m={name: one.move_m for name, one in stands.items()},
        stands_by={name: one.by for name, one in stands.items()} | ({hangs: "asked"} if moved else {}),
        target_move_m={name: one.target_move_m for name, one in stands.items()},
        **_loadings(there, hangs),
        hung=drawn.engines,
        cases=cases,
        **worst(own, drawn, tubes),
        bolt_pattern=drawn.bolts,
        nodes=nodes,
        tubes=tubes,
        ultimate_factor=ULTIMATE,
        redundancy=next(redundancy for case, redundancy in solved if case.powerplant == hangs),
        isolators=isolated(drawn, there.powerplant(hangs), nodes, own, move_m=stands[hangs].move_m),
        remarks=(*model.remark_texts("masses"), *remarks(model, hangs), *model.remark_texts("mount", hangs)),
        load_factor=drawn.load_factor,
    )


class _Loadings(TypedDict):
    """The fields of a mount on the loadings with its engine there."""

    outside: tuple[str, ...]
    serves_from_m: float | None
    serves_to_m: float | None


def _loadings(model: Model, powerplant: str) -> _Loadings:
    if not model.can_balance(powerplant):
        return {"outside": (), "serves_from_m": None, "serves_to_m": None}
    found, move_m = balanced(model, powerplant), model.engine_move_m(powerplant)
    served = found.served_m
    return {
        "outside": found.outside,
        "serves_from_m": served[0] + move_m if served else None,
        "serves_to_m": served[1] + move_m if served else None,
    }


def _demand_ahead(given: MountedPowerplant, moved: MountedPowerplant, engine_move_m: float) -> None:
    """Refuse a move that takes the mass centre of what hangs on the mount from ahead of the firewall to behind it."""
    if given.ahead_m > 0.0 >= moved.ahead_m:
        most, came = in_both("engine_move_m", given.ahead_m), in_both("engine_move_m", engine_move_m)
        refuse("engine_move_m", f'must be below {most}, where the CG on the mount reaches the firewall, got "{came}"')


def _tubes(drawn: Mount, nodes: Sequence[Node]) -> Iterator[MountTube]:
    places = {node.name: node.place_m for node in nodes}
    for tube in drawn.tubes:
        length_m = dist(places[tube.start], places[tube.end])
        yield MountTube(tube.name, tube.start, tube.end, length_m, diameter_m=tube.diameter_m, wall_m=tube.wall_m)


def _moved(nodes: Sequence[Node], move_m: float) -> tuple[Node, ...]:
    """Return the nodes with those bolted to the engine moved aft."""
    return tuple(
        replace(node, place_m=(node.place_m[0] - move_m, *node.place_m[1:])) if node.held == "engine" else node
        for node in nodes
    )


def _solved(powerplant: str, case: Case, drawn: Mount, nodes: Sequence[Node]) -> tuple[MountCase, int | None]:
    """Return one case solved, and the redundancy of the truss."""
    load = case.limit_force_n, case.limit_moment_n_m
    bolts = bolt_loads(drawn.bolts, *load, ultimate=ULTIMATE) if drawn.bolts else ()
    truss = (
        solve_truss(nodes, drawn.tubes, force_n=load[0], moment_n_m=load[1], ultimate=ULTIMATE) if drawn.tubes else None
    )
    solved = MountCase(
        **asdict(case),
        powerplant=powerplant,
        ultimate_force_n=_ultimate(case.limit_force_n),
        ultimate_moment_n_m=_ultimate(case.limit_moment_n_m),
        bolts=bolts,
        worst_bolt=min(bolts, key=lambda bolt: bolt.margin).name if bolts else "",
        tubes=truss.members if truss else (),
    )
    return solved, truss.redundancy if truss else None


def _ultimate(limit: tuple[float, float, float]) -> tuple[float, float, float]:
    return ULTIMATE * limit[0], ULTIMATE * limit[1], ULTIMATE * limit[2]
