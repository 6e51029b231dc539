"""The scale on the cover, read off its DXF: the knob points to the lead that a visitor reads beside it."""

import io
import math

import ezdxf
import pytest

from sim.display.assembly.interference import shape_of
from viz.drawings.dxf import dxf
from viz.drawings.placards import placards

READ_MM = 4.0
"""Least height of figures that are read from 0.8 m."""
ADVANCE = 0.826
"""Width of a letter of the drawing font over its height."""


@pytest.fixture(scope="session")
def cover(drawings):
    """Return the marks of the cover, its figures as text, place and height, and a look-up of the document."""
    space = ezdxf.read(io.StringIO(dxf(drawings["cover"], "cover"))).modelspace()
    lines = [line.get_points("xy") for line in space.query('LWPOLYLINE[layer=="SCRIBE"]')]
    figures = [note for note in space.query('TEXT[layer=="TEXT"]') if note.dxf.text.endswith("°")]
    return lines, [
        (note.dxf.text, (note.dxf.align_point.x, note.dxf.align_point.y), note.dxf.height) for note in figures
    ]


def far(spot):
    return math.hypot(*spot)


def test_the_knob_points_to_its_lead(cover, exhibit):
    """At no lead the knob stands where it is drawn; with more it swings clockwise, by the ratio of the cam."""
    knob = exhibit.assembly.part("knob")
    lines, figures = cover
    assert len(lines) == len(figures) >= 2
    for line, (told, at, _) in zip(lines, figures, strict=True):
        lead = math.radians(float(told.rstrip("°"))) * exhibit.display.cam_ratio
        wanted = math.atan2(knob.y_m, knob.x_m) - lead
        for x, y in (*line, at):
            assert math.degrees(math.remainder(math.atan2(y, x) - wanted, math.tau)) == pytest.approx(0.0, abs=0.51)


def test_the_lead_of_the_placard_stands_on_the_cover(cover, exhibit):
    _, figures = cover
    said = " ".join(placards(exhibit)[0].paragraphs)
    assert f"Swing the knob to {figures[-1][0]}:" in said
    assert figures[0][0] == "0°"


def test_figures_are_large_and_the_knob_never_hides_them(cover, exhibit):
    """Inside the ring that the disc of the knob passes over, on the cover, which stands before all but the knob."""
    assembly = exhibit.assembly
    knob = assembly.part("knob")
    inner = far((1e3 * knob.x_m, 1e3 * knob.y_m)) - 1e3 * max(slab.outline_m[:, 0].max() for slab in knob.slabs)
    panel = shape_of(assembly.part("cover").slabs[0], assembly.part("cover"))
    lines, figures = cover
    for line, (told, (x, y), high) in zip(lines, figures, strict=True):
        assert high >= READ_MM - 1e-9
        half = ADVANCE * high * len(told) / 2.0
        corners = [(x + dx, y + dy) for dx in (-half, half) for dy in (-high / 2.0, high / 2.0)]
        assert all(far(spot) < inner for spot in (*corners, *line)), told
        assert panel.covers(
            type(panel)([(a / 1e3, b / 1e3) for a, b in (corners[0], corners[1], corners[3], corners[2])])
        )


def test_figures_lie_apart(cover):
    _, figures = cover
    for number, (told, (x, y), high) in enumerate(figures):
        for other, (x2, y2), _ in figures[:number]:
            wide = ADVANCE * high * (len(told) + len(other)) / 2.0
            assert abs(x - x2) > wide or abs(y - y2) > high, (told, other)
