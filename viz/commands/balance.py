"""``whirlgate balance``: weights, centre of gravity, and where the engine must stand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, amount, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.shift import shift
from viz.commands.written import Named, Written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from sim.scenario.tables import Scenario
    from sim.units.quantities import System
    from viz.sheets.blocks import Sentence
    from viz.sheets.format import Units


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what keeps a bill from being written, and which options need one to be read."""
    from sim.errors import Fault

    for name in ("write_items", "remove_others"):
        if options[name] and options["bill_from"] is None:
            yield Fault("bill_from", f"is missing; `{name}` needs it")


@click.command(cls=Command, check=check)
@scenario_in
@powerplant_option("Engine to balance with.  [default: that of the balance table]")
@click.option(
    "--move",
    "engine_move_m",
    type=shift(),
    metavar="LENGTH",
    default="0 in",
    help="Move the engine, with all that moves with it, from where the scenario has it, as in '2 1/2 in forward'; "
    "--write then writes its key move alone.",
)
@click.option(
    "--step",
    "step_m",
    type=amount("m", least=0.001, most=0.3),
    metavar="LENGTH",
    help="From one engine position to the next.  [default: 1/2 in, or 10 mm with --units si]",
)
@click.option("--items", is_flag=True, help="List every item.")
@click.option(
    "--write",
    type=Named(dir_okay=False),
    metavar="SCENARIO.toml",
    help="Set mass, moments of inertia and arms from the CG in this existing scenario.",
)
@click.option("--bill", type=Written(".csv"), metavar="FILE.csv", help="Write the items as CSV, for a spreadsheet.")
@click.option("--bill-from", metavar="FILE.csv", help="Set items from such a CSV, by name, and add new ones.")
@click.option("--remove-others", is_flag=True, help="With --bill-from, remove the items that the CSV lacks.")
@click.option(
    "--write-items",
    type=Named(dir_okay=False),
    metavar="SCENARIO.toml",
    help="Set the items of --bill-from in this existing scenario.",
)
@json_out
@figure_out
@click.pass_obj
def command(units: Units, /, **options: Any) -> None:  # noqa: ANN401
    """Weight, centre of gravity and inertia from the item list, the loading envelope, and the engine position.

    Stations are aft of the datum. Items of the groups pilot, passenger, baggage and fuel are loads, all others are part
    of the empty airplane. Where the scenario holds a weighing, the scales correct the item list, and weight, CG
    and every loading are those of the corrected one.

    Example: whirlgate balance --powerplant flat_four --move '1 in forward' --figure envelope.svg

    Example: whirlgate balance mine.toml --bill items.csv
    """
    from sim.airframe.engine_position import STEPS_M
    from sim.model.model import model
    from sim.studies.balance import balance
    from viz.sheets.balance import sheet

    scenario, counted = _scenario(options)
    airplane = model(scenario)
    answer = balance(
        airplane,
        powerplant=options["powerplant"],
        engine_move_m=options["engine_move_m"],
        step_m=options["step_m"] or STEPS_M[units],
    )
    if options["figure"]:
        from sim.studies.drawing import drawing_if_possible

        beside = drawing_if_possible(airplane, answer.powerplant, engine_move_m=options["engine_move_m"])
        shown = {"balance": answer, "drawing": beside} if beside else answer
        picture(options["figure"], "balance", shown, units, force=options["force"])
    notes = [*_items_written(scenario, units, options), *counted]
    if options["write"]:
        from sim.studies.balance_keys import balance_keys, move_key, to_spare
        from viz.files.scenario_keys import write_keys

        moved = options["engine_move_m"] != 0.0
        keys = move_key(answer, system=units) if moved else balance_keys(airplane, answer, system=units)
        notes.append(write_keys(options["write"], keys, spare=to_spare(answer, keys) if moved else frozenset()))
        notes += [_keys_behind(options["write"])] if moved else []
    deliver(answer, (*sheet(answer, items=options["items"]), *notes), units, as_json=options["as_json"])


def _keys_behind(file: str) -> Sentence:
    """Return that the keys which follow from the position are still those of the old one, and what writes them."""
    import shlex

    from viz.sheets.blocks import Run, say

    named = shlex.quote(file)
    return say(
        "Its mass, moments of inertia and arms are still written for the position before; {run} writes them too.",
        run=Run("balance", f"--write {named}", named),
    )


def _scenario(options: dict[str, Any]) -> tuple[Scenario, list[Sentence]]:
    """Return the scenario, its items set from a bill where one is given, and what that changes."""
    from sim.scenario.reading import load

    name, settings, bill = options["scenario"], options["settings"], options["bill_from"]
    if bill is None:
        return load(name, settings), []
    from viz.files.item_bill import load_with_bill

    found, told = load_with_bill(name, bill, settings, remove_others=options["remove_others"])
    return found, [] if options["write_items"] else [told]


def _items_written(scenario: Scenario, system: System, options: dict[str, Any]) -> Iterator[Sentence]:
    from viz.files.item_bill import write_bill, write_items

    if options["bill"]:
        yield write_bill(options["bill"], scenario, system, force=options["force"])
    if options["write_items"]:
        yield write_items(options["write_items"], options["bill_from"], remove_others=options["remove_others"])
