"""How far the flow has left each strip of the wing in a flight, and when the wing as a whole stalls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.half_planes import wing_flow
from sim.aerodynamics.slipstream import wash
from sim.aerodynamics.strips import sized
from sim.aerodynamics.strips_loads import strip_motion
from sim.atmosphere import density_ratio
from sim.errors import refuse
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.engine_propeller import shaft_loads

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.motion import Airplane, Controls

    Numbers = NDArray[np.float64]

SEPARATED: Final = 0.917
"""Lift over that of attached flow where the line of attached flow reaches the largest lift of the section: 2^(-1/8)."""
DROPPED: Final = 0.99
"""The wing has stalled at the greatest lift after which its coefficient falls to this share of it. Not less: a nose
that goes down by itself, as a rotary's in a right turn, lowers it by two hundredths; what follows is no approach."""
PARTS: Final = ("inner", "middle", "outer")
"""Thirds of the semi-span."""


@dataclass(frozen=True, slots=True)
class Separation:
    """The strips of a wing through a flight, those of the right side first.

    Attributes
    ----------
    panels : tuple of str
        Plane, side and third of the semi-span of each: ``upper left outer``.
    area_m2 : array, shape (n,)
        [m²]
    lift, attached : array, shape (n, m)
        Lift coefficient of each against time, and over that of attached flow; of many flights these are a last axis.
    """

    panels: tuple[str, ...]
    area_m2: Numbers
    lift: Numbers
    attached: Numbers

    @property
    def mean_lift(self) -> Numbers:
        """Mean lift coefficient of the wing against time, every strip by its area."""
        return np.asarray(np.tensordot(self.area_m2, self.lift, axes=1) / self.area_m2.sum())


class Stalled(NamedTuple):
    """Numbers of the samples at which the wing stalls and its first strip separates, and the panel of that strip."""

    at: int
    first: int
    panel: str


def separation(airplane: Airplane, state: Numbers, controls: Controls) -> Separation:
    """Return the strips of a wing through a flight.

    Parameters
    ----------
    airplane : Airplane
        With strips.
    state : array, shape (14, m) or (14, m, n)
        Of a flight at each sample; or of many flights.
    controls : Controls
        Then, arrays of shape (m,) or (m, n).

    Raises
    ------
    InputError
        Where its air loads are linear: nothing stalls then.
    """
    drawn = airplane.strips or refuse("flight.air", 'must be "strips", got "linear": by linear loads nothing stalls')
    strips = sized(drawn, airplane.polar.lift_max)
    functions = ARRAY_MATH
    u, w, spin = state[7], state[9], state[13]
    density = airplane.sea_level_density_kg_m3 * density_ratio(-state[2])
    along = np.cos(airplane.shaft_tilt_rad) * u - np.sin(airplane.shaft_tilt_rad) * w
    shaft = shaft_loads(airplane.engine, airplane.propeller, functions)((spin, along), density, controls)
    behind = wash(airplane.slipstream, functions)(state[7:13], density, shaft.thrust, shaft.propeller)
    now = strip_motion(strips, functions, state[7:13], controls)
    found = [*wing_flow(strips, functions)(now, behind)]
    names, areas, lifts, attached = [], [], [], []
    for side, name in enumerate(("right", "left")):
        for strip, states, share in found:
            part = PARTS[min(2, int(6.0 * strip.force_m[1] / strips.span_m))]
            names.append(f"{strip.name} {name} {part}")
            areas.append(strip.area_m2)
            lifts.append(states[side].lift)
            attached.append(share[side])
    return Separation(tuple(names), np.array(areas), np.array(lifts), np.array(attached))


def stalled(found: Separation) -> Stalled | None:
    """Return where the wing stalls, and which strip separates first; None where it does not.

    Parameters
    ----------
    found : Separation
        Of one flight.
    """
    at = int(stalls_at(found))
    if at < 0:
        return None
    left = found.attached < SEPARATED
    when = np.where(left.any(axis=1), left.argmax(axis=1), left.shape[1])
    first = int(when.min())
    worst = int(np.argmin(np.where(when == first, found.attached[:, min(first, left.shape[1] - 1)], np.inf)))
    return Stalled(at, first, found.panels[worst])


def stalls_at(found: Separation) -> NDArray[np.intp]:
    """Return the sample at which the wing stalls: the first greatest mean lift after which it falls; -1 for none.

    Parameters
    ----------
    found : Separation
        Of a flight; or of many, as the last axis of its arrays.
    """
    lift = found.mean_lift
    left = np.maximum.accumulate((found.attached < SEPARATED).any(axis=0))
    dropped = (lift < DROPPED * np.maximum.accumulate(lift)) & left
    samples = np.arange(len(lift)).reshape(-1, *([1] * (lift.ndim - 1)))
    before = np.where(samples <= dropped.argmax(axis=0), lift, -np.inf)
    return np.asarray(np.where(dropped.any(axis=0), before.argmax(axis=0), -1))
