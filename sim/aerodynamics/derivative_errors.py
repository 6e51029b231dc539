"""What the estimates of derivatives hang on, each with its standard deviation; one error moves many derivatives."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

ERRORS: Final[Mapping[str, float]] = MappingProxyType(
    {
        "wing_lift": 0.08,
        "wing_moment": 0.30,
        "wing_sideways": 0.20,
        "roll_to_yaw": 0.60,
        "wing_height": 0.40,
        "roll_damping": 0.10,
        "profile_drag": 0.30,
        "tail_pressure": 0.12,
        "downwash": 0.15,
        "elevator": 0.15,
        "aileron": 0.15,
        "adverse_yaw": 0.50,
        "fin_lift": 0.22,
        "sidewash": 0.20,
        "rudder": 0.15,
        "body_pitch": 0.35,
        "body_yaw": 0.25,
        "body_side": 0.80,
        "lag": 0.25,
    }
)
"""Standard deviation over the part that it concerns."""
