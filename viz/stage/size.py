"""The size of a window or picture, as a person writes it: 1280x720."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from viz.stage.shapes import Point


class Size(click.ParamType):  # type: ignore[type-arg] # generic in newer versions of click alone
    """Width and height in pixels with an x between; a wrong one is noted, so that all faults come at once."""

    name = "size"

    def convert(
        self,
        value: Any,  # noqa: ANN401
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> Point:
        """Return width and height [px]."""
        if isinstance(value, tuple):
            return value
        from viz.stage.layout import LEAST, MOST

        match = re.fullmatch(r"\s*(\d{1,5})\s*[x×]\s*(\d{1,5})\s*", value)
        size = (int(match[1]), int(match[2])) if match else (0, 0)
        if all(least <= side <= most for least, side, most in zip(LEAST, size, MOST, strict=True)):
            return size
        allowed = f"must be {LEAST[0]}x{LEAST[1]} to {MOST[0]}x{MOST[1]} pixels"
        from sim.errors import Fault

        fault = Fault(param.opts[0] if param else "", f'{allowed}, got "{value}"')
        if ctx is not None:
            ctx.meta.setdefault("faults", []).append(fault)
        return LEAST
