"""The drawing sheet of the display: A4 pages with drawings, lists, checks, placard and checklist, as one PDF."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from sim.display.inert import CHECKLIST
from sim.units.quantities import caution
from viz.drawings.assembly import assembly
from viz.drawings.parts_list import parts_list
from viz.drawings.placard import TITLE, placard
from viz.drawings.svg import view_svg
from viz.drawings.tables import cam_table, hole_table
from viz.drawings.view import CHECK, ratio
from viz.drawings.views import BASE, CAM, FOLLOWER, LEAD_PLATE, arrangement_view, cam_view, plate_view
from viz.files.typst import pdf, string, text
from viz.sheets.blocks import Caution, Points, Value, say
from viz.sheets.complete import complete
from viz.sheets.exhibit import checks
from viz.sheets.text import text_of
from viz.sheets.typst import LOOK, Pages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from viz.drawings.drawing import DrawnExhibit
    from viz.drawings.view import View

    Page = Callable[[DrawnExhibit, Pages], Iterator[str]]

WIDE_MM = 182.0
"""What the margins of an A4 page leave."""
PLATE_MM = 112.0
"""What a plate beside its table of holes takes of it."""


def sheet(made: DrawnExhibit) -> bytes:
    """Return every page as the bytes of a PDF file, the same bytes every time."""
    pages = Pages("si")
    look = files("viz.drawings").joinpath("sheet.typ").read_text(encoding="utf-8")
    cautions = f"{caution('inert')} {caution('estimate')}"
    footer = f"#let footer-caution = {string(cautions)}"
    parts = [LOOK, footer, scale_line(), look, *(markup for page in PAGES for markup in page(made, pages))]
    return pdf("\n\n".join(parts), pages.files)


def scale_line() -> str:
    """Return the markup that defines the line to check the scale of a print by."""
    drawn = files("viz.drawings").joinpath("scale_line.typ").read_text(encoding="utf-8")
    return f"#let scale-words = {string(CHECK)}\n{drawn}"


def _cam(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Cam"
    view = cam_view(made, (WIDE_MM, 155.0))
    yield _placed(pages, "cam", view)
    cutter = Value("cutter_radius_m", made.exhibit.display.cam.cutter_radius_m, nominal=True)
    key = "Scale {scale}, millimetres. Dashed: centre of a cutter of {cutter} radius. Chain line: base circle."
    yield pages.markup(
        [say(key, scale=ratio(view.scale), cutter=cutter), cam_table(made.exhibit), hole_table(made.parts[CAM])]
    )


def _lead_plate(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Lead plate"
    yield from _plate(made, pages, LEAD_PLATE, 220.0)


def _follower_and_base(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Follower and base"
    yield from _plate(made, pages, FOLLOWER, 96.0)
    yield from _plate(made, pages, BASE, 128.0)


def _plate(made: DrawnExhibit, pages: Pages, number: int, high_mm: float) -> Iterator[str]:
    """Yield a part at the left and its holes at the right."""
    part, view = made.parts[number], plate_view(made, number, (PLATE_MM, high_mm))
    drawn, table = _placed(pages, part.name, view), pages.markup([hole_table(part)])
    yield f"== {text(f'{part.name}, scale {ratio(view.scale)}')}"
    yield f"#beside({PLATE_MM}, [{drawn}], [{table}])"


def _arrangement(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Arrangement"
    view = arrangement_view(made, (WIDE_MM, 190.0))
    yield text(f"Follower down, lead plate at 0°, scale {ratio(view.scale)}.")
    yield _placed(pages, "arrangement", view)
    window = made.exhibit.display.window
    lit = say(
        "Lamp on from {start} to {end} of propeller after the middle of blade 1 has passed the bore line, {again}.",
        again="once a turn" if window.openings == 1 else f"and so {window.openings} times a turn",
        start=Value("propeller_rad", window.from_rad, decimals=1),
        end=Value("propeller_rad", window.to_rad, decimals=1),
    )
    yield pages.markup([Points((*ARRANGEMENT_NOTES, lit))])


def _parts(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Parts and assembly"
    yield pages.markup([parts_list(made)])
    yield "== Order of assembly"
    yield "\n".join(f"+ {text(text_of(step, pages.units))}" for step in assembly(made.exhibit))


def _checks(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Checks"
    yield pages.markup([checks(made.exhibit)])


def _placard(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Placard for visitors"
    paragraphs = "\n\n".join(text(text_of(paragraph, pages.units)) for paragraph in placard(made.exhibit))
    yield f"#placard({string(TITLE)})[\n{paragraphs}\n]"


def _checklist(made: DrawnExhibit, pages: Pages) -> Iterator[str]:
    yield "= Cautions and inertness checklist"
    lists = (parts_list(made), cam_table(made.exhibit))
    said = [block.text for block in complete(lists) if isinstance(block, Caution)]
    yield pages.markup([Points(tuple(said))])
    yield "== Inertness checklist: tick and sign before the display is shown"
    yield f"#checklist({', '.join(map(string, CHECKLIST))})\n#sign-off"


def _placed(pages: Pages, name: str, view: View) -> str:
    """Return the markup of a view at its own size, and keep its SVG."""
    pages.files[f"{name}.svg"] = view_svg(view)
    wide, high = (f"{side:.4f}" for side in view.size)
    return f"#view({string(name + '.svg')}, {wide}, {high}, {string(view.description)})"


PAGES: tuple[Page, ...] = (_cam, _lead_plate, _follower_and_base, _arrangement, _parts, _checks, _placard, _checklist)
ARRANGEMENT_NOTES = (
    "Seen from the visitors' side; the cam turns anticlockwise.",
    "Dashed: base. Thin: lead plate, which swings clockwise, against the cam, to show the lead.",
    "Thick: cam, roller and follower. The lamp switch is at the far end of the lead plate.",
)
