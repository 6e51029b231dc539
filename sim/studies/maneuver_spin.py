"""What a spin entry comes to: whether it spun, rotation and incidence, and how the rotation stops."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.errors import refuse
from sim.flight.maneuver import BEGIN_S
from sim.flight.spin_pilot import FREE_S
from sim.studies.field_stance import stalling_rad
from sim.studies.maneuver_history import history_columns

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane

    Array = NDArray[np.float64]

TURNING_DEG_S: Final = 20.0
"""Rotation below which it counts as stopped."""
SPUN_S: Final = 3.0
"""Rotation beyond the stall for so long is a spin: the three seconds of CS and FAR 23.221 (from memory), which ask for
a turn where that takes longer; turns are told beside it."""
MEAN_S: Final = 0.5
"""Time over which a rotation and an incidence are taken."""
DIVING_BANK_DEG: Final = (30.0, 150.0)
"""Bank either way between which an unstalled descent that turns is a spiral dive."""
SPUN, DIVED, STALLED, FLEW = VERDICTS = ("spun", "spiral dive", "stalled, did not spin", "did not stall")


def stall_deg(flying: FlyingAirplane) -> float:
    """Return the angle of attack of the greatest lift in trim, power off, of an airplane that has strips [°]."""
    if flying.strips is None:
        refuse("flight.air", 'must be "strips", got "linear": by linear loads nothing stalls')
    return math.degrees(stalling_rad(flying))


def columns_of(history: History, *, spins: bool) -> dict[str, Array]:
    """Return the columns of a flight, with those about its path where it is a spin entry."""
    columns = history_columns(history)
    return columns | path_columns(columns) if spins else columns


def path_columns(columns: Mapping[str, Array]) -> dict[str, Array]:
    """Return the rotation about the flight path of a flight, or of each of many, and the angle turned so far."""
    alpha, slip = (np.radians(columns[name]) for name in ("alpha_deg", "sideslip_deg"))
    roll, nose, yaw = (columns[f"{name}_rate_deg_s"] for name in ("roll", "pitch", "yaw"))
    rate = np.asarray(np.cos(slip) * (np.cos(alpha) * roll + np.sin(alpha) * yaw) + np.sin(slip) * nose)
    step_s = float(columns["time_s"][1] - columns["time_s"][0])
    turned = np.cumsum(rate, axis=-1) * step_s
    return {"path_rate_deg_s": rate, "turned_deg": turned - turned[..., :1]}


def spin_numbers(columns: Mapping[str, Array], held_s: float, stall_alpha_deg: float) -> dict[str, Array]:
    """Return turns and rotations of a flight, or of each of many, by the fields of `ManeuverFlight`.

    Parameters
    ----------
    columns : Mapping of str to array
        Of `columns_of` a spin entry; time is the last axis.
    held_s : float
        Time for which the controls were crossed. [s]
    stall_alpha_deg : float
        Of `stall_deg`. [°]

    Returns
    -------
    dict of str to array
        Times infinite where what they wait for does not come.
    """
    time_s, alpha, rate = columns["time_s"], columns["alpha_deg"], columns["path_rate_deg_s"]
    step_s = float(time_s[1] - time_s[0])
    let_go = BEGIN_S + held_s
    crossed, recover = (int(np.searchsorted(time_s, at - 1e-9)) for at in (let_go, let_go + FREE_S))
    window = max(1, round(MEAN_S / step_s))
    longest, turns = _autorotation(rate, alpha > stall_alpha_deg, step_s)
    stopped = (np.abs(rate) < TURNING_DEG_S) & (alpha < stall_alpha_deg) & (np.arange(time_s.size) >= crossed)
    first = _first(stopped)
    ended_s = np.where(stopped.any(axis=-1), time_s[first], np.inf)
    height = columns["altitude_m"]
    level = (np.diff(height, append=height[..., -1:]) > 0.0) & (
        time_s >= np.maximum(ended_s, time_s[recover])[..., None]
    )
    return {
        "autorotation_s": longest,
        "spin_turns": turns,
        "crossed_rate_deg_s": _mean(np.abs(rate), crossed, window),
        "free_rate_deg_s": _mean(np.abs(rate), recover, window),
        "crossed_alpha_deg": _mean(alpha, crossed, window),
        **_helix(columns, crossed, window),
        "free_stop_s": np.where(ended_s <= time_s[recover], ended_s - time_s[crossed], np.inf),
        "recovery_s": np.maximum(0.0, ended_s - time_s[recover]),
        "level_s": np.where(level.any(axis=-1), time_s[_first(level)] - time_s[recover], np.inf),
        "pull_out_alpha_deg": np.max(np.where(time_s >= ended_s[..., None], alpha, -np.inf), axis=-1),
    }


def spin_told(flying: FlyingAirplane, columns: Mapping[str, Array], held_s: float) -> dict[str, Any]:
    """Return what one flight came to by the fields of `ManeuverFlight`, None for what does not come.

    Parameters
    ----------
    flying : FlyingAirplane
        That flies it, by strips.
    columns : Mapping of str to array
        Of `columns_of` a spin entry.
    held_s : float
        Time for which the controls were crossed. [s]
    """
    stalls_deg = stall_deg(flying)
    found = {name: float(value) for name, value in spin_numbers(columns, held_s, stalls_deg).items()}
    told: dict[str, Any] = {name: value if math.isfinite(value) else None for name, value in found.items()}
    return told | {"verdict": verdict(columns, held_s, stalls_deg, found["autorotation_s"])}


def verdict(columns: Mapping[str, Array], held_s: float, stall_alpha_deg: float, autorotation_s: float) -> str:
    """Return what a flight came to, one of `VERDICTS`.

    Parameters
    ----------
    columns : Mapping of str to array
        Of one flight.
    held_s, stall_alpha_deg : float
        As `spin_numbers` takes them. [s, °]
    autorotation_s : float
        Of `spin_numbers`. [s]
    """
    if autorotation_s >= SPUN_S - 1e-9:
        return SPUN
    time_s = columns["time_s"]
    end = int(np.searchsorted(time_s, BEGIN_S + held_s + FREE_S - 1e-9))
    start = max(0, end - round(MEAN_S / float(time_s[1] - time_s[0])))
    bank, heading, height = (columns[name] for name in ("bank_deg", "heading_deg", "altitude_m"))
    turning = abs(heading[end] - heading[start]) / (time_s[end] - time_s[start]) > 0.5 * TURNING_DEG_S
    banked = DIVING_BANK_DEG[0] < abs(bank[end]) < DIVING_BANK_DEG[1]
    if columns["alpha_deg"][end] < stall_alpha_deg and turning and banked and height[end] < height[start]:
        return DIVED
    return STALLED if (columns["alpha_deg"] > stall_alpha_deg).any() else FLEW


def _autorotation(rate: Array, stalled: NDArray[np.bool_], step_s: float) -> tuple[Array, Array]:
    """Return the longest time beyond the stall with a rotation to one side, and the turns in it."""
    longest, turns = np.zeros(rate.shape[:-1]), np.zeros(rate.shape[:-1])
    for side in (1.0, -1.0):
        on = stalled & (side * rate > TURNING_DEG_S)
        lasted, turned = (_since(on, amount * step_s) for amount in (np.ones_like(rate), side * rate / 360.0))
        best = np.argmax(lasted, axis=-1)[..., None]
        time, angle = (np.take_along_axis(one, best, axis=-1)[..., 0] for one in (lasted, turned))
        longest, turns = np.maximum(longest, time), np.where(time > longest, angle, turns)
    return longest, turns


def _since(on: NDArray[np.bool_], amount: Array) -> Array:
    """Return the sum of amounts since a condition began to hold; 0 where it does not."""
    total = np.cumsum(np.where(on, amount, 0.0), axis=-1)
    return np.asarray(total - np.maximum.accumulate(np.where(on, 0.0, total), axis=-1))


def _first(found: NDArray[np.bool_]) -> NDArray[np.intp]:
    return np.asarray(np.argmax(found, axis=-1))


def _mean(values: Array, end: int, window: int) -> Array:
    return np.asarray(values[..., end - window : end].mean(axis=-1))


def _helix(columns: Mapping[str, Array], end: int, window: int) -> dict[str, Array]:
    """Return the angle of the axis of rotation to the vertical and the radius of the helix, over a window."""
    vertical = vertical_rate_deg_s(columns)
    about = np.sqrt(sum(columns[f"{name}_rate_deg_s"] ** 2 for name in ("roll", "pitch", "yaw")))
    upright, whole = (np.abs(_mean(one, end, window)) for one in (vertical, about))
    moved = [np.gradient(columns[name], columns["time_s"], axis=-1) for name in ("north_m", "east_m")]
    across = _mean(np.hypot(*moved), end, window)
    with np.errstate(divide="ignore"):
        radius = across / np.radians(upright)
    return {"spin_axis_deg": np.degrees(np.arccos(np.minimum(1.0, upright / whole))), "helix_radius_m": radius}


def vertical_rate_deg_s(columns: Mapping[str, Array]) -> Array:
    """Return the rotation about the vertical, to the right positive: of a nose straight down too [°/s]."""
    pitch, bank = (np.radians(columns[name]) for name in ("pitch_deg", "bank_deg"))
    roll, nose, yaw = (columns[f"{name}_rate_deg_s"] for name in ("roll", "pitch", "yaw"))
    return np.asarray(-roll * np.sin(pitch) + np.cos(pitch) * (nose * np.sin(bank) + yaw * np.cos(bank)))
