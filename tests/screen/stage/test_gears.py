"""The viewer's gun with each gear and without one, and behind a propeller of either sense."""

import math
from dataclasses import replace

import pytest
from stage_shapes import SIZE, flat, later, of, shapes

from viz.stage.layout import layout
from viz.stage.scenes.scene import draw
from viz.stage.shapes import Block, Disc, Polygon, texts


def test_without_the_gear_as_many_rounds_meet_a_blade_as_the_blades_block(session, stage):
    """A gun that fires when it is ready finds the propeller anywhere: strikes as the blocked share of a turn."""
    session.show("blades")
    while session.blades.gear != "none":
        session.blades.change_gear()
    session.blades.set("gun_rounds_per_min", 617.3)  # no simple ratio to the speed
    session.blades.pace.pick(1.0)
    later(session, 60.0)
    view = session.snapshot().view
    line = view.gun.line
    share = line.blades * line.blocked_rad / math.tau
    assert view.rounds > 500
    assert view.holds == 0
    assert view.strikes / view.rounds == pytest.approx(share, abs=4.0 * math.sqrt(share / view.rounds))
    assert {text.text for text in texts(shapes(session, stage))} >= {"no gear", "Gear: none"}


def test_after_no_gear_comes_the_same_cam_again(session):
    session.show("blades")
    before = session.snapshot().view.gun.windows_rad
    gears = []
    for _ in range(3):
        gears.append(session.blades.gear)
        session.blades.change_gear()
    assert gears == ["interrupter", "impulse", "none"]
    assert session.blades.gear == "interrupter"
    assert session.snapshot().view.gun.windows_rad == before


def test_an_anticlockwise_propeller_is_drawn_as_in_a_mirror(session, stage):
    session.show("blades")
    session.blades.pace.pick(0.0)
    later(session, 2.0)
    snapshot = session.snapshot()
    view = snapshot.view
    line = replace(view.gun.line, rotation="anticlockwise")
    marks = ((0.4, True), (2.0, False))
    drawn = []
    for gun in (view.gun, replace(view.gun, line=line)):
        mirrored = replace(snapshot, view=replace(view, gun=gun, passed=marks))
        found = list(flat(draw(mirrored, layout(*SIZE, 1.0), stage.figure, SIZE)))
        hub = of(found, Disc, "steel_dark")[0]
        blade, arc, paper = of(found, Polygon, "blade")[0], of(found, Polygon, "window")[0], of(found, Disc, "paper")[0]
        mark = of(found, Block, "clear")[0].rect.center
        drawn.append(
            [
                sorted((round(x - hub.x, 6), round(y - hub.y, 6)) for x, y in blade.points),
                sorted((round(x - hub.x, 6), round(y - hub.y, 6)) for x, y in arc.points),
                [(round(mark[0] - paper.x, 6), round(mark[1] - paper.y, 6))],
            ]
        )
    for ours, theirs in zip(*drawn, strict=True):
        assert theirs == [pytest.approx(point) for point in sorted((-x, y) for x, y in ours)]
        assert ours != theirs
