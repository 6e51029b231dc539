"""Cross holes are told with their angle: that of the cam hub is not that of the propeller hub on the same shaft."""

import math

import pytest
from shared import answer

from viz.drawings.cross_pins import pin_lines, pins_through


def part(name):
    return next(each for each in answer("exhibit").assembly.parts if each.name == name)


def test_the_cam_hub_s_hole_is_square_to_the_line_of_its_screws():
    """By the screws of the cam: the cross hole lies 90 degrees from them, so that it meets none."""
    assembly = answer("exhibit").assembly
    screws = [one for one in assembly.fasteners if set(one.joins) == {"cam", "cam hub"}]
    assert len(screws) == 2
    along = math.atan2(screws[0].y_m - part("cam").y_m, screws[0].x_m - part("cam").x_m)
    ((_, _, angle),) = pins_through(part("cam hub"), assembly)
    assert math.cos(angle - along) == pytest.approx(0.0, abs=1e-5)


def test_a_shaft_has_the_holes_of_all_its_hubs_at_their_angles():
    """At the same places from the base, and along the same angles; the propeller's pin lies along blade 1."""
    assembly = answer("exhibit").assembly
    shaft = part("cam and propeller shaft")
    told = {
        (round(place + 1e3 * one.z_from_m, 3), angle)
        for one in map(part, ("propeller hub", "propeller pulley", "cam hub"))
        for place, _, angle in pins_through(one, assembly)
    }
    assert {
        (round(place + 1e3 * shaft.z_from_m, 3), angle) for place, _, angle in pins_through(shaft, assembly)
    } == told
    assert pins_through(part("propeller hub"), assembly)[0][2] == pytest.approx(0.0, abs=1e-6)
    cam_deg = math.degrees(pins_through(part("cam hub"), assembly)[0][2])
    assert list(pin_lines(shaft, assembly))[-1] == f"from the rear along 0.0°, 0.0°, {cam_deg:.1f}°"
