"""``whirlgate exhibit``: an inert interrupter display, sized, checked and ready to cut."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.drawings.words import SOURCES
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.exhibit import Exhibit
    from viz.sheets.format import Units
    from viz.sheets.table import Block

INERT = "Inert by construction: the follower works an enclosed lamp switch or a light beam, and nothing else."
GUN = "Nothing here may be used to size, build or alter a gun. Ask first about the rules on replica firearms."
GUARD = "Guard what turns; check the guard standards before cutting; at most three flashes a second."


@click.command(cls=Command)
@scenario_in
@click.option(
    "--out", type=click.Path(file_okay=False), metavar="FOLDER", help="Write DXF, SVG, STL and the drawing sheet there."
)
@figure_out
@json_out
@click.pass_obj
def command(
    units: Units, *, scenario: str, settings: tuple[str, ...], out: str, figure: str, force: bool, as_json: bool
) -> None:
    """Size an inert interrupter display: cam, follower, spring, drive and guard, each with its checks.

    A scaled propeller, turned by hand, works a cam, a roller follower and a lamp that shows when a gun could have
    fired. It cannot fire anything; a scenario that asks for a working gun part is refused.

    Example: whirlgate exhibit --out display
    """
    from sim.model.display import display_of_scenario
    from sim.scenario.reading import load
    from sim.studies.exhibit import exhibit

    answer = exhibit(display_of_scenario(load(scenario, settings)), bar)
    if out:
        from viz.drawings.folder import contents, write

        for path in write(out, contents(answer), force=force):
            click.echo(f"wrote {path}", err=True)
    picture(figure, "exhibit", answer, units, force=force)
    say(answer.sheet, sheet(answer, units), as_json=as_json)


def bar(base_circles: list[float]) -> Iterator[float]:
    """Show on stderr how far the search is, where that is a terminal."""
    if not sys.stderr.isatty():
        yield from base_circles
        return
    with click.progressbar(base_circles, label="trying cams", file=sys.stderr) as tried:
        yield from tried


def sheet(answer: Exhibit, units: Units) -> Iterator[Block]:
    """Print the sizes, the checks, the cautions and the checklist."""
    yield table("Inert interrupter display", ["part", "size"], _sizes(answer, units))
    rows = [
        [
            check.name,
            f"{shown.significant(check.value)} {check.unit}".strip(),
            f"{check.bound} {shown.significant(check.limit)}",
            shown.significant(check.margin),
            "pass" if check.passes else "FAIL",
            check.source,
        ]
        for check in answer.checks
    ]
    cures = [f"{check.name}: {check.cure}." for check in answer.failures]
    bars = f"What bars a smaller cam: {'; '.join(answer.found.binding) or 'nothing; its size was given'}."
    tried = f"Smallest of {answer.found.tried} cams tried." if answer.found.passes else "No cam tried passes all."
    note = "\n".join([*cures, f"{tried} {bars}", INERT, GUN, GUARD, SOURCES, ESTIMATE])
    yield table("Checks", ["check", "value", "limit", "margin", "", "source"], rows, note)
    yield "Inertness checklist, to sign before the display is shown:"
    for line in answer.checklist:
        yield f"  [ ] {line}"


def _sizes(answer: Exhibit, units: Units) -> Iterator[list[str]]:
    """Yield meaning and size of what is cut, wound or turned."""
    from dataclasses import fields

    from sim.units.quantities import quantity

    for part, sized in (("cam", answer.sheet.cam), ("spring", answer.sheet.spring), ("drive", answer.sheet.drive)):
        for field in fields(sized):
            value = getattr(sized, field.name)
            if isinstance(value, str):
                yield [f"{part}: law of motion", value]
            else:
                size = str(value) if isinstance(value, int) else shown.amount(field.name, value, units)
                yield [f"{part}: {quantity(field.name).meaning}", size]
    roller = float(answer.numbers.roller_rad_s)
    yield [f"cam: {quantity('roller_rad_s').meaning}", shown.amount("roller_rad_s", roller, units)]
    yield [f"drive: {quantity('speed_fluctuation').meaning}", f"{100.0 * answer.drive.speed_fluctuation:.1f} %"]
    if answer.display.handle.kind == "motor":
        yield [f"drive: {quantity('motor_power_w').meaning}", f"{answer.drive.motor_power_w:.1f} W"]
        clutch = shown.amount("clutch_n_m", answer.drive.clutch_n_m, units)
        yield [f"drive: {quantity('clutch_n_m').meaning}", clutch]
