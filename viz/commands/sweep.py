"""``whirlgate sweep``: vary keys and collect results, or draw every ± and see what the answers hang on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, amount, figure_out, json_out, scenario_in
from viz.commands.output import picture, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units

ASKED = "viz.commands.sweep.asked"


def check(
    *,
    scenario: str,
    settings: tuple[str, ...],
    vary: tuple[str, ...],
    collect: tuple[str, ...],
    spread: float | None,
    out: str | None,
    figure: str | None,
    force: bool,
    cluster: str | None,
    **_: Any,  # noqa: ANN401
) -> Iterator[Fault]:
    """Yield what is wrong with the whole question, and keep it for the command where nothing is."""
    from sim.errors import Fault, InputError
    from sim.sweep.grid import asked
    from sim.sweep.monte_carlo import asked_spread
    from sim.sweep.workers import crew_faults
    from viz.figures.sheet import FORMATS
    from viz.files.table import file_faults, table_faults

    yield from table_faults(out, force=force)
    yield from file_faults("--figure", figure, [f".{ending}" for ending in FORMATS], force=force)
    yield from crew_faults(cluster)
    if figure and len(vary) > 2:
        yield Fault("--figure", f'draws one or two keys varied, got "{len(vary)}"')
    try:
        if spread is None:
            question = asked(scenario, settings, vary, collect)
        else:
            question = asked_spread(scenario, settings, collect, draws=spread, vary=vary)
        if figure and all(column.words for column in question.collected):
            yield Fault("--figure", "draws numbers, and only words are collected")
        click.get_current_context().meta[ASKED] = question
    except InputError as error:
        yield from error.faults


@click.command(cls=Command, check=check)
@scenario_in
@click.option("--vary", multiple=True, metavar="KEY=…", help="KEY=FROM:TO:COUNT or KEY=A,B,C; every combination.")
@click.option("--collect", multiple=True, metavar="RESULT", help="A study, then the path in its --json; repeatable.")
@click.option("--spread", type=amount("1"), metavar="N", help="Draw every ± of the scenario N times instead.")
@click.option(
    "--sampling", type=Word(["latin", "sobol"]), default="latin", show_default=True, help="How they are drawn."
)
@click.option("--seed", type=amount("1", least=0.0, most=2.0**53), default="1", show_default=True, help="Of the draws.")
@click.option("--workers", type=amount("1", least=1.0, most=256.0), default="1", show_default=True, help="Processes.")
@click.option("--cluster", metavar="ADDRESS", help='A Dask scheduler whose workers do it, "tcp://127.0.0.1:8786".')
@click.option(
    "--out", type=click.Path(dir_okay=False), metavar="FILE", help="Write the table: .csv or .parquet, in SI."
)
@json_out
@figure_out
@click.pass_obj
def command(units: Units, **options: Any) -> None:  # noqa: ANN401
    """Vary any keys of a scenario and collect any results, or draw every ± and rank what the answers hang on.

    A result is a study (compare, handling, summary, modes, derivatives, speeds, layout, balance, mount, windows, rate,
    band, burst, warmth, exhibit, maneuver.NAME) and the path to a value in what its command prints with --json; an
    item of a list goes by its number from 1 or by its name. With --out an interrupted sweep goes on where it stopped
    when it is called again.

    Example: whirlgate sweep --vary wing.span=26ft:30ft:9 --collect handling.powerplants.rotary.steepest_left_deg

    Example: whirlgate sweep --spread 64 --collect handling.powerplants.rotary.steepest_left_deg --figure spread.svg
    """
    from contextlib import ExitStack

    from sim.sweep.workers import Crew
    from viz.files.journal import Journal

    question = click.get_current_context().meta[ASKED]
    crew = Crew(int(options["workers"]), options["cluster"])
    with ExitStack() as stack:
        journal = stack.enter_context(Journal(options["out"])) if options["out"] else None
        answer = _answer(question, options, crew=crew, journal=journal)
        _write(answer, units, options)
        if journal:
            journal.done()
    from viz.sheets.sweep import sheet

    say(answer, sheet(answer, units, options["out"]), as_json=options["as_json"])


def _answer(question: Any, options: dict[str, Any], **work: Any) -> Any:  # noqa: ANN401
    from sim.sweep.grid import swept
    from sim.sweep.monte_carlo import drawn
    from viz.commands.progress import bar

    if options["spread"] is None:
        return swept(question, progress=bar, **work)
    asked = {"draws": int(options["spread"]), "sampling": options["sampling"], "seed": int(options["seed"])}
    return drawn(question, progress=bar, **asked, **work)


def _write(answer: Any, units: Units, options: dict[str, Any]) -> None:  # noqa: ANN401
    if options["out"]:
        from viz.files.table import write_table
        from viz.sheets.sweep import columns

        write_table(options["out"], columns(answer), answer.rows, force=options["force"])
    picture(options["figure"], "sweep", answer, units, force=options["force"])
