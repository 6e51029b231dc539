"""Bought parts fit what is made for them: pins of a length that is sold, threads that end before a pin, bosses."""

import math

import numpy as np
import pytest
from displays import VARIANTS, built, put_together

from sim.display.assembly.hand import sprung
from sim.display.assembly.stock import stock
from sim.display.fits import limits
from sim.display.worst_hand import cam_torque

INCH_M = 0.0254


def pinned(assembly):
    """Yield each cross pin with the widest part that it stands across, other than a shaft."""
    for pin in assembly.parts:
        if pin.name == "cross pin":
            middle = (pin.z_from_m + pin.z_to_m) / 2.0
            spot = pin.x_m, pin.y_m
            hubs = [
                (part, slab)
                for part in assembly.parts
                for slab in part.slabs
                if part.name.endswith(("hub", "pulley", "flange", "collar"))
                and math.dist(spot, (part.x_m, part.y_m)) < 1e-9
                and slab.z_from_m < middle < slab.z_to_m
            ]
            yield pin, hubs


@pytest.mark.parametrize("name", VARIANTS)
def test_a_cross_pin_is_one_that_is_sold_stands_in_one_hub_and_nowhere_out_of_it(name):
    assembly, pins = built(name), put_together(name)[1].stock.pins
    found = list(pinned(assembly))
    assert len(found) > 4
    for pin, hubs in found:
        (_, slab), *others = hubs
        assert not others
        long = float(max(math.hypot(*(a - b)) for a in pin.slabs[0].outline_m for b in pin.slabs[0].outline_m))
        length = math.sqrt(long**2 - pins.diameter_m**2)
        assert min(abs(length - each) for each in pins.lengths_m) < 1e-9
        assert long < 2.0 * float(slab.outline_m[:, 0].max())
        assert pin.thickness_m == pytest.approx(pins.diameter_m)
        assert pin.standard.endswith(f"{stock(assembly.hardware).told(length)}")
        assert pin.z_from_m - slab.z_from_m > pins.diameter_m / 3.0


def test_pins_are_those_of_the_standards():
    """ISO 8752: 3 mm pins are 4 to 40 mm long. ASME B18.8.2: 1/8 in pins 5/16 to 2 in, in a hole of .125 to .129 in."""
    metric, inch = stock("metric").pins, stock("inch").pins
    assert (min(metric.lengths_m), max(metric.lengths_m)) == pytest.approx((0.004, 0.040))
    assert (min(inch.lengths_m), max(inch.lengths_m)) == pytest.approx((0.3125 * INCH_M, 2.0 * INCH_M))
    assert inch.diameter_m == pytest.approx(0.125 * INCH_M)
    widest = inch.diameter_m + limits(inch.hole, inch.diameter_m)[1]
    assert 0.125 * INCH_M < widest <= 0.129 * INCH_M
    assert metric.diameter_m + limits(metric.hole, metric.diameter_m)[1] == pytest.approx(0.0031)


@pytest.mark.parametrize("name", VARIANTS)
def test_the_tapped_hole_of_the_crank_shaft_ends_before_the_pin_of_the_flange(name):
    assembly = built(name)
    shaft, flange = assembly.part("crank shaft"), assembly.part("clutch flange")
    bored = next(slab for slab in shaft.slabs if slab.openings_m)
    pin = next(
        each
        for each in assembly.parts
        if each.name == "cross pin"
        and (each.x_m, each.y_m) == (flange.x_m, flange.y_m)
        and flange.z_from_m < each.z_from_m < flange.z_to_m
    )
    screw = next(each for each in assembly.fasteners if each.name == "clutch screw")
    assert bored.z_from_m - pin.z_to_m > 0.001
    assert min(screw.z_to_m, shaft.z_to_m) - screw.z_from_m > 0.005


@pytest.mark.parametrize("name", VARIANTS)
def test_what_has_a_class_on_the_shaft_has_its_bore(name):
    """A class says what a size is made to: with another bore than the shaft's nominal size it would contradict it."""
    assembly, plan = built(name), put_together(name)[1]
    for part in assembly.parts:
        if part.fit.endswith("on the shaft") and part.process == "turned":
            bores = [2.0 * float(abs(rim[:, 0]).max()) for slab in part.slabs for rim in slab.openings_m[:1]]
            assert all(abs(each - plan.shaft.bore_m) < 1e-5 for each in bores), part.name
    pressed = assembly.part("pressure disc")
    assert pressed.fit == "H8 on the shaft"


@pytest.mark.parametrize("name", VARIANTS)
def test_the_clutch_spring_presses_as_hard_as_the_slip_asks_and_can_be_set_twice_as_hard(name):
    """Torque by the other way round: rate by G d⁴/(8 D³ n) in EN 13906-1, two faces of felt at their mean radii."""
    display, plan, assembly = put_together(name)
    spring, part = sprung(plan), assembly.part("clutch spring")
    rate = 81.5e9 * spring.wire_m**4 / (8.0 * spring.coil_m**3 * spring.active_coils)
    pressed = spring.free_length_m - part.thickness_m
    faces = [each for each in assembly.parts if each.name == "friction disc"]
    means = [
        (float(each.slabs[0].outline_m[:, 0].max()) + float(each.slabs[0].openings_m[0][:, 0].max())) / 2.0
        for each in faces
    ]
    peak = float(np.max(np.abs(cam_torque(display, plan.found, plan.spring))))
    asked = 1.5 * (display.handle.friction_torque_n_m + peak) * display.handle.gear
    assert 0.22 * rate * pressed * sum(means) == pytest.approx(asked, rel=0.01)
    assert part.thickness_m - pressed > spring.solid_length_m
    assert spring.coil_m - spring.wire_m > plan.shaft.bore_m
    assert 4.0 <= spring.coil_m / spring.wire_m <= 12.0
    wire_m = np.pi * spring.coil_m * (spring.active_coils + 2.0)  # unwound, with a dead coil at each end
    assert part.mass_kg == pytest.approx(7850.0 * wire_m * np.pi * spring.wire_m**2 / 4.0, rel=0.01)
    shaft, washer = assembly.part("crank shaft"), assembly.part("clutch washer")
    assert washer.z_from_m - shaft.z_to_m == pytest.approx(pressed)
    screw = next(each for each in assembly.fasteners if each.name == "clutch screw")
    bored = next(slab for slab in shaft.slabs if slab.openings_m)
    assert screw.z_from_m - pressed > bored.z_from_m


@pytest.mark.parametrize("name", VARIANTS)
def test_the_boss_of_a_pulley_leaves_a_wall_for_its_pin(name):
    """Faces and hubs of T5 pulleys for a 10 mm belt: 15 mm and 18 mm of 16 teeth, 21 mm long, in a maker's table."""
    assembly, plan = built(name), put_together(name)[1]
    for part in assembly.parts:
        if part.name.endswith("pulley"):
            boss = min(part.slabs, key=lambda each: each.z_from_m)
            wide = 2.0 * float(boss.outline_m[:, 0].max())
            assert wide - plan.shaft.bore_m > 0.0056
            assert boss.z_to_m - boss.z_from_m > 1.8 * plan.stock.pins.diameter_m
    if name == "default":
        pulley = assembly.part("crank pulley")
        boss = 2.0 * float(pulley.slabs[0].outline_m[:, 0].max())
        assert (pulley.thickness_m, boss) == pytest.approx((0.021, 0.018), abs=0.0006)


@pytest.mark.parametrize(
    ("hardware", "name", "sizes", "ratings_n"),
    [
        ("metric", "608", (8.0, 22.0, 7.0), None),
        ("metric", "6000", (10.0, 26.0, 8.0), (4550.0, 1960.0)),
        ("metric", "6001", (12.0, 28.0, 8.0), (5100.0, 2390.0)),
        ("inch", "R2", (3.175, 9.525, 3.967), None),
        ("inch", "R4", (6.35, 15.875, 4.978), None),
        ("inch", "R6", (9.525, 22.225, 7.142), None),
        ("inch", "R8", (12.7, 28.575, 7.938), None),
        ("inch", "R10", (15.875, 34.925, 8.73), None),
        ("inch", "R12", (19.05, 41.275, 11.113), None),
    ],
)
def test_bearings_are_those_of_public_tables(hardware, name, sizes, ratings_n):
    """Bore, outside and width of two public tables; no load rating above that of a maker's catalogue."""
    (one,) = (each for each in stock(hardware).bearings if each.name.endswith((f"- {name}", f" {name}")))
    assert (1e3 * one.bore_m, 1e3 * one.outer_m, 1e3 * one.width_m) == pytest.approx(sizes, abs=0.006)
    if ratings_n:
        assert ratings_n[0] * 0.98 <= one.dynamic_n <= ratings_n[0]
        assert ratings_n[1] * 0.98 <= one.static_n <= ratings_n[1]
