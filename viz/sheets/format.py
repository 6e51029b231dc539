"""Numbers for people: SI in the units that a reader asked for, rounded as one would write them."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from sim.units.quantities import System, shown

Units = System

PITCH, YAW, ROLL = ("nose up", "nose down"), ("nose right", "nose left"), ("right wing down", "left wing down")
ROTATION = ("clockwise", "anticlockwise")
"""What positive and negative mean, for `signed`."""


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
