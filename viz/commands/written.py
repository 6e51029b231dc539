"""Files that a command is asked to read or to write: their names are tried before any work is done for them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault


NO_NAME = "cannot be the name of a file: it holds a letter that no name may"


class Named(click.Path):
    """A file or a folder that is there or will be; a name that none may have is noted for `Command` to report."""

    def convert(
        self,
        value: Any,  # noqa: ANN401
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> Any:  # noqa: ANN401
        """Return the name."""
        if ctx is None or "\0" not in str(value):
            return super().convert(value, param, ctx)
        from sim.errors import Fault

        ctx.meta.setdefault("faults", []).append(Fault(param.opts[0] if param else "", NO_NAME))
        return value


class Written(click.Path):
    """A file to be written, whose name ends in one of the endings, or in anything where none is given."""

    def __init__(self, *endings: str) -> None:
        super().__init__(dir_okay=False)
        self.endings = endings

    def convert(
        self,
        value: Any,  # noqa: ANN401
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> Any:  # noqa: ANN401
        """Return the name; one that no file may have is left for `output_faults` to tell."""
        return value if "\0" in str(value) else super().convert(value, param, ctx)

    def faults(self, where: str, path: str, *, force: bool) -> Iterator[Fault]:
        """Yield what keeps a file from being written."""
        from sim.errors import Fault
        from viz.files.atomic import write_faults

        if self.endings and Path(path).suffix.lower() not in self.endings:
            yield Fault(where, f'must end in {" or ".join(self.endings)}, got "{path}"')
        else:
            yield from write_faults(where, path, force=force)


FIGURE = Written(".svg", ".png", ".pdf")


def output_faults(context: click.Context) -> Iterator[Fault]:
    """Yield what keeps the files that a command was asked for from being written."""
    force = bool(context.params.get("force"))
    for param in context.command.params:
        given = context.params.get(param.name or "") if isinstance(param.type, Written) else None
        where = param.opts[0] if isinstance(param, click.Option) else param.human_readable_name
        for path in given if isinstance(given, tuple) else (given,):
            if path and isinstance(param.type, Written):
                yield from param.type.faults(where, path, force=force)
