"""The scaled drawing on paper: scales, dimensions and contradictory readings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, remarks, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.drawing import Dimension
    from sim.studies.scale import ScaleAnswer, Stretch
    from viz.sheets.blocks import Block, Cell, Table


WRITE = next_steps(
    say(
        "{run}, your file for SCENARIO.toml, to set the dimensions in a scenario",
        run=Run("scale", "--write SCENARIO.toml"),
    )
)
LAYOUT = next_steps(say("{run}, spars, fittings and struts for these dimensions", run=Run("layout")))


def sheet(answer: ScaleAnswer, *, written: bool = False) -> Iterator[Block]:
    """Yield scales, dimensions and inconsistent readings; `written` where a scenario has the dimensions by now."""
    yield _scales(answer)
    yield rows(
        "Dimensions",
        ["Dimension", "Size", "±", "Documented", "Off", "σ"],
        map(_dimension, answer.dimensions),
        "±: one standard error. Off: documented size less the size scaled without it, which is not shown; σ: "
        "Off over its standard error.",
    )
    if answer.contradictions:
        wrong = [
            (each.dimension, each.view, _off(each.residual_m), _sigmas(each.normalised_residual))
            for each in answer.contradictions
        ]
        heads = ["Dimension", "View", "Off at full scale", "σ"]
        yield rows("Readings inconsistent with the others: measure them again", heads, wrong)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield LAYOUT if written else WRITE


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
    return rows(
        say("Scales of {title}", title=answer.title),
        ["View", "Axis", "Scale", "Standard error"],
        lines,
        *map(_stretched, answer.stretches),
        say("Standard error of a single caliper reading: {error}.", error=error),
    )


def _stretched(sheet: Stretch) -> Cell:
    return say(
        "View {view}: stretched {share} {more} across the sheet than along it.",
        view=sheet.view,
        share=Value("stretch", abs(sheet.stretch - 1.0), percent=True, decimals=2),
        more="more" if sheet.stretch > 1.0 else "less",
    )


def _dimension(each: Dimension) -> tuple[Cell, ...]:
    return (
        each.name,
        Value("value_m", each.value_m, decimals=1, tape=True),
        Value("error_m", each.error_m, decimals=2),
        Value("known_m", each.known_m, decimals=1, tape=True, absent=""),
        _off(each.residual_m),
        _sigmas(each.normalised_residual),
    )


def _off(residual_m: float | None) -> Value:
    return Value("residual_m", residual_m, decimals=2, absent="")


def _sigmas(ratio: float | None) -> Value:
    return Value("normalised_residual", ratio, decimals=1, absent="")
