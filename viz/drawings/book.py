"""The builder's book: what to buy, to cut and to do for the whole display, as one PDF."""

from __future__ import annotations

from functools import partial
from hashlib import sha256
from importlib.resources import files
from typing import TYPE_CHECKING

from sim.display.assembly.order import steps
from sim.display.inert import CHECKLIST
from sim.display.lamp_error import CUTTING_M
from sim.units.convert import mm
from sim.units.quantities import caution
from viz.drawings import preparation, wiring
from viz.drawings.arrangement import angle, three_views
from viz.drawings.book_lists import buying, parts_list
from viz.drawings.build_steps import slip, step_text
from viz.drawings.drawing import DrawnExhibit
from viz.drawings.exploded import exploded, from_behind, sight
from viz.drawings.flat_parts import cut_parts, seen
from viz.drawings.groups import grouped
from viz.drawings.items import key, numbers, taken_items
from viz.drawings.lengths import shop_length, units_of
from viz.drawings.outline_table import cam_radius_table, outline_tables, scribe_table
from viz.drawings.placards import placards
from viz.drawings.preparation import tolerance
from viz.drawings.projection import symbol
from viz.drawings.scale_line import scale_line
from viz.drawings.section_view import HOW_READ, section_view
from viz.drawings.svg import view_svg
from viz.drawings.tables import cam_table, hole_table, limited
from viz.drawings.templates import templates
from viz.drawings.turned_parts import PRINTED, block_table, flat, limit_table, printed_text, to_print, to_turn
from viz.drawings.turned_view import classes, is_round, turned_view, widest_mm
from viz.drawings.use import DAILY, FIRST, HUNG, faults, gap_table, handling, setting, timing_table, trials
from viz.drawings.view import ratio
from viz.drawings.views import cam_view, plate_view
from viz.files.typst import pdf, string, text
from viz.sheets.blocks import Caution, Points, Value, rows, say
from viz.sheets.complete import complete
from viz.sheets.exhibit import checks
from viz.sheets.typst import LOOK, Pages

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.studies.exhibit import Exhibit
    from viz.drawings.view import View

    Page = Callable[["Exhibit", "Assembly", Pages], Iterator[str]]

A3_MM = 262.0, 345.0
"""What an A3 page leaves for a view under its title. [mm]"""
EXPLODED_MM = 178.0, 215.0
"""What the exploded view of a group may take. [mm]"""
PLATE_MM = 112.0, 226.0
"""What a part beside its table of holes may take. [mm]"""
WHOLE_MM = 178.0, 205.0
"""What a part above its table of holes may take, where it is drawn larger so. [mm]"""
LEAST_TURNED = 0.5
"""Scale below which a turned part takes the whole width of the page."""
TURNED_MM = 84.0, 70.0
"""What a turned part may take. [mm]"""
TURNED = (
    "Cross holes are drilled on the bench: each hub on its shaft at its place from the drawing, both in a V-block, "
    "from both sides with a drill long enough; mark hub and shaft. The angle below a drawing is that of the hole, "
    "anticlockwise from the horizontal at the right, as seen from the front, where blade 1 lies at the right. So the "
    "holes of one shaft stand at their angles to each other."
)
STEP_MM = (178.0, 172.0)
"""What the picture of a step may take. [mm]"""
MEASURED = {"si": "millimetres, kilograms", "us": "inches, pounds"}
"""In the title block."""


def book(exhibit: Exhibit, stock_m: tuple[float, float] = (1.22, 1.22)) -> bytes:
    """Return the book as a PDF file, the same bytes every time; its parts are laid out on stock of a size [m].

    Raises
    ------
    AssertionError
        For a display without an assembly, which has a failed check, so that nothing is written of it.
    """
    assembly = exhibit.assembly
    assert assembly is not None
    pages = Pages(units_of(assembly.hardware))
    look = files("viz.drawings").joinpath("book.typ").read_text(encoding="utf-8")
    said = f"{caution('inert')} {caution('estimate')} {caution('guard')}"
    marked = symbol("third-angle" if assembly.hardware == "inch" else "first-angle")
    pages.files["projection.svg"] = view_svg(marked)
    every = (partial(buying, stock_m=stock_m) if page is buying else page for page in PAGES)
    markup = "\n\n".join(each for page in every for each in page(exhibit, assembly, pages))
    defined = {
        "footer-caution": string(said),
        "page-units": string(MEASURED[pages.units]),
        "projection-size": "({:.4f}, {:.4f})".format(*marked.size),
        "projection-words": string(marked.description),
        "revision": string(revision(markup, pages.files)),
    }
    head = "\n".join(f"#let {name} = {value}" for name, value in defined.items())
    return pdf("\n\n".join([LOOK, head, scale_line(), look, markup]), pages.files)


def revision(markup: str, drawn: Mapping[str, str]) -> str:
    """Return the mark of a revision, eight digits of all that is said and drawn: a change shows without a date."""
    whole = "\n".join((markup, *(f"{name}\n{drawn[name]}" for name in sorted(drawn))))
    return sha256(whole.encode()).hexdigest()[:8]


def _arrangement(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield '#set page(paper: "a3")'
    yield "= General arrangement"
    view = three_views(assembly, A3_MM)
    yield text(f"{angle(assembly)} Scale {ratio(view.scale)}. Clear panels are drawn thin.")
    yield _scale(view)
    yield _placed(pages, "arrangement", view)
    yield "= Section A-A"
    cut = section_view(assembly, A3_MM)
    yield text(f"{HOW_READ} Scale {ratio(cut.scale)}.")
    yield _scale(cut)
    yield _placed(pages, "section", cut)
    yield '#set page(paper: "a4")'


def _exploded(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    for number, (group, parts) in enumerate(grouped(assembly).items(), start=1):
        yield f"= {text(f'Exploded view: {group.lower()}')}"
        yield text("Apart along the axes on which they go together. Item numbers are those of the parts list.")
        view = exploded(parts, numbers(assembly), EXPLODED_MM, f"Exploded view of {group.lower()}.")
        yield _placed(pages, f"exploded-{number}", view)
        yield text(f"{sight(behind=False)}, not to scale.")


def _cam(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Cam"
    cam = next(one for one in cut_parts(exhibit) if one.part.name == "cam")
    view = cam_view(DrawnExhibit(exhibit, (cam.flat,), (cam.drawing,)), (178.0, 120.0))
    made = f"1 of {cam.part.material}, {shop_length(cam.flat.thickness_m, pages.units)}, engraved face in front"
    edge = shop_length(CUTTING_M, pages.units)
    true = tolerance(cam.part.material, pages.units)
    yield text(f"{made}. Edge of the track within {edge}, smooth, not broken. {true}")
    yield _scale(view)
    yield _placed(pages, "cam", view)
    cutter = Value("cutter_radius_m", exhibit.display.cam.cutter_radius_m, nominal=True)
    said = "Scale {scale}. Dashed: centre of a cutter of {cutter} radius. Chain line: base circle."
    yield pages.markup(
        [say(said, scale=ratio(view.scale), cutter=cutter), cam_table(exhibit), hole_table(cam.flat, pages.units)]
    )
    yield "= Cam, in numbers"
    yield pages.markup([scribe_table(cam.drawing, pages.units), cam_radius_table(cam.drawing, pages.units)])


def _plates(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    """Yield a page for each flat part but the cam: its drawing, and its holes where it has any."""
    for one in cut_parts(exhibit):
        if one.part.name == "cam":
            continue
        view = plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, PLATE_MM, WHOLE_MM)
        yield f"= {text(one.part.name.capitalize())}"
        fit = f"; {one.part.fit}" if one.part.fit else ""
        if is_round(one.part.slabs[0].outline_m) and classes(one.part)[0]:
            fit += f"; outside {limited(classes(one.part)[0], widest_mm(one.part) / mm(1.0), pages.units)}"
        made = f"{one.quantity} of {one.part.material}, {shop_length(one.flat.thickness_m, pages.units)}{fit}"
        yield text(f"{made}. Scale {ratio(view.scale)}. {tolerance(one.part.material, pages.units)}")
        yield f"{text(seen(one.part))} {_scale(view)}"
        holed = one.flat.holes or one.flat.cut_slots
        table = pages.markup([hole_table(one.flat, pages.units)]) if holed else text("No holes.")
        placed = _placed(pages, f"plate-{one.file}", view)
        columns = f"{PLATE_MM[0]}mm, 1fr" if view.size[0] <= PLATE_MM[0] else "1fr"
        yield f"#grid(columns: ({columns},), column-gutter: 6mm, row-gutter: 4mm, [{placed}], [{table}])"
        cutouts = one.drawing.openings[len(one.flat.cut_slots) :]
        told = outline_tables(one.drawing, cutouts, pages.units)
        yield pages.markup([*told, *([scribe_table(one.drawing, pages.units)] if one.drawing.scribes else [])])


def _turned(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Parts to turn and to print"
    yield text(f"Side views, the rear end at the left. {tolerance('steel', pages.units)} {TURNED}")
    narrow: list[str] = []
    wide: list[str] = []
    for number, part in to_turn(assembly):
        view = turned_view(part, assembly, TURNED_MM)
        cells = narrow if view.scale >= LEAST_TURNED else wide
        view = view if cells is narrow else turned_view(part, assembly, (2.0 * TURNED_MM[0], TURNED_MM[1]))
        count = sum(key(each) == key(part) for each in assembly.parts)
        fit = f", {part.fit}" if part.fit else ""
        head = text(f"Item {number}: {part.name}, {count} of {part.material}{fit}. Scale {ratio(view.scale)}.")
        cells.append(f"turned([{head}], [{_placed(pages, f'turned-{number}', view)}])")
    for columns, cells in (("1fr", wide), ("1fr, 1fr", narrow)):
        yield f"#grid(columns: ({columns},), gutter: 3mm, {', '.join(cells)})"
    yield pages.markup([limit_table(assembly, pages.units)])
    yield "== Parts to print"
    lines = (
        (str(number), each.name, each.material, each.fit, printed_text(each, pages.units))
        for number, each in to_print(assembly)
    )
    yield pages.markup([rows(PRINTED, ["item", "part", "material", "fit", "file and size"], lines)])
    yield pages.markup([block_table(number, each, assembly) for number, each in to_print(assembly) if not flat(each)])


def _scale(view: View) -> str:
    """Return the markup that says the scale in the title block."""
    return f"#scale-of({string(ratio(view.scale))})"


def _steps(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    standing: list[Part | Fastener] = []
    for number, (step, taken) in enumerate(steps(assembly), start=1):
        yield f"= {text(f'Step {number}: {step.title}')}"
        yield text(step_text(step.title, exhibit, assembly, pages.units))
        yield text(f"It takes {taken_items(taken, assembly)}.")
        behind = from_behind(taken, standing)
        what = f"Step {number}, {step.title}, with what stands already in pale lines."
        view = exploded(taken, numbers(assembly), STEP_MM, what, standing=standing, behind=behind)
        yield _placed(pages, f"step-{number}", view)
        pale = " Pale: what stands already, without its screws." if standing else ""
        yield text(f"{sight(behind=behind)}, not to scale.{pale}")
        standing += taken


def _wiring(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Wiring"
    lamp = exhibit.display.lamp
    yield _placed(pages, "wiring", wiring.wiring(assembly, lamp.lamp_v, lamp.supply))
    yield "\n".join(f"+ {text(note)}" for note in wiring.NOTES)
    yield pages.markup([wiring.program(), wiring.joined()])


def _set(exhibit: Exhibit, _: Assembly, pages: Pages) -> Iterator[str]:
    yield "= To set before the covers are on"
    yield "\n".join(f"+ {text(line)}" for line in setting(exhibit, pages.units))


def _kept(_: Exhibit, __: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Faults, and care"
    yield pages.markup([faults()])
    yield "\n".join(f"- {text(line)}" for line in DAILY)


def _tests(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    units = units_of(assembly.hardware)
    yield "= Checks of the design"
    yield pages.markup([checks(exhibit)])
    yield "= To test on the finished display"
    yield pages.markup([timing_table(exhibit), gap_table(exhibit, assembly)])
    lines = "\n".join(f"- {text(line)}" for line in (slip(exhibit, units), *trials(exhibit, units), *CHECKLIST))
    yield f"#[#set list(marker: [☐])\n{lines}\n]\n#v(10mm)\n#sign-off"


def _first(_: Exhibit, __: Assembly, ___: Pages) -> Iterator[str]:
    yield "= Read this first"
    yield "\n".join(f"- {text(line)}" for line in FIRST)
    yield "#v(3mm)\n#columns(2, outline(depth: 1, title: none))"


def _cautions(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Cautions"
    holes = (hole_table(one.flat, pages.units) for one in cut_parts(exhibit) if one.flat.holes)
    said = [
        block.text for block in complete((cam_table(exhibit), checks(exhibit), *holes)) if isinstance(block, Caution)
    ]
    yield pages.markup([Points((*handling(assembly, pages.units), *said))])


def _placards(exhibit: Exhibit, _: Assembly, __: Pages) -> Iterator[str]:
    yield "= Placard for visitors"
    yield text(HUNG)
    for code, title, paragraphs in placards(exhibit):
        body = "\n\n".join(map(text, paragraphs))
        yield f"#placard({string(code)}, {string(title)})[\n{body}\n]"


def _placed(pages: Pages, name: str, view: View) -> str:
    """Return the markup of a view at its own size, and keep its SVG."""
    pages.files[f"{name}.svg"] = view_svg(view)
    wide, high = (f"{side:.4f}" for side in view.size)
    return f"#view({string(name + '.svg')}, {wide}, {high}, {string(view.description)})"


PAGES: tuple[Page, ...] = (
    _first,
    _cautions,
    _arrangement,
    _exploded,
    parts_list,
    buying,
    _cam,
    _plates,
    _turned,
    preparation.pages,
    _steps,
    _wiring,
    _set,
    _tests,
    _kept,
    _placards,
    templates,
)
