"""What a spin entry comes to: turns, rotation with the controls crossed and let go, and time to stop it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.maneuver import BEGIN_S
from sim.flight.spin_pilot import FREE_S

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STOPPED_DEG_S: Final = 20.0
"""Rotation below which it counts as stopped."""
FLYING_DEG: Final = 12.0
"""Angle of attack below which the wing flies."""
MEAN_S: Final = 0.5
"""Time over which a rotation is taken."""


def spin_numbers(columns: Mapping[str, Array], held_s: float) -> dict[str, Array]:
    """Return turns and rotations of a flight, or of each of many, by the fields of `ManeuverFlight`.

    Parameters
    ----------
    columns : Mapping of str to array
        Of `sim.studies.maneuver_history.history_columns`; time is the last axis.
    held_s : float
        Time for which the controls were crossed. [s]

    Returns
    -------
    dict of str to array
        Time to stop the rotation infinite where it does not stop.
    """
    time_s, alpha = columns["time_s"], columns["alpha_deg"]
    step_s = float(time_s[1] - time_s[0])
    let_go = BEGIN_S + held_s
    crossed, recover = (int(np.searchsorted(time_s, at - 1e-9)) for at in (let_go, let_go + FREE_S))
    window = max(1, round(MEAN_S / step_s))
    rate = vertical_rate_deg_s(columns)
    turned = np.cumsum(rate, axis=-1) * step_s

    def rotation(end: int) -> Array:
        return np.asarray(np.abs(turned[..., end] - turned[..., end - window]) / (window * step_s))

    stopped = (np.abs(rate) < STOPPED_DEG_S) & (np.abs(alpha) < FLYING_DEG) & (time_s >= time_s[recover])
    first = np.argmax(stopped, axis=-1)
    return {
        "spin_turns": np.asarray(np.abs(turned[..., recover]) / 360.0),
        "crossed_rate_deg_s": rotation(crossed),
        "free_rate_deg_s": rotation(recover),
        "recovery_s": np.where(stopped.any(axis=-1), time_s[first] - time_s[recover], np.inf),
    }


def vertical_rate_deg_s(columns: Mapping[str, Array]) -> Array:
    """Return the rotation about the vertical, to the right positive: of a nose straight down too [°/s]."""
    pitch, bank = (np.radians(columns[name]) for name in ("pitch_deg", "bank_deg"))
    roll, nose, yaw = (columns[f"{name}_rate_deg_s"] for name in ("roll", "pitch", "yaw"))
    return np.asarray(-roll * np.sin(pitch) + np.cos(pitch) * (nose * np.sin(bank) + yaw * np.cos(bank)))
