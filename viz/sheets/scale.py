"""The scaled drawing on paper: scales, dimensions, contradictory readings, and how well each reading is checked."""

from __future__ import annotations

from dataclasses import replace
from math import isnan
from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.drawing import Dimension
    from sim.studies.scale import DocumentRow, ReadingRow, ScaleAnswer, Stretch
    from viz.sheets.blocks import Block, Cell, Table


PAPER = {
    "given": "Local distortion of the paper: {size}, as given.",
    "estimated": "Local distortion of the paper: {size}, estimated; with 95 % probability less than {most}.",
    "assumed": "Local distortion of the paper: {size}, assumed; with 95 % probability less than {most}.",
}
AGAIN = next_steps(say("{run}, when these are measured again and corrected in the file", run=Run("scale")))
WRITE = next_steps(
    say(
        "{run}, your file for SCENARIO.toml, to set the dimensions in a scenario",
        run=Run("scale", "--write SCENARIO.toml"),
    )
)
LAYOUT = next_steps(say("{run}, spars, fittings and struts for these dimensions", run=Run("layout")))


def sheet(answer: ScaleAnswer, *, written: bool = False) -> Iterator[Block]:
    """Yield scales, dimensions, inconsistent readings, checks; `written` where a scenario has the dimensions by now."""
    yield _scales(answer)
    yield rows(
        "Dimensions",
        ["Dimension", "Size", "±", "Documented", "Off", "σ"],
        [_dimension(each, answer) for each in answer.dimensions],
        "±: one standard error; 95 % lie within 1.96 of it. Off: documented size less the size scaled without it, "
        "which is not shown; σ: Off over its standard error.",
    )
    if answer.contradictions:
        wrong = [
            (
                each.dimension,
                each.view,
                Value("value_m", each.size_m, decimals=1, tape=True),
                Value("value_m", each.others_m, decimals=1, tape=True),
                _off(each.residual_m),
                _sigmas(each.normalised_residual),
            )
            for each in answer.contradictions
        ]
        heads = ["Dimension", "View", "Size by it", "By the others", "Off", "σ"]
        left_out = (
            "At full scale. Sizes above are computed without them; where only readings that contradict each other give "
            "a size, none is shown."
        )
        yield rows("Readings inconsistent with the others: measure them again", heads, wrong, left_out)
    yield _checks(answer)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield LAYOUT if written else AGAIN if answer.contradictions or answer.doubted_documents else WRITE


def _scales(answer: ScaleAnswer) -> Table:
    lines = [
        (
            one.view,
            one.axis,
            say("1 : {ratio}", ratio=Value("scale_ratio", one.scale_ratio, decimals=4)),
            Value("scale_error", one.scale_error, decimals=4),
        )
        for one in answer.scales
    ]
    error = Value("reading_error_m", answer.reading_error_m, decimals=4)
    paper = answer.paper
    return rows(
        say("Scales of {title}", title=answer.title),
        ["View", "Axis", "Scale", "Standard error"],
        lines,
        *map(_stretched, answer.stretches),
        say("Standard error of a single caliper reading: {error}.", error=error),
        say(
            PAPER[paper.source],
            size=_share(Value("distortion", paper.distortion), 2),
            most=_share(Value("distortion_high", paper.distortion_high), 2),
        ),
    )


def _share(value: Value, decimals: int) -> Value:
    return replace(value, percent=True, decimals=decimals)


def _checks(answer: ScaleAnswer) -> Table:
    return rows(
        "How well each reading and document is checked by the others",
        ["Dimension", "View", "Axis", "Read", "Redundancy", "Least detectable"],
        [*map(_check, answer.readings), *map(_document, answer.documents)],
        "Redundancy: share of an error of the reading or document that shows. Least detectable: misreading, at full "
        "scale, that is found with 80 % probability; the ± of a size does not cover one.",
        say(
            "Tests for misreadings: {tests}, each of which calls a right reading wrong once in a thousand; a drawing "
            "without a misreading is questioned with about {chance} probability at most.",
            tests=Value("tests", answer.tests, decimals=0),
            chance=_share(Value("false_alarm_share", answer.false_alarm_share), 1),
        ),
    )


def _check(row: ReadingRow) -> tuple[Cell, ...]:
    return (row.dimension, row.view, row.axis, Value("count", row.count, decimals=0), *_checked(row))


def _document(row: DocumentRow) -> tuple[Cell, ...]:
    return (row.name, "document", "", "", *_checked(row))


def _checked(row: ReadingRow | DocumentRow) -> tuple[Cell, Cell]:
    blind = row.least_detectable_m is None
    least = "nothing checks it" if blind else Value("least_detectable_m", row.least_detectable_m, decimals=2)
    return Value("redundancy", row.redundancy, decimals=2), least


def _stretched(sheet: Stretch) -> Cell:
    return say(
        "View {view}: stretched {share} {more} across the sheet than along it.",
        view=sheet.view,
        share=Value("stretch", abs(sheet.stretch - 1.0), percent=True, decimals=2),
        more="more" if sheet.stretch > 1.0 else "less",
    )


def _dimension(each: Dimension, answer: ScaleAnswer) -> tuple[Cell, ...]:
    doubted = isnan(each.error_m) and any(one.dimension == each.name for one in answer.contradictions)
    return (
        each.name,
        "contradicted" if doubted else Value("value_m", each.value_m, decimals=1, tape=True),
        Value("error_m", each.error_m, decimals=2),
        Value("known_m", each.known_m, decimals=1, tape=True, absent=""),
        _off(each.residual_m),
        _sigmas(each.normalised_residual),
    )


def _off(residual_m: float | None) -> Value:
    return Value("residual_m", residual_m, decimals=2, absent="")


def _sigmas(ratio: float | None) -> Value:
    return Value("normalised_residual", ratio, decimals=1, absent="")
