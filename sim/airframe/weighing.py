"""Weighing: weight and centre of gravity from scale readings, and its height from two attitudes."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.weighing_adjustment import adjusted
from sim.airframe.weighing_data import ALIKE_RAD, LIMIT
from sim.airframe.weighing_slips import abreast, slips
from sim.errors import Fault, InputError
from sim.units.text import fixed, fixed_in_both

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sim.airframe.weighing_data import Attitude, Support, Weighed

MOST_SLIPS = 3
"""Of those that would explain it, named: more is no hint."""


def weigh(
    supports: Mapping[str, Support],
    attitudes: Sequence[Attitude],
    *,
    assumed_waterline_m: float | None = None,
    assumed_waterline_error_m: float = 0.0,
    as_read: bool = True,
) -> Weighed:
    """Return weight and centre of gravity from the readings of every scale.

    Parameters
    ----------
    supports : mapping
        By name; at least two at different stations.
    attitudes : sequence of Attitude
        One suffices; two or more a degree apart determine the height too.
    assumed_waterline_m : float or None
        Height of the centre of gravity, used where the attitudes do not determine it. [m]
    assumed_waterline_error_m : float
        Its standard error, used with it. [m]
    as_read : bool
        Whether the readings are those of the scales. Ones drawn about them within their ± carry that error twice, and
        would be told as slips one time in thirty.

    Raises
    ------
    InputError
        Missing readings, totals or moments of the attitudes that differ by more than 3 standard errors, a support with
        a negative load (the centre of gravity would lie outside the wheels), a height that is needed and neither
        determined nor assumed: every fault in a sentence.

    Notes
    -----
    An axle, skid or centre of gravity at station x and waterline z stands x cos θ + z sin θ behind the origin when the
    nose is θ up. Weight and moment of each attitude are the observations, mass, x and z the unknowns of one generalised
    least-squares adjustment, see `sim.airframe.weighing_adjustment`. Errors are carried to first order: those of the
    scales are independent from reading to reading, that of a support acts on all of its readings, that of an attitude
    on all readings taken in it. Supports that share station, waterline and both errors are one axle, measured once:
    their errors of station and waterline are common. With errors of 1/8 in and 0.2° the truth lies within 1.96
    standard errors in 95 % of simulated weighings.

    References
    ----------
    FAA-H-8083-1, Weight and Balance Handbook, chapter on weighing; AC 43.13-1B chapter 10.

    Examples
    --------
    >>> from sim.airframe.weighing_data import Attitude, Reading, Support
    >>> level = Attitude("level", 0.0, {"mains": Reading(90.0, 0.1), "tail": Reading(10.0, 0.1)})
    >>> round(weigh({"mains": Support(1.0), "tail": Support(6.0)}, [level]).cg_station_m, 9)
    1.5
    """
    faults = [*_missing(supports, attitudes), *(fault for a in attitudes for fault in _lifted(supports, a))]
    slipped = [] if faults or not as_read else _unbalanced(supports, attitudes)
    faults = faults or [*slipped, *_without_height(attitudes, assumed_waterline_m)]
    if faults:
        raise InputError(faults)
    assumed = None if _height_determined(attitudes) else (assumed_waterline_m or 0.0, assumed_waterline_error_m)
    weighed, residuals = adjusted(supports, attitudes, assumed)
    if as_read and (faults := _disagreeing(attitudes, residuals)):
        raise InputError(faults)
    return weighed


def _height_determined(attitudes: Sequence[Attitude]) -> bool:
    angles = [attitude.pitch_rad for attitude in attitudes]
    return max(angles) - min(angles) >= ALIKE_RAD


def _without_height(attitudes: Sequence[Attitude], assumed_waterline_m: float | None) -> list[Fault]:
    if _height_determined(attitudes) or assumed_waterline_m is not None:
        return []
    if max(abs(attitude.pitch_rad) for attitude in attitudes) >= ALIKE_RAD:
        return [Fault("weighing.attitude", "needs a level attitude, or two a degree or more apart")]
    if any(attitude.pitch_error_rad > 0.0 for attitude in attitudes):
        what = "needs an assumed height for the error of the level attitude, or two attitudes a degree or more apart"
        return [Fault("weighing.attitude", what)]
    return []


def _missing(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> list[Fault]:
    if len({support.station_m for support in supports.values()}) < 2:
        return [
            Fault("weighing.support", "needs supports at two stations at least, the main wheels and the tail or nose")
        ]
    if not attitudes:
        return [Fault("weighing.attitude", "needs the readings of at least one attitude")]
    return [
        Fault("weighing.reading", f"{name} is missing at {attitude.name}; every support must stand on a scale")
        for attitude in attitudes
        for name in supports
        if name not in attitude.readings
    ]


def _lifted(supports: Mapping[str, Support], attitude: Attitude) -> list[Fault]:
    """Return a fault for each support that pulls: the centre of gravity lies outside the wheels."""
    return [
        Fault(
            "weighing.reading",
            f'{name} at {attitude.name} must be above 0 after tare, got "{_both(reading.net_kg)}": '
            "the centre of gravity would lie outside the wheels; check the reading and its tare",
        )
        for name, reading in attitude.readings.items()
        if name in supports and reading.net_kg <= 0.0
    ]


def _both(mass_kg: float) -> str:
    """Return a mass in words for a shop of either system."""
    return fixed_in_both("mass_kg", mass_kg, 1)


def _disagreeing(attitudes: Sequence[Attitude], residuals: Sequence[tuple[float, float]]) -> list[Fault]:
    """Return a fault for the attitude whose moment agrees least with the others, where that is no chance."""
    ratios = [abs(left_m) / error_m if error_m > 0.0 else 0.0 for left_m, error_m in residuals]
    worst = ratios.index(max(ratios))
    if ratios[worst] <= LIMIT:
        return []
    left, error = (
        f"{fixed('cg_error_m', abs(m), 'si', 1)} ({fixed('cg_error_m', abs(m), 'us')})" for m in residuals[worst]
    )
    what = (
        f"{attitudes[worst].name} does not agree with the other attitudes: its resultant lies {left} from the adjusted "
        f"one, with a standard error of {error}; check its pitch, and stations and waterlines of the supports"
    )
    return [Fault("weighing.attitude", what)]


def _unbalanced(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> list[Fault]:
    first, faults = attitudes[0], []
    for other in attitudes[1:]:
        allowed_kg = LIMIT * hypot(other.net_error_kg, first.net_error_kg)
        if abs(other.net_kg - first.net_kg) > allowed_kg:
            what = (
                f"the readings do not balance: {other.name} adds up to {_both(other.net_kg)}, {first.name} to "
                f"{_both(first.net_kg)}; they may differ by {_both(allowed_kg)}, three standard errors; "
                f"{_likely(supports, (first, other), allowed_kg)}check tares and what was aboard"
            )
            faults.append(Fault("weighing.reading", what))
    return faults


def _likely(supports: Mapping[str, Support], pair: tuple[Attitude, Attitude], allowed_kg: float) -> str:
    """Return which single slips would explain it, and leave the airplane where it stood across, or nothing."""
    found = [
        f"{_both(slip.mass_kg)} under {slip.support} at {slip.attitude} ({slip.how})"
        for slip in slips(*pair, allowed_kg)
        if abreast(supports, pair, slip)
    ]
    return f"they would with {' or '.join(found[:MOST_SLIPS])}; else " if found else ""
