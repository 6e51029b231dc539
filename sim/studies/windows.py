"""When the gun may fire: release windows, lead and steady rate of fire at each propeller speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.answer import Answer
from sim.model.gun_options import GunOptions, gun_lines
from sim.synchronizer.gun_line import neat
from sim.synchronizer.rate import steady_rate
from sim.synchronizer.windows import release_windows
from sim.units.convert import ms, per_s
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine


@dataclass(frozen=True, slots=True)
class FiringWindow:
    """One window of release: from an angle in [0, 360) to an angle after it, in degrees."""

    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True)
class WindowsRow:
    """Windows and rate at one propeller speed; angles are the propeller's, 0 with blade 1 on the bore line.

    Attributes
    ----------
    powerplant : str
        Name of the engine; empty where there is none.
    rotation : str
        ``clockwise`` or ``anticlockwise``: sense of the propeller, seen from the cockpit; empty where it is not known.
    rpm : float
        Propeller speed. [rpm]
    blade_interval_ms : float
        Time from one blade to the next. [ms]
    blocked_deg : float
        Arc blocked by one blade, bullet and both margins included. [°]
    open_deg, open_ms : float
        Clear arc between two blades, and its time; 0 where there is none. [°, ms]
    lead_deg : float
        Turn of the propeller between release and passage. [°]
    windows_deg : tuple of FiringWindow
        Windows of release over one turn, ascending; empty where there is none.
    rounds_per_min : float or None
        Steady rate of fire; None where the gun's own rate is not given. [1/min]
    rounds_per_pattern, intervals_per_pattern : int or None
        Rounds per repeating cycle of blade intervals; None where nothing repeats.
    note : str
        A sentence where there is no window; else empty.
    """

    powerplant: str
    rotation: str
    rpm: float
    blade_interval_ms: float
    blocked_deg: float
    open_deg: float
    open_ms: float
    lead_deg: float
    windows_deg: tuple[FiringWindow, ...]
    rounds_per_min: float | None
    rounds_per_pattern: int | None
    intervals_per_pattern: int | None
    note: str


@dataclass(frozen=True, slots=True)
class WindowsAnswer(Answer):
    """The firing windows.

    Attributes
    ----------
    rows : tuple of WindowsRow
        One for each speed of each powerplant, in the order asked for.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    """

    rows: tuple[WindowsRow, ...]
    remarks: tuple[str, ...]


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
) -> WindowsAnswer:
    """Return windows, lead and rate behind each powerplant of a model, or of a gun line made of options alone.

    Parameters
    ----------
    model : Model or None
        The airplane; None for a gun line of options alone, which then need speeds, blades and the blocked arc.
    powerplant, spin_rad_s, blades, blocked_deg, margin_deg, delay_s, natural_rate_per_s, action, impulses_per_rev
        As in `sim.model.gun_options.GunOptions`, in place of the model's; without speeds: idle, cruise and full.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.

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
    )
    found = tuple(row for line in gun_lines(model, options) for row in window_rows(line))
    return WindowsAnswer(found, model.remark_texts("windows") if model else ())


def window_rows(line: GunLine) -> Iterator[WindowsRow]:
    """Yield windows and rate of a gun line at each of its speeds."""
    found, rates = release_windows(line), _rates(line)
    lead_deg, from_deg, to_deg = (np.degrees(part) for part in (found.lead_rad, found.from_rad, found.to_rad))
    open_deg = round(max(0.0, line.clear_deg), 12)
    for position, rpm in enumerate(line.rpm):
        yield WindowsRow(
            powerplant=line.powerplant,
            rotation=line.rotation,
            rpm=rpm,
            blade_interval_ms=ms(1.0 / per_s(rpm * line.blades)),
            blocked_deg=line.closed_deg,
            open_deg=open_deg,
            open_ms=ms(open_deg / (360.0 * per_s(rpm))),
            lead_deg=neat(lead_deg[position]),
            windows_deg=_windows(from_deg[position], to_deg[position]) if open_deg > 0.0 else (),
            rounds_per_min=rates[position][0],
            rounds_per_pattern=rates[position][1],
            intervals_per_pattern=rates[position][2],
            note="" if open_deg > 0.0 else _no_window(line),
        )


def _windows(from_deg: NDArray[np.float64], to_deg: NDArray[np.float64]) -> tuple[FiringWindow, ...]:
    starts = np.sort(np.round(from_deg, 12) % 360.0)
    ends = np.round(starts + (to_deg - from_deg), 12)
    ends[:-1] = np.minimum(ends[:-1], starts[1:])
    return tuple(map(FiringWindow, starts.tolist(), ends.tolist()))


def _rates(line: GunLine) -> list[tuple[float | None, int | None, int | None]]:
    """Return rate and pattern at each speed, where the gun's own rate is known."""
    if not line.gun_rounds_per_min:
        return [(None, None, None)] * len(line.spin_rad_s)
    found = steady_rate(line)
    blades_per_opening = line.blades // line.openings
    return [
        (float(rate), int(rounds) or None, int(intervals) * blades_per_opening or None)
        for rate, rounds, intervals in zip(
            found.rounds_per_min, found.rounds_per_pattern, found.intervals_per_pattern, strict=True
        )
    ]


def _no_window(line: GunLine) -> str:
    closed, spacing = (brief("blocked_deg", arc, digits=6) for arc in (line.closed_deg, line.spacing_deg))
    meets = f"each blade blocks {closed} with its margins, and the blades are {spacing} apart"
    limit = "; the rate is that of a window shrunk to an instant" if line.closed_deg == neat(line.spacing_deg) else ""
    return f"No window: {meets}{limit}."
