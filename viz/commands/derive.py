"""``whirlgate derive``: an equation step by step, and the scenario's numbers put in."""

from __future__ import annotations

import click

from viz.commands.options import Command, Word, force, json_out, scenario_in

TOPICS = ("couple", "turn", "modes", "windows", "rate")


@click.command(cls=Command)
@click.argument("topic", type=Word(TOPICS), metavar="|".join(TOPICS))
@scenario_in
@click.option("--powerplant", metavar="NAME", help="Whose numbers are put in; the first of the scenario if left out.")
@click.option("--latex", is_flag=True, help="Print the formulas for a typesetter.")
@click.option("--html", type=click.Path(dir_okay=False), metavar="FILE", help="Write a page to hand out.")
@force
@json_out
def command(
    *,
    topic: str,
    scenario: str,
    settings: tuple[str, ...],
    powerplant: str | None,
    latex: bool,
    html: str | None,
    force: bool,
    as_json: bool,
) -> None:
    """Derive an equation from first principles, then put the scenario's numbers in, in SI units.

    The figures at the end are those that compare, handling, modes, windows and rate print.

    Example: whirlgate derive couple --html couple.html
    """
    from sim.scenario.reading import load
    from sim.studies.derive import derive
    from viz.sheets import derive as derived

    answer = derive(load(scenario, settings), topic, powerplant)
    if html:
        from viz.files.atomic import write_whole

        write_whole(html, derived.page(answer), force=force)
    if as_json:
        click.echo(answer.to_json())
    else:
        click.echo(derived.typeset(answer) if latex else derived.text(answer))
