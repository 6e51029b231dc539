"""The tables beside the drawings: data of the cam, and the holes and slots of a part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.fits import limits
from sim.display.shapes import CHORD_ERROR_M
from sim.units.convert import mm
from viz.drawings.flat_parts import STANDING
from viz.drawings.lengths import DECIMALS, dimension_text
from viz.sheets.blocks import Column, Table, Value, rows, say
from viz.sheets.exhibit import limiting
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.shapes import FlatPart, Hole
    from sim.studies.exhibit import Exhibit, ShownTiming
    from viz.sheets.blocks import Cell, Sentence
    from viz.sheets.format import Units


def cam_table(exhibit: Exhibit) -> Table:
    """Return what is to be known of the cam before it is cut."""
    return rows("", ["cam", "value"], _cam(exhibit))


def _cam(exhibit: Exhibit) -> Iterator[tuple[str, Cell]]:
    cam, display = exhibit.cam, exhibit.display
    yield "law of motion", cam.law
    ratio = Value("cam_ratio", display.cam_ratio, nominal=True)
    yield (
        "lobes; turns of the cam per turn of the propeller",
        say("{lobes}; {ratio}", lobes=str(cam.lobes), ratio=ratio),
    )
    base, lift = (Value(name, getattr(cam, name), nominal=True) for name in ("base_radius_m", "lift_m"))
    yield "base circle radius; lift", say("{base}; {lift}", base=base, lift=lift)
    angles = {
        name: Value(name, getattr(cam, name), nominal=True) for name in ("rise_deg", "dwell_deg", "low_dwell_deg")
    }
    yield "rise and fall; high dwell; low dwell, cam angle", say("{rise_deg}; {dwell_deg}; {low_dwell_deg}", **angles)
    yield "largest pressure angle", Value("pressure_angle_deg", cam.pressure_angle_deg, decimals=1)
    yield "smallest radius of the pitch curve", Value("min_radius_m", cam.min_radius_m, nominal=True)
    stress = Value("contact_stress_pa", cam.contact_stress_pa)
    fastest = Value("float_speed_rpm", cam.float_speed_rpm, decimals=0)
    yield "contact stress; float speed", say("{stress}; {fastest} of cam", stress=stress, fastest=fastest)
    yield "largest speed of the roller about its pin", Value("roller_speed_rpm", cam.roller_speed_rpm, decimals=0)
    fluctuation = Value("speed_fluctuation", exhibit.drive.speed_fluctuation, decimals=1)
    yield "speed fluctuation of the propeller over a lobe", fluctuation
    yield "timing shown at no lead, propeller angle", _lit(exhibit.shown)
    yield "lead at full speed of the engine, propeller angle", Value("lead_rad", display.window.lead_rad, decimals=1)
    yield "largest chordal error of the outline", Value("chord_error_m", CHORD_ERROR_M, nominal=True)
    yield "limiting constraints", limiting(exhibit)


def _lit(timing: ShownTiming) -> Sentence:
    """Return whose cam it is and when its lamp is lit."""
    return say(
        "{whose}; lamp on {on} to {off}",
        whose="ideal cam" if timing.cam.ideal else "the scenario's cam",
        on=Value("lamp_on_deg", timing.lamp_on_deg, decimals=1),
        off=Value("lamp_off_deg", timing.lamp_off_deg, decimals=1),
    )


def hole_table(part: FlatPart, units: Units, faces: tuple[str, str] = STANDING) -> Table:
    """Return number, diameter, place and use of each hole; places are from the centre of hole 1, threads as drilled."""
    holes, (x, y) = part.holes, _origin(part)
    sizes = {
        "⌀": ("hole_diameter_m", [hole.diameter_m for hole in holes], DECIMALS[units] - (units == "si")),
        "x": ("hole_x_m", [hole.x_m - x for hole in holes], DECIMALS[units]),
        "y": ("hole_y_m", [hole.y_m - y for hole in holes], DECIMALS[units]),
    }
    measured = (
        Column(head, tuple(Value(name, number, decimals=decimals, bare=True) for number in numbers), name)
        for head, (name, numbers, decimals) in sizes.items()
    )
    thickness = Value("plate_thickness_m", part.thickness_m, nominal=True)
    where = "the centre of hole 1" if holes else "the lower left corner"
    title = say("{name}: {thickness} plate; x and y from {where}", name=part.name, thickness=thickness, where=where)
    numbered = Column("no.", tuple(str(number) for number, _ in enumerate(holes, start=1)))
    uses = Column("for", tuple(_use(hole, units, faces) for hole in holes))
    slots = (_slot(part, number, units) for number in range(len(part.cut_slots)))
    notes = (*((_datum(part, units),) if holes else ()), *slots)
    return Table(title, (numbered, *measured, uses), notes)


def _origin(part: FlatPart) -> tuple[float, float]:
    """Return what places are counted from: the centre of hole 1, else the lower left corner. [m]."""
    if part.holes:
        return part.holes[0].x_m, part.holes[0].y_m
    low = part.outline_m.min(axis=0)
    return float(low[0]), float(low[1])


def _datum(part: FlatPart, units: Units) -> Sentence:
    """Return how far hole 1 stands from the left and from the lower edge."""
    (x, y), low = _origin(part), part.outline_m.min(axis=0)
    ends = {
        name: Value("hole_x_m", each, decimals=DECIMALS[units]) for name, each in (("x", x - low[0]), ("y", y - low[1]))
    }
    return say("Hole 1: {x} from the left edge, {y} from the lower edge, at their farthest.", **ends)


def _use(hole: Hole, units: Units, faces: tuple[str, str]) -> str:
    """Return what a hole is for, its fit or thread, and its countersink."""
    side = faces[hole.sunk_behind]
    sunk_to = Value("part_diameter_m", hole.sunk_m, decimals=DECIMALS[units] - 1)
    sunk = f"countersunk 90° to ⌀{text_of(sunk_to, units)} {side}" if hole.sunk_m else ""
    return ", ".join(filter(None, (hole.use, limited(hole.fit, hole.diameter_m, units), sunk)))


def limited(fit: str, size_m: float, units: Units) -> str:
    """Return a class with its limits of size in numbers, ``H7: 26.000 to 26.021``; a thread as it is."""
    try:
        ends = limits(fit, size_m)
    except KeyError:
        return fit
    low, high = (dimension_text(mm(size_m + end), units, fewer=-1) for end in ends)
    return f"{fit}: {low} to {high}"


def _slot(part: FlatPart, number: int, units: Units) -> Sentence:
    """Return width, ends and use of a slot, and the arc of a bent one, from where holes are counted."""
    origin, slot = _origin(part), part.cut_slots[number]
    ends = {
        name: Value(f"hole_{name[0]}_m", place, decimals=DECIMALS[units])
        for names, start, places in (
            (("x0", "x1", "x2"), origin[0], (slot.start_m[0], slot.end_m[0], 0.0)),
            (("y0", "y1", "y2"), origin[1], (slot.start_m[1], slot.end_m[1], 0.0)),
        )
        for name, place in zip(names, (each - start for each in places), strict=True)
    }
    bent = " Its middle is an arc of radius {radius} about x {x2}, y {y2}." if slot.bend_m else ""
    return say(
        "Slot {name} for the {use}: {width} wide{fit}, centres of its ends at x {x0}, y {y0} and x {x1}, y {y1}."
        + bent,
        name=f"S{number + 1}",
        use=slot.use,
        fit=f" ({limited(slot.fit, slot.width_m, units)})" if slot.fit else "",
        radius=Value("hole_x_m", slot.bend_m, decimals=DECIMALS[units]),
        width=Value("hole_diameter_m", slot.width_m, decimals=DECIMALS[units] - (units == "si")),
        **ends,
    )
