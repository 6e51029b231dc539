"""Attitudes of a weighing that contradict its item list: which pitch would agree, or whether two were exchanged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees, radians
from typing import TYPE_CHECKING

from sim.airframe.weighing_adjustment import adjusted
from sim.airframe.weighing_data import ALIKE_RAD, LIMIT
from sim.airframe.weighing_gap import chance, gap_with_height
from sim.airframe.weighing_tested import SIGNIFICANT
from sim.told import together, told
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Attitude, Weighing

REACH_RAD = radians(45.0)
"""How far from the pitch as written one is looked for, either way."""
NONE = 1e12
"""Chi-square of attitudes that determine no height."""
STEPS = 45
"""Of it, either way, before the least is closed in on: where two attitudes are alike there is none between."""


@dataclass(frozen=True, slots=True)
class AttitudeElsewhere:
    """One attitude at another pitch than written, or two exchanged, with which all agree with the list.

    Attributes
    ----------
    attitudes : tuple of str
        Its name, or both.
    pitch_deg : float or None
        At which they agree, nose up positive; None for two exchanged. [degrees]
    """

    attitudes: tuple[str, ...]
    pitch_deg: float | None

    @property
    def named(self) -> str:
        """What would agree: ``attitude tail_low at 14.1°``, ``readings of level and tail_low exchanged``."""
        if self.pitch_deg is None:
            return told("readings of {attitudes} exchanged", attitudes=together(self.attitudes, " and "))
        pitch = fixed("pitch_deg", self.pitch_deg, "si", 1)
        return told("attitude {attitude} at {pitch}", attitude=self.attitudes[0], pitch=pitch)


def attitudes_elsewhere(there: Sequence[Item], weighing: Weighing) -> tuple[AttitudeElsewhere, ...]:
    """Return what would make attitudes agree with the list, of weighings that determine the height.

    Parameters
    ----------
    there : sequence of Item
        What stood on the scales, as listed, with errors.
    weighing : Weighing
        Supports and readings, at two attitudes or more.

    Notes
    -----
    Each pitch by itself is moved to where the gap of mass, moment and height is least; it is named where what is left
    is not significant and the move more than its error allows.
    """
    return tuple(_agreeing(there, weighing))


def _agreeing(there: Sequence[Item], weighing: Weighing) -> Iterator[AttitudeElsewhere]:
    from scipy.optimize import minimize_scalar

    attitudes = weighing.attitudes

    def left(changed: Sequence[Attitude]) -> float:
        angles = [one.pitch_rad for one in changed]
        if max(angles) - min(angles) < ALIKE_RAD:
            return NONE
        found = gap_with_height(there, adjusted(weighing.supports, changed, None)[0])
        return NONE if found is None else found.chi_square

    if len(attitudes) == len(("level", "tail down")):
        one, other = attitudes
        if _sound(left((replace(one, pitch_rad=other.pitch_rad), replace(other, pitch_rad=one.pitch_rad)))):
            yield AttitudeElsewhere((one.name, other.name), None)
    for place, own in enumerate(attitudes):

        def turned(pitch_rad: float, place: int = place, own: Attitude = own) -> float:
            return left((*attitudes[:place], replace(own, pitch_rad=pitch_rad), *attitudes[place + 1 :]))

        tried = [own.pitch_rad + REACH_RAD * (step / STEPS - 1.0) for step in range(2 * STEPS + 1)]
        near = min(tried, key=turned)
        ends = near - REACH_RAD / STEPS, near + REACH_RAD / STEPS
        best = minimize_scalar(turned, bounds=ends, method="bounded", options={"xatol": 1e-5})
        if _sound(float(best.fun)) and abs(best.x - own.pitch_rad) > LIMIT * own.pitch_error_rad:
            yield AttitudeElsewhere((own.name,), degrees(best.x))


def _sound(chi_square: float) -> bool:
    return chi_square < NONE and chance(chi_square, 3) > SIGNIFICANT
