"""What the builder's steps say of order, room for tools and sizes to order, held by the assembly's own numbers."""

import math
import re
from dataclasses import replace
from itertools import chain
from types import SimpleNamespace

import numpy as np
import pytest
from displays import VARIANTS, put_together
from matplotlib.path import Path

from sim.display.assembly.order import steps
from sim.display.assembly.pin_room import pin_room
from sim.display.assembly.solid import ring
from viz.drawings.book_lists import tools
from viz.drawings.build_steps import step_text
from viz.drawings.items import buying_list
from viz.drawings.marks import Note
from viz.drawings.turned_parts import to_turn
from viz.drawings.turned_view import turned_view
from viz.drawings.use import trials

SHEAR_MODULUS_PA = 81.5e9
"""Of patented drawn wire: EN 13906-1."""


BEAMS = [name for name in VARIANTS if name != "lamp switch"]


def follower_step(display, assembly):
    """Return what is said of the follower's step."""
    checks = SimpleNamespace(quantity="table_height_m", value=0.7), SimpleNamespace(quantity="lever_n", value=3.0)
    return step_text("Follower, spring and sensor", SimpleNamespace(display=display, checks=checks), assembly, "si")


def inside(each, slab, points_m):
    """Return which points in the plane of the display lie in a slab, turned and moved to its place."""
    turn = -getattr(each, "placed_rad", 0.0)
    x, y = (points_m - [each.x_m, each.y_m]).T
    own = np.column_stack([math.cos(turn) * x - math.sin(turn) * y, math.sin(turn) * x + math.cos(turn) * y])
    holes = [Path(rim).contains_points(own) for rim in slab.openings_m]
    return Path(slab.outline_m).contains_points(own) & ~np.any([np.zeros(len(own), bool), *holes], axis=0)


def before_the_cam(assembly):
    """Return what stands when the cam hub is pinned."""
    found = []
    for step, taken in steps(assembly):
        if step.title == "Cam":
            return found
        found += taken
    raise AssertionError


def test_drift_and_prop_of_the_cam_hub_s_pin_pass_all_that_stands_and_reach_beyond_the_lead_plate(exhibit):
    assembly, said = exhibit.assembly, step_text("Cam", exhibit, exhibit.assembly, "si")
    angle = math.radians(float(re.search(r"lies along ([\d.]+)°", said)[1]))
    thick, long, wide = (
        float(re.search(rf"{words} ([\d.]+) mm", said)[1]) * 1e-3 for words in ("thicker than", "at least", "opens")
    )
    hub = assembly.part("cam hub")
    hub_m, axis_m = np.hypot(*hub.slabs[0].outline_m.T).max(), (hub.z_from_m + hub.z_to_m) / 2.0
    (pin,) = (
        each
        for each in assembly.parts
        if each.name == "cross pin" and each.x_m == each.y_m == 0.0 and hub.z_from_m < each.z_from_m < hub.z_to_m
    )
    pin_m = 2.0 * np.hypot(*pin.slabs[0].outline_m.T).max()
    assert wide >= 2.0 * hub_m + 2.0 * long + pin_m - pin.thickness_m
    far = np.linspace(hub_m + 0.0005, hub_m + long + 0.030, 400)
    aside = np.linspace(-thick / 2.0, thick / 2.0, 13)[1:-1]
    for way in (angle, angle + math.pi):
        out, across = np.array([math.cos(way), math.sin(way)]), np.array([-math.sin(way), math.cos(way)])
        points = (far[:, None, None] * out + aside[None, :, None] * across).reshape(-1, 2)
        for each in before_the_cam(assembly):
            for slab in each.slabs:
                if slab.z_from_m < axis_m + thick / 2.0 and slab.z_to_m > axis_m - thick / 2.0:
                    assert not inside(each, slab, points).any(), each.name
        plate = assembly.part("lead plate")
        below = inside(plate, plate.slabs[0], points)
        assert below.any()
        assert np.hypot(*points[below].T).max() < hub_m + long - 0.009


def test_where_nothing_reaches_the_pin_it_is_pressed_in_before_the_follower(exhibit, monkeypatch):
    assembly = exhibit.assembly
    wall = tuple(
        replace(each, slabs=(ring(0.09, 0.08, 0.010, 0.020),), x_m=0.0, y_m=0.0) if each.name == "flag" else each
        for each in assembly.parts
    )
    walled = replace(assembly, parts=wall)
    assert pin_room(walled) is None
    assert "before the follower is on" in step_text("Cam", exhibit, walled, "si")


def test_the_roller_is_lifted_for_the_cam_which_it_meets_and_not_for_the_hub_which_it_clears(exhibit):
    assembly = exhibit.assembly
    roller, cam, hub = (assembly.part(name) for name in ("roller", "cam", "cam hub"))
    edge_m = math.hypot(roller.x_m, roller.y_m) - np.hypot(*roller.slabs[0].outline_m.T).max()
    reach = [np.hypot(*each.slabs[0].outline_m.T).max() for each in (hub, cam)]
    assert reach[0] < edge_m < reach[1]
    said = step_text("Cam", exhibit, assembly, "si")
    assert "Lift the roller by hand while the cam goes on" in said
    assert "while the cam hub" not in said


@pytest.mark.parametrize("name", BEAMS)
def test_the_sensor_s_screw_below_the_flag_is_turned_before_the_flag_is_on(name):
    display, _, assembly = put_together(name)
    flag = assembly.part("flag")
    screws = [each for each in assembly.fasteners if each.name.endswith(("barrier screw", "switch screw"))]
    covered = [inside(flag, flag.slabs[0], np.array([[each.x_m, each.y_m]])).any() for each in screws]
    said = follower_step(display, assembly)
    assert sum(covered) == said.count("of which it covers one screw") == 1
    assert said.index("light barrier, then the flag") < said.index("of which it covers")


@pytest.mark.parametrize("name", BEAMS)
def test_a_light_barrier_is_ordered_with_its_gap_square_to_the_line_of_its_holes(name):
    _, _, assembly = put_together(name)
    barrier = assembly.part("light barrier")
    first, second = (
        np.array([each.x_m, each.y_m]) for each in assembly.fasteners if each.name == "light barrier screw"
    )
    web = barrier.slabs[1].outline_m.mean(axis=0)
    turn = barrier.placed_rad
    closed = [math.cos(turn) * web[0] - math.sin(turn) * web[1], math.sin(turn) * web[0] + math.cos(turn) * web[1]]
    assert abs(np.dot(closed, second - first)) < 1e-9 < np.linalg.norm(closed)
    assert "opens at the side, square to the line of the holes; beam square to the flange" in barrier.standard


def test_springs_are_ordered_with_their_rate(exhibit):
    """By d, D and n of the order: k = G d⁴/(8 D³ n)."""
    ordered = [standard for standard, _ in buying_list(exhibit.assembly) if "EN 10270" in standard]
    assert len(ordered) == 2
    for each in ordered:
        wire, coil, coils = map(
            float, re.search(r"wire ([\d.]+) mm, mean coil ([\d.]+) mm, ([\d.]+) active", each).groups()
        )
        rate = 1e-3 * SHEAR_MODULUS_PA * (1e-3 * wire) ** 4 / (8.0 * (1e-3 * coil) ** 3 * coils)
        assert float(re.search(r"rate ([\d.]+) N/mm", each)[1]) == pytest.approx(rate, rel=0.005)


def test_bearings_are_ordered_with_shields(exhibit):
    bearings = [each.standard for each in exhibit.assembly.parts if each.name in ("ball bearing", "roller")]
    assert len(bearings) >= 5
    assert all(each.endswith("a metal shield on both sides (2Z)") for each in bearings)


def test_sleeves_alone_may_be_shorter_and_never_longer(exhibit):
    for _, part in to_turn(exhibit.assembly):
        long = f"{1e3 * part.thickness_m:.2f}"
        said = [mark.text for mark in turned_view(part, exhibit.assembly, (84.0, 70.0)).marks if isinstance(mark, Note)]
        assert (f"{long} 0/−0.20" in said) is part.name.endswith("sleeve"), part.name
        assert (long in said) is not part.name.endswith("sleeve"), part.name


def test_the_gap_behind_a_crank_s_flange_is_told_with_why_it_crushes_nothing(exhibit):
    assembly = exhibit.assembly
    gap_mm = 1e3 * (assembly.part("clutch flange").z_from_m - assembly.part("bearing cap").z_to_m)
    (said,) = (each for each in chain(*trials(exhibit, "si")) if "clutch flange" in each)
    assert float(re.search(r"gap of ([\d.]+) mm", said)[1]) == pytest.approx(gap_mm, abs=0.05)
    assert "ISO 13854" in said


def test_tools_are_those_that_reaming_joints_and_boards_ask_for(exhibit):
    listed = " ".join(tools(exhibit.assembly, exhibit))
    bore, drill = map(float, re.search(r"Reamer ([\d.]+) H7, after drill ([\d.]+)", listed).groups())
    assert bore - drill == pytest.approx(0.2)
    assert "soldering iron and hot air" in listed
    thick_mm = 1e3 * exhibit.assembly.part("cover frame").thickness_m
    assert ("plane for" in listed) is (thick_mm % 3.0 != 0.0)


def test_the_book_of_a_display_driven_by_hand_tells_of_no_motor(pages):
    text = " ".join(page.text for page in pages)
    assert "motor" not in text
    assert "The display runs on hand force with a slip clutch, and on extra-low voltage." in text
