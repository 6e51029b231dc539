"""Polar inertia from a swinging test, with its standard error."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from sim.answer import ASIDE, Answer
from sim.errors import Fault, InputError, whole_faults
from sim.rotor.swing import period, wing_air_inertia
from sim.rotor.swing import swing as swung_inertia
from sim.units.parsing import Measured

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.rotor.swing import Method, Swung

SwungBody = Literal["propeller", "engine", "airplane"]
SwingAxis = Literal["roll", "pitch", "yaw"]
PARAMETERS = {
    "mass": "mass_kg",
    "radius": "radius_m",
    "length": "length_m",
    "arm": "arm_m",
    "carrier_mass": "carrier_mass_kg",
    "carrier_inertia": "carrier_inertia_kg_m2",
}
"""Reading of a test -> the parameter that gives it."""
NEEDED: dict[str, tuple[str, ...]] = {
    "bifilar": ("mass", "radius", "length"),
    "trifilar": ("mass", "radius", "length"),
    "compound": ("mass", "arm"),
}
AXIS: SwingAxis = "roll"
"""About which an airplane is swung where nothing else is said."""
PLANES = 2
"""Planes of its wing, likewise."""
OPTIONAL = ("carrier_mass", "carrier_inertia")
LIGHT_AIRPLANE_AIR_SHARE = 0.25
"""Largest inertia of the air carried along, over the true inertia of a light airplane (NACA TN-1187)."""


@dataclass(frozen=True, slots=True)
class SwingAnswer(Answer):
    """Inertia of the body about the axis through its mass centre.

    Attributes
    ----------
    polar_inertia_kg_m2, standard_error_kg_m2 : float
        Value and one standard deviation. [kg m²]
    low_kg_m2, high_kg_m2 : float
        Limits of the 95 % confidence interval. [kg m²]
    gyration_radius_m : float
        Radius of gyration. [m]
    period_s : float
        Period of one swing. [s]
    largest_error : str
        The reading that contributes most to the standard error.
    air_inertia_kg_m2 : float
        Upper bound of the part of the value that is air carried along by the wings: 0 except for an airplane swung in
        roll with its wings given. Not subtracted. [kg m²]
    notes : tuple of str
        What to know before using the value.
    tested, about : str
        How and what, and about which axis; not part of the JSON object.
    """

    polar_inertia_kg_m2: float
    standard_error_kg_m2: float
    low_kg_m2: float
    high_kg_m2: float
    gyration_radius_m: float
    period_s: float
    largest_error: str
    air_inertia_kg_m2: float
    notes: tuple[str, ...]
    tested: str = field(metadata=ASIDE)
    about: str = field(metadata=ASIDE)


def swing(
    *,
    mass_kg: Measured | float | None,
    times_s: Sequence[Measured | float],
    swings: float | None,
    method: Method = "bifilar",
    radius_m: Measured | float | None = None,
    length_m: Measured | float | None = None,
    arm_m: Measured | float | None = None,
    carrier_mass_kg: Measured | float | None = None,
    carrier_inertia_kg_m2: Measured | float | None = None,
    amplitude_deg: float = 0.0,
    body: SwungBody = "propeller",
    axis: SwingAxis | None = None,
    span_m: float | None = None,
    chord_m: float | None = None,
    planes: float | None = None,
) -> SwingAnswer:
    """Return the inertia that a swinging test shows.

    Parameters
    ----------
    mass_kg : Measured or float
        Mass of the body; `Measured` where it has a tolerance, one standard deviation, as every reading below. [kg]
    times_s : sequence of Measured or float
        Timings of `swings` swings each; a single one needs a tolerance. [s]
    swings : int
        Swings to and fro in each timing.
    method : str
        ``bifilar``, ``trifilar`` or ``compound``.
    radius_m, length_m : Measured or float, optional
        Bifilar and trifilar: distance of the wires from the vertical axis, and their length. [m]
    arm_m : Measured or float, optional
        Compound: distance from the pivot to the mass centre. [m]
    carrier_mass_kg, carrier_inertia_kg_m2 : Measured or float, optional
        Bifilar and trifilar: mass and polar inertia of the empty carrier. [kg, kg m²]
    amplitude_deg : float
        Amplitude to one side. [°]
    body : str
        What was swung.
    axis : str or None
        About which an airplane was swung; None for roll.
    span_m, chord_m : float or None
        Span and chord of an airplane's wing, for the air that it carries along. [m]
    planes : int or None
        Planes of that wing; None for 2.

    Raises
    ------
    InputError
        Every reading that is missing or has no use, at once; readings that give no inertia.
    """
    given = (mass_kg, radius_m, length_m, arm_m, carrier_mass_kg, carrier_inertia_kg_m2)
    readings = {name: _measured(value) for name, value in zip(PARAMETERS, given, strict=True) if value is not None}
    wings = {"span_m": span_m, "chord_m": chord_m, "planes": planes}
    faults = [
        *reading_faults(method, readings, times_s, {"swings": swings, "planes": planes}),
        *body_faults(body, axis, wings),
    ]
    if faults or swings is None:
        raise InputError(faults)
    useful = {name: readings.get(name, Measured(0.0)) for name in _useful(method)}
    timing = period([_measured(time) for time in times_s], int(swings), math.radians(amplitude_deg))
    found = swung_inertia(method, useful, timing)
    air = wing_air_inertia(span_m, chord_m, planes=int(planes or PLANES)) if span_m and chord_m else 0.0
    return SwingAnswer(
        found.polar_inertia_kg_m2,
        found.standard_error_kg_m2,
        found.low_kg_m2,
        found.high_kg_m2,
        gyration_radius_m=(found.polar_inertia_kg_m2 / useful["mass"].value) ** 0.5,
        period_s=found.period_s,
        largest_error=found.largest_error.replace("_", " "),
        air_inertia_kg_m2=air,
        notes=tuple(_notes(body, found, air)),
        tested=f"{method}: {body}",
        about=(axis or AXIS) if body == "airplane" else "shaft",
    )


def _measured(value: Measured | float) -> Measured:
    return value if isinstance(value, Measured) else Measured(value)


def _useful(method: str) -> tuple[str, ...]:
    return NEEDED.get(method, ()) + (() if method == "compound" else OPTIONAL)


def reading_faults(
    method: str, readings: Mapping[str, object], times: Sequence[object], counts: Mapping[str, float | None]
) -> Iterator[Fault]:
    """Yield which readings the method lacks, or has no use for.

    Parameters
    ----------
    method : str
        ``bifilar``, ``trifilar`` or ``compound``.
    readings : mapping
        Those that are given, by the names in `PARAMETERS`.
    times : sequence
        Timings given.
    counts : mapping
        ``swings`` in each timing and ``planes`` of the wing: whole numbers.
    """
    needed, useful = NEEDED.get(method, ()), _useful(method)
    for name in needed:
        if name not in readings:
            yield Fault(PARAMETERS[name], f"is missing; a {method} test needs {_named(needed)}")
    for name in readings:
        if needed and name not in useful:
            yield Fault(PARAMETERS[name], f"has no use in a {method} test; it takes {_named(useful)}")
    if not times:
        yield Fault("times_s", "is missing; give each timing")
    if counts.get("swings") is None:
        yield Fault("swings", "is missing; give the number of full oscillations in each timing")
    yield from whole_faults(counts)


def body_faults(body: SwungBody, axis: SwingAxis | None, wings: Mapping[str, float | None]) -> Iterator[Fault]:
    """Yield which of axis and wings have no use for what was swung, and a span that is missing.

    Parameters
    ----------
    body : str
        ``propeller``, ``engine`` or ``airplane``.
    axis : str or None
        About which an airplane was swung.
    wings : mapping
        Its ``span_m``, ``chord_m`` and ``planes``, None where they are not given.
    """
    given = [name for name, value in wings.items() if value is not None]
    if body != "airplane":
        for name in (["axis"] if axis else []) + given:
            yield Fault(name, f"has no use for a {body}; it is for an airplane")
    elif (axis or AXIS) != "roll":
        for name in given:
            yield Fault(name, f"has no use in {axis}; the added inertia of the air is estimated in roll")
    elif "planes" in given and "span_m" not in given:
        yield Fault("span_m", "is missing; `planes` needs it")


def _named(readings: Sequence[str]) -> str:
    return ", ".join(f"`{PARAMETERS[name]}`" for name in readings)


def _notes(body: SwungBody, found: Swung, air_kg_m2: float) -> Iterator[str]:
    inertia_kg_m2 = found.polar_inertia_kg_m2
    if found.low_kg_m2 <= 0.0:
        yield "The confidence interval reaches below zero: the readings are too uncertain for a value; repeat them."
    if body == "airplane":
        share = air_kg_m2 / (inertia_kg_m2 - air_kg_m2) if 0.0 < air_kg_m2 < inertia_kg_m2 else None
        size = f"; by theory at most {100.0 * share:.0f} % for these wings" if share is not None else ""
        yield (
            f"The value includes the added inertia of the air: up to {100 * LIGHT_AIRPLANE_AIR_SHARE:.0f} % of the "
            f"true inertia in tests of light airplanes (NACA TN-1187){size}. It is not subtracted here."
        )
    elif body == "engine":
        yield (
            "The value is that of the whole engine: subtract the parts that do not rotate when it runs, in a fixed "
            "engine all but the crankshaft and what it drives."
        )
    else:
        yield "The added inertia of the air is under 1 % of the value of a wooden propeller."
