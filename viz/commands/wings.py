"""``whirlgate wings``: what several planes lift together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units


def check(*, figure: str | None, **options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield every fault of the planes and the point, and of a span loading asked of planes of infinite span."""
    from sim.errors import Fault, InputError
    from sim.studies.wings_planes import asked

    if figure and options["two_dimensional"]:
        yield Fault("figure", "cannot be used with `two_dimensional`: planes of infinite span have no span loading")
    names = ("planes", "at", "section_slope", "two_dimensional")
    try:
        asked(**{name: options[name] for name in names})
    except InputError as error:
        yield from error.faults


@click.command(cls=Command, check=check)
@click.option(
    "--plane",
    "planes",
    multiple=True,
    metavar="TEXT",
    help="One plane, repeatable: 'span 28 ft, chord 4 ft 6 in', and where they differ from 0 (taper from 1): taper, "
    "sweep, dihedral, incidence, height, ahead, section slope.",
)
@click.option(
    "--at",
    metavar="TEXT",
    help="Point of the downwash: 'x 14 ft, y 0 ft, z 2 ft' aft of the datum, right of it, above it.",
)
@click.option(
    "--section-slope",
    type=amount("1", least=2.0, most=8.0, example="5.7"),
    metavar="NUMBER",
    help="Lift slope per radian of the sections in two dimensions.  [default: 2 pi]",
)
@click.option(
    "--two-dimensional", is_flag=True, help="Planes of infinite span; span, taper, sweep and dihedral drop out."
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    planes: tuple[str, ...],
    at: str | None,
    section_slope: float | None,
    two_dimensional: bool,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Lift slope, load split, induced drag, roll damping, dihedral effect and downwash of any number of planes.

    A vortex lattice of the planes alone: attached flow, small angles, no body, no propeller. Chord is the mean chord,
    sweep is that of the quarter-chord line, tips aft; height and ahead are of the leading edge at the root, from a
    datum of your choice. It needs no scenario.

    Example: whirlgate wings --plane "span 28 ft, chord 4 ft 6 in" --plane "span 28 ft, chord 4 ft 6 in,
    height 4 ft 9 in, ahead 1 ft 6 in, dihedral 3 °" --at "x 14 ft, z 2 ft"
    """
    from sim.studies.wings import wings
    from viz.sheets.wings import sheet

    answer = wings(planes, at=at, section_slope=section_slope, two_dimensional=two_dimensional)
    picture(figure, "wings", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
