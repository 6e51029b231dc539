"""Nothing meets anything else at any angle; every screw moved by the width of its head does."""

import math
from dataclasses import replace

import pytest
from displays import VARIANTS, put_together
from shapely import affinity

from sim.display.assembly.interference import shape_of
from sim.display.assembly.proof import interference


def clashes(name, of=None, **changed):
    _, plan, made = put_together(name)
    return interference(replace(made, **changed), plan, of)


@pytest.mark.parametrize("name", VARIANTS)
def test_nothing_meets(name):
    assert clashes(name) == ()


SIDES = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))


def moved(name, number, side):
    """Return what a fastener of a variant meets when it is moved by the width of its head."""
    fasteners = put_together(name)[-1].fasteners
    each = fasteners[number]
    other = replace(each, x_m=each.x_m + side[0] * each.head_m, y_m=each.y_m + side[1] * each.head_m)
    return clashes(name, of=other, fasteners=(*fasteners[:number], other, *fasteners[number + 1 :]))


@pytest.mark.parametrize("name", VARIANTS)
def test_a_screw_moved_by_its_heads_width_fails(name):
    """One of every kind, each to another side; the default is done whole below."""
    fasteners = put_together(name)[-1].fasteners
    kinds = {each.name: number for number, each in enumerate(fasteners)}
    for turn, number in enumerate(kinds.values()):
        assert moved(name, number, SIDES[turn % 4]), (fasteners[number].name, turn % 4)


@pytest.mark.slow
def test_every_screw_moved_to_a_side_fails():
    """Each of all to another side than the one before it."""
    for number, each in enumerate(put_together("default")[-1].fasteners):
        assert moved("default", number, SIDES[number % 4]), (each.name, number % 4)


def test_the_proof_agrees_with_sampling():
    """A post that is put into the way is found; moved out by what sampling finds, it is not."""
    display, _, made = put_together("default")
    frame = made.part("cover frame")
    shape = shape_of(frame.slabs[0], frame)
    lead = [part for part in made.parts if part.group == "lead plate" and part.z_from_m < frame.z_to_m]
    swing = display.window.lead_rad * display.cam_ratio
    gaps = []
    for part in lead:
        for slab in part.slabs:
            if slab.z_to_m > 0.0 and slab.z_from_m < frame.z_to_m:
                own = shape_of(slab, part)
                steps = (affinity.rotate(own, -swing * step / 90.0, (0, 0), use_radians=True) for step in range(91))
                gaps.append(min(shape.distance(each) for each in steps))
    assert min(gaps) > 0.0002
    shifted = replace(frame, x_m=frame.x_m + min(gaps) + 0.001)
    parts = tuple(shifted if part is frame else part for part in made.parts)
    assert any("cover frame" in (each.first, each.second) for each in clashes("default", parts=parts))


def test_what_turns_sweeps_its_ring():
    """A brake spacer moved inward meets the brake disc, which passes it only as it turns."""
    _, _, made = put_together("default")
    posts = [part for part in made.parts if part.name == "brake spacer"]
    disc = made.part("brake disc")
    there = math.dist((posts[0].x_m, posts[0].y_m), (disc.x_m, disc.y_m))
    inner = (there - 0.020) / there
    nearer = tuple(
        replace(part, x_m=part.x_m * inner, y_m=disc.y_m + (part.y_m - disc.y_m) * inner) if part in posts else part
        for part in made.parts
    )
    assert any("brake disc" in (each.first, each.second) for each in clashes("default", parts=nearer))
