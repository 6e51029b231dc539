"""What several planes lift together, and how they share it: slopes, induced drag, damping, downwash."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.aerodynamics.lattice_lift import PlaneLift
from sim.answer import Answer
from sim.studies.wings_planes import SECTION_SLOPE, asked
from sim.units.convert import degrees
from sim.units.parsing import read

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.aerodynamics.lattice_panels import LiftingPlane


@dataclass(frozen=True, slots=True)
class PlaneLoad(PlaneLift):
    """What one plane bears, its size, and where along its span.

    Attributes
    ----------
    span_m, chord_m : float or None
        Span, None in two dimensions, and mean chord. [m]
    spanwise_m : tuple of float
        Stations from the left tip to the right, right positive; none in two dimensions. [m]
    loading_per_rad : tuple of float
        Circulation there over largest span and speed, for a unit of angle of attack. [1/rad]
    """

    span_m: float | None
    chord_m: float
    spanwise_m: tuple[float, ...] = ()
    loading_per_rad: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class WingsAnswer(Answer):
    """The planes together; coefficients on the area of all planes and the largest span.

    Attributes
    ----------
    lift_slope_per_rad : float
        [1/rad]
    interference_factor : float
        Lift slope over that of the same planes far apart.
    zero_lift_deg : float
        Angle of attack of the datum without lift. [°]
    aerodynamic_centre_m : float
        Aft of the datum. [m]
    planes : tuple of PlaneLoad
        In the order given.
    span_factor : float or None
        Munk's k: span of the equivalent monoplane over the largest span. None in two dimensions, as what follows.
    induced_factor : float or None
        Induced drag over that of an elliptic load of the same lift on the largest span, 1/k².
    roll_damping_per_rad : float or None
        Rolling moment for a unit of p b/2V. [1/rad]
    dihedral_effect_per_rad2 : float or None
        Rolling moment for a unit of sideslip and a unit of dihedral of every plane. [1/rad²]
    downwash_slope : float or None
        Downwash at the point for a unit of angle of attack; None without a point.
    area_m2 : float or None
        Of all planes. [m²]
    panels : int
        Of the lattice.
    """

    lift_slope_per_rad: float
    interference_factor: float
    zero_lift_deg: float
    aerodynamic_centre_m: float
    planes: tuple[PlaneLoad, ...]
    span_factor: float | None
    induced_factor: float | None
    roll_damping_per_rad: float | None
    dihedral_effect_per_rad2: float | None
    downwash_slope: float | None
    area_m2: float | None
    panels: int
    main: ClassVar[str] = "planes"


def wings(
    planes: str | Sequence[str],
    *,
    at: str | None = None,
    section_slope: float | None = None,
    two_dimensional: bool = False,
) -> WingsAnswer:
    """Return what several planes lift together, by a vortex lattice.

    Parameters
    ----------
    planes : str or sequence of str
        Each as ``span 28 ft, chord 4 ft 6 in, taper 1, sweep 0 °, dihedral 0 °, incidence 0 °, height 0 ft,
        ahead 0 ft, section slope 6.283``; span and mean chord are needed. Sweep is of the quarter-chord line; height
        and ahead are of the root leading edge, from the datum.
    at : str or None
        Point of the downwash, ``x 12 ft, y 0 ft, z 1 ft``: aft of the datum, right of it, above it.
    section_slope : float or None
        Lift slope of the sections in plane flow, of planes that do not say their own, 2 to 8; None for 2π. [1/rad]
    two_dimensional : bool
        Whether the planes have infinite span: of a plane chord, incidence, height, ahead and section slope count.

    Raises
    ------
    InputError
        With every fault of the planes and the point.

    Notes
    -----
    Attached flow, small angles, straight wakes; no thickness, body, propeller or stall. Errors as in
    `sim.aerodynamics.lattice.circulation`.

    Examples
    --------
    >>> answer = wings(["span 6 m, chord 1 m", "span 6 m, chord 1 m, height 1 m"])
    >>> round(answer.lift_slope_per_rad, 2), round(answer.interference_factor, 3)
    (3.39, 0.805)
    """
    if section_slope is not None:
        read(section_slope, SECTION_SLOPE, key="section_slope")
    texts = (planes,) if isinstance(planes, str) else planes
    found, point_m = asked(texts, at, section_slope, two_dimensional=two_dimensional)
    return _plane_flow(found) if two_dimensional else _lattice(found, point_m)


def _plane_flow(planes: tuple[LiftingPlane, ...]) -> WingsAnswer:
    from sim.aerodynamics.lattice_plane_flow import ROWS, plane_flow

    found = plane_flow(planes)
    apart = sum(plane.section_slope * plane.chord_m for plane in planes) / sum(plane.chord_m for plane in planes)
    return WingsAnswer(
        lift_slope_per_rad=found.lift_slope_per_rad,
        interference_factor=found.lift_slope_per_rad / apart,
        zero_lift_deg=degrees(0.0 - found.lift_at_zero / found.lift_slope_per_rad),
        aerodynamic_centre_m=found.aerodynamic_centre_m,
        planes=tuple(
            PlaneLoad(**asdict(lift), span_m=None, chord_m=plane.chord_m)
            for plane, lift in zip(planes, found.planes, strict=True)
        ),
        span_factor=None,
        induced_factor=None,
        roll_damping_per_rad=None,
        dihedral_effect_per_rad2=None,
        downwash_slope=None,
        area_m2=None,
        panels=ROWS * len(planes),
    )


def _lattice(planes: tuple[LiftingPlane, ...], point_m: tuple[float, float, float] | None) -> WingsAnswer:
    from sim.aerodynamics.lattice import circulation, lattice
    from sim.aerodynamics.lattice_forces import downwash, forces, induced_drag, induced_factor, span_loading

    grid = lattice(planes)
    flow = circulation(grid)
    alpha, found = flow.alpha_m_rad, forces(grid, flow)
    induced = induced_factor(grid, alpha, induced_drag(grid, alpha))
    loads = zip(planes, found.planes, span_loading(grid, alpha), strict=True)
    return WingsAnswer(
        lift_slope_per_rad=found.lift_slope_per_rad,
        interference_factor=found.lift_slope_per_rad / _apart(planes),
        zero_lift_deg=degrees(0.0 - found.lift_at_zero / found.lift_slope_per_rad),
        aerodynamic_centre_m=found.aerodynamic_centre_m,
        planes=tuple(
            PlaneLoad(
                **asdict(lift),
                span_m=plane.span_m,
                chord_m=plane.chord_m,
                spanwise_m=tuple(stations.tolist()),
                loading_per_rad=tuple(loading.tolist()),
            )
            for plane, lift, (stations, loading) in loads
        ),
        span_factor=1.0 / math.sqrt(induced),
        induced_factor=induced,
        roll_damping_per_rad=found.roll_damping_per_rad,
        dihedral_effect_per_rad2=found.dihedral_effect_per_rad2,
        downwash_slope=downwash(grid, alpha, point_m) if point_m else None,
        area_m2=float(grid.area_m2.sum()),
        panels=len(grid.plane),
    )


def _apart(planes: tuple[LiftingPlane, ...]) -> float:
    """Return the lift slope of the planes far apart, on their whole area, with as many panels on each. [1/rad]."""
    from sim.aerodynamics.lattice import PANELS, circulation, lattice
    from sim.aerodynamics.lattice_forces import forces

    lifts = 0.0
    for plane in planes:
        grid = lattice([plane], count=PANELS // len(planes))
        lifts += forces(grid, circulation(grid)).lift_slope_per_rad * plane.area_m2
    return lifts / sum(plane.area_m2 for plane in planes)
