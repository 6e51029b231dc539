"""``whirlgate scale``: real dimensions from caliper readings off a drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import SHOP
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.studies.scale import ScaleAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block

LONGEST_LINE = 16
"""As much as the first column has on a terminal of 80 characters."""


@click.command(cls=Command)
@click.argument("drawing", metavar="[FILE]", required=False, default="tollgate")
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="TABLE.KEY=VALUE",
    help="Change one value of the drawing; repeatable. Example: --set known.wing.span='28 ft 2 in'",
)
@click.option(
    "--write", type=click.Path(dir_okay=False), metavar="SCENARIO.toml", help="Set the dimensions in this scenario."
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    drawing: str,
    settings: tuple[str, ...],
    write: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Scale a drawing: real dimensions with their errors, from caliper readings and the few known dimensions.

    The file holds readings and known dimensions; without one the bundled drawing is scaled. Copies that have
    stretched are scaled along and across apart, and readings that contradict each other are named.

    Example: whirlgate scale threeview.toml --write camp.toml
    """
    from sim.studies.scale import load, scenario_keys, study

    answer = study(load(drawing, settings))
    notes = list(answer.remarks)
    picture(figure, "scale", answer, units, force=force)
    if write:
        from viz.files.scenario_keys import write_keys

        keys, others = scenario_keys(answer, metric=units == "si")
        write_keys(write, keys)
        notes.append(
            f"Written to {write}: {', '.join(keys) or 'nothing'}. Not keys of a scenario: {', '.join(others)}."
        )
    say(answer, sheet(answer, units, notes), as_json=as_json)


def sheet(answer: ScaleAnswer, units: Units, notes: list[str]) -> Iterator[Block]:
    """Print scales, dimensions and contradictions."""
    size = sizes(units)
    error = shown.fixed("error_m", answer.reading_error_m, units, 4)
    scales = [
        [scale.view, scale.axis, f"1 : {scale.scale_ratio:.4f}", f"{scale.scale_error:.4f}"] for scale in answer.scales
    ]
    grown = "".join(
        f"{sheet.view} has stretched {abs(sheet.stretch - 1.0):.2%} {'more' if sheet.stretch > 1.0 else 'less'} "
        "across than along.\n"
        for sheet in answer.stretches
    )
    note = f"{grown}A single reading is good to {error}."
    yield table(f"Scales of {answer.title}", ["View", "Axis", "Scale", "±"], scales, note)
    rows = [
        [
            _on_lines(each.name),
            size(each.value_m),
            shown.fixed("error_m", each.error_m, units),
            "" if each.known_m is None else size(each.known_m),
            "" if each.residual_m is None else _plus(each.residual_m, units),
            "" if each.normalised_residual is None else f"{each.normalised_residual:+.1f}",
        ]
        for each in answer.dimensions
    ]
    legend = "Off: what the document says less what the rest of the drawing says; σ: that over its standard error."
    yield table("Dimensions", ["Dimension", "Size", "±", "Document", "Off", "σ"], rows, legend)
    wrong = [
        [each.dimension, each.view, _plus(each.residual_m, units), f"{each.normalised_residual:+.1f}"]
        for each in answer.contradictions
    ]
    if wrong:
        heads = ["Dimension", "View", "Off at full size", "σ"]
        yield table("Readings that contradict the others: read them again", heads, wrong)
    yield table("Remarks", ["What to know"], [[note] for note in (*notes, SHOP)])


def sizes(units: Units) -> Callable[[float], str]:
    """Return how a real dimension is printed: feet and inches, or millimetres."""
    from sim.studies.scale import feet_inches

    return feet_inches if units == "us" else lambda length_m: f"{1000.0 * length_m:.1f} mm"


def _plus(length_m: float, units: Units) -> str:
    return ("+" if length_m > 0.0 else "-") + shown.fixed("residual_m", abs(length_m), units)


def _on_lines(name: str) -> str:
    """Return a long dotted name broken at its dots: ``tailplane.chord`` stays, ``powerplant.rotary`` is two lines."""
    lines = [""]
    for part in name.replace(".", "\0.").split("\0"):
        lines = [*lines[:-1], lines[-1] + part] if len(lines[-1] + part) <= LONGEST_LINE else [*lines, part]
    return "\n".join(lines)
