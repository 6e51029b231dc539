"""Cross holes are told with their angle: that of the cam hub is not that of the propeller hub on the same shaft."""

import math
from fractions import Fraction

import pytest
from displays import put_together
from shared import answer

from viz.drawings.bench import pin_depths
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


def length_m(pin):
    """Return the length that ends the designation of a pin: ``3 × 24``, ``1/8 × 1 1/4``."""
    words = pin.standard.rpartition("× ")[2].removesuffix(" in").split()
    return float(sum(map(Fraction, words))) * (0.0254 if "ASME" in pin.standard else 0.001)


@pytest.mark.parametrize("name", ["default", "arm", "four-blade", "inch", "motor"])
def test_every_pin_is_pressed_in_until_its_middle_is_in_the_shaft(name):
    """Depth from the length in the pin's designation and the boss about it."""
    assembly = put_together(name)[2]
    unit = 0.0254 if assembly.hardware == "inch" else 0.001
    told = {words.rsplit(" ", 2)[0]: float(words.rsplit(" ", 2)[1]) for words in pin_depths(assembly).split(", ")}
    pins = [one for one in assembly.parts if one.name == "cross pin"]
    assert len(told) == len(pins)
    for pin in pins:
        middle_m = (pin.z_from_m + pin.z_to_m) / 2.0
        ((boss, radius_m),) = (
            (one.name, max(math.hypot(x, y) for x, y in slab.outline_m.tolist()))
            for one in assembly.parts
            for slab in one.slabs
            if one.name in told and (one.x_m, one.y_m) == (pin.x_m, pin.y_m)
            if slab.z_from_m < middle_m < slab.z_to_m
        )
        deep_m = radius_m - length_m(pin) / 2.0
        assert deep_m > 0.0
        assert told[boss] * unit == pytest.approx(deep_m, abs=0.006 * unit)
