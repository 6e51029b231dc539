"""Polar inertia from a swinging test: what the clock says about how a body's mass is spread.

Bifilar and trifilar: the body hangs level from two or three upright wires and is turned a little about the upright
axis through its mass centre. Compound: it swings about a fixed level pivot like the bob of a clock.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeVar

import numpy as np

from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3
from sim.errors import refuse
from sim.numerics.student import student_95
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sim.units.parsing import Measured

    Number = TypeVar("Number", float, complex)

Method = Literal["bifilar", "trifilar", "compound"]


@dataclass(frozen=True, slots=True)
class Swung:
    """Inertia found by swinging, about the axis through the mass centre.

    Attributes
    ----------
    polar_inertia_kg_m2 : float
        About the shaft of a propeller or engine, or about the axis an airplane was swung about. [kg m²]
    standard_error_kg_m2 : float
        One standard deviation of it, from the scatter of the clock and the tolerances given. [kg m²]
    low_kg_m2, high_kg_m2 : float
        Between them the true value lies in 95 of 100 such tests. [kg m²]
    period_s : float
        Of one swing to and fro, mean, brought to a vanishing amplitude. [s]
    freedoms : float
        Effective degrees of freedom of the standard error; infinite where only tolerances tell.
    largest_error : str
        The reading that adds most to the standard error.
    """

    polar_inertia_kg_m2: float
    standard_error_kg_m2: float
    low_kg_m2: float
    high_kg_m2: float
    period_s: float
    freedoms: float
    largest_error: str


def wires(values: Mapping[str, Number]) -> Number:
    """Return the inertia of a body hung from upright wires, m g R² T² / (4 π² L) less its carrier's [kg m²].

    Parameters
    ----------
    values : mapping
        ``mass`` of the body and ``carrier_mass`` of what holds it, both hung [kg]; ``radius`` R of the wires from the
        upright axis and ``length`` L of the wires [m]; ``period`` T [s]; ``carrier_inertia`` [kg m²].

    Notes
    -----
    The mass centre must hang on the upright axis midway between the wires; wires long against their distance. Local
    gravity is up to 0.3 % off the standard value taken here, and so is the inertia.

    Examples
    --------
    >>> body = {"mass": 10.0, "carrier_mass": 0.0, "radius": 0.5, "length": 2.0, "period": 2.0, "carrier_inertia": 0.0}
    >>> round(wires(body), 4)
    1.242
    """
    hung = values["mass"] + values["carrier_mass"]
    turned = hung * GRAVITY_M_S2 * values["radius"] ** 2 * values["period"] ** 2 / (4.0 * math.pi**2 * values["length"])
    return turned - values["carrier_inertia"]


def pivot(values: Mapping[str, Number]) -> Number:
    """Return the inertia about its mass centre of a body swung about a level pivot, m g d T² / (4 π²) − m d² [kg m²].

    Parameters
    ----------
    values : mapping
        ``mass`` [kg], ``arm`` d from the pivot to the mass centre [m], ``period`` T [s].

    Notes
    -----
    A difference of two larger numbers: the arm should be near the radius of gyration, where an error of the arm
    drops out.
    """
    arm = values["arm"]
    about_pivot = values["mass"] * GRAVITY_M_S2 * arm * values["period"] ** 2 / (4.0 * math.pi**2)
    return about_pivot - values["mass"] * arm**2


@dataclass(frozen=True, slots=True)
class Timing:
    """What the clock said.

    Attributes
    ----------
    period_s : float
        Of one swing to and fro, mean. [s]
    scatter_s : float
        Standard error of that mean from the scatter of the timings; 0 with a single one. [s]
    tolerance_s : float
        What the timings were given to, which does not average out. [s]
    timings : int
        How many.
    """

    period_s: float
    scatter_s: float
    tolerance_s: float
    timings: int


def period(times: Sequence[Measured], swings: int, amplitude_rad: float = 0.0) -> Timing:
    """Return the period of one swing from repeated timings.

    Parameters
    ----------
    times : sequence of Measured
        Each timing, of `swings` swings to and fro; a single one needs a tolerance. [s]
    swings : int
        At least 1.
    amplitude_rad : float
        To one side. The period is divided by 1 + θ²/16, as for a clock; what is left is 1e-4 of it at 20°. [rad]

    Raises
    ------
    InputError
        With a single timing without a tolerance: nothing tells its error.
    """
    count = len(times)
    if count < 2 and not any(time.tolerance for time in times):
        refuse("times_s", f'must be given at least twice, or once with a tolerance (±), got "{count}" without')
    scale = 1.0 / swings / (1.0 + amplitude_rad**2 / 16.0)
    one_s = np.asarray([time.value for time in times]) * scale
    return Timing(
        period_s=float(one_s.mean()),
        scatter_s=float(one_s.std(ddof=1)) / math.sqrt(count) if count > 1 else 0.0,
        tolerance_s=scale * float(np.mean([time.tolerance for time in times])),
        timings=count,
    )


def swing(method: Method, readings: Mapping[str, Measured], timing: Timing) -> Swung:
    """Return the inertia and its error from the readings of one test.

    Parameters
    ----------
    method : str
        How it was hung.
    readings : mapping
        Those that `wires` or `pivot` names, but the period. [kg, m, kg m²]
    timing : Timing
        Of `period`. [s]

    Raises
    ------
    InputError
        When the readings give no inertia above nothing.

    Notes
    -----
    First-order spread of independent errors; the 95 % limits use Student's t with Welch and Satterthwaite's degrees
    of freedom, as the Guide to the Expression of Uncertainty in Measurement does (JCGM 100, annex G).

    Examples
    --------
    >>> from sim.units.parsing import Measured
    >>> hung = {name: Measured(0.0) for name in ("carrier_mass", "carrier_inertia")}
    >>> hung |= {"mass": Measured(10.0, 0.1), "radius": Measured(0.5), "length": Measured(2.0)}
    >>> found = swing("bifilar", hung, Timing(2.0, 0.0, 0.0, 5))
    >>> round(found.polar_inertia_kg_m2, 3), round(found.standard_error_kg_m2, 4)
    (1.242, 0.0124)
    """
    law = pivot if method == "compound" else wires
    values = {name: reading.value for name, reading in readings.items()} | {"period": timing.period_s}
    inertia = law(values)
    if inertia <= 0.0:
        nothing, period = brief("polar_inertia_kg_m2", 0.0), brief("period_s", timing.period_s)
        refuse("times_s", f'must be long enough for an inertia above {nothing}, got a period of "{period}"')
    shares = {name: reading.tolerance * _slope(law, values, name) for name, reading in readings.items()}
    shares["timing"] = math.hypot(timing.scatter_s, timing.tolerance_s) * _slope(law, values, "period")
    error = math.hypot(*shares.values())
    scatter = abs(timing.scatter_s * _slope(law, values, "period"))
    freedoms = (timing.timings - 1) * (error / scatter) ** 4 if scatter else math.inf
    reach = error * student_95(freedoms)
    return Swung(
        inertia,
        error,
        inertia - reach,
        inertia + reach,
        period_s=timing.period_s,
        freedoms=freedoms,
        largest_error=max(shares, key=lambda name: abs(shares[name])),
    )


def _slope(law: object, values: dict[str, float], name: str) -> float:
    """Return the derivative of a law by one reading, exact to rounding (complex step)."""
    step = 1e-30
    moved: dict[str, complex] = {**values, name: complex(values[name], step)}
    return float(law(moved).imag / step)  # type: ignore[operator]


def wing_air_inertia(
    span_m: float, chord_m: float, *, planes: int = 2, density_kg_m3: float = SEA_LEVEL_KG_M3
) -> float:
    """Return the roll inertia of the air that light wings carry along when an airplane is swung [kg m²].

    Parameters
    ----------
    span_m, chord_m : float
        Of one plane. [m]
    planes : int
        How many.
    density_kg_m3 : float
        Of the air. [kg/m³]

    Notes
    -----
    A cylinder of air on each chord, ρ π c² b³/48 a plane: strip theory, so an upper bound. Swung values of a light
    airplane may hold up to 25 % of air (NACA TN-1187); take it off before the inertia goes into a motion whose
    derivatives hold the air's part already.

    Examples
    --------
    >>> round(wing_air_inertia(8.5, 1.4), 1)
    193.0
    """
    return planes * density_kg_m3 * math.pi * chord_m**2 * span_m**3 / 48.0
