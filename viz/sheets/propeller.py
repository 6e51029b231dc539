"""The sheet of `whirlgate propeller`: coefficients against advance ratio, or each propeller on its engine."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.propeller_answer import PropellerAnswer
from viz.sheets.blocks import Run, Value, next_steps, remarks, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.propulsion.propeller_curve import PropellerPoint
    from sim.studies.propeller_answer import MatchedPropeller, PropellersAnswer
    from viz.sheets.blocks import Block, Cell

THEORY = (
    "Blade elements with momentum theory, flat-bottomed sections 9 % thick, thin rigid blades, no nacelle. "
    "Unstalled: thrust about ±5 %, power ±7 %; at rest and with stalled blades about ±20 %."
)
BLADES = (
    "Blades of constant geometric pitch; their planform is that of a carved blade through the chord that the scenario "
    "gives at the bore line, or the planform of its table gun."
)
INCOMPRESSIBLE = "Incompressible flow: tips well below Mach 0.6."
HEADS = ("J = V/nD", "CT", "CP", "efficiency")
ENGINE_HEADS = ("airspeed", "propeller speed", "thrust", "power", "tip Mach", "efficiency")


def sheet(answer: PropellerAnswer | PropellersAnswer) -> Iterator[Block]:
    """Yield the coefficients of one propeller, or a table for each powerplant."""
    yield from (_alone(answer) if isinstance(answer, PropellerAnswer) else _on_engines(answer))


def _alone(answer: PropellerAnswer) -> Iterator[Block]:
    title = say("Propeller of {blades} blades{turned}", blades=str(answer.blades), turned=_turned(answer.turn_deg))
    merit = say("Figure of merit at rest: {merit}.", merit=Value("figure_of_merit", answer.figure_of_merit, digits=2))
    best: list[Cell] = []
    if answer.best_efficiency is not None:
        best.append(
            say(
                "Best efficiency of these points: {best} at J = {ratio}.",
                best=Value("best_efficiency", answer.best_efficiency, percent=True),
                ratio=Value("best_advance_ratio", answer.best_advance_ratio, plain=True),
            )
        )
    yield rows(title, HEADS, map(_coefficients, answer.points), *best, merit, THEORY, INCOMPRESSIBLE)
    yield next_steps(say("{run}, the propellers of an airplane on their engines", run=Run("propeller", scenario=None)))


def _turned(turn_deg: float) -> Cell:
    return say(", blades turned {turn}", turn=Value("turn_deg", turn_deg, plain=True)) if turn_deg else ""


def _coefficients(point: PropellerPoint) -> list[Cell]:
    return [
        Value("advance_ratio", point.advance_ratio, digits=4, plain=True),
        Value("ct", point.ct, decimals=4),
        Value("cp", point.cp, decimals=4),
        Value("efficiency", point.efficiency, percent=True),
    ]


def _on_engines(answer: PropellersAnswer) -> Iterator[Block]:
    for name, found in answer.powerplants.items():
        title = say(
            "{airplane}, {name} at full throttle and {altitude}{turned}",
            airplane=answer.title,
            name=name,
            altitude=Value("altitude_m", answer.altitude_m),
            turned=_turned(answer.turn_deg),
        )
        yield rows(title, ENGINE_HEADS, _points(found), *_notes(found))
    yield say("{blades} {theory}", blades=BLADES, theory=THEORY)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("{run}, stall, climb and top speed with these propellers", run=Run("speeds")))


def _points(found: MatchedPropeller) -> Iterator[list[Cell]]:
    for point in found.points:
        yield [
            Value("speed_m_s", point.speed_m_s),
            Value("rpm", point.rpm, decimals=0),
            Value("thrust_n", point.thrust_n),
            Value("power_w", point.power_w),
            Value("tip_mach", point.tip_mach, decimals=2),
            Value("efficiency", point.efficiency, percent=True),
        ]


def _notes(found: MatchedPropeller) -> Iterator[Cell]:
    yield say(
        "At rest: thrust {thrust} at {speed}, figure of merit {merit}.",
        thrust=Value("static_thrust_n", found.static_thrust_n),
        speed=Value("static_rpm", found.static_rpm, decimals=0),
        merit=Value("figure_of_merit", found.figure_of_merit, digits=2),
    )
    if found.thrust_share != 1.0:
        yield say(
            "Thrust is {share} of that of the blades, so that the best efficiency is the one that the scenario gives.",
            share=Value("thrust_share", found.thrust_share, percent=True),
        )
    if any(point.rpm >= found.full_rpm for point in found.points):
        yield say(
            "At {speed} the engine turns at its full speed: throttled back, for full throttle would exceed it.",
            speed=Value("full_rpm", found.full_rpm, decimals=0),
        )
    for remark in found.remarks:
        yield f"Remark: {remark}."
