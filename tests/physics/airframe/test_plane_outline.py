"""Lines of a plane in space: what an aileron takes of it."""

from math import cos

import pytest
from airplanes import BIPLANE, PARASOL, TWO_SEATER
from shapely import Polygon
from shared import built

from sim.airframe.plane_outline import aileron_lines

INNER, OUTER, CHORD_SHARE = 0.55, 0.97, 0.25


@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL, TWO_SEATER], ids=lambda path: path.stem)
def test_an_aileron_takes_its_share_of_chord_and_span_up_to_the_trailing_edge(airplane):
    """Its area in the plan is that of a strip of a trapezium, foreshortened by the incidence."""
    for placed in built(airplane).layout.planes:
        plane = placed.plane
        root_m = 2.0 * plane.area_m2 / plane.span_m / (1.0 + plane.taper)
        middle_m = root_m * (1.0 - (1.0 - plane.taper) * 0.5 * (INNER + OUTER))
        size_m2 = CHORD_SHARE * middle_m * cos(plane.incidence_rad) * (OUTER - INNER) * 0.5 * plane.span_m
        right, left = aileron_lines(placed, inner=INNER, outer=OUTER, chord_share=CHORD_SHARE, below=False)
        assert [(s, w, -b) for s, w, b in right.points_m] == list(left.points_m)
        outline = Polygon([(s, b) for s, _, b in right.points_m])
        assert outline.is_valid
        assert outline.area == pytest.approx(size_m2, rel=1e-9)
        ends = {round(b / (0.5 * plane.span_m), 9) for _, _, b in right.points_m}
        assert {abs(end) for end in ends} == {INNER, OUTER}
