"""How a command ends: its picture into a file, then the answer as JSON or as a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.against import kept, kept_drawing

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.answer import Answer
    from viz.sheets.blocks import Block
    from viz.sheets.format import Units


def picture(file: str | None, name: str, answer: object, units: Units, *, force: bool) -> None:
    """Draw an answer and its cautions into `file`, where one is asked for: by the module `name` of ``viz/figures``.

    Where the same was asked of another airplane, that is drawn as well.

    Raises
    ------
    InputError
        When the file is there and `force` is not given, or does not end as a figure does.
    """
    if file and not kept_drawing(answer):
        from viz.commands.other_airplane import drawn_other
        from viz.figures.complete import complete
        from viz.figures.sheet import save

        save(complete(name, answer, units, drawn_other()), file, force=force)


def deliver(answer: Answer, blocks: Iterable[Block], units: Units, *, as_json: bool) -> None:
    """Print the answer as one JSON object in SI, or its sheet in the reader's units, which is not made until then.

    Where the same was asked of another airplane, what differs stands in it as well.
    """
    if kept(answer):
        return
    from viz.commands.other_airplane import with_differences

    whole, more = with_differences(answer)
    if as_json:
        click.echo(whole.to_json())
    else:
        from viz.commands.next_steps import about_this
        from viz.sheets.blocks import behind
        from viz.sheets.complete import complete
        from viz.sheets.terminal import write

        click.echo(write(complete(about_this(behind(blocks, more))), units))
