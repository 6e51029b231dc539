"""The mount on paper: the load cases of each powerplant, then the most severe case of each bolt and tube."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.structures.load_cases import GYROSCOPIC_LOAD_FACTOR, GYROSCOPIC_PITCH_RAD_S, GYROSCOPIC_YAW_RAD_S
from viz.sheets.blocks import Column, Run, Table, Value, listed, next_steps, rows, say
from viz.sheets.engine_position import served
from viz.sheets.from_sim import remarks
from viz.sheets.margin_cell import margin_cell
from viz.sheets.mount_isolators import isolators
from viz.sheets.mount_truss import truss
from viz.sheets.standard_size import standard_size
from viz.sheets.stations import moved

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.studies.mount_answer import MountAnswer, WorstBolt, WorstTube
    from viz.sheets.blocks import Block, Cell, Sentence

SIGNS = (
    "Limit loads on the airframe, at the point where the shaft axis meets the firewall. Positive: forces ahead, right "
    "and down; moments right wing down, nose up and nose right. Ultimate loads are 1.5 times these."
)
THRUST = (
    "Thrust: that of an ideal propeller disc at rest with full power, an upper bound and on the safe side; blade "
    "elements of a fixed pitch give 0.4 to 0.7 of it at rest (whirlgate propeller)."
)
ELASTIC = (
    "At limit load, stress in the shank. Elastic method; compression is carried by the pad. Margin: tension at the "
    "root of the thread and shear of the shank together, fitting factor 1.15. Preload, prying, fit and bearing of the "
    "plates are not included."
)
TRUSS = (
    "Axial load at limit load, pin-jointed truss; compression: column curve of the material, ends hinged. Least size: "
    "the lightest standard tube that bears all cases, with the loads of this one. Bending at welded joints is not "
    "included: a licensed engineer must check the mount."
)
MARGINS = (
    "Margin of safety at ultimate load, 1.5 times limit load: at least 0 is required. In brackets the lower end of its "
    "90 % band, by the errors of load and strength, not of fittings and workmanship."
)
STANDS = {
    "asked": "The engine stands where it was asked to, in place of {key}.",
    "move": "The engine stands where {key} puts it.",
    "target": "The engine stands at the CG target, for {key} is not given.",
    "drawn": "The engine stands where it is drawn.",
}
"""Why an engine stands there -> a sentence."""
ALIKE_M = 0.5e-3
"""Positions closer than this are one."""
FOR_COMPARISON = "For comparison: another engine hangs on this mount."
FORCES = (("force ahead", "ahead"), ("force to the right", "right"), ("force down", "down"))
MOMENTS = (("rolling moment", "roll"), ("pitching moment", "pitch"), ("yawing moment", "yaw"))


def sheet(answer: MountAnswer) -> Iterator[Block]:
    """Yield the least margins, the cases of each powerplant, then the case that sets each bolt and tube."""
    yield from _verdict(answer)
    for name in answer.hung:
        yield _cases(answer, name)
    if answer.worst_bolts:
        heads = ["Bolt", "Axial load", "Shear", "Stress", "Margin (least)", "Case"]
        yield rows(
            say("The case that sets each bolt with {engine}", engine=answer.powerplant),
            heads,
            map(_bolt, answer.worst_bolts),
            ELASTIC,
        )
    if answer.worst_tubes:
        heads = ["Tube", "Axial load", "Margin (least)", "Least size", "Case"]
        yield rows(_truss_title(answer), heads, map(_tube, answer.worst_tubes), TRUSS)
        yield from truss(answer)
    if answer.isolators is not None:
        yield from isolators(answer.isolators, answer.powerplant)
    if answer.sources:
        yield rows("Materials", ["Allowables and their source"], [(line,) for line in answer.sources])
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("{run}, controls in turns and modes with each engine", run=Run("handling")))


def _verdict(answer: MountAnswer) -> Iterator[Table]:
    """Yield the bolt and the tube with the least margin, and the cases that set them."""
    bolts = [("bolt {name}", row.bolt, row) for row in answer.worst_bolts if row.bolt == answer.worst_bolt]
    tubes = [("tube {name}", row.tube, row) for row in answer.worst_tubes if row.tube == answer.worst_tube]
    parts: list[tuple[str, str, WorstBolt | WorstTube]] = [*bolts, *tubes]
    lines = [
        (say(part, name=_words(name)), margin_cell(row.margin, row.margin_low), row.case) for part, name, row in parts
    ]
    if lines:
        title = say("Least margins of the mount with {engine}", engine=answer.powerplant)
        yield rows(title, ["Part", "Margin (least)", "Case"], lines, MARGINS)


def _cases(answer: MountAnswer, name: str) -> Table:
    cases = [case for case in answer.cases if case.powerplant == name]
    forces = zip(*(case.limit_force_n for case in cases), strict=True)
    moments = zip(*(case.limit_moment_n_m for case in cases), strict=True)
    columns = [
        Column("Case", tuple(case.name for case in cases)),
        *(_components(heads, "limit_force_n", own) for heads, own in zip(FORCES, forces, strict=True)),
        *(_components(heads, "limit_moment_n_m", own) for heads, own in zip(MOMENTS, moments, strict=True)),
    ]
    if answer.worst_bolts and name == answer.powerplant:
        columns.append(
            Column("most loaded bolt", tuple(_words(case.worst_bolt) for case in cases), "", "most loaded\nbolt")
        )
    notes = (*_stands(answer, name), _load_factors(answer.load_factor), SIGNS, THRUST)
    others = () if name == answer.powerplant else (FOR_COMPARISON,)
    return Table(_title(answer, name), tuple(columns), (*notes, *others))


def _stands(answer: MountAnswer, name: str) -> Iterator[Cell]:
    """Yield why an engine stands where it does, and for the one on the mount what that does to its loadings."""
    target_m, by = answer.target_move_m[name], answer.stands_by[name]
    yield say(STANDS[by], key=f"powerplant.{name}.move")
    if target_m is not None and abs(target_m - answer.engine_move_m[name]) > ALIKE_M:
        yield say(
            "The CG target needs it {target} from where it is drawn.",
            target=moved("engine_move_m", target_m),
        )
    if name == answer.powerplant and answer.outside:
        yield say(
            "With the engine there loadings lie OUTSIDE the CG limits: {names}; {served}.",
            names=listed(answer.outside),
            served=served(answer.serves_from_m, answer.serves_to_m, "where it is drawn"),
        )


def _load_factors(limit: float) -> Sentence:
    return say(
        "Gyroscopic, right and up: yaw right at {yaw} and pitch up at {pitch}, full power, load factor {load}. Other "
        "cases: load factor {limit}, mount.load_factor of the scenario, or the part of it that they name.",
        yaw=Value("gyroscopic_rate_rad_s", GYROSCOPIC_YAW_RAD_S, plain=True),
        pitch=Value("gyroscopic_rate_rad_s", GYROSCOPIC_PITCH_RAD_S, plain=True),
        load=Value("load_factor", GYROSCOPIC_LOAD_FACTOR, plain=True),
        limit=Value("load_factor", limit, plain=True),
    )


def _components(heads: tuple[str, str], quantity: str, numbers: Iterable[float]) -> Column:
    cells = tuple(Value(quantity, number, decimals=0, bare=True) for number in numbers)
    return Column(heads[0], cells, short=heads[1])


def _title(answer: MountAnswer, name: str) -> Sentence:
    return say(
        "{name}: limit loads, {force}, {moment}; {mass} on the mount, CG {ahead} ahead of the firewall, engine moved "
        "{move}",
        force=Column("force", (), "limit_force_n"),
        moment=Column("moment", (), "limit_moment_n_m"),
        name=name,
        mass=Value("mass_kg", answer.hung[name].mass_kg),
        ahead=Value("ahead_m", answer.hung[name].ahead_m),
        move=Value("engine_move_m", answer.engine_move_m[name], signed=True),
    )


def _truss_title(answer: MountAnswer) -> Cell:
    if not answer.redundancy:
        return say(
            "The case that sets each tube with {engine}; the truss is statically determinate",
            engine=answer.powerplant,
        )
    return say(
        "The case that sets each tube with {engine}; truss statically indeterminate to degree {count}",
        engine=answer.powerplant,
        count=Value("redundancy", answer.redundancy, decimals=0),
    )


def _bolt(row: WorstBolt) -> tuple[Cell, ...]:
    return (
        _words(row.bolt),
        Value("axial_n", row.axial_n, signed=True),
        Value("shear_n", row.shear_n),
        Value("stress_pa", row.stress_pa),
        margin_cell(row.margin, row.margin_low),
        row.case,
    )


def _tube(row: WorstTube) -> tuple[Cell, ...]:
    return (
        _words(row.tube),
        Value("axial_n", row.axial_n, signed=True),
        margin_cell(row.margin, row.margin_low),
        standard_size(row.least_size),
        row.case,
    )


def _words(name: str) -> str:
    """Return a key of the scenario as words, so that it can be broken between lines."""
    return name.replace("_", " ")
