"""The sheet of `whirlgate propeller`: coefficients against advance ratio, or each propeller on its engine."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.limits import STATIC_SHARE
from sim.studies.propeller_answer import PropellerAnswer
from sim.studies.propeller_suitability import SPAN, WIDEST
from viz.sheets.blocks import Run, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.propulsion.propeller_curve import PropellerPoint
    from sim.studies.propeller_answer import MatchedPropeller, PropellersAnswer, Suitability
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
PAIR_HEADS = ("diameter", "pitch", "thrust", "efficiency", "thrust at rest", "speed at rest", "tip Mach")
VERDICTS = {
    "suits": "It suits the engine at {speed}: full throttle turns it at {share} of full speed there, {static} at rest.",
    "over-propped": (
        "Over-propped at {speed}: full throttle turns it at {share} of full speed there, {static} at rest; with less "
        "pitch or diameter the engine gives more power."
    ),
    "under-propped": (
        "Under-propped at {speed}: full throttle would turn it at {share} of full speed there, {static} at rest, so "
        "that the pilot throttles back; more pitch or diameter takes the power that is left."
    ),
}
SUITING = (
    "Propellers that suit have as many blades of the same planform, chords in proportion to the diameter. Left out: "
    "tips above Mach 0.85, pitches outside 0.4 to 1.6 diameters, and less height above the ground than the rule, where "
    "the scenario tells it. Usual speed at rest: {usual} of full speed ({source}); they give a coarse propeller, its "
    "inner blades stalled, up to a tenth too much."
)
SLOWED = 0.005
"""Of its speed at rest, which a propeller must lose in flight to be told of."""
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
        yield _pairs(name, found)
    suiting = say(SUITING, usual=STATIC_SHARE.words, source=STATIC_SHARE.source)
    yield say("{blades} {theory} {suiting}", blades=BLADES, theory=THEORY, suiting=suiting)
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
    yield from _slowed(found)
    if found.thrust_share != 1.0:
        yield say(
            "Thrust is {share} of that of the blades, so that the best efficiency is the one that the scenario gives.",
            share=Value("thrust_share", found.thrust_share, percent=True),
        )
    yield from _at_full_speed(found)
    yield from _suits(found.suitability)
    for remark in found.remarks:
        yield f"Remark: {remark}."


def _slowed(found: MatchedPropeller) -> Iterator[Cell]:
    """Yield why full throttle turns the propeller slower as it begins to move, where it does."""
    by_speed = sorted(found.points, key=lambda point: point.speed_m_s)
    first, slowest = by_speed[0], min(by_speed, key=lambda point: point.rpm)
    falls = first.speed_m_s == 0.0 and first.rpm - slowest.rpm > SLOWED * first.rpm
    if falls and slowest is not by_speed[-1]:
        yield say(
            "From {rest} to {slow} full throttle turns it slower, {first} to {slowest}: the flow into the blades "
            "leans their lift against the rotation, which at first takes more torque than less incidence saves, the "
            "longer the more of them is stalled at rest; then it turns faster.",
            rest=Value("speed_m_s", first.speed_m_s),
            slow=Value("speed_m_s", slowest.speed_m_s),
            first=Value("rpm", first.rpm, decimals=0),
            slowest=Value("rpm", slowest.rpm, decimals=0),
        )


def _at_full_speed(found: MatchedPropeller) -> Iterator[Cell]:
    """Yield where the pilot throttles back, and where no throttle keeps the engine at its full speed."""
    speed = Value("full_rpm", found.full_rpm, decimals=0)
    at_full = [point for point in found.points if point.rpm >= found.full_rpm]
    driven = [point for point in at_full if point.power_w < -found.closed_power_w]
    if len(driven) < len(at_full):
        yield say(
            "At {speed} the engine turns at its full speed: throttled back, for full throttle would exceed it.",
            speed=speed,
        )
    if any(point.power_w < 0.0 for point in found.points):
        yield "Power below zero: the air drives the propeller (windmilling), and through it the engine."
    if driven:
        yield say(
            "At {airspeeds} and {speed} that is more than the {taken} that friction and windage take with the throttle "
            "closed, so that the engine would exceed its full speed: fly slower, or give the propeller more pitch.",
            airspeeds=listed((Value("speed_m_s", point.speed_m_s) for point in driven), ", "),
            speed=speed,
            taken=Value("closed_power_w", found.closed_power_w),
        )


def _suits(found: Suitability) -> Iterator[Cell]:
    """Yield whether the propeller suits its engine, and what else limits it."""
    yield say(
        VERDICTS[found.verdict],
        speed=Value("design_speed_m_s", found.design_speed_m_s),
        share=Value("rpm_share", found.rpm_share, percent=True),
        static=Value("static_rpm_share", found.static_rpm_share, percent=True),
    )
    if found.full_power_speed_m_s is None:
        yield "At no airspeed does it absorb full power at full speed."
    else:
        speed = Value("full_power_speed_m_s", found.full_power_speed_m_s)
        yield say("It absorbs full power at full speed at {speed}.", speed=speed)
    if found.ground_clearance_m is not None:
        yield say(
            "Above the ground: {clear}, the less of level and on all wheels; at least {least} by rule (14 CFR 23.925).",
            clear=Value("ground_clearance_m", found.ground_clearance_m),
            least=Value("least_clearance_m", found.least_clearance_m),
        )


def _pairs(name: str, found: MatchedPropeller) -> Block:
    """Return the propellers that would suit, or that there are none."""
    suits = found.suitability
    title = say(
        "{name}: propellers of {blades} blades that absorb full power at full speed at {speed}",
        name=name,
        blades=str(found.blades),
        speed=Value("design_speed_m_s", suits.design_speed_m_s),
    )
    lines = [
        [
            Value("suited_diameter_m", one.suited_diameter_m),
            Value("suited_pitch_m", one.suited_pitch_m),
            Value("thrust_n", one.thrust_n),
            Value("efficiency", one.efficiency, percent=True),
            Value("static_thrust_n", one.static_thrust_n),
            Value("static_rpm_share", one.static_rpm_share, percent=True),
            Value("tip_mach", one.tip_mach, decimals=2),
        ]
        for one in suits.suggestions
    ]
    if not lines:
        return say(
            "{title}: none within {widest} of the present diameter; give it other blades or another gear, or ask at "
            "another --design-speed.",
            title=title,
            widest=_percent(WIDEST),
        )
    near = any(abs(one.suited_diameter_m / found.diameter_m - 1.0) <= SPAN for one in suits.suggestions)
    far = () if near else (f"None is within {_percent(SPAN)} of the present diameter: these are the nearest.",)
    return rows(title, PAIR_HEADS, lines, *far)


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"
