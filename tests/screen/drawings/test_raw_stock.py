"""Everything that is made has its stock: bar long and thick enough for every turned part, sheet that is sold."""

import re

import pytest
from displays import built
from shapely import Polygon

from sim.display.assembly.stock import stock
from viz.drawings.flat_parts import cut_parts
from viz.drawings.items import buying_list, called, key, numbers
from viz.drawings.raw_stock import FACED_MM, SAW_MM, SOFT, bars, glued, layers_of, made_from, soft_table
from viz.drawings.stock_sheets import grade_table, stock_sheets
from viz.drawings.turned_parts import to_print, to_turn


def test_every_part_that_is_made_has_its_stock(exhibit):
    """Cut from plate, from bar, from soft sheet or printed: none is left over, none is in two lists but flat prints."""
    assembly = exhibit.assembly
    flat = {key(part) for part in assembly.parts if part.outline_m is not None}
    bar = {number for each in bars(assembly) for number, *_ in each.pieces}
    soft = {number for number, part in to_turn(assembly) if part.material in SOFT}
    printed = {number for number, part in to_print(assembly) if key(part) not in flat}
    of = numbers(assembly)
    made = {of[key(part)] for part in assembly.parts if part.made}
    assert made == {of[each] for each in flat} | bar | soft | printed
    assert not bar & soft


def test_a_bar_is_thick_and_long_enough_for_its_parts(exhibit):
    assembly = exhibit.assembly
    parts = dict(to_turn(assembly))
    sold = [1e3 * each for each in stock(assembly.hardware).bars_m]
    for bar in bars(assembly):
        need = 0.0
        for number, long, count in bar.pieces:
            part = parts[number]
            widest = 2e3 * max(float((slab.outline_m**2).sum(axis=1).max()) ** 0.5 for slab in part.slabs)
            assert bar.name.startswith(part.material)
            ground = bar.name.endswith("h6")
            assert bar.wide_mm == pytest.approx(widest, abs=0.001) if ground else bar.wide_mm - widest >= 1.0
            assert ground or min(abs(bar.wide_mm - each) for each in sold) < 1e-6
            assert count == sum(key(each) == key(part) for each in assembly.parts)
            assert long == pytest.approx(1e3 * part.thickness_m)
            need += count * (long + SAW_MM + FACED_MM)
        assert need < bar.long_mm <= need + 100.0
        assert bar.long_mm / 50.0 == pytest.approx(round(bar.long_mm / 50.0))


def test_bar_of_an_inch_display_is_bought_in_steps_of_2_in():
    for bar in bars(built("inch")):
        assert bar.long_mm / 50.8 == pytest.approx(round(bar.long_mm / 50.8))


def test_every_flat_part_lies_on_pieces_of_a_thickness_that_is_sold(exhibit):
    """Each as often as there are of it, a glued one once a layer; the layers together are as thick as the part."""
    assembly, cuts = exhibit.assembly, cut_parts(exhibit)
    laid = stock_sheets(cuts, (1220.0, 1220.0), assembly.hardware)
    sold = stock(assembly.hardware)
    for sheet in laid:
        sizes = sold.boards_m if sheet.material == "birch plywood" else (*sold.sheets_m, *sold.plates_m)
        assert min(abs(sheet.thickness_mm - 1e3 * each) for each in sizes) < 1e-6
        assert all(side <= 1220.0 for side in sheet.size)
        whole = Polygon([(0.0, 0.0), (sheet.size[0], 0.0), sheet.size, (0.0, sheet.size[1])])
        assert all(whole.contains(Polygon(place.place(drawing.outline))) for place, drawing in sheet.on)
    for one in cuts:
        layers = [
            sheet.thickness_mm
            for sheet in laid
            for _, drawing in sheet.on
            if drawing is one.drawing and sheet.material == one.part.material
        ]
        printed = one.part.process == "printed"
        assert len(layers) == (0 if printed else one.quantity * len(layers_of(one, assembly.hardware)))
        assert printed or sum(layers) >= one.quantity * one.thickness_mm - 1e-6


def test_the_mast_is_two_boards_that_are_sold(exhibit):
    laid = stock_sheets(cut_parts(exhibit), (1220.0, 1220.0), exhibit.assembly.hardware)
    names = [(sheet.thickness_mm, drawing.name) for sheet in laid for _, drawing in sheet.on]
    assert names.count((18.0, "mast")) == 2
    assert not any(thick in (36.0, 29.0, 6.7) for thick, _ in names)


def test_a_small_part_asks_for_a_small_piece(exhibit):
    """Of a strip of 1 mm a piece of whole steps that is only as large as the flag needs."""
    laid = stock_sheets(cut_parts(exhibit), (1220.0, 1220.0), exhibit.assembly.hardware)
    (flag,) = (sheet for sheet in laid if [drawing.name for _, drawing in sheet.on] == ["flag"])
    assert max(flag.size) <= 100.0
    assert {side % 50.0 for side in flag.size} == {0.0}


@pytest.mark.parametrize("name", ["default", "inch", "motor", "arm", "lamp switch"])
def test_every_material_has_its_grade(name):
    table = grade_table(built(name))
    assert set(table.columns[0].cells) == {part.material for part in built(name).parts if part.made}


def test_soft_sheet_holds_its_discs_side_by_side(exhibit):
    table = soft_table(exhibit.assembly)
    for size, discs in zip(table.columns[2].cells, table.columns[3].cells, strict=True):
        wide, high = map(float, size.split(" × "))
        count, across = re.search(r": (\d+) of ⌀([\d.]+)", discs).groups()
        assert wide >= int(count) * float(across)
        assert high >= float(across)


def test_plate_that_is_not_sold_in_a_thickness_says_what_it_is_made_from(exhibit):
    assembly = exhibit.assembly
    told = {one.part.name: made_from(one, assembly) for one in cut_parts(exhibit)}
    assert told["base"] == ""
    assert told["lead plate"] == ""
    assert told["mast"] == "18.00 + 18.00, glued"
    assert told["lead cap"].endswith("faced")


def test_boards_are_glued_of_the_fewest():
    for thick in (6.0, 7.0, 18.0, 19.0, 29.0, 37.0, 55.0):
        stack = glued(thick, [6.0, 9.0, 12.0, 15.0, 18.0])
        assert sum(stack) >= thick
        assert (len(stack) - 1) * 18.0 < thick


def test_bar_is_not_bought_by_the_piece_and_every_line_says_what_it_is(exhibit):
    wanted = dict(buying_list(exhibit.assembly))
    assert not any("ground bar" in each for each in wanted)
    said = called(exhibit.assembly)
    assert set(wanted) <= set(said)
    assert {"ball bearing", "cross pin", "washer", "self-locking nut", "wood screw"} <= set(said.values())
