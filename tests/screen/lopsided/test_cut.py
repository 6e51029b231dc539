"""What is cut and printed for the lopsided display, read back here group by group and facet by facet."""

import math
import struct
from functools import cache

import numpy as np
import pytest
from airplanes import LOPSIDED
from shapely import Point, Polygon
from shapely.affinity import rotate
from shapely.prepared import prep
from shared import answer

from viz.drawings.dxf import dxf
from viz.drawings.flat_parts import cut_parts
from viz.drawings.solid_stl import part_stl
from viz.drawings.tables import cam_table
from viz.sheets.text import text_of

ARM, PIVOT, ROLLER, LIFT = 60.0, 75.0, 6.5, 6.0
"""Of the file. [mm]"""


@cache
def sized():
    return answer("exhibit", LOPSIDED)


@cache
def cuts():
    """Return the text of the DXF of every flat part, by its name."""
    return {one.part.name: (one, dxf(one.drawing, "read back")) for one in cut_parts(sized())}


def pairs(text):
    lines = [line.strip() for line in text.splitlines()]
    return list(zip(map(int, lines[::2]), lines[1::2], strict=True))


def polylines(text, layer):
    """Return the corners of the polylines of a layer: group 0 begins an entity, 8 is its layer, 10 and 20 x and y."""
    found, at, kind = [], None, None
    for code, value in pairs(text):
        if code == 0:
            kind, at = value, None
        elif kind == "LWPOLYLINE" and code == 8 and value == layer:
            at = []
            found.append(at)
        elif at is not None and code == 10:
            at.append([float(value)])
        elif at is not None and code == 20:
            at[-1].append(float(value))
    return [np.array(corners) for corners in found]


def arm_angle(cam, centre_x):
    """Return the angle at which an arm pivoted at `centre_x` rests its roller on a cam at the origin. [rad]."""
    low, high = math.acos((centre_x**2 + ARM**2 - 27.0**2) / (2.0 * centre_x * ARM)), 2.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        roller = Point(centre_x - ARM * math.cos(middle), ARM * math.sin(middle))
        low, high = (middle, high) if cam.distance(roller) < ROLLER else (low, middle)
    return low


def test_the_cut_cam_swings_the_arm_for_each_window():
    """Rolled by geometry alone: a rise of 6 mm of path, and at half of it 46° of cam for each of three lobes."""
    (outline,) = polylines(cuts()["cam"][1], "OUTLINE")
    cam = Polygon(outline)
    turns = np.arange(0.0, 120.0, 0.5)
    angles = np.array([arm_angle(rotate(cam, turn, origin=(0.0, 0.0)), PIVOT) for turn in turns])
    lift = ARM * (angles - angles.min())
    assert lift.max() == pytest.approx(LIFT, abs=0.02)
    base = math.sqrt(PIVOT**2 + ARM**2 - 2.0 * PIVOT * ARM * math.cos(angles.min())) - ROLLER
    assert base == pytest.approx(26.0, abs=0.02)
    assert sized().cam.base_radius_m == pytest.approx(base / 1e3, abs=2e-5)
    assert 0.5 * np.count_nonzero(lift > 0.5 * LIFT) == pytest.approx(46.0, abs=1.0)
    spread = [prep(rotate(cam, 120.0 * k, origin=(0.0, 0.0)).buffer(0.02)) for k in (1, 2)]
    assert all(other.contains(cam) for other in spread)


def test_every_plate_is_cut_at_true_size():
    """Width, height and thickness, in whatever way it lies, are the part's in the display."""
    for one, text in cuts().values():
        (outline,) = polylines(text, "OUTLINE")
        cut = [*np.ptp(outline, axis=0), one.thickness_mm]
        stands = [*(np.ptp(one.part.outline_m, axis=0) * 1e3), 1e3 * (one.part.z_to_m - one.part.z_from_m)]
        assert sorted(cut) == pytest.approx(sorted(stands), abs=0.02), one.part.name


def corners_of(data):
    """Return the corners of the facets of a binary STL: 80 bytes, a count, then 12 floats and 2 bytes a facet."""
    (count,) = struct.unpack_from("<I", data, 80)
    assert len(data) == 84 + 50 * count
    return np.array([struct.unpack_from("<12f", data, 84 + 50 * k)[3:] for k in range(count)]).reshape(-1, 3, 3)


def test_printed_parts_are_as_thick_as_they_stand_in_the_display():
    """Height, width and depth in millimetres; the volume that they enclose, at its density, is the mass told."""
    printed = [part for part in sized().parts if part.process == "printed"]
    assert printed
    for part in printed:
        corners = corners_of(part_stl(part))
        across = np.concatenate([slab.outline_m for slab in part.slabs])
        size = [*(np.ptp(across, axis=0) * 1e3), 1e3 * (part.z_to_m - part.z_from_m)]
        assert np.ptp(corners.reshape(-1, 3), axis=0) == pytest.approx(size, abs=1e-3)
        assert corners[..., 2].min() == pytest.approx(0.0, abs=1e-6)
        volume = np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0
        filled = sum(
            (Polygon(slab.outline_m).area - sum(Polygon(rim).area for rim in slab.openings_m))
            * (slab.z_to_m - slab.z_from_m)
            for slab in part.slabs
        )
        assert volume == pytest.approx(1e9 * filled, rel=2e-3)


@pytest.mark.parametrize(("units", "millimetres"), [("us", 25.4), ("si", 1.0)])
def test_the_table_beside_the_cam_says_its_speeds_and_sizes(units, millimetres):
    """The spring, at half the arm, lets go where m s'' ω² is ½ F0 + ¼ k s; the roller spins by its rim."""
    table = cam_table(sized())
    said = {
        text_of(a, units): text_of(b, units) for a, b in zip(*(column.cells for column in table.columns), strict=True)
    }
    contact, floats = said["contact stress; float speed"].split("; ")
    assert contact.split()[1] == {"us": "ksi", "si": "MPa"}[units]
    spring, display = sized().spring, sized().display
    u = np.linspace(0.0, 1.0, 20_001)
    lift = LIFT / 1e3 * (10 * u**3 - 15 * u**4 + 6 * u**5)
    bend = LIFT / 1e3 * (60 * u - 180 * u**2 + 120 * u**3) / math.radians(40.0) ** 2
    push = 0.5 * (spring.preload_n + 0.5 * spring.rate_n_per_m * lift)
    slowed = bend < -1e-6
    speed = math.sqrt((push[slowed] / (-display.follower_kg * bend[slowed])).min())
    assert int(floats.split()[0]) == pytest.approx(speed * 30.0 / math.pi, abs=0.6)
    assert floats.endswith("rpm of cam")
    fastest = int(said["largest speed of the roller about its pin"].split()[0])
    (outline,) = polylines(cuts()["cam"][1], "OUTLINE")
    wide = np.hypot(*outline.T).max()
    assert 60.0 * 26.0 / ROLLER < fastest < 60.0 * (1.0 + wide / ROLLER) * 1.05
    base, rise = said["base circle radius; lift"].split("; ")
    assert float(base.split()[0]) * millimetres == pytest.approx(26.0, abs=0.006 * millimetres)
    assert float(rise.split()[0]) * millimetres == pytest.approx(LIFT, abs=0.006 * millimetres)
    assert said["timing shown at no lead, propeller angle"].endswith("lamp on 43.1° to 89.1°")
