"""The sheet of `whirlgate exhibit`: sizes, checks with their cures, and the checklist to sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.inert import checklist
from sim.units.quantities import quantity
from viz.sheets.blocks import Checklist, Run, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import in_either_system

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.checks import Check
    from sim.studies.exhibit import Exhibit, ShownTiming
    from viz.sheets.blocks import Block, Cell, Next, Sentence, Table

MARGIN = "Limit and margin (distance to the limit) in the unit of the value."
SOURCES = "Norton: Design of Machinery. Shigley: Mechanical Engineering Design. Own limit: set for this display."
SIZES = {
    "cam": (
        "base_radius_m",
        "lift_m",
        "rise_deg",
        "dwell_deg",
        "pressure_angle_deg",
        "min_radius_m",
        "contact_stress_pa",
        "float_speed_rpm",
        "roller_speed_rpm",
    ),
    "spring": ("wire_m", "coil_m", "active_coils", "rate_n_per_m", "preload_n", "stress_pa", "energy_j"),
    "drive": ("crank_force_n", "torque_n_m", "tip_speed_m_s", "kinetic_energy_j", "speed_fluctuation"),
}
"""Part of the answer -> what is shown of it."""
SHOWN = (
    "{cam} The lamp shows {line}: of each turn it is first lit from {on} to {off} of propeller "
    "after blade 1 crosses the bore line, when rounds pass that were released {lead} earlier (the lead). {clear}"
)
CLEAR = "The nearest of them clears blade and margin by {by}."
WHOLE = "That is the whole clear arc between two blades."
ABOUT = (
    "Each impulse is the middle of such an arc: it could come {by} earlier or later, and its round would still clear "
    "blade and margin."
)
MEETS = (
    "Some of them strike a blade or pass within its margin; to clear both they would have to come {by} earlier or "
    "later: the lamp is lit while a blade is in the way, as this cam has it at that speed."
)
PRINT = next_steps("print book.pdf at 100 %, measure its line of 100 mm, and cut from the DXF or SVG files")
CORRECT = next_steps("change the scenario as proposed below the checks until all pass; cut nothing before")
SMALLEST = "Smallest acceptable of {count} cams tried. Limiting constraints: {names}."
MOTOR_SIZES = ("motor_power_w", "clutch_n_m")
NAMED = {
    "crank_force_n": "grip_force_n",
    "tip_speed_m_s": "display_tip_speed_m_s",
    "dwell_deg": "high_dwell_deg",
    "stress_pa": "wire_stress_pa",
    "energy_j": "spring_energy_j",
    "torque_n_m": "largest_drive_torque_n_m",
    "kinetic_energy_j": "propeller_energy_j",
}
"""Field of the answer -> the quantity that says more of it than its own name."""


def sheet(exhibit: Exhibit, *, written: bool = False) -> Iterator[Block]:
    """Yield the sheet; what comes next depends on whether the files to cut from are written."""
    yield from parts(exhibit)
    yield CORRECT if exhibit.failures else PRINT if written else cut(exhibit)


def parts(exhibit: Exhibit) -> Iterator[Block]:
    """Yield what the lamp shows, sizes, checks and checklist."""
    yield shown(exhibit.shown)
    yield rows("Inert interrupter display", ["Part", "Quantity", "Value"], _sizes(exhibit))
    yield checks(exhibit, *_findings(exhibit))
    yield Checklist("Inertness checklist, to sign before the display is shown", checklist(exhibit.display))


def shown(timing: ShownTiming) -> Sentence:
    """Return which cam the lamp shows, when it is lit, and whether blades are clear then."""
    return say(
        SHOWN,
        cam=timing.cam.says,
        line=_whose(timing),
        on=Value("lamp_on_deg", timing.lamp_on_deg, decimals=1),
        off=Value("lamp_off_deg", timing.lamp_off_deg, decimals=1),
        lead=Value("lead_deg", timing.lead_deg, decimals=1),
        clear=_clear(timing),
    )


def _whose(timing: ShownTiming) -> Sentence:
    """Return whose firing windows are shown, at which speed."""
    rpm = Value("rpm", timing.rpm, plain=True)
    if not timing.powerplant:
        return say("the timing at {rpm}", rpm=rpm)
    return say("{powerplant} at full speed, {rpm}", powerplant=timing.powerplant, rpm=rpm)


def _clear(timing: ShownTiming) -> Sentence:
    text = MEETS if timing.clearance_deg < 0.0 else ABOUT if timing.impulses else WHOLE if timing.cam.ideal else CLEAR
    return say(text, by=Value("clearance_deg", abs(timing.clearance_deg), decimals=1))


def cut(exhibit: Exhibit) -> Next:
    """Return how to write the files, of the cam that was shown."""
    run = Run("exhibit", "--ideal --out display" if exhibit.shown.cam.ideal else "--out display")
    return next_steps(say("{run}, the files to cut from and the drawing sheet", run=run))


def checks(exhibit: Exhibit, *notes: Cell) -> Table:
    """Return the table of checks, its sources noted below."""
    heads = ["Check", "Value", "Limit", "Margin", "Result", "Source"]
    return rows("Checks", heads, map(_line, exhibit.checks), *notes, MARGIN, SOURCES)


def limiting(exhibit: Exhibit) -> str:
    """Return the constraints that exclude a smaller cam."""
    return "; ".join(exhibit.found.binding) or "none; its size was given"


def _line(check: Check) -> tuple[Cell, ...]:
    limit = say("{bound} {limit}", bound=check.bound, limit=_bare(check, check.limit))
    result = "pass" if check.passes else "FAIL"
    return check.name, Value(check.quantity, check.value), limit, _bare(check, check.margin), result, check.source


def _bare(check: Check, number: float) -> Value:
    return Value(check.quantity, number, bare=True)


def _sizes(exhibit: Exhibit) -> Iterator[tuple[str, str, Cell]]:
    """Yield part, meaning and number of each size."""
    yield "cam", "law of motion", exhibit.cam.law
    yield "cam", quantity("lobes").meaning, str(exhibit.cam.lobes)
    motor = MOTOR_SIZES if exhibit.display.handle.kind == "motor" else ()
    for part, names in (SIZES | {"drive": SIZES["drive"] + motor}).items():
        for name in names:
            shown = NAMED.get(name, name)
            yield part, quantity(shown).meaning, Value(shown, getattr(getattr(exhibit, part), name))


def _findings(exhibit: Exhibit) -> Iterator[Cell]:
    """Yield what would correct each failure, and what the search found."""
    for check in exhibit.failures:
        yield say("{check}: {cure}.", check=check.name, cure=in_either_system(check.cure))
    found = exhibit.found
    said = SMALLEST if found.passes else "No cam tried passes all checks. Limiting constraints: {names}."
    binding: Cell = listed(found.binding) if found.binding else "none; its size was given"
    yield say(said, count=str(found.tried), names=binding)
