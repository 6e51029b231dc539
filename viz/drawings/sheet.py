"""The drawing sheet of the display: A4 pages with drawings, lists, checks, placard and checklist, as one PDF."""

from __future__ import annotations

import io
from math import atan2, cos, degrees, sin, tau
from typing import TYPE_CHECKING, Any

from viz.drawings.drawing import drawn
from viz.drawings.page import CENTRE, CUT, EDGE, HIDDEN, HIGH, THIN, WIDE, Page, placed, scale_for, turned
from viz.drawings.words import CAUTIONS, PLACARD_TITLE, SOURCES, assembly, parts_list, placard
from viz.sheets.format import significant

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit
    from viz.drawings.drawing import Point

OF = 8
TOP = HIGH - EDGE - 14.0


def sheet(exhibit: Exhibit) -> bytes:
    """Return every page as the bytes of a PDF file, the same bytes every time."""
    from matplotlib.backends.backend_pdf import PdfPages

    stream = io.BytesIO()
    with PdfPages(stream, metadata={"CreationDate": None, "Title": "Inert interrupter display"}) as pages:
        for make in (
            cam_page,
            lead_page,
            flat_page,
            arrangement_page,
            parts_page,
            checks_page,
            placard_page,
            checklist_page,
        ):
            pages.savefig(make(exhibit).figure)
    return stream.getvalue()


def cam_page(exhibit: Exhibit) -> Page:
    """Return the page of the cam: drawing, angles and data."""
    page = Page("Cam", 1, OF)
    cam, found, display = drawn(exhibit.parts[0]), exhibit.found, exhibit.display
    left, bottom, right, top = cam.box
    size = max(right - left, top - bottom)
    scale, words = scale_for(size + 46.0, size + 40.0, (WIDE - 2 * EDGE, 160.0))
    centre = (WIDE / 2.0, TOP - (top + 22.0) * scale - 8.0)
    page.part(cam, centre, scale)
    page.circle(centre, 2e3 * found.base_radius_m * scale, CENTRE)
    page.line(placed(cam.cutter_path, centre, scale), closed=True, look=HIDDEN)
    _cam_angles(page, exhibit, centre, (size / 2.0 + 5.0) * scale)
    low = centre[1] - (size / 2.0 + 5.0) * scale - 14.0
    page.across((centre[0] + left * scale, centre[0] + right * scale), low, f"{right - left:.2f}")
    cutter = exhibit.display.cam.cutter_radius_m * 2e3
    key = f"Scale {words}, millimetres. Dashed: centre of the {cutter:g} mm cutter. Chain line: base circle."
    page.text((EDGE, low - 8.0), key)
    sized = exhibit.sheet.cam
    rows = [
        ("cam", "value"),
        ("law of motion", sized.law),
        ("lobes; turns of the cam per turn of the propeller", f"{sized.lobes}; {display.cam_ratio:g}"),
        ("base circle radius; lift", f"{sized.base_radius_mm:g} mm; {sized.lift_mm:g} mm"),
        ("rise and fall; dwell up; dwell down, of cam", _angles(exhibit)),
        ("largest pressure angle", f"{sized.pressure_angle_deg:.1f}°"),
        ("smallest radius of the pitch curve", f"{sized.min_radius_mm:.2f} mm"),
        ("contact stress; float speed", f"{sized.contact_stress_mpa:.0f} MPa; {sized.float_speed_rpm:.0f} rpm of cam"),
        ("fastest spin of the roller, at top speed", f"{_rpm(exhibit.numbers.roller_rad_s):.0f} rpm"),
        ("swing of the propeller's speed over a lobe", f"{100.0 * exhibit.drive.speed_fluctuation:.1f} %"),
        ("lead at flying speed, of propeller", f"{degrees(display.window.lead_rad):.1f}°"),
        ("cuts stray from the true curve by at most", f"{exhibit.chord_error_m * 1e3:g} mm"),
        ("smallest cam on the grid; what bars a smaller one", "; ".join(found.binding) or "given by the scenario"),
    ]
    page.table((EDGE, low - 18.0), (88.0, 98.0), rows)
    return page


def _rpm(speed_rad_s: Any) -> float:  # noqa: ANN401
    return float(speed_rad_s) * 60.0 / tau


def _angles(exhibit: Exhibit) -> str:
    down = degrees(float(exhibit.numbers.low_dwell_rad))
    return f"{exhibit.sheet.cam.rise_deg:.4g}°; {exhibit.sheet.cam.dwell_deg:.4g}°; {down:.4g}°"


def _cam_angles(page: Page, exhibit: Exhibit, centre: Point, reach: float) -> None:
    """Draw the rays where dwells end, and name the sectors of the first lobe."""
    (x0, y0), (x1, y1) = drawn(exhibit.parts[0]).scribes[0]
    zero = atan2(y1 - y0, x1 - x0)
    rise, window = exhibit.found.rise_rad, exhibit.display.window_rad
    period = tau / exhibit.display.cam.lobes
    first = exhibit.display.start_rad - rise / 2.0
    ends = (first, first + rise, first + window, first + window + rise, first + period)
    for end in ends:
        way = (cos(zero - end), sin(zero - end))
        page.line([centre, (centre[0] + reach * way[0], centre[1] + reach * way[1])], look=CENTRE)
    names = (f"rise {degrees(rise):.4g}°", "dwell up", f"fall {degrees(rise):.4g}°", "dwell down")
    for name, start, end in zip(names, ends[:-1], ends[1:], strict=True):
        middle = zero - (start + end) / 2.0
        side = "left" if cos(middle) > 0.2 else "right" if cos(middle) < -0.2 else "center"
        up = 4.0 if name == "dwell down" else 0.0
        at = (centre[0] + (reach + 2.0) * cos(middle), centre[1] + (reach + 2.0 + up) * sin(middle))
        page.text(at, name, size=7.5, ha=side)


def lead_page(exhibit: Exhibit) -> Page:
    """Return the page of the lead plate with its table of holes."""
    page = Page("Lead plate", 2, OF)
    _dimensioned(page, exhibit, 2, (TOP, 215.0))
    return page


def flat_page(exhibit: Exhibit) -> Page:
    """Return the page of follower and base, each with its table of holes."""
    page = Page("Follower and base", 3, OF)
    low = _dimensioned(page, exhibit, 1, (TOP, 96.0))
    _dimensioned(page, exhibit, 3, (low - 8.0, low - EDGE - 24.0))
    return page


def _dimensioned(page: Page, exhibit: Exhibit, number: int, room: Point) -> float:
    """Draw a part at the left with its overall size, its holes in a table at the right; return where it ends."""
    drawing = drawn(exhibit.parts[number])
    left, bottom, right, top = drawing.box
    scale, words = scale_for(right - left + 2.0, top - bottom + 8.0, (98.0, room[1]))
    at = (EDGE + 12.0 - left * scale, room[0] - 10.0 - top * scale)
    page.text((EDGE, room[0]), f"{drawing.name}, scale {words}", weight="bold")
    page.part(drawing, at, scale)
    for row, (centre, diameter) in enumerate(drawing.circles, start=1):
        x, y = placed([centre], at, scale)[0]
        away = diameter * scale / 2.0 * 0.75 + 2.2
        inward = (-1.0 if centre[0] > 0.8 * right else 1.0, -1.0 if centre[1] > 0.8 * top else 1.0)
        page.text(
            (x + away * inward[0], y + away * inward[1]),
            str(row),
            size=7.0,
            ha="center",
            color="#c4500a",
            weight="bold",
        )
    low = at[1] + bottom * scale
    page.across((at[0] + left * scale, at[0] + right * scale), low - 6.0, f"{right - left:.2f}")
    page.up(at[0] + left * scale - 5.0, (low, at[1] + top * scale), f"{top - bottom:.2f}")
    holes = exhibit.parts[number].holes
    heads = [("no.", "⌀", "x", "y", "for")]
    rows = [
        (str(row), f"{hole.diameter_m * 1e3:.1f}", f"{hole.x_m * 1e3:.2f}", f"{hole.y_m * 1e3:.2f}", hole.use)
        for row, hole in enumerate(holes, start=1)
    ]
    thick = f"{exhibit.parts[number].thickness_m * 1e3:g} mm plate; x and y from the large cross of hole 1, in mm"
    page.paragraph((126.0, room[0] - 8.0), thick, 72.0, size=7.5)
    end = page.table((126.0, room[0] - 20.0), (8.0, 10.0, 14.0, 14.0, 27.0), heads + rows, size=7.5)
    return min(low - 12.0, end)


def arrangement_page(exhibit: Exhibit) -> Page:
    """Return the page of everything over one another, the follower down and the lead plate at no lead."""
    page = Page("The display put together", 4, OF)
    cam, follower, lead, base = map(drawn, exhibit.parts)
    boxes = [drawing.box for drawing in (cam, lead, base)]
    left, bottom = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, top = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale, words = scale_for(right - left, top - bottom, (WIDE - 2 * EDGE, 190.0))
    at = (WIDE / 2.0 - (left + right) / 2.0 * scale, TOP - 10.0 - top * scale)
    page.text((EDGE, TOP), f"Follower down, lead plate at 0°, scale {words}", weight="bold")
    page.line(placed(base.outline, at, scale), closed=True, look=HIDDEN)
    for drawing, look in ((lead, THIN), (cam, CUT)):
        page.line(placed(drawing.outline, at, scale), closed=True, look=look)
    x, y, angle = exhibit.follower_at
    about = (x * 1e3, y * 1e3)
    for chain in (follower.outline, *follower.openings):
        page.line(placed(turned(chain, about, angle), at, scale), closed=True, look=CUT)
    pin = (0.0, 0.0) if exhibit.display.follower.kind == "translating" else follower.circles[1][0]
    roller = placed(turned([pin], about, angle), at, scale)[0]
    page.circle(roller, exhibit.display.follower.roller_radius_m * 2e3 * scale, CUT)
    page.circle(at, exhibit.display.cam.shaft_radius_m * 2e3 * scale, CUT)
    window = exhibit.display.window
    lit = f"Lamp on from {degrees(window.from_rad):.1f}° to {degrees(window.to_rad):.1f}° of propeller past a blade."
    notes = (
        "Seen from the visitors' side; the cam turns anticlockwise.",
        "Dashed: base. Thin: lead plate, which swings clockwise, against the cam, to show the lead.",
        "Thick: cam, roller and follower. The lamp switch sits at the far end of the lead plate.",
        lit,
    )
    down = at[1] + bottom * scale - 12.0
    for note in notes:
        down = page.paragraph((EDGE, down), note, 184.0, mark="•")
    return page


def parts_page(exhibit: Exhibit) -> Page:
    """Return the page with the parts list and the order of assembly."""
    page = Page("Parts and assembly", 5, OF)
    rows = [("qty", "part", "size"), *parts_list(exhibit)]
    down = page.table((EDGE, TOP), (12.0, 52.0, 122.0), rows)
    page.text((EDGE, down - 2.0), "Order of assembly", size=11.0, weight="bold")
    down -= 10.0
    for number, step in enumerate(assembly(exhibit), start=1):
        down = page.paragraph((EDGE, down), step, 184.0, mark=f"{number}.")
    return page


def checks_page(exhibit: Exhibit) -> Page:
    """Return the page of checks: value, limit, margin, source, pass or fail."""
    page = Page("Checks", 6, OF)
    rows = [("check", "value", "limit", "margin", "source", "")]
    for check in exhibit.checks:
        limit = f"{check.bound} {significant(check.limit)} {check.unit}"
        source = check.source if check.passes else f"{check.source}. Cure: {check.cure}"
        verdict = "pass" if check.passes else "FAIL"
        rows.append((check.name, significant(check.value), limit, significant(check.margin), source, verdict))
    down = page.table((EDGE, TOP), (46.0, 17.0, 33.0, 17.0, 60.0, 12.0), rows, size=7.5)
    page.paragraph((EDGE, down - 4.0), SOURCES, 184.0, size=7.5)
    return page


def placard_page(exhibit: Exhibit) -> Page:
    """Return the page to hang beside the display."""
    page = Page("Placard for visitors", 7, OF)
    down = page.paragraph((EDGE + 6.0, TOP - 14.0), PLACARD_TITLE, 172.0, size=22.0) - 8.0
    for words in placard(exhibit):
        down = page.paragraph((EDGE + 6.0, down), words, 172.0, size=16.0) - 5.0
    return page


def checklist_page(exhibit: Exhibit) -> Page:
    """Return the page with cautions and the checklist to sign."""
    page = Page("Cautions and inertness checklist", 8, OF)
    page.text((EDGE, TOP), "Cautions", size=11.0, weight="bold")
    down = TOP - 9.0
    for words in CAUTIONS:
        down = page.paragraph((EDGE, down), words, 184.0, size=9.5, mark="•")
    page.text(
        (EDGE, down - 4.0), "Inertness checklist: tick and sign before the display is shown", size=11.0, weight="bold"
    )
    down -= 14.0
    for words in exhibit.checklist:
        box = [(EDGE, down - 2.0), (EDGE + 4.0, down - 2.0), (EDGE + 4.0, down + 2.0), (EDGE, down + 2.0)]
        page.line(box, closed=True, look=CUT)
        down = page.paragraph((EDGE + 8.0, down), words, 174.0, size=9.5) - 3.0
    for label, start in (("Name", EDGE), ("Date", EDGE + 78.0), ("Signature", EDGE + 118.0)):
        page.line([(start, down - 16.0), (start + (34.0 if label == "Date" else 66.0), down - 16.0)], look=CUT)
        page.text((start, down - 20.0), label)
    return page
