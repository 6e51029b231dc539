"""Both feet of both pilots: shoes, bars and words are the rudder that is flown, from where it is in level flight."""

from dataclasses import replace

import numpy as np
import pytest
from stage_shapes import flat, later, of, shapes

from viz.stage.actions import Action
from viz.stage.layout import layout
from viz.stage.scenes import feet
from viz.stage.shapes import Block, Polygon, texts


@pytest.mark.parametrize("size", [(1280, 720), (720, 1280)])
@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_bars_of_the_feet_are_the_rudder_of_both_pilots_from_level_flight_to_one_scale(session, stage, size, side):
    """In turns both ways the rotary's pilot works the left foot; the other one works that on the inside, and less."""
    level = [plane.rudder_share for plane in (session.turning.view().rotary, session.turning.view().fixed)]
    session.turning.stick(side, 0.0)
    later(session, 7.0)
    view, at = session.snapshot().view, layout(*size, 1.0)
    drawn = list(flat(shapes(session, stage, size)))
    pair = feet.rows(at.beside(236.0)[0], at)
    assert pair[0].track.w == pair[1].track.w
    found = []
    for who, plane, row, rest in zip(("rotary", "fixed"), (view.rotary, view.fixed), pair, level, strict=True):
        (bar,) = [block.rect for block in of(drawn, Block, who) if row.track.holds(*block.rect.center)]
        share = plane.rudder_share - rest
        assert plane.feet_share == pytest.approx(share, abs=1e-6)
        assert (bar.right if share < 0.0 else bar.x) == pytest.approx(row.track.center[0])
        assert bar.w / row.track.w == pytest.approx(0.5 * feet.SCALE * abs(share))
        found.append(share)
    assert found[0] < -0.05
    assert found[1] * side > 0.0
    assert abs(found[0]) > 2.0 * abs(found[1])


def test_the_foot_that_pushes_is_ahead_and_the_words_name_it(session, stage):
    """Seen from above, toes up: right rudder has the right foot ahead; within two in a hundred both rest, grey."""
    at = layout(1280, 720, 1.0)
    row = feet.rows(at.beside(236.0)[0], at)[0]
    view = session.turning.view()
    for share, words, ahead in ((0.4, "Right foot pushes", 1), (-0.4, "Left foot pushes", -1), (0.01, "Feet rest", 0)):
        plane = replace(view.rotary, feet_share=share)
        session.turning.view = lambda plane=plane: replace(view, rotary=plane, fixed=plane)
        drawn = list(flat(shapes(session, stage)))
        ovals = [one for one in of(drawn, Polygon, "rotary") if row.feet.holds(*np.mean(one.points, axis=0))]
        grey = [one for one in of(drawn, Polygon, "steel") if row.feet.holds(*np.mean(one.points, axis=0))]
        assert (len(ovals), len(grey)) == ((2, 2) if ahead else (0, 4))
        balls = [max(np.ptp(one.points, axis=0)[1] for one in each) for each in (ovals, grey) if each]
        shoes = sorted(
            np.mean(one.points, axis=0).tolist()
            for one in (*ovals, *grey)
            if np.ptp(one.points, axis=0)[1] > 0.9 * max(balls)
        )
        left, right = shoes
        assert [text.text for text in texts(drawn)].count(words) == 2
        assert ahead * (left[1] - right[1]) > 5.0 or (ahead == 0 and abs(left[1] - right[1]) < 2.0)
        if ahead:
            assert (np.mean(ovals[0].points, axis=0)[0] > row.feet.center[0]) == (ahead > 0)


def test_let_go_no_foot_pushes_and_full_control_tells_the_speed(session, stage):
    session.turning.stick(-1.0, 0.0)
    later(session, 6.0)
    session.act(Action.LET_GO)
    later(session, 0.5)
    assert [text.text for text in texts(shapes(session, stage))].count("Nobody pushes") == 2
    assert not [text for text in texts(shapes(session, stage)) if text.text.endswith("mph")]
    later(session, 2.0)
    session.act(Action.FULL_CONTROL)
    later(session, 0.5)
    assert len([text for text in texts(shapes(session, stage)) if text.text.endswith("mph")]) == 2
