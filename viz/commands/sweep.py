"""``whirlgate sweep``: vary values and collect results, or sample tolerances and rank the inputs by sensitivity."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, airplane_in, amount, figure_out, json_out
from viz.commands.output import deliver, picture
from viz.commands.seed import seed_option
from viz.commands.written import Written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units

QUESTION = "viz.commands.sweep.question"


def check(
    *,
    scenario: str,
    settings: tuple[str, ...],
    vary: tuple[str, ...],
    collect: tuple[str, ...],
    draws: float | None,
    out: str | None,
    figure: str | None,
    cluster: str | None,
    **_: Any,  # noqa: ANN401
) -> Iterator[Fault]:
    """Yield what is wrong with the whole question, and keep it for the command where nothing is."""
    from sim.errors import Fault, InputError
    from sim.sweeps.grid import question_of
    from sim.sweeps.monte_carlo import spread_question
    from sim.sweeps.workers import cluster_faults
    from viz.files.table import table_faults

    yield from table_faults(out)
    yield from cluster_faults(cluster)
    if figure and len(vary) > 2:
        yield Fault("--figure", f'draws one or two keys varied, got "{len(vary)}"')
    try:
        if draws is None:
            question = question_of(scenario, settings, vary, collect)
        else:
            question = spread_question(scenario, settings, collect, draws=draws, vary=vary)
        if figure and all(column.words for column in question.collected):
            yield Fault("--figure", "draws numbers, and only words are collected")
        click.get_current_context().meta[QUESTION] = question
    except InputError as error:
        yield from error.faults


@click.command(cls=Command, check=check)
@airplane_in
@click.option(
    "--vary",
    multiple=True,
    metavar="KEY=…",
    help="Key of the scenario and its values: KEY=FROM:TO:COUNT or KEY=A,B,C; repeatable, for every combination.",
)
@click.option(
    "--collect",
    multiple=True,
    metavar="RESULT",
    help="Study and path of a value in its --json, with dots between; repeatable.",
)
@click.option(
    "--spread",
    "draws",
    type=amount("1"),
    metavar="N",
    help="In place of --vary: sample all values given with a ± N times, N a power of two.",
)
@click.option("--sampling", type=Word(["latin", "sobol"]), default="latin", show_default=True, help="Sampling method.")
@seed_option("the random numbers of --spread")
@click.option(
    "--workers",
    type=amount("1", least=1.0, most=256.0),
    metavar="N",
    default="1",
    show_default=True,
    help="Number of processes on this machine.",
)
@click.option("--cluster", metavar="ADDRESS", help="Address of a Dask scheduler, as in tcp://127.0.0.1:8786.")
@click.option("--out", type=Written(".csv", ".parquet"), metavar="FILE", help="Write the table in SI (csv or parquet).")
@json_out
@figure_out
@click.pass_obj
def command(units: Units, /, **options: Any) -> None:  # noqa: ANN401
    """Vary values of a scenario and collect results, or sample its tolerances (±) and rank the inputs by sensitivity.

    A result is a study and the path to a value in what its command prints with --json; an item of a list is given by
    its number from 1 or by its name. Studies: compare, handling, summary, modes, derivatives, speeds, layout, balance,
    mount, windows, rate, safe_range, burst, cooling, exhibit, maneuver.NAME.

    With --out, an interrupted sweep continues where it stopped when the same command is given again.

    Example: whirlgate sweep --vary wing.span=26ft:30ft:9 --collect handling.powerplants.rotary.steepest_left_deg

    Example: whirlgate sweep --spread 64 --collect speeds.powerplants.rotary.stall_m_s --figure spread.svg
    """
    from contextlib import ExitStack

    from sim.sweeps.workers import Workers
    from viz.files.journal import Journal
    from viz.sheets.sweep import sheet

    question = click.get_current_context().meta[QUESTION]
    workers = Workers(int(options["workers"]), options["cluster"])
    with ExitStack() as stack:
        journal = stack.enter_context(Journal(options["out"])) if options["out"] else None
        answer = _answer(question, options, workers=workers, journal=journal)
        _write(answer, units, options)
        if journal:
            journal.done()
    deliver(answer, sheet(answer, options["out"]), units, as_json=options["as_json"])


def _answer(question: Any, options: dict[str, Any], **work: Any) -> Any:  # noqa: ANN401
    from sim.sweeps.grid import swept
    from sim.sweeps.monte_carlo import drawn
    from viz.commands.progress import bar

    if options["draws"] is None:
        return swept(question, progress=bar, **work)
    asked = {"draws": int(options["draws"]), "sampling": options["sampling"], "seed": options["seed"]}
    return drawn(question, progress=bar, **asked, **work)


def _write(answer: Any, units: Units, options: dict[str, Any]) -> None:  # noqa: ANN401
    if options["out"]:
        from viz.files.table import write_table
        from viz.sheets.sweep import columns

        write_table(options["out"], columns(answer), answer.rows, force=options["force"])
    picture(options["figure"], "sweep", answer, units, force=options["force"])
