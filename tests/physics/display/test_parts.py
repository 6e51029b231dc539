"""Parts that fit each other: the slide on its screws, the arm on its pin, the lead plate on its slot."""

import math

import numpy as np
import pytest

from sim.display.cam_profile import Follower
from sim.display.outline import area
from sim.display.parts import bearing_outside, cam_part, follower_at, follower_part
from sim.display.plates import base_plate, lead_plate, plate_swing
from sim.display.schedule import lift_fraction, schedule_of
from sim.display.search import smallest_cam
from sim.display.shapes import arc_slot, hull, slot
from sim.display.spring import choose

ARM = Follower("swinging", 0.0065, arm_m=0.06, pivot_m=0.075)


@pytest.fixture(scope="module", params=["slide", "arm", "offset"])
def built(request, display):
    changes = {
        "slide": {},
        "arm": {"cam": {"lobes": 1}, "follower": ARM},
        "offset": {"follower": Follower("translating", 0.0065, offset_m=0.003)},
    }
    made = display(**changes[request.param])
    return made, smallest_cam(made, choose(made.spring))


def hole(part, use):
    return [(one.x_m, one.y_m) for one in part.holes if use in one.use]


def test_the_roller_of_the_follower_down_touches_the_base_circle(built):
    made, found = built
    x, y, turned = follower_at(made, found)
    pin = hole(follower_part(made), "roller pin")[0]
    place = complex(x, y) + complex(*pin) * np.exp(1j * turned)
    assert abs(place) == pytest.approx(found.base_radius_m + made.follower.roller_radius_m)


def test_the_pin_or_the_screws_carry_the_follower_over_its_whole_travel(built):
    made, found = built
    x, y, _ = follower_at(made, found)
    plate, part = lead_plate(made, found), follower_part(made)
    if made.follower.kind == "swinging":
        assert hole(plate, "pivot") == [(x, y)]
        return
    for (across, up), opening in zip(hole(plate, "guide screw"), part.openings_m, strict=True):
        low, high = opening[:, 1].min() + 0.0021, opening[:, 1].max() - 0.0021  # centres of the slot's ends
        assert across == pytest.approx(x)
        for lift in (0.0, made.cam.lift_m):
            assert low + y + lift < up < high + y + lift


def test_the_lead_plate_swings_clockwise_by_the_lead(built):
    """The clamp screw stands still below; in the plate it runs from the slot's start anticlockwise to its end."""
    made, found = built
    screw = complex(*hole(base_plate(made, found), "clamp screw")[0])
    (opening,) = lead_plate(made, found).openings_m
    places = opening[:, 0] + 1j * opening[:, 1]
    for share in (0.0, 0.5, 1.0):
        in_plate = screw * np.exp(1j * share * plate_swing(made))
        assert np.abs(places - in_plate).min() == pytest.approx(0.0021, abs=2e-4)
    assert np.abs(places - screw * np.exp(-0.2j)).min() > 0.003


def test_the_cam_covers_neither_the_wing_nut_nor_the_marks(built):
    made, found = built
    reach = np.hypot(*cam_part(made, found).outline_m.T).max()
    assert abs(complex(*hole(base_plate(made, found), "clamp screw")[0])) > reach + 0.008
    assert all(np.hypot(*scribe.corners_m.T).min() > reach for scribe in lead_plate(made, found).scribes)


def test_the_follower_never_swings_over_the_wing_nut(built):
    made, found = built
    screw = complex(*hole(base_plate(made, found), "clamp screw")[0])
    x, y, turned = follower_at(made, found)
    outline = complex(x, y) + follower_part(made).outline_m @ [1.0, 1j] * np.exp(1j * turned)
    for share in np.linspace(0.0, 1.0, 41):
        assert np.abs(outline * np.exp(-1j * share * plate_swing(made)) - screw).min() > 0.012


def test_a_cam_or_a_plate_set_to_the_lead_lights_the_lamp_a_lead_early(built):
    made, found = built
    plan = schedule_of(made, found)
    for edge in (made.window.from_rad, made.window.to_rad):
        early = edge - made.window.lead_rad
        share, _, _ = lift_fraction(plan, np.array([early * made.cam_ratio + plate_swing(made)]))
        assert share[0] == pytest.approx(0.5)


def test_the_scribed_lead_comes_under_the_roller_when_the_cam_is_set_forward(built):
    made, found = built
    zero, lead = (scribe.corners_m[1] @ [1.0, 1j] for scribe in cam_part(made, found).scribes)
    assert np.angle(lead * np.exp(1j * plate_swing(made)) / zero) == pytest.approx(0.0, abs=1e-9)


def test_marks_of_the_lead_plate_come_to_the_pointer(built):
    made, found = built
    for scribe in lead_plate(made, found).scribes:
        degrees = float(scribe.label.rstrip("°"))
        way = scribe.corners_m[0] @ [1.0, 1j] * np.exp(-1j * math.radians(degrees) * made.cam_ratio)
        pointer = base_plate(made, found).scribes[0].corners_m[0] @ [1.0, 1j]
        assert np.degrees(np.angle(way / pointer)) == pytest.approx(0.0, abs=0.06 * made.cam_ratio)


def test_a_cam_not_on_the_propellers_shaft_gets_a_bearing_of_its_own(built):
    made, found = built
    assert len(hole(base_plate(made, found), "propeller")) == 1
    assert len(hole(base_plate(made, found), "bearing")) == (1 if made.cam_ratio == 1.0 else 2)


def test_a_display_without_lead_has_no_slot(display):
    made = display(window={"lead_rad": 0.0})
    found = smallest_cam(made, choose(made.spring))
    assert lead_plate(made, found).openings_m == ()


@pytest.mark.parametrize(("shaft_mm", "outside_mm"), [(5, 16), (8, 22), (10, 26), (12, 28), (9, 26), (25, 47)])
def test_the_bearing_of_a_shaft(shaft_mm, outside_mm):
    assert bearing_outside(shaft_mm / 2e3) * 1e3 == pytest.approx(outside_mm)


def test_shapes_enclose_what_they_should():
    assert area(hull((0.0, 0.0, 0.02))) == pytest.approx(math.pi * 0.02**2, rel=1e-3)
    straight = 0.004 * 0.01 + math.pi * 0.002**2
    assert area(slot(0.0, 0.0, 0.01, 0.004)) == pytest.approx(straight, rel=5e-3)
    bent = 0.004 * 0.03 * 1.2 + math.pi * 0.002**2
    assert area(arc_slot(0.03, 0.3, 1.5, 0.004)) == pytest.approx(bent, rel=5e-3)
