"""Turned parts as drawn, by their numbers: true to scale, classes in numbers, threads drilled before tapping."""

import math
from dataclasses import replace

import pytest

from sim.display.assembly.stock import stock
from sim.display.fits import limits
from sim.display.hand_speed import FLASH_PAUSE_S
from viz.drawings import wiring
from viz.drawings.bores import bores
from viz.drawings.flat_parts import cut_parts
from viz.drawings.marks import Ring, Stroke
from viz.drawings.placards import lamp_key
from viz.drawings.projection import symbol
from viz.drawings.turned_parts import to_turn
from viz.drawings.turned_view import classes, cross_holes, turned_view
from viz.words.catalogue import languages
from viz.words.say import say

ROOM = 168.0, 90.0


def words(view):
    return [mark.text for mark in view.marks if hasattr(mark, "text")]


def test_the_classes_are_those_of_iso_286():
    """Rows of ISO 286-2 for sizes in different ranges. [µm]"""
    for name, size_mm, low, high in (
        ("H7", 26.0, 0, 21),
        ("h6", 10.0, -9, 0),
        ("f7", 41.0, -50, -25),
        ("H8", 3.0, 0, 14),
        ("h9", 12.0, -43, 0),
        ("H11", 6.5, 0, 90),
        ("H12", 3.2, 0, 120),
    ):
        assert [1e6 * each for each in limits(name, size_mm * 1e-3)] == pytest.approx([low, high]), name
    with pytest.raises(KeyError):
        limits("k6", 0.01)


def test_the_silhouette_is_true_to_scale_and_every_diameter_and_length_is_said(exhibit):
    for _, part in to_turn(exhibit.assembly):
        view = turned_view(part, exhibit.assembly, ROOM)
        cut = [mark for mark in view.marks if isinstance(mark, Stroke) and mark.pen == "cut"]
        across = [x for mark in cut[:1] for x, _ in mark.points]
        long_mm = 1e3 * (part.z_to_m - part.z_from_m)
        assert max(across) - min(across) == pytest.approx(long_mm * view.scale)
        assert f"{long_mm:.2f}" in {text.removesuffix(" 0/−0.20") for text in words(view)}
        widest_mm = 2e3 * max(math.hypot(x, y) for slab in part.slabs for x, y in slab.outline_m.tolist())
        assert any(f"⌀{widest_mm:.2f}" in text for text in words(view)), part.name


def test_every_cross_pin_of_a_hub_has_its_hole_in_hub_and_shaft(exhibit):
    assembly = exhibit.assembly
    pins = [part for part in assembly.parts if part.name == "cross pin"]
    holes = [
        round(1e3 * part.z_from_m + place, 3)
        for _, part in to_turn(assembly)
        if part.name.endswith("shaft")
        for place, _ in cross_holes(part, assembly)
    ]
    assert {round(1e3 * (pin.z_from_m + pin.z_to_m) / 2.0, 3) for pin in pins} == set(holes)


def test_what_a_screw_is_tapped_into_says_its_thread(exhibit):
    assembly = exhibit.assembly
    hub = assembly.part("brake hub")
    tapped = [one for one in bores(hub, assembly) if one.thread]
    assert {one.thread for one in tapped} == {"M3"}
    assert len(tapped) == sum(screw.name == "brake disc screw" for screw in assembly.fasteners)
    assert classes(hub) == ("", "H7")
    assert classes(assembly.part("lever post")) == ("h9", "")


def test_tapped_holes_are_cut_as_wide_as_their_drill(exhibit):
    drills = {f"tapped {each.name}": 1e3 * each.drill_m for each in stock("metric").threads.values()}
    found = 0
    for one in cut_parts(exhibit):
        for hole, (_, wide) in zip(one.flat.holes, one.drawing.circles, strict=True):
            if hole.fit.startswith("tapped"):
                found += 1
                assert wide == pytest.approx(drills[hole.fit])
    assert found > 10


def test_a_drill_leaves_two_thirds_to_four_fifths_of_the_thread():
    """Share of the depth of the thread, 1.2990 pitches on the diameter: ISO 68-1, ASME B1.1."""
    pitches_mm = {"M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0}
    for hardware in ("metric", "inch"):
        for thread in stock(hardware).threads.values():
            pitch_mm = pitches_mm.get(thread.name) or 25.4 / float(thread.name.rsplit("-", 1)[1])
            share = 1e3 * (thread.diameter_m - thread.drill_m) / (1.2990 * pitch_mm)
            assert 0.66 < share < 0.81, thread.name


@pytest.mark.parametrize("projection", ["first-angle", "third-angle"])
def test_the_symbol_shows_the_small_end_of_the_cone_where_the_view_from_it_stands(projection):
    """Both rings are seen, so they are seen from the small end, which is the left one: its view goes right in first."""
    marks = symbol(projection).marks
    cone = next(mark for mark in marks if isinstance(mark, Stroke) and mark.closed)
    heights = {x: max(abs(y) for px, y in cone.points if px == x) for x, _ in cone.points}
    assert heights[min(heights)] < heights[max(heights)]
    rings = next(mark for mark in marks if isinstance(mark, Ring))
    assert (rings.centre[0] > max(heights)) == (projection == "first-angle")


def test_fuse_and_timer_are_those_of_the_model():
    taken_a = sum(wiring.TAKEN_A.values())
    assert 2.0 * taken_a <= wiring.FUSE_A
    assert wiring.SUPPLY_A >= 2.1 * wiring.FUSE_A
    text = " ".join(wiring.NOTES)
    assert f"set to {FLASH_PAUSE_S:g} s" in text
    assert f"{1.0 / FLASH_PAUSE_S:.2f} flashes a second" in text
    assert f"together {1e3 * taken_a:.0f} mA" in text
    assert 1.0 / FLASH_PAUSE_S < 3.0


def test_the_placard_says_how_the_lamp_is_lit(exhibit):
    """Whole arcs, parts of them, impulses and strikes each have words of their own in every language."""
    ideal = replace(exhibit.shown.cam, ideal=True)
    kinds = {
        "whole": replace(exhibit.shown, clearance_deg=3.0, impulses=False, cam=ideal),
        "part": replace(exhibit.shown, clearance_deg=3.0, impulses=False, cam=replace(ideal, ideal=False)),
        "impulse": replace(exhibit.shown, clearance_deg=3.0, impulses=True, cam=ideal),
        "meets": replace(exhibit.shown, clearance_deg=-3.0, impulses=True, cam=ideal),
    }
    keys = [lamp_key(timing) for timing in kinds.values()]
    assert keys == ["lamp", "part", "impulse", "meets"]
    for language in languages():
        assert len({say(language, f"placard.{key}") for key in keys}) == len(keys)
