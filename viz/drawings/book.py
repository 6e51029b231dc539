"""The builder's book: what to buy, to cut and to do for the whole display, as one PDF."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from sim.display.assembly.order import steps
from sim.display.inert import CHECKLIST
from sim.units.convert import mm
from sim.units.quantities import caution
from viz.drawings import wiring
from viz.drawings.arrangement import angle, section_view, three_views
from viz.drawings.build_steps import TEXTS
from viz.drawings.drawing import DrawnExhibit
from viz.drawings.exploded import exploded
from viz.drawings.flat_parts import cut_parts, shop_length
from viz.drawings.items import buying_list, items, numbers
from viz.drawings.placards import placards
from viz.drawings.scale_line import scale_line
from viz.drawings.tables import cam_table, hole_table
from viz.drawings.turned_parts import TURNED, shape_text, to_turn
from viz.drawings.view import ratio
from viz.drawings.views import cam_view, plate_view
from viz.files.typst import pdf, string, text
from viz.sheets.blocks import Caution, Points, Value, rows, say
from viz.sheets.complete import complete
from viz.sheets.exhibit import checks
from viz.sheets.typst import LOOK, Pages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.drawings.view import View
    from viz.sheets.blocks import Cell

    Page = Callable[["Exhibit", "Assembly", Pages], Iterator[str]]

A3_MM = 262.0, 345.0
"""What an A3 page leaves for a view under its title. [mm]"""
PLATE_MM = 112.0, 226.0
"""What a part beside its table of holes may take. [mm]"""
STEP_MM = (178.0, 185.0)
"""What the picture of a step may take. [mm]"""
MEASURED = "All dimensions in millimetres; screws by their standard"
"""In the title block."""
TESTS = (
    "Turn the shafts by hand through a whole turn at lead 0 and at full lead: nothing touches.",
    "Measure each opening and each gap of the guard: none beyond the limits of the checks.",
    "Pull the grip with a spring balance: it slips at the force of the checks or below.",
    "Turn as fast as can be for one minute: speed below its limit, at most three flashes in 1 s.",
    "Push with 100 N at the top in the worst direction: no leg lifts; clamps tight.",
    "At lead 0 and at full lead the lamp comes on and goes out where the page of the cam says.",
    "Turn the propeller by hand with the lamp's plug out: the roller never leaves the cam.",
)
"""Common practice, no source."""


def book(exhibit: Exhibit) -> bytes:
    """Return the book as a PDF file, the same bytes every time.

    Raises
    ------
    AssertionError
        For a display without an assembly, which has a failed check, so that nothing is written of it.
    """
    assembly = exhibit.assembly
    assert assembly is not None
    pages = Pages("si")
    look = files("viz.drawings").joinpath("book.typ").read_text(encoding="utf-8")
    said = f"{caution('inert')} {caution('estimate')} {caution('guard')}"
    head = f"#let footer-caution = {string(said)}\n#let page-units = {string(MEASURED)}\n{scale_line()}"
    markup = (each for page in PAGES for each in page(exhibit, assembly, pages))
    return pdf("\n\n".join([LOOK, head, look, *markup]), pages.files)


def _arrangement(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield '#set page(paper: "a3")'
    yield "= General arrangement"
    view = three_views(assembly, A3_MM)
    yield text(f"{angle(assembly)} Scale {ratio(view.scale)}. Clear panels are drawn thin.")
    yield _placed(pages, "arrangement", view)
    yield "= Section A-A"
    cut = section_view(assembly, A3_MM)
    yield text(f"By the plane of the shafts, seen from the left, visitors at the right. Scale {ratio(cut.scale)}.")
    yield _placed(pages, "section", cut)
    yield '#set page(paper: "a4")'


def _parts(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Parts list"
    every = items(assembly)
    lines = (
        (
            str(one.number),
            str(one.quantity),
            one.name,
            one.material,
            "; ".join(filter(None, (one.standard, one.fit))),
            Value("mass_kg", one.mass_kg, decimals=4, bare=True),
        )
        for one in every
    )
    mass = Value("mass_kg", assembly.mass_kg, decimals=1)
    heads = ["item", "number", "part", "material", "standard and fit", "mass, kg"]
    yield pages.markup([rows("Item numbers are those of the pictures", heads, lines)])
    yield pages.markup([rows("Together", ["mass"], [(mass,)])])


def _buying(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Buying list"
    wanted = ((str(number), standard) for standard, number in (*buying_list(assembly), *wiring.BOUGHT))
    yield pages.markup([rows("Bought ready", ["number", "designation"], wanted)])
    stock: list[tuple[Cell, ...]] = [
        (one.file, str(one.quantity), one.part.material, _size(one.thickness_mm), *map(_size, _sides(one.drawing.box)))
        for one in cut_parts(exhibit)
    ]
    heads = ["file", "number", "material", "thickness", "width", "height"]
    yield pages.markup([rows("To cut from plate, board or sheet", heads, stock)])


def _cam(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Cam"
    cuts = cut_parts(exhibit)
    cam = next(one for one in cuts if one.part.name == "cam")
    view = cam_view(DrawnExhibit(exhibit, (cam.flat,), (cam.drawing,)), (178.0, 120.0))
    yield _placed(pages, "cam", view)
    cutter = Value("cutter_radius_m", exhibit.display.cam.cutter_radius_m, nominal=True)
    said = "Scale {scale}. Dashed: centre of a cutter of {cutter} radius. Chain line: base circle."
    yield pages.markup([say(said, scale=ratio(view.scale), cutter=cutter), cam_table(exhibit), hole_table(cam.flat)])


def _plates(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    """Yield a page for each flat part but the cam: its drawing, and its holes where it has any."""
    for one in cut_parts(exhibit):
        if one.part.name == "cam":
            continue
        view = plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, PLATE_MM)
        yield f"= {text(one.part.name.capitalize())}"
        fit = f"; {one.part.fit}" if one.part.fit else ""
        thickness = shop_length(one.flat.thickness_m)
        yield text(f"{one.quantity} of {one.part.material}, {thickness}{fit}. Scale {ratio(view.scale)}.")
        table = pages.markup([hole_table(one.flat)]) if one.flat.holes else text("No holes.")
        placed = _placed(pages, f"plate-{one.file}", view)
        yield f"#grid(columns: ({PLATE_MM[0]}mm, 1fr), column-gutter: 6mm, [{placed}], [{table}])"


def _turned(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Parts to turn and to print"
    lines = ((str(number), each.name, each.material, shape_text(each), each.fit) for number, each in to_turn(assembly))
    yield pages.markup([rows(TURNED, ["item", "part", "material", "from the rear", "fit"], lines)])


def _sides(box: tuple[float, float, float, float]) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _size(length_mm: float) -> Value:
    return Value("drawn_m", length_mm / mm(1.0), decimals=1, bare=True)


def _steps(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    numbered = numbers(assembly)
    for number, (step, taken) in enumerate(steps(assembly), start=1):
        yield f"= {text(f'Step {number}: {step.title}')}"
        yield text(TEXTS[step.title])
        view = exploded(taken, numbered, STEP_MM, f"Exploded view of step {number}: {step.title}.")
        yield _placed(pages, f"step-{number}", view)
        yield text("Exploded view, not to scale.")


def _wiring(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Wiring"
    lamp = exhibit.display.lamp
    yield _placed(pages, "wiring", wiring.wiring(assembly, lamp.lamp_v, lamp.supply))
    yield "\n".join(f"+ {text(note)}" for note in wiring.NOTES)


def _tests(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Test and inspection"
    yield pages.markup([checks(exhibit)])
    yield "== To test on the finished display"
    lines = "\n".join(f"- {text(line)}" for line in (*TESTS, *CHECKLIST))
    yield f"#[#set list(marker: [☐])\n{lines}\n]\n#v(10mm)\n#sign-off"


def _cautions(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Cautions"
    holes = (hole_table(one.flat) for one in cut_parts(exhibit) if one.flat.holes)
    said = [
        block.text for block in complete((cam_table(exhibit), checks(exhibit), *holes)) if isinstance(block, Caution)
    ]
    yield pages.markup([Points(tuple(said))])


def _placards(exhibit: Exhibit, _: Assembly, __: Pages) -> Iterator[str]:
    yield "= Placard for visitors"
    for words, paragraphs in placards(exhibit):
        body = "\n\n".join(map(text, paragraphs))
        yield f"#placard({string(words.language)}, {string(words.title)})[\n{body}\n]"


def _placed(pages: Pages, name: str, view: View) -> str:
    """Return the markup of a view at its own size, and keep its SVG."""
    from viz.drawings.svg import view_svg

    pages.files[f"{name}.svg"] = view_svg(view)
    wide, high = (f"{side:.4f}" for side in view.size)
    return f"#view({string(name + '.svg')}, {wide}, {high}, {string(view.description)})"


PAGES: tuple[Page, ...] = (
    _cautions,
    _arrangement,
    _parts,
    _buying,
    _cam,
    _plates,
    _turned,
    _steps,
    _wiring,
    _tests,
    _placards,
)
