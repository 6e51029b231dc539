"""Where the damping of a roll is reversed, and how fast an airplane then rolls on by itself, power off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Final

import numpy as np

from sim.aerodynamics.strips_rearranged import rearranged_strips
from sim.answer import Answer
from sim.errors import refuse
from sim.flight.autorotation import autorotation as rolled

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.aerodynamics.strips import Strips
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

ALPHA_DEG: Final = np.arange(0.0, 45.25, 0.5)
GAPS: Final = (0.75, 1.0, 1.5)
"""Gaps compared, in mean chords, at the stagger of the airplane."""
STAGGERS: Final = (-0.5, 0.0, 0.5)
"""Staggers compared, in mean chords, at its gap."""


@dataclass(frozen=True, slots=True)
class DrivenRange:
    """Range of angles of attack in which the damping of a roll is reversed.

    Attributes
    ----------
    driven_from_deg, driven_to_deg : float
        Its ends, to half a degree. [°]
    """

    driven_from_deg: float
    driven_to_deg: float


@dataclass(frozen=True, slots=True)
class AutorotationOf:
    """Autorotation with one powerplant, without power.

    Attributes
    ----------
    driven_from_deg : float or None
        Least angle of attack at which the damping of a roll is reversed; None where it never is. [°]
    ranges : tuple of DrivenRange
        All ranges in which it is.
    goes_on_from_deg, goes_on_to_deg : float or None
        Least and largest angle of attack at which a roll that is fast enough goes on by itself; None where none
        does. [°]
    steady_rate : float or None
        Fastest roll p b/2V that goes on by itself; None where there is none.
    steady_alpha_deg : float or None
        Angle of attack of it. [°]
    curve_alpha_deg, curve_damping, curve_rates : tuple of float
        Angle of attack, damping of a roll about the stream, and rate at which it goes on, 0 for none. [°]
    """

    driven_from_deg: float | None
    ranges: tuple[DrivenRange, ...]
    goes_on_from_deg: float | None
    goes_on_to_deg: float | None
    steady_rate: float | None
    steady_alpha_deg: float | None
    curve_alpha_deg: tuple[float, ...]
    curve_damping: tuple[float, ...]
    curve_rates: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Autorotation with the planes at another distance from each other.

    Attributes
    ----------
    gap_chords, stagger_chords : float
        From each plane to the one below, down and aft, over the mean chord; upper plane ahead positive.
    as_drawn : bool
        Whether the planes stand so.
    rolls : AutorotationOf
        Of it.
    """

    gap_chords: float
    stagger_chords: float
    as_drawn: bool
    rolls: AutorotationOf


@dataclass(frozen=True, slots=True)
class AutorotationAnswer(Answer):
    """Autorotation of an airplane, without power.

    Attributes
    ----------
    title : str
        Name of the airplane.
    powerplants : dict of AutorotationOf
        With the mass of each powerplant.
    powerplant : str
        Whose mass the arrangements have.
    arrangements : tuple of Arrangement
        As drawn, with other gaps and with other staggers; empty of a monoplane.
    """

    main: ClassVar[str] = "powerplants"
    headline: ClassVar[tuple[str, ...]] = ("driven_from_deg", "steady_rate")

    title: str
    powerplants: dict[str, AutorotationOf]
    powerplant: str
    arrangements: tuple[Arrangement, ...]


def autorotation(model: Model) -> AutorotationAnswer:
    """Return the autorotation of an airplane with each powerplant.

    Parameters
    ----------
    model : Model
        The airplane, its flights by strips.

    Raises
    ------
    InputError
        Where flights have linear air loads.
    """
    usual = model.usual_powerplant().name
    return AutorotationAnswer(
        title=model.title,
        powerplants={name: _of(_strips(model.airplane(name))) for name in model.powerplants},
        powerplant=usual,
        arrangements=tuple(_arrangements(model, model.airplane(usual))),
    )


def _strips(flying: FlyingAirplane) -> Strips:
    return flying.flown.strips or refuse("flight.air", 'must be "strips", got "linear": by linear loads nothing stalls')


def _arrangements(model: Model, flying: FlyingAirplane) -> Iterator[Arrangement]:
    """Yield the wing as drawn and with other gaps and staggers, its sections and incidences the same."""
    airframe, airplane, strips = model.airframe, flying.airplane, _strips(flying)
    wing, chord_m = airframe.wing, airframe.wing.mean("chord_m")
    if len(wing.planes) == 1:
        return
    gap, stagger = wing.gap_m / chord_m, wing.stagger_m / chord_m
    yield Arrangement(gap, stagger, as_drawn=True, rolls=_of(strips))
    for gap_chords, stagger_chords in (*((one, stagger) for one in GAPS), *((gap, one) for one in STAGGERS)):
        moved = rearranged_strips(
            strips,
            airframe,
            airplane.polar,
            airplane.slipstream,
            gap_m=gap_chords * chord_m,
            stagger_m=stagger_chords * chord_m,
            cg_aft_m=model.flown_mass(flying.name).cg_aft_m,
        )
        yield Arrangement(gap_chords, stagger_chords, as_drawn=False, rolls=_of(moved))


def _of(strips: Strips) -> AutorotationOf:
    found = rolled(strips, np.radians(ALPHA_DEG))
    driven, rolling = found.damping > 0.0, np.flatnonzero(found.steady_rate > 0.0)
    fastest = int(np.argmax(found.steady_rate))
    return AutorotationOf(
        driven_from_deg=float(ALPHA_DEG[np.argmax(driven)]) if driven.any() else None,
        ranges=tuple(_ranges(driven)),
        goes_on_from_deg=float(ALPHA_DEG[rolling[0]]) if rolling.size else None,
        goes_on_to_deg=float(ALPHA_DEG[rolling[-1]]) if rolling.size else None,
        steady_rate=float(found.steady_rate[fastest]) if rolling.size else None,
        steady_alpha_deg=float(ALPHA_DEG[fastest]) if rolling.size else None,
        curve_alpha_deg=tuple(ALPHA_DEG.tolist()),
        curve_damping=tuple(found.damping.tolist()),
        curve_rates=tuple(found.steady_rate.tolist()),
    )


def _ranges(driven: NDArray[np.bool_]) -> Iterator[DrivenRange]:
    """Yield the ends of each run of angles of attack at which the damping is reversed."""
    steps = np.diff(driven.astype(int), prepend=0, append=0)
    for first, beyond in zip(np.flatnonzero(steps > 0), np.flatnonzero(steps < 0), strict=True):
        yield DrivenRange(float(ALPHA_DEG[first]), float(ALPHA_DEG[beyond - 1]))
