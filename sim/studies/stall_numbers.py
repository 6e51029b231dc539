"""What a stall comes to: speed and load factor there, the roll before the pilot has stopped it, the height lost."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.history import History
from sim.studies.maneuver_history import history_columns

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]


CURVE_EVERY: Final = 2
"""Of the samples that a curve has; ``--csv`` writes them all."""
CURVE_BEFORE: Final = 100
"""Samples before the stall with which it begins."""


@dataclass(frozen=True, slots=True)
class StallCurve:
    """A stall in time, from five seconds before it to the end of the recovery.

    Attributes
    ----------
    time_s, speed_m_s, alpha_deg, bank_deg, pitch_deg, altitude_m : tuple of float
        Time from the stall, 0 there, airspeed, angle of attack, bank, which goes on past 180°, right wing down
        positive, pitch attitude and height. [s, m/s, °, °, °, m]
    """

    time_s: tuple[float, ...]
    speed_m_s: tuple[float, ...]
    alpha_deg: tuple[float, ...]
    bank_deg: tuple[float, ...]
    pitch_deg: tuple[float, ...]
    altitude_m: tuple[float, ...]


def stall_curve(columns: Mapping[str, Numbers], at: int) -> StallCurve:
    """Return a flight, as columns whose sample `at` is the stall, as its curve."""
    before = min(at, CURVE_BEFORE) // CURVE_EVERY * CURVE_EVERY
    return StallCurve(
        **{one.name: tuple(columns[one.name][at - before :: CURVE_EVERY].tolist()) for one in fields(StallCurve)}
    )


def joined(before: History, at: int, after: History) -> History:
    """Return a flight up to the stall and that from it on in one, timed from the stall.

    Parameters
    ----------
    before : History
        Into the stall and beyond.
    at : int
        Number of the sample in it that is the stall.
    after : History
        From the stall on.
    """
    parts = {
        one.name: np.concatenate([getattr(before, one.name)[..., :at], getattr(after, one.name)], axis=-1)
        for one in fields(History)
        if one.name not in ("time_s", "rate_limited_s")
    }
    time_s = np.concatenate([before.time_s[:at] - before.time_s[at], after.time_s])
    return History(**parts, time_s=time_s, rate_limited_s=before.rate_limited_s + after.rate_limited_s)


def unrolled(flown: History) -> dict[str, Numbers]:
    """Return the columns of a flight, or of many, with a bank that goes on past 180°."""
    columns = history_columns(flown)
    return columns | {"bank_deg": np.unwrap(columns["bank_deg"], period=360.0)}


def stall_numbers(columns: Mapping[str, Numbers], reaction_s: float) -> dict[str, Numbers]:
    """Return what a flight from the stall on comes to, or each of many, by the fields of `StallEntry`.

    Parameters
    ----------
    columns : Mapping of str to array
        Of `StallFlight`, from the stall on; time is the last axis.
    reaction_s : float
        Time before the pilot reacts. [s]

    Notes
    -----
    A height that is still being lost at the end is not a number.
    """
    time_s, height = columns["time_s"], columns["altitude_m"]
    bank = columns["bank_deg"]
    reacted = int(np.searchsorted(time_s, reaction_s - 1e-9))
    rolling = np.diff(bank, append=bank[..., -1:])
    back = (rolling * rolling[..., reacted : reacted + 1] <= 0.0) & (np.arange(time_s.size) >= reacted)
    until = np.where(back.any(axis=-1), back.argmax(axis=-1), time_s.size - 1)
    of_stall = np.where(np.arange(time_s.size) <= until[..., None], bank, 0.0)
    most = np.abs(of_stall).argmax(axis=-1)[..., None]
    lost = np.asarray(height[..., 0] - height.min(axis=-1))
    return {
        "stall_m_s": columns["speed_m_s"][..., 0],
        "load_factor": columns["load_factor"][..., 0],
        "alpha_deg": columns["alpha_deg"][..., 0],
        "roll_deg": bank[..., reacted] - bank[..., 0],
        "most_bank_deg": np.take_along_axis(of_stall, most, axis=-1)[..., 0],
        "pitch_deg": columns["pitch_deg"].min(axis=-1),
        "height_lost_m": np.where(height.argmin(axis=-1) < time_s.size - 1, lost, np.nan),
    }
