"""``whirlgate derive``: an equation step by step, and its value with the numbers of a scenario."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, Word, airplane_in, force, json_out, powerplant_option
from viz.commands.output import deliver
from viz.commands.written import Written

if TYPE_CHECKING:
    from sim.studies.derive import Topic

TOPICS = ("couple", "turn", "modes", "windows", "rate")


@click.command(cls=Command)
@click.argument("topic", type=Word(TOPICS), metavar="|".join(TOPICS))
@airplane_in
@powerplant_option("Powerplant whose numbers are inserted.  [default: the first of the scenario]")
@click.option("--latex", is_flag=True, help="Print the derivation as the body of a LaTeX document; needs amsmath.")
@click.option(
    "--html", type=Written(".html", ".htm"), metavar="FILE.html", help="Write the derivation as one HTML page."
)
@force
@json_out
def command(
    *,
    topic: Topic,
    scenario: str,
    settings: tuple[str, ...],
    powerplant: str | None,
    latex: bool,
    html: str | None,
    force: bool,
    as_json: bool,
) -> None:
    """Derive an equation from first principles, then insert the numbers of the scenario, in SI units.

    The topics couple and turn are evaluated in a level right turn of 45°, modes in level flight, windows and rate at
    full speed. The results are those that compare, handling, modes, windows and rate print.

    Example: whirlgate derive couple --html couple.html
    """
    from sim.model.model import model
    from sim.studies.derive import derive
    from viz.sheets import derive as derived

    answer = derive(model(scenario, settings), topic, powerplant=powerplant)
    if html:
        from viz.files.atomic import write_whole

        write_whole(html, derived.page(answer), force=force)
    if latex and not as_json:
        click.echo(derived.typeset(answer))
    else:
        deliver(answer, derived.sheet(answer), "si", as_json=as_json)
