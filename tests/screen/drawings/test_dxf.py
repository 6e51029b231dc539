"""The DXF as another program reads it back: sound, closed, in millimetres, and a cam that moves the roller right."""

import io
import math

import ezdxf
import numpy as np
import pytest

from sim.display.cam_profile import profile
from sim.display.outline import area, path_at, points
from sim.display.schedule import lift_fraction, schedule_of
from viz.drawings.dxf import LAYERS, dxf

ERROR_MM = 0.005


@pytest.fixture(scope="session")
def documents(drawings):
    return {name: ezdxf.read(io.StringIO(dxf(drawing, name))) for name, drawing in drawings.items()}


def chain(document, layer):
    (polyline,) = document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
    assert polyline.closed
    assert not polyline.has_arc
    return np.array(polyline.get_points("xy"))


def true_outline(exhibit):
    """Return the cam's true outline, very finely, in mm."""
    display, found = exhibit.display, exhibit.found
    angles = np.linspace(0.0, 2.0 * np.pi, 100_001)[:-1]
    path = path_at(
        schedule_of(display, found),
        display.follower,
        angles,
        lift_m=display.cam.lift_m,
        base_radius_m=found.base_radius_m,
    )
    turning = float(np.sum(np.abs(path.curvature_per_m) * path.arc_rate_m)) * 2.0 * np.pi / angles.size
    return points(profile(path, display.follower.roller_radius_m)) * 1e3, turning


def test_every_part_is_sound_r2010_in_millimetres(documents):
    for document in documents.values():
        assert document.dxfversion == "AC1024"
        assert document.units == ezdxf.units.MM
        audit = document.audit()
        assert not audit.errors
        assert not audit.fixes


def test_everything_stands_on_a_layer_with_a_plain_name(documents):
    for document in documents.values():
        assert {entity.dxf.layer for entity in document.modelspace()} <= set(LAYERS)


def test_outline_and_openings_are_closed_and_do_not_repeat_a_corner(documents):
    for document in documents.values():
        outline = chain(document, "OUTLINE")
        assert area(outline) > 0.0
        assert np.hypot(*(np.roll(outline, -1, axis=0) - outline).T).min() > 1e-3
        for opening in document.modelspace().query('LWPOLYLINE[layer=="OPENINGS"]'):
            assert opening.closed
            assert area(np.array(opening.get_points("xy"))) > 0.0


def test_holes_lie_inside_the_outline_and_apart(documents):
    for document in documents.values():
        outline = chain(document, "OUTLINE")
        holes = [(np.array(hole.dxf.center)[:2], hole.dxf.radius) for hole in document.modelspace().query("CIRCLE")]
        for number, (centre, radius) in enumerate(holes):
            assert inside(centre, outline)
            assert np.hypot(*(outline - centre).T).min() > radius + 1.5
            for other, wide in holes[:number]:
                assert math.dist(centre, other) > radius + wide + 1.5


def inside(point, outline):
    turned = np.angle((outline[:, 0] - point[0]) + 1j * (outline[:, 1] - point[1]))
    return abs(np.sum(np.angle(np.exp(1j * np.diff(np.append(turned, turned[0])))))) > 6.0


def test_every_hole_has_a_centre_mark(documents):
    for document in documents.values():
        marks = document.modelspace().query('LWPOLYLINE[layer=="CENTRES"]')
        assert len(marks) == 2 * len(document.modelspace().query("CIRCLE"))


def perimeter(corners):
    return np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).sum()


def test_area_and_perimeter_of_the_cam_are_those_of_the_profile(exhibit, documents):
    outline = chain(documents["cam"], "OUTLINE")
    true, turning = true_outline(exhibit)
    assert area(outline) == pytest.approx(area(true), abs=ERROR_MM * perimeter(true))
    assert perimeter(outline) == pytest.approx(perimeter(true), abs=ERROR_MM * turning)


def test_the_cutter_path_is_a_cutter_radius_outside(exhibit, documents):
    outline, mill = chain(documents["cam"], "OUTLINE"), chain(documents["cam"], "CUTTER PATH")
    away = distance(mill[:, 0] + 1j * mill[:, 1], outline)
    assert away == pytest.approx(np.full(len(mill), exhibit.display.cam.cutter_radius_m * 1e3), abs=2.0 * ERROR_MM)


def test_the_lead_is_scribed_at_its_angle(exhibit, documents):
    lines = documents["cam"].modelspace().query('LWPOLYLINE[layer=="SCRIBE"]')
    ways = [math.atan2(*reversed(np.subtract(line[1][:2], line[0][:2]))) for line in lines]
    lead = exhibit.display.window.lead_rad * exhibit.display.cam_ratio
    assert math.cos(ways[0] - ways[1]) == pytest.approx(math.cos(lead), abs=1e-6)
    assert math.sin(ways[0] - ways[1]) == pytest.approx(math.sin(lead), abs=1e-6)


def distance(place, corners):
    """Return the distance of complex places from a closed chain of cuts."""
    start = corners[:, 0] + 1j * corners[:, 1]
    along = np.roll(start, -1) - start
    nearest = np.full(place.shape, np.inf)
    for begin, step in zip(start, along, strict=True):
        share = np.clip(np.real((place - begin) * np.conj(step)) / abs(step) ** 2, 0.0, 1.0)
        np.minimum(nearest, np.abs(place - begin - share * step), out=nearest)
    return nearest


def followed(exhibit, outline, cam_rad):
    """Return the lift, in mm, of a roller pushed on to the read-back outline from outside at each cam angle."""
    follower, base = exhibit.display.follower, exhibit.found.base_radius_m * 1e3
    roller, turned = follower.roller_radius_m * 1e3, np.exp(-1j * cam_rad)
    arm, pivot, offset = follower.arm_m * 1e3, follower.pivot_m * 1e3, follower.offset_m * 1e3
    if follower.kind == "translating":
        rest = math.sqrt((base + roller) ** 2 - offset**2)
        place = lambda lift: offset + 1j * (rest + lift)  # noqa: E731
    else:
        rest = math.acos((pivot**2 + arm**2 - (base + roller) ** 2) / (2.0 * pivot * arm))
        place = lambda lift: pivot - arm * np.exp(-1j * (rest + lift / arm))  # noqa: E731
    low, high = np.full(cam_rad.size, -1.0), np.full(cam_rad.size, exhibit.display.cam.lift_m * 1e3 + 1.0)
    for _ in range(16):
        middle = (low + high) / 2.0
        clear = distance(place(middle) * turned, outline) > roller
        low, high = np.where(clear, low, middle), np.where(clear, middle, high)
    return (low + high) / 2.0


def test_a_roller_on_the_read_back_outline_makes_the_motion_and_lights_the_lamp_on_time(exhibit, documents):
    display, outline = exhibit.display, chain(documents["cam"], "OUTLINE")
    propeller = np.radians(np.arange(0.0, 361.0, 1.0))
    cam = propeller * display.cam_ratio
    lift = followed(exhibit, outline, cam)
    wanted = display.cam.lift_m * 1e3 * lift_fraction(schedule_of(display, exhibit.found), cam)[0]
    assert np.abs(lift - wanted).max() < 0.02

    window, half = display.window, display.cam.lift_m * 500.0
    for edge, sign in ((window.from_rad, 1.0), (window.to_rad, -1.0)):
        near = edge + np.radians(np.linspace(-0.5, 0.5, 41))
        risen = sign * (followed(exhibit, outline, near * display.cam_ratio) - half)
        switched = np.degrees(np.interp(0.0, risen, near) - edge)
        assert abs(switched) < 0.1
