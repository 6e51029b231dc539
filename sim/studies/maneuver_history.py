"""The history of a manoeuvre as an answer holds it, and its largest values; of one flight or of many."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.flight.history import History

    Array = NDArray[np.float64]


def history_columns(history: History) -> dict[str, Array]:
    """Return a history as columns by the names of their quantities, angles in degrees, headings unwrapped.

    Parameters
    ----------
    history : History
        Of a flight, or of many.
    """
    north, east, down, e0, e1, e2, e3, u, v, w, p, q, r, spin = history.state
    speed = np.sqrt(u * u + v * v + w * w)
    heading = np.unwrap(np.arctan2(2.0 * (e1 * e2 + e0 * e3), e0**2 + e1**2 - e2**2 - e3**2))
    return {
        "time_s": history.time_s,
        "north_m": north,
        "east_m": east,
        "altitude_m": -down,
        "speed_m_s": speed,
        "bank_deg": np.degrees(np.arctan2(2.0 * (e2 * e3 + e0 * e1), e0**2 - e1**2 - e2**2 + e3**2)),
        "pitch_deg": np.degrees(np.arcsin(np.clip(2.0 * (e0 * e2 - e1 * e3), -1.0, 1.0))),
        "heading_deg": np.degrees(heading),
        "roll_rate_deg_s": np.degrees(p),
        "pitch_rate_deg_s": np.degrees(q),
        "yaw_rate_deg_s": np.degrees(r),
        "alpha_deg": np.degrees(np.arctan2(w, u)),
        "sideslip_deg": np.degrees(np.arcsin(v / speed)),
        "load_factor": history.load_factor,
        "side_load_factor": history.side_load_factor,
        "elevator_deg": np.degrees(history.elevator_rad),
        "aileron_deg": np.degrees(history.aileron_rad),
        "rudder_deg": np.degrees(history.rudder_rad),
        "throttle": history.throttle,
        "spin_rad_s": spin,
    }


QUARTER_DEG: Final = 90.0
CHANGES = ("pitch_deg", "heading_deg", "altitude_m")
"""Columns of which the change from the start counts."""

ATTITUDES = (
    "nose_up_deg",
    "nose_down_deg",
    "nose_right_deg",
    "nose_left_deg",
    "bank_right_deg",
    "bank_left_deg",
    "time_to_90_s",
)
"""Of `peaks`, what means nothing where the nose passes the vertical."""


def change(column: Array) -> Array:
    """Return how far a column is from its start at each time."""
    return column - column[..., :1]


def peaks(columns: Mapping[str, Array], shares: Mapping[str, Array]) -> dict[str, Array]:
    """Return the largest values of a flight, or of each of many, by the fields of `ManeuverFlight`.

    Parameters
    ----------
    columns : Mapping of str to array
        Of `history_columns`; time is the last axis.
    shares : Mapping of str to array
        Control -> deflection as a fraction of travel, likewise.

    Returns
    -------
    dict of str to array
        Time to a heading change of 90° infinite where that is not reached.
    """
    pitch, heading, height = (change(columns[name]) for name in CHANGES)
    bank, load = columns["bank_deg"], columns["load_factor"]
    around = np.abs(heading) >= QUARTER_DEG
    return {
        "nose_up_deg": _most(pitch),
        "nose_down_deg": _most(-pitch),
        "nose_right_deg": _most(heading),
        "nose_left_deg": _most(-heading),
        "bank_right_deg": _most(bank),
        "bank_left_deg": _most(-bank),
        "height_lost_m": _most(-height),
        "height_gained_m": _most(height),
        "time_to_90_s": np.where(around.any(axis=-1), columns["time_s"][np.argmax(around, axis=-1)], np.inf),
        **{f"peak_{name}_share": _largest(values) for name, values in shares.items()},
        "least_load_factor": np.min(load, axis=-1),
        "greatest_load_factor": np.max(load, axis=-1),
        "peak_sideslip_deg": _most(np.abs(columns["sideslip_deg"])),
    }


def side_to_90(columns: Mapping[str, Array]) -> str:
    """Return to which side the heading of a flight changes by 90° first, ``right`` or ``left``; empty where to none."""
    heading = change(columns["heading_deg"])
    far = heading[np.abs(heading) >= QUARTER_DEG]
    return "" if not far.size else "right" if far[0] > 0.0 else "left"


def _largest(values: Array) -> Array:
    """Return of each row the value of the largest size, with its sign."""
    at = np.argmax(np.abs(values), axis=-1)
    return np.take_along_axis(values, at[..., None], axis=-1)[..., 0]


def _most(values: Array) -> Array:
    largest: Array = np.maximum(0.0, np.max(values, axis=-1)) + 0.0  # no negative zero
    return largest
