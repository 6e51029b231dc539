"""What is done in each step in which the whole display is put together, how hard it is screwed, what is tried."""

from __future__ import annotations

from math import floor, log10
from typing import TYPE_CHECKING

from sim.display.assembly.clutch import crank_slip
from sim.display.assembly.pin_room import DRIFT_M, pin_room
from sim.display.assembly.preload import tightenings
from sim.display.hand_speed import CLUTCH_SCATTER
from viz.drawings.bench import drift, told_gaps
from viz.drawings.gaps import checked
from viz.drawings.items import key, numbers
from viz.drawings.lengths import DECIMALS
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.sheets.blocks import Table
    from viz.sheets.format import Units

TEXTS = {
    "Plates and bearings": (
        "Deburr base and rear plate. Ream or bore holes with a class; tap threads in holes drilled to the tables. "
        "Bolt base, mast, front panel and rear plate together dry, with the ball bearings and the two straight "
        "shafts in all of them: both must turn freely; if not, open the holes of the mast bolts by 0.5 mm (0.02 in) "
        "and shift the rear plate. Measure M, from the front of the base to the back of the rear plate, beside each "
        "shaft: {stack} as drawn. Where M is another, the cross holes of all that sits on a shaft behind the rear "
        "plate are drilled so much farther back from those in front of the base as M is larger, or nearer as it is "
        "smaller; beyond 1 mm (0.04 in) plane the mast or put card behind it. Then undo the mast bolts, put a thin "
        "film of retaining compound on the outside only of each ball bearing, none near the balls, set it in flush "
        "with the front face, and bolt all together again at once with the shafts in. Leave shafts and mast bolts "
        "until the compound is hard."
    ),
    "Foot and walls": (
        "Glue and screw the footboard to the mast. Screw side walls and top wall to footboard, front panel and each "
        "other: hold each in place and drill it through the holes of front panel, footboard and top wall. The "
        "backboard stays off."
    ),
    "Shafts and drive": (
        "On the bench, where shafts are drilled (see the parts to turn), a screw clamp reaches every cross pin (see "
        "before step 1). Press the cross pin of the brake hub in, screw the brake disc to the brake hub, then pin the"
        " pulleys; for the crank pulley take drift and prop {long} long or more, past the brake disc, and {thick} "
        "thick at most. With a drill in the cross hole of what is not pinned yet, measure between faces: {gaps}, M as"
        " in step 1. What a gap is wider by is filled by shim rings between pulley and rear sleeve; where it is "
        "narrower, face the front sleeve. Put shim rings and rear sleeves on the shafts, lay the belts round their "
        "pulleys, slide all shafts in from the rear together, and put the front sleeves on. Shafts must turn freely; "
        "what holds them along comes with the cam and the clutch: try then that no play is felt."
    ),
    "Brake": (
        "Magnets: clean brake keepers and magnets with alcohol, glue each magnet with its middle on a small hole of "
        "its brake keeper, poles of neighbours alternating, north, south, north; on the other brake keeper the pole "
        "opposite to its partner, so that the two pull each other. Glue one, hold it with a block of wood, and wait "
        "until the adhesive is hard before the next. Hold the two brake keepers far apart: they snap together and "
        "pinch; a wedge of wood between them while the screws are started keeps them apart. Slide the brake keeper "
        "of the front in from below, between brake disc and crank pulley; then screw brake keepers and brake "
        "spacers, the shorter ones between the brake keepers as in the picture, to the rear plate; the brake disc "
        "must not touch a magnet."
    ),
    "Lead plate": (
        "On the bench screw lever post and spring block to the lead plate, from behind. Screw the bearing cap to the "
        "base{collar}. Lay the lead cap on the base, round it the thrust washer and on this the lead plate, then the "
        "lead keeper; the cap screws of the lead keeper go through the lead cap into the base. With these cap screws "
        "tight a feeler of {play} must pass between lead plate and lead keeper, and none of {most_play}: else face "
        "the lead cap, or lay a shim ring below it round each of its cap screws. Put stop bush, friction spring and "
        "friction screw into the slot. The friction screw clamps on the stop bush: file the stop bush shorter, or "
        "lay a shim ring round it below the friction spring, until the lead plate stays where it is put and moves at "
        "the force of {lever} at the lever post; set it once more when the knob is on. Hold the lever post by its "
        "flats while its screw is tightened. The wires of the sensor go through their PVC sleeve in the hole below, "
        "before the cover is on."
    ),
    "Follower, spring and sensor": (
        "Put the spring over the round tip of the {follower}, between spring block and spring seat, before the "
        "{follower} is held: then there is no room for it. {sunk}Mount the {follower} on its {bushes}, free to move "
        "with no play to be felt across. Screw on roller and {sensor}, then the flag{into}, in the middle of its slots."
    ),
    "Propeller": (
        "Write 1 on the blade that its engraved 1 shows. Press the cross pin through propeller hub and shaft, along "
        "blade 1; screw the propeller between propeller hub and propeller clamp."
    ),
    "Cam": (
        "Slide the cam hub on the shaft, lead plate at lead 0. {pin} Lift the roller by hand while the cam goes on, "
        "its engraved face in front; screw it to the cam hub, the cam screws in the middle of their slots. Turn blade "
        "1 to the lamp (to the right as seen from the front), lead plate at lead 0, and turn the cam in its slots "
        "until its line 0 points to the roller; tighten. It is set finely by the lamp later."
    ),
    "Drive with slip clutch": "{drive}",
    "Target, lamp and rear of the guard": (
        "Screw the solid gun outline to the backboard, push the lamp into it with a drop of glue, and screw the "
        "wiring box on behind, the mounting rail in it, before the backboard is on. Wire as in the diagram: the "
        "three wires of the sensor run through their hole behind the base, along the front panel down to the "
        "footboard, under clips, and through the lower hole of the backboard into the wiring box, clear of belts, "
        "brake disc and blades; those of the lamp through the hole behind it and down the rear of the backboard to "
        "the wiring box in the cable duct, its lid on, both as the second picture shows. The wiring box is drilled "
        "as the sheet of bought parts shows. Set it as the page after the wiring says, then do the tests before the "
        "backboard is on. Screw the backboard to side walls and top wall. Clamp the footboard to a table {table} "
        "high with a top 20 to 60 mm (3/4 to 2 3/8 in) thick: the crank shaft then is {crank} above the floor."
    ),
    "Cover": (
        "Screw cover frame and cover to the base with screws that need a tool, the lever post through its slot; then "
        "screw the knob on the lever post, outside, with a drop of thread-locking compound: a child must not get it "
        "off. Measure and try what is left on the test sheet and sign the "
        "checklist before anyone turns the display."
    ),
}
"""Title of a step -> what is done in it; common practice, no source."""
PIN = (
    "Turn the shaft until the hole of the cross pin lies along {angle}, counted anticlockwise from level to the right "
    "as seen from the front: there nothing on the lead plate is in the way. Press the cross pin in over the lead plate "
    "by a drift and a prop no thicker than {thick} and at least {long} long, with a screw clamp that opens {open}, "
    "beyond the rim; no hammer: the base is close behind."
)
SUNK = "Countersink the flange of the light barrier first, as the sheet of bought parts says. "
PIN_FIRST = "Press its cross pin in before the follower is on, which leaves no room for drift and prop; no hammer."
"""How the cross pin of the cam hub is pressed: where there is room for drift and prop at some angle, and where not."""
COLLAR = ", and pin the shaft collar in front of the bearing cap of the propeller shaft"
CRANK = (
    "Cut the spindle of the grip as the parts list says. Screw the grip to the crank arm with washer and nut behind, "
    "a drop of thread-locking compound on the nut, the arrow of the crank arm in front. Pin the clutch flange; put "
    "friction discs, crank arm, pressure disc, clutch spring and clutch washer on the crank shaft in the order of the"
    " picture, with thread-locking compound on the clutch screw. Tighten it until the clutch slips as the test sheet "
    "says, and let the compound harden. The clutch washer stays clear of the end of the shaft. A visitor turns the "
    "crank anticlockwise as seen from the front, as the propeller turns."
)
MOTOR = (
    "Pin the clutch flange; put friction discs, clutch driver, pressure disc, clutch spring and clutch washer on the "
    "crank shaft in the order of the picture, with thread-locking compound on the clutch screw. Tighten it until the "
    "clutch slips as the test sheet says, and let the compound harden. The clutch washer stays clear of the end of the "
    "shaft. Screw motor coupling, motor housing, motor plate and geared motor on; wire the geared motor so that the "
    "propeller turns anticlockwise as seen from the front."
)


def step_text(title: str, exhibit: Exhibit, assembly: Assembly, units: Units) -> str:
    """Return what is done in a step of a display."""
    crank_m = exhibit.display.handle.axis_height_m
    table_m = checked(exhibit, "table_height_m")
    return TEXTS[title].format(
        **_measures(assembly, units),
        **_follower(assembly),
        **drift(assembly),
        gaps=told_gaps(assembly),
        pin=_pin(assembly, units),
        collar=COLLAR if any(part.name == "shaft collar" for part in assembly.parts) else "",
        drive=CRANK if exhibit.display.handle.kind == "crank" else MOTOR,
        lever=text_of(Value("lever_n", checked(exhibit, "lever_n")), units),
        table=text_of(Value("table_height_m", table_m), units),
        crank=text_of(Value("table_height_m", crank_m), units),
    )


def _follower(assembly: Assembly) -> dict[str, str]:
    """Return what the parts list calls the follower, what it runs on, and what senses it."""
    names = {part.name for part in assembly.parts}
    slides, barrier = "slide" in names, "light barrier" in names
    return {
        "follower": "slide" if slides else "arm",
        "bushes": "guide bushes" if slides else "pivot bush",
        "sensor": "light barrier" if barrier else "lamp switch",
        "sunk": SUNK if barrier else "",
        "into": ", slipped into the gap of the light barrier, of which it covers one screw" if barrier else "",
    }


def _pin(assembly: Assembly, units: Units) -> str:
    """Return how the cross pin of the cam hub is pressed in over the lead plate."""
    room = pin_room(assembly)
    if room is None:
        return PIN_FIRST
    return PIN.format(
        angle=text_of(Value("placed_rad", room.angle_rad, decimals=0), units),
        thick=_drawn(DRIFT_M, units),
        long=_drawn(room.drift_m, units),
        open=_drawn(room.clamp_open_m, units),
    )


def _drawn(length_m: float, units: Units) -> str:
    """Return a length as a drawing has it, a decimal less."""
    return text_of(Value("drawn_m", length_m, decimals=DECIMALS[units] - 1), units)


def _measures(assembly: Assembly, units: Units) -> dict[str, str]:
    """Return the lengths that the steps name: stack of the plates, and play of the lead plate."""
    base, rear, cap = (assembly.part(name) for name in ("base", "rear plate", "lead cap"))
    play_m = cap.thickness_m - sum(assembly.part(name).thickness_m for name in ("lead plate", "thrust washer"))
    lengths = {
        "stack": base.z_to_m - rear.z_from_m,
        "play": play_m / 2.0,
        "most_play": 1.5 * play_m,
    }
    return {name: text_of(Value("drawn_m", each, decimals=DECIMALS[units]), units) for name, each in lengths.items()}


TIGHTENED = (
    "Threads dry and clean; a screw that has been out is tightened the same again.",
    "The screw of the clutch is set by what it slips at (see the test sheet), not by a torque.",
    (
        "Wood screws: drill the second board through the hole of the first, 2.5 mm (7/64 in) in diameter and as deep "
        "as the screw goes, and turn them in by hand until their heads are flush, on the front panel until their "
        "washers just touch it: polycarbonate cracks, and grows with warmth."
    ),
    "Nut of a grip: 3 N m (27 lbf in); the grip turns freely on its pin.",
    "A self-locking nut first takes its own friction: count the torque beyond that.",
)
"""Below the table of torques; common practice, no source."""


def tightening_table(assembly: Assembly) -> Table:
    """Return torque and preload of each kind of screw, and what limits them."""
    found = numbers(assembly)
    kinds = {(screw.name, screw.standard): found[key(screw)] for screw in reversed(assembly.fasteners)}
    lines = (
        (
            ", ".join(str(kinds[kind]) for kind in kinds if kind[0] == one.name and kind[1] == one.standard),
            one.name,
            one.thread,
            Value("tightening_n_m", _rounded(one.tightening_n_m)),
            Value("bolt_preload_n", _rounded(one.bolt_preload_n)),
            one.bears,
        )
        for one in tightenings(assembly)
    )
    heads = ["item", "screw", "thread", "torque", "preload", "limited by"]
    return rows("Largest torque of the key, and the preload that it makes, within a third", heads, lines)


def _rounded(number: float) -> float:
    """Return a number rounded down to two digits."""
    step = 10.0 ** (floor(log10(number)) - 1)
    return step * floor(number / step + 1e-9)


def slip(exhibit: Exhibit, units: Units) -> str:
    """Return at which force, or with a motor torque, the clutch is set to slip, and within which band."""
    shown, handle = exhibit.display, exhibit.display.handle
    torque = crank_slip(shown, exhibit.found, exhibit.spring)
    ends = [torque * (1.0 + side * CLUTCH_SCATTER) for side in (-1.0, 0.0, 1.0)]
    if handle.kind == "crank":
        low, middle, high = (text_of(Value("slip_force_n", each / handle.crank_radius_m), units) for each in ends)
        return (
            "Hold the propeller. With the arm hanging down, pull the grip sideways with a spring balance: the clutch "
            f"slips at {middle}, {low} to {high}. The arm may sink of itself from the level: leave the clutch as it "
            f"is."
        )
    low, middle, high = (text_of(Value("clutch_n_m", each), units) for each in ends)
    return f"Turn the clutch against its held shaft: it slips at {middle}, {low} to {high}."
