"""Everything that is made has its stock: bar long and thick enough for every turned part, sheet that is sold."""

import pytest
from displays import built
from shapely import Polygon

from sim.display.assembly.stock import stock
from viz.drawings.flat_parts import cut_parts
from viz.drawings.items import buying_list, called, key, numbers
from viz.drawings.raw_stock import FACED_MM, SAW_MM, SOFT, bars, glued, made_from, sheets
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


def test_there_is_a_sheet_of_every_material_and_thickness_and_it_is_large_enough(exhibit):
    cuts = cut_parts(exhibit)
    bought = {(material, thick): area for material, thick, area in sheets(cuts)}
    for kind in {(one.part.material, one.thickness_mm) for one in cuts}:
        parts = [one for one in cuts if (one.part.material, one.thickness_mm) == kind]
        net = sum(one.quantity * Polygon(one.drawing.outline).area * 1e-6 for one in parts)
        assert bought.pop(kind) >= 4.0 / 3.0 * net - 1e-9
    assert not bought


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
