"""The flash at the muzzle: when it is seen, for how long, and how often at the most."""

import itertools
import math

import numpy as np
import pytest
from stage_shapes import SIZE, later

from viz.stage.layout import layout
from viz.stage.scenes.blades import parts, picture_rect
from viz.stage.scenes.muzzle import flash
from viz.stage.scenes.over_cowl import over_cowl

FRAME_S = 1.0 / 60.0


@pytest.fixture
def over(gun, stage):
    at = layout(*SIZE, 1.0)
    return over_cowl(gun.view(), stage.figure, picture_rect(*parts(at), at.unit))


def test_a_flash_is_seen_as_the_round_leaves_the_muzzle_and_not_for_long(gun, session, over):
    while not gun.view().flying:
        session.tick(FRAME_S)
    assert not flash(gun.view(), over, 1.0)
    frames = 0
    while gun.view().flying:
        session.tick(FRAME_S)
        view = gun.view()
        star = flash(view, over, 1.0)
        assert bool(star) is any(
            0.0 <= view.time_s - one.muzzle_s < 0.25 * view.gun.line.flight_s for one in view.flying
        )
        assert all(math.dist(np.mean(one.points, axis=0), over.muzzle) < 0.1 for one in star)
        frames += bool(star)
    assert 0.2 < frames * FRAME_S < 1.0


def test_flashes_come_less_than_three_times_a_second_at_every_pace(gun, session, over):
    most = 0
    gun.change_gear()
    for place, spin, rate in itertools.product(range(len(gun.pace.paces)), (0.0, 1.0), (0.0, 1.0)):
        gun.pace.place = place
        gun.set("spin_rad_s", spin)
        gun.set("gun_rounds_per_min", rate)
        later(session, 0.5)
        shown = []
        for _ in range(120):
            session.tick(FRAME_S)
            shown.append(bool(flash(gun.view(), over, 1.0)))
        most = max(most, sum(now and not before for before, now in itertools.pairwise(shown)))
    assert 1 <= most < 6
