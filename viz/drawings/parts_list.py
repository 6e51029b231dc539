"""The parts list of the display: quantity, part and size of everything to make or to buy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.display import Display
    from sim.display.shapes import FlatPart
    from sim.studies.exhibit import Exhibit
    from viz.drawings.drawing import DrawnExhibit
    from viz.sheets.blocks import Cell, Table

    Row = tuple[str, str, Cell]


def parts_list(made: DrawnExhibit) -> Table:
    """Return the parts list."""
    exhibit, parts = made.exhibit, made.parts
    lines = (*_to_cut(exhibit.display, parts), *_fittings(exhibit, parts), *_lamp(exhibit.display), *_turning(exhibit))
    return rows("Parts list", ["quantity", "part", "size"], lines)


def size(quantity: str, number: float) -> Value:
    """Return a size as it is ordered or set."""
    return Value(quantity, number, nominal=True)


def _to_cut(display: Display, parts: tuple[FlatPart, ...]) -> Iterator[Row]:
    for part in parts:
        material = display.cam.material if part.name == "cam" else "aluminium or plywood"
        thickness = size("plate_thickness_m", part.thickness_m)
        yield "1", part.name, say("{material}, {thickness} plate", material=material, thickness=thickness)


def _fittings(exhibit: Exhibit, parts: tuple[FlatPart, ...]) -> Iterator[Row]:
    display, spring = exhibit.display, exhibit.spring
    shaft = size("part_diameter_m", 2.0 * display.cam.shaft_radius_m)
    outside = size("part_diameter_m", parts[-1].holes[0].diameter_m)
    roller = size("part_diameter_m", 2.0 * display.follower.roller_radius_m)
    yield "1", "roller", say("ball bearing {roller} outside, with pin", roller=roller)
    bearing = say("bore {bore}, outside {outside}", bore=shaft, outside=outside)
    yield "1" if display.cam_ratio == 1.0 else "2", "ball bearing", bearing
    yield "1", "shaft", say("diameter {shaft}", shaft=shaft)
    wound = say(
        "music wire {wire}, mean coil {coil}, {active} active coils and 2 closed ends, free length {free}",
        wire=size("wire_m", spring.wire_m),
        coil=size("coil_m", spring.coil_m),
        active=size("active_coils", spring.active_coils),
        free=size("free_length_m", spring.free_length_m),
    )
    yield "1", "spring", wound
    slide = display.follower.kind == "translating"
    yield ("2", "guide screw", "M4, with washers") if slide else ("1", "pivot pin", "M4, with washers")
    yield "1", "clamp screw", "M4, with wing nut and washer"


def _lamp(display: Display) -> Iterator[Row]:
    lamp = display.lamp
    yield "1", "lamp switch", "enclosed change-over switch or light beam; nothing else is operated"
    voltage = size("lamp_v", lamp.lamp_v)
    yield "1", "lamp", say("{voltage} {supply}, with its supply", voltage=voltage, supply=lamp.supply)


def _turning(exhibit: Exhibit) -> Iterator[Row]:
    display = exhibit.display
    diameter = Value("part_diameter_m", display.propeller.diameter_m, decimals=0)
    scaled = say("scaled, {diameter} across, {blades} blades", diameter=diameter, blades=str(display.window.blades))
    yield "1", "propeller", scaled
    yield _crank(display) if display.handle.kind == "crank" else _motor(exhibit)
    if display.cam_ratio != 1.0:
        turns = size("cam_ratio", display.cam_ratio)
        yield "1", "toothed belt", say("{turns} turns of the cam to one of the propeller", turns=turns)
    opening = size("guard_opening_m", display.enclosure.opening_m)
    yield "1", "guard", say("{shape} openings of {opening}", shape=display.enclosure.shape, opening=opening)


def _crank(display: Display) -> Row:
    handle = display.handle
    text = "{radius} shaft to grip, shaft {height} up, 1 turn to {gear} of the propeller"
    radius, height = size("hand_crank_m", handle.crank_radius_m), size("grip_height_m", handle.axis_height_m)
    return "1", "crank", say(text, radius=radius, height=height, gear=size("gear", handle.gear))


def _motor(exhibit: Exhibit) -> Row:
    work = exhibit.drive
    text = "{torque}, {power}, 1 turn to {gear} of the propeller, clutch set to {clutch}"
    sizes = say(
        text,
        torque=Value("motor_torque_n_m", work.torque_n_m, decimals=2),
        power=Value("motor_power_w", work.motor_power_w, decimals=1),
        gear=size("gear", exhibit.display.handle.gear),
        clutch=Value("motor_torque_n_m", work.clutch_n_m, decimals=2),
    )
    return "1", "geared motor with slip clutch", sizes
