"""``--seed``: the one name and the one type of the seed of random numbers, wherever some are drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Amount

if TYPE_CHECKING:
    from collections.abc import Callable

MOST = 2.0**53
"""Whole numbers up to it are exact."""


class Whole(Amount):
    """A whole number of at least 0."""

    def __init__(self) -> None:
        def allowed() -> Any:  # noqa: ANN401
            from sim.units.parsing import Allowed

            return Allowed("1", least=0.0, most=MOST, example="1")

        super().__init__(allowed)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:  # noqa: ANN401
        """Return the number; note what is wrong with it for `Command` to report."""
        found = super().convert(value, param, ctx)
        if isinstance(found, float) and found.is_integer():
            return int(found)
        if isinstance(found, float) and found == found and ctx is not None:
            from sim.errors import whole_faults

            ctx.meta.setdefault("faults", []).extend(whole_faults({param.opts[0] if param else "": found}))
        return 0


def seed_option(of: str, **more: Any) -> Callable[..., Any]:  # noqa: ANN401
    """Return what adds ``--seed``; `of` says what is drawn, ``the draws of --bands``, `more` is of `click.option`."""
    return click.option(
        "--seed", type=Whole(), default="1", show_default=True, metavar="NUMBER", help=f"Seed of {of}.", **more
    )
