"""Lift of the follower against cam angle: the firing windows mapped on to the lobes of the cam."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.display.rise_laws import LawName, motion

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray
    from sim.display.search import FoundCam


@dataclass(frozen=True, slots=True)
class Schedule:
    """Lift of the follower over a turn of the cam, the same for every lobe.

    Attributes
    ----------
    law : str
        Law of the rise; the fall is the rise run backwards.
    lobes : int
        Lobes of the cam, 1 to 4.
    rise_rad : float
        Cam angle of a rise, and of a fall. [rad]
    window_rad : float
        Cam angle from half lift on the rise to half lift on the fall: while the lamp is lit. [rad]
    start_rad : float
        Cam angle at which the lamp comes on. [rad]
    """

    law: LawName
    lobes: int
    rise_rad: float
    window_rad: float
    start_rad: float = 0.0

    @property
    def period_rad(self) -> float:
        """Cam angle from one lobe to the next. [rad]."""
        return 2.0 * math.pi / self.lobes

    @property
    def high_dwell_rad(self) -> float:
        """Cam angle at full lift; negative when the rise does not fit. [rad]."""
        return self.window_rad - self.rise_rad

    @property
    def low_dwell_rad(self) -> float:
        """Cam angle on the base circle; negative when the rise does not fit. [rad]."""
        return self.period_rad - self.window_rad - self.rise_rad

    def breaks(self) -> FloatArray:
        """Return the cam angles of one turn where a dwell meets a rise or a fall, from the first rise on. [rad]."""
        first = self.start_rad - self.rise_rad / 2.0
        ends = first + np.array([0.0, self.rise_rad, self.window_rad, self.window_rad + self.rise_rad])
        return np.concatenate([ends + lobe * self.period_rad for lobe in range(self.lobes)])


def schedule_of(display: Display, found: FoundCam) -> Schedule:
    """Return the schedule of the cam that was found."""
    return Schedule(found.law, display.cam.lobes, found.rise_rad, display.window_rad, display.start_rad)


def lift_fraction(schedule: Schedule, angle_rad: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the fraction of the full lift at a cam angle, and its first and second derivative by that angle.

    Parameters
    ----------
    schedule : Schedule
        Rise and dwells.
    angle_rad : array
        Cam angle, any value and shape. [rad]

    Examples
    --------
    >>> plan = Schedule("cycloidal", lobes=2, rise_rad=0.5, window_rad=1.5)
    >>> [float(lift_fraction(plan, np.array(angle))[0]) for angle in (0.0, 0.75, 2.5)]
    [0.5, 1.0, 0.0]
    """
    since = np.mod(np.asarray(angle_rad) - schedule.start_rad + schedule.rise_rad / 2.0, schedule.period_rad)
    falling = since > (schedule.window_rad + schedule.rise_rad) / 2.0
    passed = np.where(falling, schedule.window_rad + schedule.rise_rad - since, since) / schedule.rise_rad
    rise, velocity, acceleration, _ = motion(schedule.law, passed)
    turned = np.where(falling, -1.0, 1.0)
    return rise, turned * velocity / schedule.rise_rad, acceleration / schedule.rise_rad**2
