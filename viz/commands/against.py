"""The same question asked of another airplane: ``--against`` and ``--against-set``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.answer import Answer

FILE, SETTINGS = "against", "against_set"
"""Parameters of the two options."""
ASKED = "viz.commands.against.asked"
"""Key of a context's ``meta``: what was given of the two options, by parameter."""
OTHER = "viz.commands.against.other"
"""Key of a context's ``meta``: the answer about the other airplane."""
DRAWN = "viz.commands.against.drawn"
"""Key of a context's ``meta``: the answer about the other airplane that a figure of it would show."""
HELD = "viz.commands.against.held"
"""Key of a context's ``meta``: a list that takes an answer in the place of the screen."""


def against_in(*, noun: str = "scenario", exposed: bool = False) -> Callable[..., Any]:
    """Return what adds ``--against`` and ``--against-set``.

    Parameters
    ----------
    noun : str
        What the command reads.
    exposed : bool
        Whether the command takes the two values itself; else it is run once more for them, see `Command`.
    """
    kept: dict[str, Any] = {} if exposed else {"expose_value": False, "callback": _noted}
    file = click.option(
        "--against",
        metavar=noun.upper(),
        help=f"Ask the same of another {noun}, a file or a bundled one, and list what differs; --set and files "
        "are of the first alone, --figure draws both where lines can tell them apart.",
        **kept,
    )
    settings = click.option(
        "--against-set",
        multiple=True,
        metavar="TABLE.KEY=VALUE",
        help=f"Ask the same with another value in the {noun} of --against or, without it, in this one; repeatable.",
        **kept,
    )
    return lambda function: file(settings(function))


def _noted(context: click.Context, option: click.Parameter, value: Any) -> Any:  # noqa: ANN401
    context.meta.setdefault(ASKED, {})[option.name] = value
    return value


def is_against(context: click.Context) -> bool:
    """Return whether the question is asked of another airplane as well."""
    return any(given not in (None, ()) for given in context.meta.get(ASKED, {}).values())


def settled(context: click.Context) -> None:
    """Let the bundled scenario stand in where none is named: who compares asks about a scenario."""
    if is_against(context) and context.params.get("scenario", "") is None:
        context.params["scenario"] = "tollgate"


def kept(answer: Answer) -> bool:
    """Keep an answer about another airplane in the place of printing it, and return whether it was."""
    held = click.get_current_context().meta.get(HELD)
    if held is None:
        return False
    held.append(answer)
    return True


def kept_drawing(answer: object) -> bool:
    """Keep an answer about another airplane that a figure would show, and return whether it was."""
    meta = click.get_current_context().meta
    if HELD not in meta:
        return False
    meta[DRAWN] = answer
    return True
