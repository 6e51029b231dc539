"""Every display can be put together step by step, every screw is reached; a wrong order or a part before it fails."""

from dataclasses import replace

import pytest
from displays import VARIANTS, built

from sim.display.assembly import order
from sim.display.assembly.order import STEPS, steps
from sim.display.assembly.sequence import barred


@pytest.mark.parametrize("name", VARIANTS)
def test_every_variant_can_be_put_together(name):
    assert barred(built(name)) == ()


@pytest.mark.parametrize("name", VARIANTS)
def test_the_steps_take_every_piece_once(name):
    assembly = built(name)
    taken = [id(each) for _, pieces in steps(assembly) for each in pieces]
    assert sorted(taken) == sorted(map(id, assembly.pieces))


def in_order(monkeypatch, titles):
    """Put the steps into another order, those not named at the end as they are."""
    first = [next(step for step in STEPS if step.title == title) for title in titles]
    monkeypatch.setattr(order, "STEPS", (*first, *(step for step in STEPS if step not in first)))


def without_bench(monkeypatch, title):
    changed = tuple(replace(step, bench=()) if step.title == title else step for step in STEPS)
    monkeypatch.setattr(order, "STEPS", changed)


def names(found):
    return {each.name for each in found}


def test_the_cover_before_what_is_below_it_fails(monkeypatch):
    in_order(monkeypatch, ["Plates and bearings", "Foot and walls", "Shafts and drive", "Cover"])
    found = barred(built("default"))
    assert {"lead plate", "cam"} <= names(found)
    assert "cover" in {each.by for each in found}


def test_the_brake_before_the_pulley_behind_it_fails(monkeypatch):
    in_order(monkeypatch, ["Plates and bearings", "Brake"])
    assert "crank pulley" in names(barred(built("default")))


def test_screws_from_behind_the_lead_plate_want_the_bench(monkeypatch):
    """Where the plate is on the base already, no screw comes from behind it."""
    without_bench(monkeypatch, "Lead plate")
    assert {"lever post screw", "spring block screw"} <= names(barred(built("default")))


def test_a_knob_on_its_post_bars_the_cover(monkeypatch):
    own = {"Lead plate": lambda names: (*names, "knob"), "Cover": lambda names: tuple(n for n in names if n != "knob")}
    changed = (replace(step, names=own.get(step.title, tuple)(step.names)) for step in STEPS)
    monkeypatch.setattr(order, "STEPS", tuple(changed))
    assert "cover" in names(barred(built("default")))


@pytest.mark.parametrize("name", ["cap screw", "cam screw", "outline screw"])
def test_a_part_before_a_screw_bars_its_tool(name):
    """A block in front of the head, put in with the plates, leaves no room for screw or key."""
    assembly = built("default")
    screw = next(each for each in assembly.fasteners if each.name == name)
    like = assembly.part("base")
    slab = screw.slabs[0]
    side = 0.02 if screw.front else -0.02
    low, high = sorted((slab.z_from_m + side, slab.z_to_m + side))
    block = replace(like, x_m=screw.x_m + 0.5, y_m=screw.y_m, slabs=(replace(slab, z_from_m=low, z_to_m=high),))
    aside = replace(assembly, parts=(*assembly.parts, block))
    assert barred(aside) == ()
    before = replace(assembly, parts=(*assembly.parts, replace(block, x_m=screw.x_m, placed_rad=0.0)))
    assert barred(before)
