"""A swinging test: the clock and the tape in, a polar inertia with its error out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.rotor.swing import Method, period, swing, wing_air_inertia
from sim.units.parsing import Measured

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

Body = Literal["propeller", "engine", "airplane"]
Axis = Literal["roll", "pitch", "yaw"]
NEEDED: dict[str, tuple[str, ...]] = {
    "bifilar": ("mass", "radius", "length"),
    "trifilar": ("mass", "radius", "length"),
    "compound": ("mass", "arm"),
}
OPTIONAL = ("carrier_mass", "carrier_inertia")
LIGHT_AIRPLANE_AIR_SHARE = 0.25
"""Air carried along adds up to this share of the true inertia of a light airplane (NACA TN-1187)."""


@dataclass(frozen=True, slots=True)
class SwingAnswer(Answer):
    """Inertia of the body about the axis through its mass centre.

    Attributes
    ----------
    polar_inertia_kg_m2, standard_error_kg_m2 : float
        Value and one standard deviation. [kg m²]
    low_kg_m2, high_kg_m2 : float
        95 % limits. [kg m²]
    gyration_radius_m : float
        Where all the mass could stand to turn as hard. [m]
    period_s : float
        Of one swing. [s]
    largest_error : str
        The reading to improve first.
    air_inertia_kg_m2 : float
        Of the value, what the wings' air may be at most: 0 but for an airplane swung in roll with its wings given.
        Not taken off. [kg m²]
    notes : tuple of str
        What the reader must know before using it.
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


def _option(name: str) -> str:
    return "--" + name.replace("_", "-")


def reading_faults(
    method: str, readings: Mapping[str, Measured | None], times: Sequence[object], counts: Mapping[str, float | None]
) -> Iterator[Fault]:
    """Yield which readings the method lacks, or has no use for.

    Parameters
    ----------
    method : str
        How it was hung.
    readings : mapping
        By name, None where not given. [kg, m, kg m²]
    times : sequence
        Timings given.
    counts : mapping
        ``swings`` to each timing and ``planes`` of the wing: whole numbers.
    """
    needed = NEEDED.get(method, ())
    for name in needed:
        if readings.get(name) is None:
            yield Fault(_option(name), f"is missing; a {method} test needs {', '.join(map(_option, needed))}")
    useful = needed + (() if method == "compound" else OPTIONAL)
    for name in readings:
        if needed and readings[name] is not None and name not in useful:
            yield Fault(_option(name), f"has no use in a {method} test; it takes {', '.join(map(_option, useful))}")
    if not times:
        yield Fault("--time", "is missing; give each timing, as in --time 52.4s --time 52.6s")
    if counts.get("swings") is None:
        yield Fault("--swings", "is missing; how many swings to and fro each timing holds, as in --swings 20")
    for name, count in counts.items():
        if count is not None and count % 1.0 > 0.0:
            yield Fault(_option(name), f'must be a whole number, got "{count:g}"')


def swing_test(
    method: Method,
    readings: Mapping[str, Measured | None],
    *,
    times: Sequence[Measured],
    swings: float,
    amplitude_rad: float = 0.0,
    body: Body = "propeller",
    axis: Axis = "roll",
    wing: tuple[float, float] | None = None,
    planes: float = 2.0,
) -> SwingAnswer:
    """Return the inertia that a swinging test shows.

    Parameters
    ----------
    method : str
        ``bifilar``, ``trifilar`` or ``compound``.
    readings : mapping
        ``mass``, and ``radius`` and ``length`` of the wires (with ``carrier_mass``, ``carrier_inertia`` of what holds
        the body) or ``arm`` from the pivot. [kg, m, kg m²]
    times : sequence of Measured
        Timings of `swings` swings each. [s]
    swings : float
        How many, whole.
    amplitude_rad : float
        To one side. [rad]
    body, axis : str
        What was swung; an airplane about which axis.
    wing : tuple of float, optional
        Span and chord of an airplane, for the air they carry. [m]
    planes : float
        Wings one above the other.

    Raises
    ------
    InputError
        Every missing or useless reading at once; readings that give no inertia.
    """
    faults = list(reading_faults(method, readings, times, {"swings": swings, "planes": planes}))
    if faults:
        raise InputError(faults)
    useful = NEEDED[method] + (() if method == "compound" else OPTIONAL)
    given = {name: readings.get(name) or Measured(0.0) for name in useful}
    found = swing(method, given, period(times, int(swings), amplitude_rad))
    air = wing_air_inertia(*wing, planes=int(planes)) if wing and body == "airplane" and axis == "roll" else 0.0
    return SwingAnswer(
        found.polar_inertia_kg_m2,
        found.standard_error_kg_m2,
        found.low_kg_m2,
        found.high_kg_m2,
        gyration_radius_m=(found.polar_inertia_kg_m2 / given["mass"].value) ** 0.5,
        period_s=found.period_s,
        largest_error=found.largest_error.replace("_", " "),
        air_inertia_kg_m2=air,
        notes=tuple(_notes(body, found.polar_inertia_kg_m2, air)),
    )


def _notes(body: Body, inertia_kg_m2: float, air_kg_m2: float) -> Iterator[str]:
    if body == "airplane":
        share = air_kg_m2 / (inertia_kg_m2 - air_kg_m2) if 0.0 < air_kg_m2 < inertia_kg_m2 else None
        size = f"; from these wings at most {100.0 * share:.0f} % of the true inertia" if share is not None else ""
        yield (
            f"The value holds the air the airplane carries along, up to {100 * LIGHT_AIRPLANE_AIR_SHARE:.0f} % of the "
            f"true inertia of a light airplane (NACA TN-1187){size}. It is not taken off here."
        )
    elif body == "engine":
        yield (
            "The whole engine was swung: what stands still in flight (of a fixed engine all but the running gear) must "
            "not be counted as spinning."
        )
    else:
        yield "The air that turned blades carry along adds under 1 % to the value of a wooden propeller."
