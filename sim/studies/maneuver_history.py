"""The history of a manoeuvre as an answer holds it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.history import History


def history_columns(history: History) -> dict[str, NDArray[np.float64]]:
    """Return a history as columns by the names of their quantities, angles in degrees, headings unwrapped.

    Parameters
    ----------
    history : History
        Of a flight.
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
