"""Lift at the stall and profile drag of a wing section: as measured, or from thickness, camber and Reynolds number."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.drag_friction import LEAST_REYNOLDS, friction
from sim.errors import refuse
from sim.numerics.uncertain import Uncertain

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.section import Airfoil

REFERENCE_REYNOLDS = 6e6
"""Of the coefficients below; lift grows by the logarithm of the Reynolds number up to 9e6."""
MOST_REYNOLDS = 9e6
THICKNESS = (0.03, 0.06, 0.09, 0.12, 0.15, 0.24)
LIFT = (0.75, 0.91, 1.33, 1.54, 1.49, 1.20)
"""Largest lift coefficient without camber."""
LIFT_CAMBER = (9.0, 8.0, 5.2, 3.1, 2.2, 2.7)
"""Gain of it for a unit of camber."""
LIFT_DECADE = (0.05, 0.14, 0.35, 0.45, 0.39, 0.42)
"""Gain of it for ten times the Reynolds number without camber."""
CAMBER_RELIEF = -2.8
"""Change of that gain for a unit of camber."""
FORWARD_CAMBER, FORWARD_FROM, FORWARD_FULL = 0.10, 0.20, 0.15
"""Gain of lift where the mean line is highest at 15 % of the chord (the 230 mean lines), none from 20 %."""
LIFT_BAND = 0.05
"""One standard deviation of the largest lift of a smooth section; see `tests/published`."""
DRAG_SHARE_BAND = 0.10
"""One standard deviation of the least drag over that drag."""
RISE, RISE_BAND = 0.0036, 0.4
"""Rise of drag with lift squared at 12 % thickness and the reference Reynolds number; deviation over the value."""
BEST_LIFT = 6.0
"""Lift coefficient of least drag for a unit of camber."""
LEAST_POINTS, USED_SHARE, LEAST_RISE = 4, 0.8, 1e-6
"""Of a measured polar: rows that its parabola needs, up to which share of the largest lift; least rise of drag."""


@dataclass(frozen=True, slots=True)
class SectionShape:
    """What the correlations need of a section, in units of the chord.

    Attributes
    ----------
    thickness : float
        Largest depth.
    camber : float
        Greatest height of the mean line over the chord line; negative below it.
    camber_place : float
        Where, from the leading edge.
    """

    thickness: float
    camber: float
    camber_place: float


@dataclass(frozen=True, slots=True)
class SectionPolar:
    """Lift at the stall and drag cd = least + rise (cl − best)² of a section in plane flow.

    Attributes
    ----------
    section_lift_max : Uncertain
        Largest lift coefficient.
    section_drag_min : Uncertain
        Least drag coefficient.
    section_drag_rise : Uncertain
        Its rise for a unit of lift coefficient squared.
    section_lift_best : float
        Lift coefficient of least drag.
    """

    section_lift_max: Uncertain
    section_drag_min: Uncertain
    section_drag_rise: Uncertain
    section_lift_best: float

    @property
    def at_zero_lift(self) -> Uncertain:
        """Drag without lift of the parabola in the square of lift that is nearest from cl 0 to 1.

        Least squares: cl is replaced by 3/16 + 15/16 cl² in the term that is linear in it.
        """
        shift = self.section_lift_best * (self.section_lift_best - 0.375)
        return self.section_drag_min + self.section_drag_rise * shift

    @property
    def rise(self) -> Uncertain:
        """Rise of that parabola for a unit of lift coefficient squared."""
        return self.section_drag_rise * (1.0 - 1.875 * self.section_lift_best)


def shape_of(section: Airfoil) -> SectionShape:
    """Return thickness and camber of a section, camber from the line through the ends of its mean line."""
    stations = np.union1d(section.upper[0], section.lower[0])
    depth = np.interp(stations, *section.upper) - np.interp(stations, *section.lower)
    place, height = section.mean
    height = height - np.interp(place, place[[0, -1]], height[[0, -1]])
    highest = int(np.argmax(np.abs(height)))
    camber = float(height[highest])
    return SectionShape(float(depth.max()), camber, float(place[highest]) if camber else 0.5)


def estimated_section(shape: SectionShape, reynolds: float, *, laminar: float) -> SectionPolar:
    """Return lift at the stall and profile drag of a smooth section from its shape.

    Parameters
    ----------
    shape : SectionShape
        Thickness from 3 to 24 % of the chord and camber from 0 to 7 %; outside, the nearer end serves.
    reynolds : float
        On the chord.
    laminar : float
        Share of the chord ahead of transition: .35 on smooth four-digit sections in a quiet tunnel, .05 with a rough
        strip at the nose.

    Notes
    -----
    Lift at the stall: a table over thickness with a gain by camber and by the logarithm of the Reynolds number, fitted
    to 46 published values (4- and 5-digit families from 1.7e5 to 9e6, and sections of the rotary-engine age): rms .037.
    Drag: friction on both sides, times 1 + 2 t + 60 t⁴ for the thickness t, plus 0.4 for a unit of camber squared.

    References
    ----------
    NACA Reports 460, 586 and 824; Abbott & von Doenhoff, Theory of Wing Sections (values from memory). The factor of
    thickness: Hoerner, Fluid-Dynamic Drag, chapter VI (from memory).

    Examples
    --------
    >>> found = estimated_section(SectionShape(0.12, 0.02, 0.4), 3e6, laminar=0.05)
    >>> round(found.section_lift_max.value, 2), round(found.section_drag_min.value, 4)
    (1.48, 0.009)
    """
    thick, camber = shape.thickness, max(shape.camber, 0.0)
    drag = 2.0 * friction(reynolds, laminar) * (1.0 + 2.0 * thick + 60.0 * thick**4) + 0.4 * camber**2
    rise = RISE * min(0.12 / thick, 2.0) * (REFERENCE_REYNOLDS / max(reynolds, LEAST_REYNOLDS)) ** 0.3
    return SectionPolar(
        section_lift_max=Uncertain(_lift_max(shape, reynolds), LIFT_BAND),
        section_drag_min=Uncertain(drag, DRAG_SHARE_BAND * drag),
        section_drag_rise=Uncertain(rise, RISE_BAND * rise),
        section_lift_best=BEST_LIFT * camber,
    )


def _lift_max(shape: SectionShape, reynolds: float) -> float:
    still, gain, decade = (
        float(np.interp(shape.thickness, THICKNESS, row)) for row in (LIFT, LIFT_CAMBER, LIFT_DECADE)
    )
    camber = min(max(shape.camber, 0.0), 0.07)
    decades = math.log10(min(max(reynolds, LEAST_REYNOLDS), MOST_REYNOLDS) / REFERENCE_REYNOLDS)
    ahead = min(max((FORWARD_FROM - shape.camber_place) / (FORWARD_FROM - FORWARD_FULL), 0.0), 1.0)
    return (
        still
        + gain * camber
        + max(decade + CAMBER_RELIEF * camber, 0.0) * decades
        + (FORWARD_CAMBER * ahead if camber > 0.0 else 0.0)
    )


def measured_section(points: Sequence[Sequence[float]], *, key: str = "section.polar") -> SectionPolar:
    """Return lift at the stall and profile drag of a section from a measured polar.

    Parameters
    ----------
    points : sequence of triples
        Incidence [°], lift and drag coefficient of plane flow, incidence rising.
    key : str
        What to call the list when it is refused.

    Raises
    ------
    InputError
        When incidence does not rise, or fewer than four points lie from cl 0 to .8 of the largest.

    Notes
    -----
    The parabola is that of least squares through those points; the deviation of the least drag is the scatter of the
    points about it. The largest lift is that of the points, with half the distance to the next as its deviation.
    """
    incidence, lift, drag = np.array(points, dtype=float).reshape(-1, 3).T
    if np.any(np.diff(incidence) <= 0.0):
        refuse(key, "must have incidence rising from row to row")
    top = int(np.argmax(lift))
    most, before = float(lift[top]), slice(0, top + 1)
    use = (lift[before] >= 0.0) & (lift[before] <= USED_SHARE * most)
    at, found = lift[before][use], drag[before][use]
    if len(at) < LEAST_POINTS:
        refuse(key, f"must have at least {LEAST_POINTS} rows with a lift from 0 to {USED_SHARE:g} of the largest")
    matrix = np.column_stack((np.ones_like(at), at, at**2))
    a, b, c = np.linalg.lstsq(matrix, found, rcond=None)[0].tolist()
    rise = max(c, LEAST_RISE)
    best = float(np.clip(-0.5 * b / rise, 0.0, most))
    scatter = float(np.std(matrix @ np.array([a, b, c]) - found))
    return SectionPolar(
        section_lift_max=Uncertain(most, 0.5 * float(most - np.sort(lift)[-2])),
        section_drag_min=Uncertain(a + b * best + rise * best**2, scatter),
        section_drag_rise=Uncertain(rise, scatter),
        section_lift_best=best,
    )
