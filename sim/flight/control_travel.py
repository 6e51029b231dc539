"""Travel of the control surfaces from neutral to the stops."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


class Deflections(Protocol):
    """Deflections of the three controls, one entry a turn or an instant [rad]."""

    @property
    def elevator_rad(self) -> Array:
        """Elevator, trailing edge down positive."""

    @property
    def aileron_rad(self) -> Array:
        """Aileron, roll to the left positive."""

    @property
    def rudder_rad(self) -> Array:
        """Rudder, nose left positive."""


@dataclass(frozen=True, slots=True)
class Travel:
    """How far the controls go from neutral.

    Attributes
    ----------
    elevator_up_rad, elevator_down_rad : float
        Trailing edge up (nose up) and down, both positive. [rad]
    aileron_rad, rudder_rad : float
        Each way. [rad]
    """

    elevator_up_rad: float
    elevator_down_rad: float
    aileron_rad: float
    rudder_rad: float

    def shares(self, deflections: Deflections) -> dict[str, Array]:
        """Return the deflections of elevator, aileron and rudder as fractions of travel, signed like the angle."""
        elevator = deflections.elevator_rad
        up, down = elevator / self.elevator_up_rad, elevator / self.elevator_down_rad
        return {
            "elevator": np.where(elevator < 0.0, up, down),
            "aileron": deflections.aileron_rad / self.aileron_rad,
            "rudder": deflections.rudder_rad / self.rudder_rad,
        }
