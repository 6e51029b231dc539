"""Pages of the builder's book that list: the parts, and what is bought."""

from __future__ import annotations

from collections import Counter
from math import ceil
from typing import TYPE_CHECKING

from sim.display.assembly.stock import stock
from sim.display.assembly.wiring_box import GLAND_M
from sim.units.convert import mm
from viz.drawings import sundries
from viz.drawings.bench import pin_tools
from viz.drawings.bores import circle_of
from viz.drawings.flat_parts import cut_parts
from viz.drawings.gaps import checked
from viz.drawings.items import bought_for, buying_list, called, items, key, numbers
from viz.drawings.lengths import dimension, dimension_text, shop_length, units_of
from viz.drawings.raw_stock import bar_table, block_table, made_from, soft_table
from viz.drawings.stock_sheets import grade_table, sheet_table, stock_sheets
from viz.files.typst import text
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.drawings.items import Item
    from viz.sheets.blocks import Cell
    from viz.sheets.format import Units
    from viz.sheets.typst import Pages

BALANCE_N = 5.0
"""Spring balances are sold in steps of this. [N]"""
DRILLED_M = 0.0165
"""Holes narrower than this are drilled. [m]"""
REAMED_M = 0.0002
"""What the reamer of the shafts' holes takes off their diameter: common practice, no source. [m]"""
BOUGHT = "Bought ready; washers and nuts are of the items that their screws are, – is for the wiring and the workshop"
MASS = {"si": "kg", "us": "lb"}


def parts_list(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the list of all parts and screws, with their masses."""
    yield "= Parts list"
    every = items(assembly)
    plain = Counter(one.name for one in every if not one.standard)
    lines = (
        (
            str(one.number),
            str(one.quantity),
            one.name,
            one.material,
            "; ".join(filter(None, (one.standard, one.fit, *_long(one, plain, pages.units)))),
            Value("mass_kg", one.mass_kg, decimals=4, bare=True),
        )
        for one in every
    )
    mass = Value("mass_kg", assembly.mass_kg, decimals=1)
    heads = ["item", "number", "part", "material", "standard and fit", f"mass, {MASS[pages.units]}"]
    yield pages.markup([rows("Item numbers are those of the pictures", heads, lines)])
    yield pages.markup([rows("Together", ["mass"], [(mass,)])])


def _long(one: Item, plain: Mapping[str, int], units: Units) -> Iterator[str]:
    """Yield the length of a made part that shares its name with another, by which they are told apart."""
    if plain[one.name] > 1:
        yield f"{shop_length(one.long_m, units)} long"


def buying(
    exhibit: Exhibit, assembly: Assembly, pages: Pages, *, stock_m: tuple[float, float] = (1.22, 1.22)
) -> Iterator[str]:
    """Yield what is bought ready, and the plate, board, sheet of a size and bar that the rest is cut from."""
    yield "= Buying list"
    said, of = called(assembly), bought_for(assembly)
    bought = *buying_list(assembly), *sundries.bought(exhibit, assembly)
    wanted = ((of.get(standard, "–"), str(number), said.get(standard, ""), standard) for standard, number in bought)
    yield pages.markup([rows(BOUGHT, ["item", "number", "part", "designation"], wanted)])
    found = numbers(assembly)
    stock: list[tuple[Cell, ...]] = [
        (
            str(found[key(one.part)]),
            one.file,
            str(one.quantity),
            one.part.material,
            dimension(one.thickness_mm, pages.units, fewer=1),
            *(dimension(side, pages.units, fewer=1) for side in _sides(one.drawing.box)),
            made_from(one, assembly),
        )
        for one in cut_parts(exhibit)
    ]
    heads = ["item", "file", "number", "material", "thickness", "width", "height", "made from"]
    yield pages.markup([rows("To cut from plate, board or sheet", heads, stock)])
    sheets = stock_sheets(cut_parts(exhibit), (mm(stock_m[0]), mm(stock_m[1])), assembly.hardware)
    bought_as = (
        sheet_table(sheets, assembly.hardware),
        bar_table(assembly),
        soft_table(assembly),
        *block_table(assembly),
    )
    yield pages.markup([*bought_as, grade_table(assembly)])
    yield "== Tools besides saw, files and drill"
    yield "\n".join(f"- {text(line)}" for line in tools(assembly, exhibit))


def tools(assembly: Assembly, exhibit: Exhibit) -> tuple[str, ...]:
    """Return what the drawings ask for besides what every workshop has."""
    sold = stock(assembly.hardware)
    holes = [hole for one in cut_parts(exhibit) for hole in one.flat.holes]
    tapped = {each.nut.removeprefix("tapped ") for each in assembly.fasteners if each.nut.startswith("tapped")}
    taps = ", ".join(
        f"{each.name} with drill {shop_length(each.drill_m, units_of(assembly.hardware))}"
        for each in sold.threads.values()
        if each.name in tapped
    )
    units = units_of(assembly.hardware)
    planed = any("planed" in made_from(one, assembly) for one in cut_parts(exhibit))
    sizes = {round(hole.diameter_m, 6) for hole in holes if not hole.fit.startswith("H")} | {GLAND_M}
    drills = ", ".join(dict.fromkeys(dimension_text(mm(size), units) for size in sorted(sizes) if size < DRILLED_M))
    strip = shop_length(exhibit.display.cam.lift_m / 2.0, units)
    classes = sorted({hole.fit for hole in holes if hole.fit.startswith("H")})
    return (
        f"Taps, also for blind holes: {taps}.",
        f"{_reamer(assembly)}; lathe or boring head for the other classes ({', '.join(classes)}) and the turned parts.",
        pin_tools(assembly),
        (
            f"Countersink 90°; drills {drills}; end mills or files for the slots; die {sold.threads['large'].name} for "
            "the lever's post."
        ),
        (
            "Hex keys and spanners for the screws of the list, cross-recess driver, two keys that show their torque: "
            "0.1 to 1 and 1 to 6 N m (1 to 9 and 9 to 53 lbf in)."
        ),
        (
            f"Spring balance to {_balance(exhibit, units)} reading 0.05 N (0.2 ozf), force gauge to 100 N (22 lbf), "
            "caliper reading 0.02 mm (0.001 in), feelers from 0.1 to 0.5 mm (0.004 to 0.02 in), a strip of brass for "
            "the gap of the brake, which draws no magnet, digital inclinometer, stopwatch, multimeter, wire stripper "
            "and crimper, soldering iron and hot air for joints and their sleeves, "
            f"{'plane for what is glued thicker, ' if planed else ''}screw clamps, V-block, engraving point, strip of "
            f"{strip} to set the sensor, drill for the cross holes as long as the widest boss."
        ),
    )


def _reamer(assembly: Assembly) -> str:
    """Return the reamer for the bores on the shafts, and the drill before it."""
    bore_m, units = 2.0 * circle_of(assembly.part("crank shaft").slabs[0].outline_m)[1], units_of(assembly.hardware)
    bore, ahead = (dimension_text(mm(each), units) for each in (bore_m, bore_m - REAMED_M))
    return f"Reamer {bore} H7, after drill {ahead}"


def _balance(exhibit: Exhibit, units: Units) -> str:
    """Return to which force the spring balance reads that tries the lever."""
    lever_n = checked(exhibit, "lever_n")
    return text_of(Value("lever_n", ceil(1.5 * lever_n / BALANCE_N) * BALANCE_N), units)


def _sides(box: tuple[float, float, float, float]) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]
