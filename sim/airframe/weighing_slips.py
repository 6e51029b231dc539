"""Slips that, undone, make scale readings balance: digits exchanged, another unit, a tare taken off twice."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.weighing_data import LIMIT
from sim.told import told
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.airframe.weighing_data import Attitude, Support

DECIMALS = 1
"""Of a reading as it is written on a sheet: scales of aircraft show tenths at most. Common practice, no source."""

ROUNDING_M = 1e-9
NEAR_SHARE = 0.08
"""How near the ratio of scales and list must be to that of the units: lists of weighed parts are off by less."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One reading that would balance the weighing if it were another.

    Attributes
    ----------
    attitude, support : str
        Which.
    mass_kg : float
        What it would be, before tare. [kg]
    how : str
        What went wrong.
    """

    attitude: str
    support: str
    mass_kg: float
    how: str


def other_unit(scales_kg: float, listed_kg: float) -> str | None:
    """Return that all readings look as if they were of the other unit, a clause, or None.

    Parameters
    ----------
    scales_kg, listed_kg : float
        What the scales read together, and what the list says stood on them. [kg]
    """
    share, pound_kg = scales_kg / listed_kg, float(ratio("lb", "kg"))
    for factor, how in ((pound_kg, "kilograms written as pounds"), (1.0 / pound_kg, "pounds written as kilograms")):
        if abs(share / factor - 1.0) < NEAR_SHARE:
            return told("the scales read {share} times the list, as {how} do", share=f"{share:.2f}", how=how)
    return None


def slips(one: Attitude, other: Attitude, allowed_kg: float) -> list[Slip]:
    """Return each single slip that explains why two attitudes add up to different weights, the closest first.

    Parameters
    ----------
    one, other : Attitude
        Of the same airplane.
    allowed_kg : float
        By how much their sums may differ. [kg]
    """
    over_kg, found = other.net_kg - one.net_kg, list[tuple[float, Slip]]()
    for attitude, more_kg in ((other, -over_kg), (one, over_kg)):
        for support, reading in attitude.readings.items():
            for mass_kg, how in _otherwise(reading.mass_kg, reading.tare_kg):
                left_kg = abs(mass_kg - reading.mass_kg - more_kg)
                if left_kg <= allowed_kg:
                    found.append((left_kg, Slip(attitude.name, support, mass_kg, how)))
    return [slip for _, slip in sorted(found, key=lambda pair: pair[0])]


def abreast(supports: Mapping[str, Support], attitudes: Sequence[Attitude], slip: Slip) -> bool:
    """Return whether the centre of gravity lies as far right at both attitudes once a slip is undone.

    Parameters
    ----------
    supports : mapping
        By name.
    attitudes : sequence of Attitude
        Both.
    slip : Slip
        In one of them.
    """
    places, errors = list[float](), list[float]()
    for attitude in attitudes:
        nets = {name: reading.net_kg for name, reading in attitude.readings.items()}
        if attitude.name == slip.attitude:
            nets[slip.support] = slip.mass_kg - attitude.readings[slip.support].tare_kg
        whole = sum(nets.values())
        places.append(sum(supports[name].buttline_m * net for name, net in nets.items()) / whole)
        errors += [supports[name].buttline_m * one.mass_error_kg / whole for name, one in attitude.readings.items()]
    return abs(places[0] - places[1]) <= LIMIT * hypot(*errors) + ROUNDING_M


def _otherwise(mass_kg: float, tare_kg: float) -> Iterator[tuple[float, str]]:
    """Yield what else a reading may have been [kg], and the slip."""
    pound_kg = float(ratio("lb", "kg"))
    yield mass_kg * pound_kg, "pounds, not kilograms"
    yield mass_kg / pound_kg, "kilograms, not pounds"
    if tare_kg:
        yield mass_kg + tare_kg, "its tare taken off twice"
    for unit_kg in (pound_kg, 1.0):
        for written in _exchanged(mass_kg / unit_kg):
            yield written * unit_kg, "two digits exchanged"


def _exchanged(value: float) -> Iterator[float]:
    """Yield a number with two neighbouring digits exchanged, where its tenths hold all of it."""
    tenths = round(value * 10**DECIMALS)
    if abs(tenths - value * 10**DECIMALS) > 1e-6 * 10**DECIMALS:
        return
    digits = str(tenths)
    for place in range(len(digits) - 1):
        pair = digits[place : place + 2]
        if pair != pair[::-1]:
            yield int(digits[:place] + pair[::-1] + digits[place + 2 :]) / 10**DECIMALS
