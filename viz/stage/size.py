"""The size of a window or picture, as a person writes it: 1280x720."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from viz.stage.shapes import Point


def _turned(size: str) -> str:
    return "x".join(reversed(size.split("x")))


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
        from viz.stage.layout import LEAST, LEAST_PICTURE, MOST, fits

        match = re.fullmatch(r"\s*(\d{1,5})\s*[x×]\s*(\d{1,5})\s*", value)
        size = (int(match[1]), int(match[2])) if match else (0, 0)
        if fits(*size, LEAST_PICTURE):
            return size
        least, most = ("x".join(map(str, sides)) for sides in (LEAST_PICTURE, MOST))
        allowed = f"must be {least} to {most} pixels, or upright {_turned(least)} to {_turned(most)}"
        from sim.errors import Fault

        fault = Fault(param.opts[0] if param else "", f'{allowed}, got "{value}"')
        if ctx is not None:
            ctx.meta.setdefault("faults", []).append(fault)
        return LEAST
