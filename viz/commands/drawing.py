"""``whirlgate drawing``: a three-view with stations and dimensions, as SVG, PDF or DXF."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.written import Written
from viz.drawings.papers import PAPERS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.drawing import MeasuredDrawing
    from sim.errors import Fault
    from viz.sheets.format import Units


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what keeps the drawing from being written."""
    for name, given in (("--scale", options["scale"] is not None), ("--paper", _given("paper"))):
        if given and not options["files"]:
            from sim.errors import Fault

            yield Fault(name, "is of the three-view that --out writes: give --out FILE with it")


def _given(name: str) -> bool:
    """Return whether an option is written on the command line, be it that of the default."""
    source = click.get_current_context().get_parameter_source(name)
    return source is click.core.ParameterSource.COMMANDLINE


def scale_faults(ctx: click.Context, param: click.Parameter, value: str | None) -> float | None:
    """Return a scale written as ``1:20`` or ``1/20`` as paper over full size; note what is wrong with it."""
    from viz.drawings.view import read_ratio

    scale = read_ratio(value) if value else None
    if value and scale is None:
        from sim.errors import Fault

        what = f'must be a scale between 1:1 and 1:500, as in "1:20", got "{value}"'
        ctx.meta.setdefault("faults", []).append(Fault(param.opts[0], what))
    return scale


def readings_in(over: str | None) -> MeasuredDrawing | None:
    """Return the readings in a file, None where none is given; its faults are told under the option that names it."""
    if over is None:
        return None
    from sim.errors import Fault, InputError
    from sim.model.drawing import drawing as measured
    from sim.studies.scale import scale

    try:
        readings = measured(over)
        scale(readings)  # what contradicts itself is a fault of this file, not of the scenario
    except InputError as error:
        raise InputError([Fault("over", str(fault)) for fault in error.faults]) from error
    return readings


@click.command(cls=Command, check=check)
@scenario_in
@powerplant_option("Engine fitted.  [default: that of the balance table, or the first]")
@click.option(
    "--out",
    "files",
    multiple=True,
    type=Written(".svg", ".pdf", ".dxf"),
    metavar="FILE",
    help="Write the three-view to FILE (svg, pdf or dxf); repeatable.",
)
@click.option(
    "--scale",
    callback=scale_faults,
    metavar="1:N",
    help="Scale on paper, as in 1:20.  [default: the largest usual one that fits one sheet]",
)
@click.option(
    "--paper", type=Word(tuple(PAPERS)), default="a3", show_default=True, help="Sheets of the PDF, as many as it takes."
)
@click.option(
    "--over",
    metavar="READINGS",
    help="Lay caliper readings over it, the file (or bundled drawing) that whirlgate scale takes.",
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    powerplant: str | None,
    files: tuple[str, ...] | None,
    scale: float | None,
    paper: str,
    over: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Three-view from the numbers of the scenario: stations, buttlines, dimensions, centre of gravity, ground.

    Every line and number comes from the scenario, so that a wrong one is seen. PDF and SVG are at the scale, DXF is at
    full size in millimetres, with a layer for each part. A PDF larger than one sheet has register marks to join the
    sheets by. With --over, readings that differ from the scenario stand in red beside its numbers; with --against the
    other airplane lies under it in blue.

    Example: whirlgate drawing --scale 1:20 --paper a4 --out threeview.pdf --out threeview.dxf
    """
    from sim.model.model import model
    from sim.studies.drawing import drawing
    from viz.sheets.drawing import sheet

    answer = drawing(model(scenario, settings), powerplant=powerplant, readings=readings_in(over))
    picture(figure, "drawing", answer, units, force=force)
    if files:
        from viz.commands.other_airplane import asked_other
        from viz.drawings.files import write_drawing
        from viz.drawings.three_view import Drawn

        for path in write_drawing(files, Drawn(answer, units, asked_other()), (scale, paper), force=force):
            click.echo(f"wrote {path}", err=True)
    deliver(answer, sheet(answer), units, as_json=as_json)
