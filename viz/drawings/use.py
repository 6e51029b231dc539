"""Pages of the builder's book on the display as a whole: what to read first, how it is set, faults, daily use."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.gaps import blade_edge, checked
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.sheets.blocks import Table
    from viz.sheets.format import Units

FIRST = (
    (
        "What it is: a propeller, a cam and a lamp. Turn the crank, and the lamp lights while the way between the "
        "blades is clear. Nothing in it can fire."
    ),
    (
        "Words: left, right, front and clockwise are as a visitor sees them. Every flat part is drawn from the front "
        "unless its sheet says otherwise."
        " Blade 1 is the blade marked 1. The bore line runs from the shaft of the propeller to the lamp, level to the"
        " right. The propeller turns anticlockwise."
    ),
    (
        "Order from a machine shop, with the files or the drawings: base, rear plate, lead cap, bearing cap, cam, "
        "shafts, and every part with a class such as H7 or f7, all but the cross holes of shafts, hubs and pulleys, "
        "which are drilled when the stack is measured (step 1). Saw, file, drill press and printer do the rest; "
        "count some 60 hours."
    ),
    (
        "Files beside this book: NAME.dxf and NAME.svg of each flat part; stock-MATERIAL-THICKNESS-N.dxf, the parts "
        "laid out on the sheets that are bought; NAME.stl of each printed part; assembly.dxf, the whole in three "
        "dimensions. Without them: the templates at the end of the book, printed at 100 % and pasted on."
    ),
    (
        "Magnets: people with a pacemaker stay 1 m (3 ft) away from the open brake; keep cards, watches and phones "
        "off. Loose magnets pinch, shatter, and are deadly when swallowed: no children in the workshop."
    ),
    (
        "Each sheet says how true its part is. The good face of a board is in front, its grain upright; that of the "
        "propeller runs along blade 1."
    ),
)
SETTING = (
    (
        "Wires on, backboard and cover off, supply in. Lead plate at lead 0: the lever post at the stop where the "
        "mark LEAD of the base meets the mark of 0 at the rim of the lead plate."
    ),
    (
        "Sensor: turn the propeller until the roller is down. Lift the roller from the cam by a strip {half} thick "
        "(half of the lift). Shift the flag in its slots until the lamp just comes on; tighten its screws. Take the "
        "strip out: the lamp is dark."
    ),
    (
        "Inclinometer, a digital one: lay it on blade 1 always on the same straight edge, the upper one from {near} "
        "to {far} beside the axis while blade 1 points to where the lamp comes, level to the right. There this edge "
        "{way} outward by {slope}: turn the propeller until the inclinometer shows that, and set it to 0."
    ),
    (
        "Cam: turn the propeller slowly anticlockwise. The lamp must come on at {on} and go out at {off} of blade 1. "
        "Where both are early or late by the same, loosen the cam screws and turn it on the cam hub"
        " by as much, in the sense of turning where the lamp is late; tighten."
    ),
    "Lead: swing the lead plate to the other stop. The lamp comes on earlier by {lead}, within {error}.",
    "Timer: set its pause as the wiring page says; close the wiring box.",
    "Clutch: as the first line of the tests.",
)
OPEN_TESTS = (
    "Keep hands out of the open guard while another turns.",
    "Turn the shafts by hand through a whole turn at lead 0 and at full lead: nothing touches.",
    "Measure each gap of the table above: none beyond its limit.",
    (
        "Lay the inclinometer on the edge of blade 1 on which it was set, 0 with blade 1 at the lamp, counted "
        "anticlockwise. At lead 0 and at full lead the lamp comes on and goes out at the angles of the table above, "
        "within {error}."
    ),
    "Turn the propeller slowly by hand, dry as it stands: the roller never leaves the cam.",
)
"""What is tried before the backboard is on, which closes the guard; common practice, no source."""
TESTS = (
    (
        "Measure each gap of the table above, slot to cam as they are seen from the front through the cover: none "
        "beyond its limit. The guard has no opening but the slot of the lever."
    ),
    (
        "Lever: propeller still, pull the knob along its slot with a spring balance: the lead plate moves at {lever}, "
        "within a third, and stays where it is put."
    ),
    (
        "Turn the crank as fast as can be for one minute: count turns of blade 1 past the lamp, {speed} at most in a "
        "minute, and flashes, three at most in any second."
    ),
    (
        "Push with 100 N (22 lbf) by a force gauge at the top, from each side: the footboard does not lift; table "
        "clamps tight."
    ),
)
"""What is tried on the finished display; common practice, no source."""
FLANGE = (
    "Turn the crank and look behind the clutch flange: its gap of {gap} to the bearing cap stays the same all round, "
    "and its cross pin is below the surface. So nothing there moves toward a finger, and the least gap for fingers, "
    "which is against crushing alone, is not asked (ISO 13854)."
)
"""Of two faces of which one turns in itself; a crushing zone has parts that move toward one another: ISO 13854:2017,
terms."""
TESTED = {"crank_speed_rpm": "speed", "lamp_error_deg": "error"}
"""Quantity of a check whose limit is tried -> its name in the tests."""
FAULTS = (
    (
        "lamp never lit",
        "no supply, fuse, polarity; flag too low; stray light in the light barrier",
        "measure from the supply on; set the sensor; shade it",
    ),
    (
        "lamp always lit",
        "flag too high; dirt in the gap of the light barrier",
        "set the sensor; clean it",
    ),
    (
        "lamp stays lit without the yellow wire on timer terminal 3",
        "output of timer K1 stuck",
        "pull the plug, wait 10 s; load the program of the wiring page again; else a new K1",
    ),
    ("lamp early or late, on and off alike", "cam on the cam hub", "turn it in its slots"),
    ("lamp lit too long or too short", "height of the flag", "set the sensor: lower the flag for shorter"),
    ("lamp late at full lead", "crank turned clockwise", "turn anticlockwise; see the arrow"),
    ("more than three flashes in a second", "timer", "set its pause; do not show the display before"),
    (
        "propeller beyond its limit of speed",
        "gap of the brake too wide; magnets of one pole",
        "brake spacers; see step Brake",
    ),
    ("clutch slips too early or too late", "clutch screw; oil on the friction discs", "set it; new friction discs"),
    (
        "a shaft turns hard",
        "ball bearing tilted; rear sleeve too long; belt tight",
        "loosen the rear plate and align it",
    ),
    ("roller leaves the cam", "follower sticks; spring", "ease it on its bushes; see its spring"),
    ("lead plate falls by itself", "friction", "shorter stop bush or a shim ring round it below the friction spring"),
    (
        "fuse blows",
        "supply above its limit; wires crossed or pinched; polarity",
        "pull the plug; measure; find the short circuit before a new fuse",
    ),
    (
        "a flash is missed when turned fast or to and fro",
        "none: the pause of the timer",
        "nothing; it keeps flashes apart",
    ),
    (
        "brake disc scrapes",
        "brake disc not in the middle; brake spacers",
        "shift the brake keepers by shim rings at their brake spacers",
    ),
    ("belt jumps", "too slack, worn, pulleys out of line", "new belt; push the rear plate; align the pulleys"),
    ("lamp dim", "voltage; a poor joint; lamp old", "measure at X1 and at the lamp; new lamp"),
    ("a gap is beyond its limit", "part out of place; stack of plates and mast", "shim or shift it, and measure again"),
    ("angle of one window is off", "cam or its engraved line", "measure the cam by its table; a new cam"),
    ("display tips or slides", "table clamps; table", "clamp it again, or screw it down"),
)
"""What is seen, its cause, what is done; common practice, no source."""
HANDLING = (
    (
        "Two people lift and carry the display, which weighs {mass}, by its footboard and side walls, never by the "
        "front panel."
    ),
    "Edges of cut polycarbonate and plate are sharp: break them before they are handled; saw with eye protection.",
    "Epoxy, compounds and paint: gloves, fresh air, and the words on their packing.",
    "Springs and spring pins fly off when they slip: eye protection, and no face in line with them.",
    "Loose magnets pinch, shatter, and are deadly when swallowed; people with a pacemaker stay 1 m (3 ft) away.",
)
"""Cautions for the workshop; common practice, no source."""
HUNG = (
    "Print on white card, put it into a clear sleeve, and hang it beside the display at the height of the eyes, 1.2 "
    "to "
    "1.5 m (4 to 5 ft) above the floor, where a visitor at the crank reads it."
)
DAILY = (
    (
        "Each day: table clamps tight, guard whole, no loose screw, knob fast on the lever post, lamp at lead 0 and "
        "at full lead as it should be."
    ),
    (
        "Clean front panel and cover with a wet soft cloth and mild soap, no solvent. No oil on friction discs, cam or "
        "plastic."
    ),
    "Each month: belts, clutch force, pins, timer. Spare parts: belt, friction discs, fuse, spring, roller.",
    "Pull the plug when no one is there. Hand this book over with the display.",
)


def timing_table(exhibit: Exhibit) -> Table:
    """Return where the lamp comes on and goes out in a whole turn, at no lead and at full lead."""
    shown, blades = exhibit.shown, exhibit.display.window.blades
    count = round(exhibit.display.cam.lobes * exhibit.display.cam_ratio)

    def told(angle_deg: float) -> Value:
        return Value("lamp_on_deg", angle_deg % 360.0, decimals=1)

    lines = (
        (
            name,
            str(number + 1),
            told(shown.lamp_on_deg - lead + number * 360.0 / count),
            told(shown.lamp_off_deg - lead + number * 360.0 / count),
        )
        for name, lead in (("0", 0.0), ("full", shown.lead_deg))
        for number in range(count)
    )
    title = f"Lamp: angle of blade 1 past the lamp, anticlockwise; propeller of {blades} blades"
    return rows(title, ["lead", "window", "on", "off"], lines)


def trials(exhibit: Exhibit, units: Units) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what is tried before the backboard is on, and on the finished display."""
    found = _tested(exhibit, units)
    first, last = (tuple(each.format(**found) for each in tests) for tests in (OPEN_TESTS, TESTS))
    return first, (*last, *_flange(exhibit, units))


def _flange(exhibit: Exhibit, units: Units) -> Iterator[str]:
    """Yield what is tried behind the clutch flange of a crank; that of a motor stands in its housing."""
    assembly = exhibit.assembly
    if assembly is not None and exhibit.display.handle.kind == "crank":
        gap_m = assembly.part("clutch flange").z_from_m - assembly.part("bearing cap").z_to_m
        yield FLANGE.format(gap=text_of(Value("nip_gap_m", gap_m), units))


def _tested(exhibit: Exhibit, units: Units) -> dict[str, str]:
    """Return the limits that are tried, and the force at the lever."""
    limits = {each.quantity: each.limit for each in exhibit.checks if each.quantity in TESTED}
    said = {name: text_of(Value(quantity, limits[quantity]), units) for quantity, name in TESTED.items()}
    lever = checked(exhibit, "lever_n")
    return {**said, "lever": text_of(Value("lever_n", lever), units)}


def handling(assembly: Assembly, units: Units) -> tuple[str, ...]:
    """Return the cautions for the workshop, with the mass that is carried."""
    mass = text_of(Value("mass_kg", assembly.mass_kg, decimals=1), units)
    return tuple(each.format(mass=mass) for each in HANDLING)


def setting(exhibit: Exhibit, assembly: Assembly, units: Units) -> tuple[str, ...]:
    """Return what is set on the finished display, in order."""
    shown = exhibit.shown
    words = {
        "half": text_of(Value("lift_m", exhibit.display.cam.lift_m / 2.0, nominal=True), units),
        "on": text_of(Value("lamp_on_deg", shown.lamp_on_deg, decimals=1), units),
        "off": text_of(Value("lamp_off_deg", shown.lamp_off_deg, decimals=1), units),
        "lead": text_of(Value("lead_deg", shown.lead_deg, decimals=1), units),
        "error": _tested(exhibit, units)["error"],
        **blade_edge(assembly, units),
    }
    return tuple(each.format(**words) for each in SETTING)


def faults() -> Table:
    """Return what may be wrong, its cause and its cure."""
    return rows("Faults", ["seen", "cause", "what to do"], FAULTS)
