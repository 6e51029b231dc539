"""The builder's book: what to buy, to cut and to do for the whole display, as one PDF."""

from __future__ import annotations

from functools import partial
from hashlib import sha256
from importlib.resources import files
from typing import TYPE_CHECKING

from sim.display.assembly.order import steps
from sim.display.inert import checklist
from sim.units.quantities import caution
from viz.drawings import preparation, timer, wiring
from viz.drawings.arrangement import angle, three_views
from viz.drawings.book_lists import buying, parts_list
from viz.drawings.bought_sheets import bought_parts
from viz.drawings.box_view import BOX_ROOM_MM, box_view
from viz.drawings.build_steps import slip, step_text
from viz.drawings.exploded import exploded, from_behind, sight
from viz.drawings.flat_parts import cut_parts
from viz.drawings.gaps import inner_gaps, outer_gaps
from viz.drawings.groups import grouped, mates
from viz.drawings.items import numbers, taken_items
from viz.drawings.lengths import units_of
from viz.drawings.part_sheets import cam, plates
from viz.drawings.placards import placards
from viz.drawings.projection import symbol
from viz.drawings.scale_line import scale_line
from viz.drawings.section_view import HOW_READ, section_view
from viz.drawings.sheet_markup import placed, scale_of
from viz.drawings.svg import view_svg
from viz.drawings.tables import cam_table, hole_table
from viz.drawings.templates import templates
from viz.drawings.turned_sheets import turned
from viz.drawings.use import DAILY, FIRST, HUNG, faults, handling, setting, timing_table, trials
from viz.drawings.view import fitted, ratio
from viz.drawings.ways import ways
from viz.drawings.wire_runs import RUNS_MM, rear_view, said
from viz.files.typst import pdf, string, text
from viz.sheets.blocks import Caution, Points
from viz.sheets.complete import complete
from viz.sheets.exhibit import checks
from viz.sheets.typst import Pages
from viz.sheets.typst import look as sheet_look

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.studies.exhibit import Exhibit

    Page = Callable[["Exhibit", "Assembly", Pages], Iterator[str]]

A3_MM = 262.0, 345.0
"""What an A3 page leaves for a view under its title. [mm]"""
EXPLODED_MM = 178.0, 215.0
"""What the exploded view of a group may take. [mm]"""
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
    return pdf("\n\n".join([sheet_look(), head, scale_line(), look, markup]), pages.files)


def revision(markup: str, drawn: Mapping[str, str]) -> str:
    """Return the mark of a revision, eight digits of all that is said and drawn: a change shows without a date."""
    whole = "\n".join((markup, *(f"{name}\n{drawn[name]}" for name in sorted(drawn))))
    return sha256(whole.encode()).hexdigest()[:8]


def _arrangement(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield '#set page(paper: "a3")'
    yield "= General arrangement"
    view = three_views(assembly, A3_MM)
    yield text(f"{angle(assembly)} Scale {ratio(view.scale)}. Clear panels are drawn thin.")
    yield scale_of(ratio(view.scale))
    yield placed(pages, "arrangement", view)
    yield "= Section A-A"
    cut = section_view(assembly, A3_MM)
    yield text(f"{HOW_READ} Scale {ratio(cut.scale)}.")
    yield scale_of(ratio(cut.scale))
    yield placed(pages, "section", cut)
    yield '#set page(paper: "a4")'


def _exploded(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    put_on = ways(assembly)
    for number, (group, parts) in enumerate(grouped(assembly).items(), start=1):
        yield f"= {text(f'Exploded view: {group.lower()}')}"
        yield text("Apart along the axes on which they go together. Item numbers are those of the parts list.")
        what, pale = f"Exploded view of {group.lower()}.", mates(parts, assembly)
        behind = from_behind(parts, put_on)
        view = exploded(parts, numbers(assembly), EXPLODED_MM, what, put_on=put_on, mates=pale, behind=behind)
        yield placed(pages, f"exploded-{number}", view)
        under = f" Pale, of other pictures: {', '.join(dict.fromkeys(one.name for one in pale))}." if pale else ""
        yield text(f"{sight(behind=behind)}, not to scale.{under}")


def _steps(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    standing: list[Part | Fastener] = []
    put_on = ways(assembly)
    for number, (step, taken) in enumerate(steps(assembly), start=1):
        yield f"= {text(f'Step {number}: {step.title}')}"
        yield text(step_text(step.title, exhibit, assembly, pages.units))
        yield text(f"It takes {taken_items(taken, assembly)}.")
        behind = from_behind(taken, put_on)
        what = f"Step {number}, {step.title}, with what stands already in pale lines."
        view = exploded(taken, numbers(assembly), STEP_MM, what, put_on=put_on, standing=standing, behind=behind)
        yield placed(pages, f"step-{number}", view)
        pale = " Pale: what stands already, without its screws." if standing else ""
        yield text(f"{sight(behind=behind)}, not to scale.{pale}")
        if any(one.name == "backboard" for one in taken):
            rear = fitted(partial(rear_view, assembly), RUNS_MM)
            yield _kept_whole(f"{said()} Scale {ratio(rear.scale)}.", placed(pages, "wire-runs", rear))
        standing += taken


def _kept_whole(words: str, picture: str) -> str:
    """Return words above a picture, on one page."""
    return f"#block(breakable: false)[\n{text(words)}\n\n{picture}\n]"


def _wiring(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Wiring"
    lamp = exhibit.display.lamp
    yield placed(pages, "wiring", wiring.wiring(assembly, lamp.lamp_v, lamp.supply))
    yield "\n".join(f"+ {text(note)}" for note in wiring.NOTES)
    inside = fitted(partial(box_view, assembly), BOX_ROOM_MM)
    yield _kept_whole(f"{wiring.INSIDE} Scale {ratio(inside.scale)}.", placed(pages, "box-inside", inside))
    yield pages.markup([timer.program(), timer.blocks(), wiring.joined()])


def _set(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    yield "= To set before the covers are on"
    yield "\n".join(f"+ {text(line)}" for line in setting(exhibit, assembly, pages.units))


def _kept(_: Exhibit, __: Assembly, pages: Pages) -> Iterator[str]:
    yield "= Faults, and care"
    yield pages.markup([faults()])
    yield "\n".join(f"- {text(line)}" for line in DAILY)


def _tests(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    units = units_of(assembly.hardware)
    yield "= Checks of the design"
    yield pages.markup([checks(exhibit)])
    first, last = trials(exhibit, units)
    yield "= To test before the backboard is on"
    yield pages.markup([timing_table(exhibit), inner_gaps(exhibit, assembly)])
    yield _boxes((slip(exhibit, units), *first))
    yield "= To test on the finished display"
    yield pages.markup([outer_gaps(exhibit, assembly)])
    yield f"{_boxes((*last, *checklist(exhibit.display)))}\n#v(10mm)\n#sign-off"


def _boxes(lines: Iterable[str]) -> str:
    """Return lines with a box to tick before each."""
    return "#[#set list(marker: [☐])\n" + "\n".join(f"- {text(line)}" for line in lines) + "\n]"


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


PAGES: tuple[Page, ...] = (
    _first,
    _cautions,
    _arrangement,
    _exploded,
    parts_list,
    buying,
    cam,
    plates,
    turned,
    bought_parts,
    preparation.pages,
    _steps,
    _wiring,
    _set,
    _tests,
    _kept,
    _placards,
    templates,
)
