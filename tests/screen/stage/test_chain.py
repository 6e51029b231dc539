"""From cam to gun: label, roller and rods have the colour of what the cam says, and a light shows when it acts."""

import itertools
import math

import pytest
from stage_shapes import flat, later, seen_over, shapes

from sim.live.gun import wait_rad
from viz.stage.gun_states import raised
from viz.stage.shapes import Disc, Facets, Line, Text
from viz.words.say import say

FRAME_S = 1.0 / 60.0
LABELS = {"now": "now", "not_now": "wait", "turns": "ink"}
WIDE = 11.0, 6.0
"""Width of the chain where the cam lets the gun fire, and where it does not."""


def test_the_label_of_the_cam_points_at_a_roller_that_has_the_colour_of_what_the_cam_says(gun, session, stage):
    """A line from the label ends inside the roller; label, roller and the chain to the gun have that colour."""
    told = set()
    for _ in range(200):
        later(session, 0.1)
        view = session.snapshot().view
        role = "now" if wait_rad(view.gun, view.angle_rad) == 0.0 else "wait"
        drawn = list(flat(shapes(session, stage)))
        words = {say("english", f"blades.cam_{key}"): ground for key, ground in LABELS.items()}
        place = next(number for number, one in enumerate(drawn) if isinstance(one, Text) and one.text in words)
        assert drawn[place - 1].role == words[drawn[place].text]
        assert drawn[place - 1].role in {role, "ink"}
        pointer = drawn[place - 2]
        assert isinstance(pointer, Disc)
        solid = next(one for one in drawn if isinstance(one, Facets) and one.roles in {("now",), ("wait",)})
        assert solid.roles == (role,)
        low, high = solid.corners.min(axis=(0, 1)), solid.corners.max(axis=(0, 1))
        assert low[0] < pointer.x < high[0]
        assert low[1] < pointer.y < high[1]
        (chain,) = (one for one in drawn if isinstance(one, Line) and one.role in {"now", "wait"} and one.width in WIDE)
        assert (chain.role, chain.width) == (role, WIDE[role == "wait"])
        assert low[0] < chain.points[0][0] < high[0]
        told.add(drawn[place - 1].role)
    assert told == {"now", "wait", "ink"}


def test_a_light_runs_along_the_chain_from_cam_to_muzzle_while_a_round_is_let_go(gun, session, stage):
    """It is at the cam at the release and at the muzzle when the round comes out, and at no other time."""
    shares = []
    for _ in range(60 * 12):
        session.tick(FRAME_S)
        view, over = session.snapshot().view, seen_over(session, stage)
        lights = [one for one in flat(shapes(session, stage)) if isinstance(one, Disc) and one.role == "tape"]
        inside = [one for one in view.flying if view.time_s < one.muzzle_s]
        assert len(lights) == len(inside)
        for light, fired in zip(lights, inside, strict=True):
            share = (view.time_s - fired.release_s) / (fired.muzzle_s - fired.release_s)
            way = over.chain(raised(view))
            gone = sum(math.dist(*pair) for pair in itertools.pairwise(way)) * share
            for pair in itertools.pairwise(way):
                if gone <= math.dist(*pair):
                    assert math.dist(pair[0], (light.x, light.y)) == pytest.approx(gone, abs=0.01)
                    break
                gone -= math.dist(*pair)
            shares.append(share)
    assert min(shares) < 0.05
    assert max(shares) > 0.95
