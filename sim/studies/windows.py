"""When the gun may fire: release windows, lead and steady rate of fire at each propeller speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import Answer
from sim.model.gun_line import Setup, neat
from sim.synchronizer.rate import SteadyRate, impulse_rate, interrupter_rate
from sim.synchronizer.windows import release_windows

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Window:
    """One window of release: from an angle in [0, 360) to an angle after it, in degrees."""

    from_deg: float
    to_deg: float


@dataclass(frozen=True, slots=True)
class WindowsRow:
    """Windows and rate at one propeller speed; angles are the propeller's, 0 with blade 1 on the bore line.

    Attributes
    ----------
    powerplant : str
        The scenario's name for the engine; empty without a scenario.
    rpm : float
        Propeller speed. [rpm]
    blade_interval_ms : float
        From one blade to the next. [ms]
    blocked_deg : float
        Arc blocked by one blade, bullet and both margins in it. [°]
    open_deg, open_ms : float
        What is left between two blades; 0 where nothing is. [°, ms]
    lead_deg : float
        How far the propeller turns between release and passage. [°]
    windows_deg : tuple of Window
        Over one turn, ascending and apart; empty where there is none.
    rounds_per_min : float or None
        Steady rate of fire; None where the gun's own rate is not given. [1/min]
    rounds_per_pattern, intervals_per_pattern : int or None
        So many rounds in so many blade intervals, over and over; None where nothing repeats.
    note : str
        A sentence where there is no window; else empty.
    """

    powerplant: str
    rpm: float
    blade_interval_ms: float
    blocked_deg: float
    open_deg: float
    open_ms: float
    lead_deg: float
    windows_deg: tuple[Window, ...]
    rounds_per_min: float | None
    rounds_per_pattern: int | None
    intervals_per_pattern: int | None
    note: str


@dataclass(frozen=True, slots=True)
class WindowsTable(Answer):
    """A row a speed, in the order asked for."""

    main: ClassVar[str] = "rows"

    rows: tuple[WindowsRow, ...]


def windows(setups: Iterable[Setup]) -> WindowsTable:
    """Return windows, lead and rate for each setup at each of its speeds.

    Notes
    -----
    Steady speed, no scatter: `burst` says what scatter does. The blade is taken as blocking a fixed arc whatever the
    speed.

    Examples
    --------
    >>> gun = Setup((40.0 * np.pi,), 2, np.radians(30.0), np.radians(5.0), 0.005, 10.0)
    >>> row = windows([gun]).rows[0]
    >>> row.rpm, row.open_deg, row.lead_deg, row.rounds_per_min
    (1200.0, 140.0, 36.0, 600.0)
    """
    return WindowsTable(tuple(row for setup in setups for row in _rows(setup)))


def steady_rate(setup: Setup) -> SteadyRate:
    """Return the setup's rate at each of its speeds, patterns counted in openings of the cam."""
    openings_per_min = np.array(setup.rpm) * setup.openings
    shut, whole = setup.share()
    if setup.action == "impulse" and shut <= whole:
        return impulse_rate(openings_per_min, setup.gun_rounds_per_min)
    return interrupter_rate(openings_per_min, setup.gun_rounds_per_min, blocked=shut, interval=whole)


def _rows(setup: Setup) -> Iterable[WindowsRow]:
    found = release_windows(
        setup.spin_rad_s,
        blades=setup.blades,
        blocked_rad=np.radians(setup.shut_deg),
        delay_s=setup.delay_s,
        openings=setup.openings,
    )
    lead_deg, from_deg, to_deg = (np.degrees(part) for part in (found.lead_rad, found.from_rad, found.to_rad))
    open_deg = round(max(0.0, 360.0 / setup.blades - setup.shut_deg), 12)
    rates = _patterns(setup)
    for position, rpm in enumerate(setup.rpm):
        yield WindowsRow(
            powerplant=setup.powerplant,
            rpm=rpm,
            blade_interval_ms=60000.0 / (rpm * setup.blades),
            blocked_deg=setup.shut_deg,
            open_deg=open_deg,
            open_ms=open_deg / (0.006 * rpm),
            lead_deg=neat(lead_deg[position]),
            windows_deg=_windows(from_deg[position], to_deg[position]) if open_deg > 0.0 else (),
            rounds_per_min=rates[position][0],
            rounds_per_pattern=rates[position][1],
            intervals_per_pattern=rates[position][2],
            note="" if open_deg > 0.0 else _no_window(setup),
        )


def _windows(from_deg: NDArray[np.float64], to_deg: NDArray[np.float64]) -> tuple[Window, ...]:
    starts = np.sort(np.round(from_deg, 12) % 360.0)
    ends = np.round(starts + (to_deg - from_deg), 12)
    ends[:-1] = np.minimum(ends[:-1], starts[1:])
    return tuple(map(Window, starts.tolist(), ends.tolist()))


def _patterns(setup: Setup) -> list[tuple[float | None, int | None, int | None]]:
    if not setup.gun_rounds_per_min:
        return [(None, None, None)] * len(setup.spin_rad_s)
    found = steady_rate(setup)
    blades_per_opening = setup.blades // setup.openings
    return [
        (float(rate), int(rounds) or None, int(intervals) * blades_per_opening or None)
        for rate, rounds, intervals in zip(
            found.rounds_per_min, found.rounds_per_pattern, found.intervals_per_pattern, strict=True
        )
    ]


def _no_window(setup: Setup) -> str:
    between = 360.0 / setup.blades
    meets = f"each blade blocks {setup.shut_deg:g}° with its margins, and the blades are {between:g}° apart"
    limit = "; the rate is that of a window shrunk to an instant" if setup.shut_deg == neat(between) else ""
    return f"No window: {meets}{limit}."
