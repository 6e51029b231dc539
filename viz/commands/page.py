"""``whirlgate page``: one file for a visitor's phone, and the code that leads to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, airplane_in, force
from viz.commands.written import Written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault

PAGES = (".html", ".htm")
CODE_ENDS = "-code.svg"
"""What the name of the code's file ends in, behind that of the page."""
LONGEST = 300
"""Letters of an address: a longer one makes squares too fine for a phone to read from a placard."""


def _code_path(out: str) -> str:
    return out.rsplit(".", 1)[0] + CODE_ENDS


def address_faults(qr: str) -> Iterator[Fault]:
    """Yield what keeps an address from being read by a phone."""
    from sim.errors import Fault

    if not qr.startswith(("https://", "http://")) or any(letter.isspace() for letter in qr):
        yield Fault("--qr", f'must be the address where the page will be, https://…, got "{qr}"')
    elif len(qr) > LONGEST:
        yield Fault(
            "--qr", f"must have at most {LONGEST} letters, got {len(qr)}; a shorter address is read from farther"
        )


def check(*, out: str | None, qr: str | None, force: bool, **_: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what is wrong with the options taken together, before any work is done."""
    from sim.errors import Fault
    from viz.files.atomic import write_faults

    if not out:
        yield Fault("--out", "is missing; say where to write: --out page.html")
        return
    if qr is None:
        return
    yield from address_faults(qr)
    yield from write_faults("--qr", _code_path(out), force=force)


@click.command(cls=Command, check=check)
@airplane_in
@click.option("--out", type=Written(*PAGES), metavar="FILE.html", help="Write the page, one HTML file.")
@click.option(
    "--qr", metavar="ADDRESS", help=f"Write also the code that leads to the page's address, as FILE{CODE_ENDS}."
)
@force
def command(*, scenario: str, settings: tuple[str, ...], out: str, qr: str | None, force: bool) -> None:
    """Write a page for the visitor's phone, a table or a wall: one file that works from a disk and any web server.

    Three scenes: the airplane answers sideways; what turns, what stands; bullets between the blades. Touch, mouse or
    keyboard; English, French, German by the browser's language; it asks nothing of a network.

    Example: whirlgate page --out page.html --qr https://museum.example/page.html
    """
    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.files.atomic import write_whole
    from viz.stage.sdl_environment import prepare

    prepare()
    from viz.page.page import page

    click.echo(f"wrote {write_whole(out, page(stage(model(scenario, settings))), force=force)}", err=True)
    if qr:
        from viz.page.code import code

        click.echo(f"wrote {write_whole(_code_path(out), code(qr), force=force)}", err=True)
