"""Mass, centre of gravity and inertia of a list of items.

Stations are measured aft of the datum, waterlines up, buttlines to the right, as in the shop. `body_offset` is the
one place where they are converted to body axes.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import inf, sqrt
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, did_you_mean
from sim.numerics.student import student_95
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Offset = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Item:
    """One item with mass.

    Attributes
    ----------
    name, group : str
        Its name, and the group that it belongs to: ``wings``, ``engine``, ``pilot``, ``fuel``.
    mass_kg, mass_error_kg : float
        Mass, at least 0, and its standard error. [kg]
    station_m, waterline_m, buttline_m : float
        Centre of gravity: aft of the datum, up, right. [m]
    station_error_m, waterline_error_m : float
        Standard errors of station and waterline. [m]
    length_m, width_m, height_m : float
        Size of a box that represents it, for its inertia about its own centre; 0 for a point. [m]
    moves_with_engine : bool
        Whether it moves fore and aft with the engine.
    move_m : float
        Still to be moved aft of that station: since the airplane was weighed. [m]
    added : bool
        Whether it joined the airplane after the weighing.
    """

    name: str
    group: str
    mass_kg: float
    station_m: float
    waterline_m: float = 0.0
    buttline_m: float = 0.0
    mass_error_kg: float = 0.0
    station_error_m: float = 0.0
    length_m: float = 0.0
    width_m: float = 0.0
    height_m: float = 0.0
    moves_with_engine: bool = False
    waterline_error_m: float = 0.0
    move_m: float = 0.0
    added: bool = False


@dataclass(frozen=True, slots=True)
class Inertia:
    """Inertia tensor about the centre of gravity, body axes [kg m²].

    Attributes
    ----------
    xx, yy, zz : float
        About the roll, pitch and yaw axis.
    xz, xy, yz : float
        Products, Σ m x z and so on: xz is positive when the tail is high and the nose low.
    """

    xx: float
    yy: float
    zz: float
    xz: float
    xy: float
    yz: float


@dataclass(frozen=True, slots=True)
class Total:
    """Items taken together.

    Attributes
    ----------
    mass_kg, mass_error_kg : float
        [kg]
    cg_station_m, cg_waterline_m, cg_buttline_m : float
        Centre of gravity: aft of the datum, up, right. [m]
    cg_error_m, cg_waterline_error_m : float
        Standard errors of its station and its waterline. [m]
    inertia_kg_m2 : Inertia
        About it. [kg m²]
    """

    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_waterline_m: float
    cg_buttline_m: float
    cg_error_m: float
    cg_waterline_error_m: float
    inertia_kg_m2: Inertia


def body_offset(place: Offset, origin: Offset) -> Offset:
    """Return where a place lies from an origin in body axes (x forward, y right, z down) [m].

    Parameters
    ----------
    place, origin : tuple
        Station, waterline, buttline. [m]
    """
    return origin[0] - place[0], place[2] - origin[2], origin[1] - place[1]


def total(items: Iterable[Item]) -> Total:
    """Return mass, centre of gravity and inertia of items.

    Raises
    ------
    InputError
        When their total mass is not above 0, or a mass is below 0.

    Notes
    -----
    Errors of the items are taken as independent. A build-up from boxes is within 10 % of swung inertias (Kirschbaum,
    NACA, 1936, of whole airplanes).

    Examples
    --------
    >>> total([Item("a", "g", 3.0, 0.0), Item("b", "g", 1.0, 4.0)]).cg_station_m
    1.0
    """
    items = tuple(items)
    faults = [
        Fault(f"item.{i.name}.mass", f'must be at least {brief("mass_kg", 0.0)}, got "{brief("mass_kg", i.mass_kg)}"')
        for i in items
        if i.mass_kg < 0.0
    ]
    mass_kg = sum(item.mass_kg for item in items)
    if mass_kg <= 0.0 and not faults:
        faults = [Fault("item", "needs at least one item with a mass above 0")]
    if faults:
        raise InputError(faults)
    station_m, waterline_m, buttline_m = (
        sum(item.mass_kg * getattr(item, name) for item in items) / mass_kg
        for name in ("station_m", "waterline_m", "buttline_m")
    )
    cg = station_m, waterline_m, buttline_m
    along = sum(
        (item.mass_error_kg * (item.station_m - station_m)) ** 2 + (item.mass_kg * item.station_error_m) ** 2
        for item in items
    )
    up = sum(
        (item.mass_error_kg * (item.waterline_m - waterline_m)) ** 2 + (item.mass_kg * item.waterline_error_m) ** 2
        for item in items
    )
    return Total(
        mass_kg=mass_kg,
        mass_error_kg=sum(item.mass_error_kg**2 for item in items) ** 0.5,
        cg_station_m=station_m,
        cg_waterline_m=waterline_m,
        cg_buttline_m=buttline_m,
        cg_error_m=along**0.5 / mass_kg,
        cg_waterline_error_m=up**0.5 / mass_kg,
        inertia_kg_m2=_inertia(items, cg),
    )


def _inertia(items: Sequence[Item], cg: Offset) -> Inertia:
    """Return the tensor: each item's own box, carried to the common centre by the parallel-axis theorem."""
    xx = yy = zz = xz = xy = yz = 0.0
    for item in items:
        x, y, z = body_offset((item.station_m, item.waterline_m, item.buttline_m), cg)
        along, across, up = item.length_m**2 / 12.0, item.width_m**2 / 12.0, item.height_m**2 / 12.0
        xx += item.mass_kg * (y * y + z * z + across + up)
        yy += item.mass_kg * (x * x + z * z + along + up)
        zz += item.mass_kg * (x * x + y * y + along + across)
        xz, xy, yz = xz + item.mass_kg * x * z, xy + item.mass_kg * x * y, yz + item.mass_kg * y * z
    return Inertia(xx, yy, zz, xz, xy, yz)


@dataclass(frozen=True, slots=True)
class PastBuild:
    """Group masses of a finished airplane of the kind.

    Attributes
    ----------
    name : str
        Name of the airplane.
    empty_mass_kg : float
        Its empty mass. [kg]
    group_kg : dict
        Mass of some of its groups. [kg]
    """

    name: str
    empty_mass_kg: float
    group_kg: dict[str, float] = field(default_factory=dict)


def fill_missing(items: Sequence[Item], missing: Sequence[Item], past: Sequence[PastBuild]) -> tuple[Item, ...]:
    """Return the missing items with the mass that their group had, as a share of empty weight, in past builds.

    Parameters
    ----------
    items : sequence of Item
        Known items of the empty airplane.
    missing : sequence of Item
        Items of the empty airplane without a mass, at most one of a group; their own mass is not used.
    past : sequence of PastBuild
        At least two that give each missing group.

    Raises
    ------
    InputError
        When past builds do not give a group twice, or when their shares leave nothing for the known items.

    Notes
    -----
    With shares rᵢ of the empty mass and the known mass K, the empty mass is K / (1 − Σ rᵢ). The error of a share is
    that of predicting one more airplane from n: scatter √(1 + 1/n), times Student's t of n − 1 degrees of freedom over
    that of a normal distribution, so that 1.96 standard errors cover 95 in 100 however few the builds (two builds: 7.9
    times their scatter; three: 2.5; five: 1.6). A share acts on its mass through the empty mass as well; what other
    items do to the empty mass, and so to all shares together, is neglected. In 200,000 simulated airplanes with one to
    three such groups and 2, 3 and 5 builds the truth lies within 1.96 standard errors in 94.6 to 95.1 %.

    References
    ----------
    Prediction interval of a normal variable: Hahn and Meeker, Statistical Intervals, chapter 4 (from memory).

    Examples
    --------
    >>> past = [PastBuild("one", 100.0, {"tail": 9.0}), PastBuild("two", 200.0, {"tail": 22.0})]
    >>> fill_missing([Item("rest", "rest", 90.0, 1.0)], [Item("tail", "tail", 0.0, 5.0)], past)[0].mass_kg
    10.0
    """
    if not missing:
        return ()
    from statistics import mean

    shares = {item.name: _shares(item.group, past) for item in missing}
    known = sorted({group for build in past for group in build.group_kg})
    faults = [
        Fault(
            f"item.{item.name}.mass",
            f'is missing, and fewer than 2 past builds give the group "{item.group}"{did_you_mean(item.group, known)}',
        )
        for item in missing
        if len(shares[item.name]) < 2
    ]
    if faults:
        raise InputError(faults)
    average = {name: mean(values) for name, values in shares.items()}
    left = 1.0 - sum(average.values())
    if left <= 0.0:
        raise InputError([Fault("past", f"the shares of the missing items add up to {1.0 - left:.0%} of empty weight")])
    empty_kg = sum(item.mass_kg for item in items) / left
    return tuple(
        replace(
            item,
            mass_kg=average[item.name] * empty_kg,
            mass_error_kg=_prediction_error(shares[item.name]) * empty_kg * (1.0 + average[item.name] / left),
        )
        for item in missing
    )


def _prediction_error(shares: Sequence[float]) -> float:
    """Return the standard error of the share of one more airplane, so that 1.96 of it cover 95 in 100."""
    from statistics import stdev

    count = len(shares)
    return stdev(shares) * sqrt(1.0 + 1.0 / count) * student_95(count - 1) / student_95(inf)


def _shares(group: str, past: Sequence[PastBuild]) -> list[float]:
    return [build.group_kg[group] / build.empty_mass_kg for build in past if group in build.group_kg]
