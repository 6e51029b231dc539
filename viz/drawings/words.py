"""What the sheet says: parts list, order of assembly, placard for visitors, cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit

CAUTIONS = (
    "This display is inert and stays so: it lights a lamp. Nothing here may be used to size, build or alter a gun.",
    "Rules on replica firearms differ from place to place: ask the police or the local authority before you build.",
    "Estimates, not approved data: have a competent mechanic check strength, guard and wiring before visitors come.",
    "Guard what turns, and keep every gap that a finger can reach at 25 mm or more, or too narrow to enter.",
    "The numbers of the guard standards were typed from secondary sources: check them in the standard before cutting.",
    "The lamp must not flash more than three times a second: some visitors are harmed by flashing light.",
    "Deburr every edge, wear eye protection, and clamp the plate before it is cut.",
)

SOURCES = "Norton: Design of Machinery. Shigley: Mechanical Engineering Design. Own limit: set for this display."

PLACARD_TITLE = "How could a gun fire between turning blades?"
PLACARD = (
    "{start} The lamp stands where the gun would have been.",
    """While a blade stands in the line of fire, the cam lets the roller down and the lamp is dark. When the way is
    clear, the cam lifts the roller and the lamp lights: now a round could pass.""",
    """A round needs time: from the moment of release to the moment it passes the blades the propeller turns on. At
    the speed of flight that was {lead:.0f}°.""",
    """Loosen the wing nut and swing the plate to {lead:.0f}°. Now the lamp lights early, while the blade is still on
    its way through. That is where the cam had to stand for the round to meet the gap.""",
    "Nothing in this display can fire. There is no gun in it, only a lamp.",
)

ASSEMBLY = (
    "Cut base, lead plate, follower and cam; deburr; drill to the hole tables. Engrave the blue lines and figures.",
    "Press the bearing into the base so that its outer ring stands 3 mm proud on the visitors' side.",
    "Hang the lead plate on that ring; put the clamp screw through the slot and the base, wing nut in front.",
    "Fit the roller to the follower with its pin. {mount}",
    "Fit the spring between follower and lead plate: when down it presses the roller on the cam with {preload:.1f} N.",
    "Slide the cam on to the shaft, as drawn towards the visitor. {sense}",
    "Turn blade 1 on to the painted bore line, turn the cam until its line 0 points at the roller, and clamp the cam.",
    "Set the lamp switch to change over at half lift, {half:.1f} mm, with a feeler gauge; it must be an enclosed one.",
    """Check with the lead plate at 0°: the lamp comes on {on:.1f}° after the blade has left the bore line and goes out
    {off:.1f}° before the next one.""",
    "Close the guard with screws that need a tool, measure its openings and distances, and sign the checklist.",
)


def parts_list(exhibit: Exhibit) -> list[tuple[str, str, str]]:
    """Return quantity, part and size of everything to make or buy."""
    display = exhibit.display
    return [
        *_cut_parts(exhibit),
        *_fittings(exhibit),
        ("1", "lamp switch", "enclosed change-over switch or light beam; nothing else is worked"),
        ("1", "lamp", f"{display.lamp.lamp_v:g} V {display.lamp.supply}, with its supply"),
        *_turning_parts(exhibit),
        ("1", "guard", f"{display.enclosure.shape} openings of {display.enclosure.opening_m * 1e3:g} mm"),
    ]


def _cut_parts(exhibit: Exhibit) -> list[tuple[str, str, str]]:
    made_of = {"cam": exhibit.display.cam.material}
    return [
        ("1", part.name, f"{made_of.get(part.name, 'aluminium or plywood')}, {part.thickness_m * 1e3:g} mm plate")
        for part in exhibit.parts
    ]


def _fittings(exhibit: Exhibit) -> list[tuple[str, str, str]]:
    display, spring = exhibit.display, exhibit.spring
    slide = display.follower.kind == "translating"
    bearing, shaft = exhibit.parts[3].holes[0].diameter_m * 1e3, display.cam.shaft_radius_m * 2e3
    coils = f"{spring.active_coils:g} active coils and 2 closed ends"
    wire = f"music wire {spring.wire_m * 1e3:g} mm, mean coil {spring.coil_m * 1e3:g} mm"
    return [
        ("1", "roller", f"ball bearing {display.follower.roller_radius_m * 2e3:g} mm outside, with pin"),
        ("1" if display.cam_ratio == 1.0 else "2", "ball bearing", f"bore {shaft:g} mm, outside {bearing:g} mm"),
        ("1", "shaft", f"diameter {shaft:g} mm"),
        ("1", "spring", f"{wire}, {coils}, free length {spring.free_length_m * 1e3:g} mm"),
        ("2", "guide screw", "M4, with washers") if slide else ("1", "pivot pin", "M4, with washers"),
        ("1", "clamp screw", "M4, with wing nut and washer"),
    ]


def _turning_parts(exhibit: Exhibit) -> list[tuple[str, str, str]]:
    display, work = exhibit.display, exhibit.drive
    hand, propeller = display.handle, display.propeller
    gear = f"1 turn to {hand.gear:g} of the propeller"
    crank = f"{hand.crank_radius_m * 1e3:g} mm shaft to grip, shaft {hand.axis_height_m * 1e3:g} mm up, {gear}"
    motor = f"{work.torque_n_m:.2f} N m, {work.motor_power_w:.1f} W, {gear}, clutch set to {work.clutch_n_m:.2f} N m"
    turned_by = ("crank", crank) if hand.kind == "crank" else ("geared motor with slip clutch", motor)
    rows = [
        ("1", "propeller", f"scaled, {propeller.diameter_m * 1e3:.0f} mm across, {display.window.blades} blades"),
        ("1", *turned_by),
    ]
    if display.cam_ratio != 1.0:
        rows.append(("1", "toothed belt", f"{display.cam_ratio:g} turns of the cam to one of the propeller"))
    return rows


def assembly(exhibit: Exhibit) -> list[str]:
    """Return the steps of assembly in order."""
    from math import degrees

    display = exhibit.display
    slide = display.follower.kind == "translating"
    mount = (
        "Screw it to the lead plate through its two slots, free to slide."
        if slide
        else "Hang it on the pivot pin of the lead plate."
    )
    sense = "It turns anticlockwise as drawn; for a propeller that turns the other way, turn every part over."
    facts = {
        "mount": mount,
        "sense": sense,
        "preload": exhibit.spring.preload_n,
        "half": display.cam.lift_m * 500.0,
        "on": degrees(display.window.from_rad),
        "off": 360.0 / display.window.blades - degrees(display.window.to_rad),
    }
    return [step.format(**facts) for step in ASSEMBLY]


def placard(exhibit: Exhibit) -> list[str]:
    """Return the paragraphs for visitors."""
    from math import degrees

    crank = exhibit.display.handle.kind == "crank"
    facts = {
        "lead": degrees(exhibit.display.window.lead_rad),
        "start": "Turn the crank." if crank else "Watch the propeller turn.",
    }
    return [words.format(**facts) for words in PLACARD]
