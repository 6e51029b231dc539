"""Numbers for people and for programs: the one place where SI turns into the units a reader asked for."""

from __future__ import annotations

import dataclasses
import math
from typing import Any, Literal

Units = Literal["us", "si"]

_SHOP = ("station_m", "waterline_m", "buttline_m", "move_m", "residual_m", "error_m", "depth_m")
"""Endings of lengths that the shop measures in inches or millimetres."""

_SHOWN: dict[str, dict[Units, tuple[str, float]]] = {
    "kg_m2_s": {"us": ("slug ft²/s", 1.0 / 1.3558179483314004), "si": ("kg m²/s", 1.0)},
    "kg_m2": {"us": ("slug ft²", 1.0 / 1.3558179483314004), "si": ("kg m²", 1.0)},
    "n_m": {"us": ("lbf ft", 1.0 / 1.3558179483314004), "si": ("N m", 1.0)},
    "rad_s": {"us": ("rpm", 30.0 / math.pi), "si": ("rad/s", 1.0)},
    "deg_s": {"us": ("°/s", 1.0), "si": ("°/s", 1.0)},
    "m_s": {"us": ("mph", 1.0 / 0.44704), "si": ("m/s", 1.0)},
    "kg": {"us": ("lb", 1.0 / 0.45359237), "si": ("kg", 1.0)},
    "m2": {"us": ("ft²", 1.0 / 0.3048**2), "si": ("m²", 1.0)},
    **{name: {"us": ("in", 1.0 / 0.0254), "si": ("mm", 1000.0)} for name in _SHOP},
    "mm": {"us": ("mm", 1.0), "si": ("mm", 1.0)},
    "m": {"us": ("ft", 1.0 / 0.3048), "si": ("m", 1.0)},
    "n": {"us": ("lbf", 1.0 / 4.4482216152605), "si": ("N", 1.0)},
    "pa": {"us": ("ksi", 0.0254**2 / 4448.2216152605), "si": ("MPa", 1e-6)},
    "w": {"us": ("hp", 1.0 / 745.6998715822702), "si": ("kW", 1e-3)},
    "deg": {"us": ("°", 1.0), "si": ("°", 1.0)},
    "rad": {"us": ("°", 180.0 / math.pi), "si": ("°", 180.0 / math.pi)},
    "mpa": {"us": ("MPa", 1.0), "si": ("MPa", 1.0)},
    "n_mm": {"us": ("N/mm", 1.0), "si": ("N/mm", 1.0)},
    "j": {"us": ("J", 1.0), "si": ("J", 1.0)},
    "rpm": {"us": ("rpm", 1.0), "si": ("rpm", 1.0)},
    "per_s": {"us": ("1/s", 1.0), "si": ("1/s", 1.0)},
    "per_m": {"us": ("1/m", 1.0), "si": ("1/m", 1.0)},
    "n_per_m": {"us": ("N/m", 1.0), "si": ("N/m", 1.0)},
    "kg_per_m": {"us": ("kg/m", 1.0), "si": ("kg/m", 1.0)},
    "per_min": {"us": ("1/min", 1.0), "si": ("1/min", 1.0)},
    "m_s2": {"us": ("ft/s²", 1.0 / 0.3048), "si": ("m/s²", 1.0)},
    "ms": {"us": ("ms", 1.0), "si": ("ms", 1.0)},
    "s": {"us": ("s", 1.0), "si": ("s", 1.0)},
}
"""Ending of a name -> what is printed in each system: unit and the factor from SI. The longest ending wins."""


PITCH, YAW, ROLL = ("nose up", "nose down"), ("nose right", "nose left"), ("right wing down", "left wing down")
ROTATION = ("clockwise", "anticlockwise")
"""What positive and negative mean, for `signed`."""


def shown(name: str, units: Units) -> tuple[str, float]:
    """Return the unit printed for the quantity called `name` and the factor from SI to it.

    A name without a known ending is a count or a ratio: no unit, factor 1.
    """
    parts = name.split("_")
    for start in range(len(parts)):
        ending = "_".join(parts[start:])
        if ending in _SHOWN:
            return _SHOWN[ending][units]
    return "", 1.0


def amount(name: str, value: float, units: Units, digits: int = 3) -> str:
    """Return `value`, in SI, as text with its unit: ``amount("mass_kg", 635.0, "us")`` is ``1400 lb``."""
    unit, factor = shown(name, units)
    number = significant(value * factor, digits)
    return number + (unit if unit == "°" else f" {unit}" if unit else "")


def fixed(name: str, value: float, units: Units, decimals: int = 2) -> str:
    """Return `value`, in SI, with as many decimals as asked: as in ``47.93 in``."""
    unit, factor = shown(name, units)
    return f"{value * factor:.{decimals}f} {unit}".rstrip().replace("-0.00 ", "0.00 ")


def signed(name: str, value: float, units: Units, words: tuple[str, str]) -> str:
    """Return a signed value in the pilot's words.

    ``signed("pitch_n_m", -100.0, "si", ("nose up", "nose down"))`` is ``100 N m nose down``.
    """
    size = amount(name, abs(value), units)
    return size if value == 0.0 else f"{size} {words[0] if value > 0.0 else words[1]}"


def significant(value: float, digits: int = 3) -> str:
    """Return `value` rounded to `digits` significant digits, without an exponent where people would not write one."""
    if value == 0.0 or not math.isfinite(value):
        return "0" if value == 0.0 else "none"
    exponent = int(f"{value:.{digits - 1}e}".partition("e")[2])
    return f"{value:.{max(0, digits - 1 - exponent)}f}"


def as_json(result: object) -> str:
    """Return a frozen result as one JSON object: SI, names as in the vocabulary, null where there is no number."""
    import json

    return json.dumps(_plain(result), ensure_ascii=False, indent=1, allow_nan=False)


def _plain(value: Any) -> Any:  # noqa: ANN401
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if hasattr(value, "tolist"):
        return _plain(value.tolist())
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value
