"""A hole that bears a thread is printed as wide as the drill of its thread: it can be tapped."""

import numpy as np
from displays import built

from viz.drawings.solid_stl import part_stl

COUNT_AT, FACETS_AT = 80, 84


def corners(made):
    count = int(np.frombuffer(made[COUNT_AT:FACETS_AT], "<u4")[0])
    kind = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    return np.frombuffer(made[FACETS_AT:], kind, count)["corners"].reshape(-1, 3)


def widths(part, made):
    """Return the width of the hole about the middle of each tapped opening, as the corners of the print say. [mm]"""
    found = []
    spots = corners(made)
    for rim in part.slabs[0].openings_m:
        middle = 500.0 * (rim.min(axis=0) + rim.max(axis=0))
        away = np.hypot(*(spots[:, :2] - middle).T)
        found.append(2.0 * float(np.min(away)))
    return found


def test_the_spring_block_can_be_tapped():
    block = built("default").part("spring block")
    assert all(abs(wide - 3.0) < 0.02 for wide in widths(block, part_stl(block)))
    drilled = widths(block, part_stl(block, {3.0: 2.5}))
    assert len(drilled) == 2
    assert all(abs(wide - 2.5) < 0.02 for wide in drilled)
