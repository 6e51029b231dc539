"""The option type of a distance fore or aft, by its word or by its sign."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from viz.commands.options import Amount

if TYPE_CHECKING:
    import click

    from sim.errors import Fault
    from sim.units.parsing import Allowed, Measured

WAYS = ("forward", "aft")
FARTHEST_M = 3.0
"""Of an engine from where it is drawn, either way: beyond it the scenario is another airplane."""


class Shift(Amount):
    """A distance fore or aft: ``2 1/2 in forward``, or with its sign, aft positive: ``-2 1/2 in``."""

    def convert(
        self,
        value: Any,  # noqa: ANN401
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> float | Measured:
        """Return the distance in metres, aft positive."""
        words = value.rsplit(maxsplit=1) if isinstance(value, str) else []
        way = words[-1] if len(words) > 1 and words[-1] in WAYS else None
        before = len(ctx.meta.get("faults", ())) if ctx else 0
        found = super().convert(words[0] if way else value, param, ctx)
        if ctx:
            faults = ctx.meta.get("faults", [])
            faults[before:] = [_of_a_shift(fault, words, way) for fault in faults[before:]]
            if way and isinstance(found, float) and found < 0.0:
                ctx.meta.setdefault("faults", []).append(_signed(value, param))
        return -found if way == "forward" and isinstance(found, float) else found


def _signed(came: str, param: click.Parameter | None) -> Fault:
    """Return the fault of a shift with two directions, its sign and its word."""
    from sim.errors import Fault

    what = f'must have no sign before forward or aft, as in "2 1/2 in forward", got "{came}"'
    return Fault(param.opts[0] if param else "", what)


def _of_a_shift(fault: Fault, words: list[str], way: str | None) -> Fault:
    """Return the fault of a shift with the whole of what came, and the two words that may stand behind a length."""
    from dataclasses import replace

    from sim.units.registry import find

    if way:
        return replace(fault, what=fault.what.replace(f'"{words[0]}"', f'"{words[0]} {way}"'))
    if len(words) > 1 and find(words[0].split()[-1]) and not find(words[1]):
        came = " ".join(words)
        return replace(fault, what=f'must end in forward or aft, as in "2 1/2 in forward", got "{came}"')
    return fault


def shift() -> Shift:
    """Return the option type of an engine's distance from where it is drawn, aft positive [m]."""

    def allowed() -> Allowed:
        from sim.units.parsing import Allowed

        return Allowed("m", least=-FARTHEST_M, most=FARTHEST_M, example="-1 1/2 in")

    return Shift(allowed)
