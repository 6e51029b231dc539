"""When the gun may fire: release windows, lead and steady rate of fire at each propeller speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.model.gun_options import GunOptions, gun_lines
from sim.studies.cam_answer import cams_used
from sim.studies.windows_answer import FiringWindow, WindowsAnswer, WindowsRow
from sim.synchronizer.gun_line import neat, told_arcs
from sim.synchronizer.rate import steady_rate
from sim.synchronizer.windows import release_windows
from sim.told import in_series, told
from sim.units.convert import ms, per_s
from sim.units.text import brief, fixed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.windows import ReleaseWindows

ROUNDING_DEG = 1e-9
"""Rounding error of an angle."""


def windows(
    model: Model | None = None,
    *,
    powerplant: str | None = None,
    spin_rad_s: Sequence[float] = (),
    blades: float | None = None,
    blocked_deg: float | None = None,
    margin_deg: float | None = None,
    delay_s: float | None = None,
    natural_rate_per_s: float | None = None,
    action: Action | None = None,
    impulses_per_rev: float | None = None,
    dwell_deg: float | None = None,
    opens_deg: float | None = None,
    ideal: bool = False,
) -> WindowsAnswer:
    """Return windows, lead and rate behind each powerplant of a model, or of a gun line made of options alone.

    Parameters
    ----------
    model : Model or None
        The airplane; None for a gun line of options alone, which then need speeds, blades and the blocked arc.
    powerplant, spin_rad_s, blades, blocked_deg, margin_deg, delay_s, natural_rate_per_s, action, impulses_per_rev
    dwell_deg, opens_deg, ideal
        As in `sim.model.gun_options.GunOptions`, in place of the model's; without speeds: idle, cruise and full.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.
    NoAnswerError
        When no propeller leaves a window between its blades.

    Notes
    -----
    Steady speed, no scatter: `burst` gives the effect of scatter. Each blade is taken to block a fixed arc at every
    speed.

    Examples
    --------
    >>> from math import pi
    >>> row = windows(
    ...     spin_rad_s=[40.0 * pi], blades=2, blocked_deg=30.0, margin_deg=5.0, delay_s=0.005, natural_rate_per_s=10.0
    ... ).rows[0]
    >>> row.rpm, row.open_deg, row.lead_deg, row.rounds_per_min
    (1200.0, 140.0, 36.0, 600.0)
    """
    options = GunOptions(
        powerplant=powerplant,
        spin_rad_s=tuple(spin_rad_s),
        blades=blades,
        blocked_deg=blocked_deg,
        margin_deg=margin_deg,
        delay_s=delay_s,
        natural_rate_per_s=natural_rate_per_s,
        action=action,
        impulses_per_rev=impulses_per_rev,
        dwell_deg=dwell_deg,
        opens_deg=opens_deg,
        ideal=ideal,
    )
    lines = gun_lines(model, options)
    if all(line.clear_deg < 0.0 for line in lines):
        lines[0].must_leave_a_window("no window")
    found = tuple(row for line in lines for row in window_rows(line))
    cams = cams_used(lines)
    cam = cams[lines[0].powerplant]
    if model is None:
        return WindowsAnswer(found, cam, cams, ())
    meets = _meets(model.second_gun, options) if model.second_gun else None
    return WindowsAnswer(found, cam, cams, model.remark_texts("windows"), model.which_gun, meets)


def _meets(model: Model, options: GunOptions) -> tuple[str, ...]:
    """Return the engines behind which a row of a gun has a note: its rounds are not clear."""
    lines = gun_lines(model, options)
    return tuple(line.powerplant for line in lines if any(row.note for row in window_rows(line)))


def window_rows(line: GunLine) -> Iterator[WindowsRow]:
    """Yield windows and rate of a gun line at each of its speeds."""
    rates, clear = _rates(line), round(line.clear_deg, 12) > 0.0
    for rpm, found, rate in zip(line.rpm, release_windows(line), rates, strict=True):
        windows = _windows(found) if clear else ()
        lead_deg = neat(math.degrees(found.lead_rad))
        open_deg = round(max((window.to_deg - window.from_deg for window in windows), default=0.0), 12)
        yield WindowsRow(
            powerplant=line.powerplant,
            rotation=line.rotation,
            rpm=rpm,
            blade_interval_ms=ms(1.0 / per_s(rpm * line.blades)),
            blocked_deg=line.closed_deg,
            margin_deg=neat(math.degrees(line.margin_rad)),
            open_deg=open_deg,
            open_ms=ms(open_deg / (360.0 * per_s(rpm))),
            lead_deg=lead_deg,
            windows_deg=windows,
            rounds_per_min=rate[0],
            rounds_per_pattern=rate[1],
            intervals_per_pattern=rate[2],
            note=_meets_a_blade(line, rpm, lead_deg, windows) if clear else _no_window(line),
        )


ALL_OF_EACH = ("some rounds of each window", "rounds of each impulse")
ALL_OF_ONE = ("some rounds of the window", "rounds of the impulse")
SOME_OF_SEVERAL = ("some rounds of windows {numbers} of {count}", "rounds of impulses {numbers} of {count}")
SOME_OF_ONE = ("some rounds of window {numbers} of {count}", "rounds of impulse {numbers} of {count}")
CLOSED = "No window: each blade blocks {closed} with its margins, and the blades are {spacing} apart."
SHRUNK = (
    "No window: each blade blocks {closed} with its margins, and the blades are {spacing} apart; the rate is that of a "
    "window shrunk to an instant."
)


def _windows(found: ReleaseWindows) -> tuple[FiringWindow, ...]:
    """Return the windows in degrees, without the rounding errors that would put one at 360 in place of 0."""
    rows = []
    for number, window in enumerate(found.windows, 1):
        from_deg = round(math.degrees(window.from_rad), 12)
        to_deg = round(from_deg + math.degrees(window.to_rad - window.from_rad), 12)
        clear_deg = round(math.degrees(window.clearance_rad), 9) + 0.0
        rows.append(FiringWindow(f"window {number}", from_deg, to_deg, clear_deg))
    return tuple(rows)


def strikes(window: FiringWindow, margin_deg: float) -> bool:
    """Return whether a round of a window strikes a blade: one that does not clear it may pass within its margin."""
    return window.clearance_deg < -margin_deg - ROUNDING_DEG


def _meets_a_blade(line: GunLine, rpm: float, lead_deg: float, windows: Sequence[FiringWindow]) -> str:
    """Return which windows let rounds go that strike a blade or pass within its margin; empty where none does."""
    margin_deg = neat(math.degrees(line.margin_rad))
    struck = [window for window in windows if strikes(window, margin_deg)]
    near = [window for window in windows if window.clearance_deg < 0.0 and window not in struck]
    if not (struck or near):
        return ""
    which = [
        told(what, rounds=_rounds_of(found, windows))
        for found, what in ((struck, "{rounds} strike a blade"), (near, "{rounds} pass within the margin of a blade"))
        if found
    ]
    return told(
        "At {speed} {rounds}; {cure}.",
        speed=brief("rpm", rpm, digits=6),
        rounds=in_series(which),
        cure=_cure(line, lead_deg, struck + near),
    )


def _rounds_of(found: Sequence[FiringWindow], windows: Sequence[FiringWindow]) -> str:
    """Return whose rounds they are: some of those of a window, all of those of an impulse, which has one instant."""
    impulses = all(window.from_deg == window.to_deg for window in windows)
    numbers = [window.window.removeprefix("window ") for window in found]
    if len(found) == len(windows):
        return (ALL_OF_EACH if len(windows) > 1 else ALL_OF_ONE)[impulses]
    said = (SOME_OF_SEVERAL if len(numbers) > 1 else SOME_OF_ONE)[impulses]
    return told(said, numbers=in_series(numbers), count=len(windows))


def _cure(line: GunLine, lead_deg: float, found: Sequence[FiringWindow]) -> str:
    """Return by how much such windows would have to move to clear blade and margin, or that they are too long."""
    if any(window.to_deg - window.from_deg > line.clear_deg + ROUNDING_DEG for window in found):
        clear = brief("clearance_deg", line.clear_deg, digits=4)
        return told("it is longer than the {clear} clear between two blades", clear=clear)
    worst = fixed("clearance_deg", -min(window.clearance_deg for window in found), "si", 1)
    ways = {_earlier(line, window.from_deg + lead_deg, window.to_deg + lead_deg) for window in found}
    if len(ways) > 1:
        return told("moved by {angle}, each its own way, all would clear it", angle=worst)
    return told(
        "{angle} earlier all would clear it" if True in ways else "{angle} later all would clear it", angle=worst
    )


def _earlier(line: GunLine, first_deg: float, last_deg: float) -> bool:
    """Return whether rounds that pass between two angles are nearer to the gap before them than to the next one."""
    after = (first_deg - 0.5 * line.closed_deg) % line.spacing_deg
    return 2.0 * after <= line.spacing_deg + line.clear_deg - (last_deg - first_deg)


def _rates(line: GunLine) -> list[tuple[float | None, int | None, int | None]]:
    """Return rate and pattern at each speed, where the gun's own rate is known."""
    if not line.gun_rounds_per_min:
        return [(None, None, None)] * len(line.spin_rad_s)
    found = steady_rate(line)
    patterns = zip(found.rounds_per_pattern.tolist(), found.intervals_per_pattern.tolist(), strict=True)
    return [
        (float(rate), *in_blade_intervals(line, rounds, intervals))
        for rate, (rounds, intervals) in zip(found.rounds_per_min, patterns, strict=True)
    ]


def in_blade_intervals(line: GunLine, rounds: int, openings: int) -> tuple[int | None, int | None]:
    """Return a pattern of rounds to openings of the cam as one of rounds to blade intervals, None where there is none.

    Where the blades that pass in the pattern are no whole number, it is repeated until they are.
    """
    intervals = openings * line.blades_per_opening
    return (rounds * intervals.denominator or None), (intervals.numerator or None)


def _no_window(line: GunLine) -> str:
    closed, spacing = told_arcs(line.closed_deg, line.spacing_deg)
    return told(SHRUNK if line.closed_deg == neat(line.spacing_deg) else CLOSED, closed=closed, spacing=spacing)
