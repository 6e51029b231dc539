"""How planes and tailplane share the lift of straight flight, where along their spans, and the downwash at the tail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.aerodynamics.airframe_flow import airframe_flow
from sim.aerodynamics.lattice_motion import ELEVATOR, W
from sim.aerodynamics.span_loads import balanced
from sim.atmosphere import air
from sim.units.convert import degrees

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from sim.aerodynamics.span_loads import SurfaceSpan
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

    Numbers = NDArray[np.float64]

TAILPLANE = "tailplane"


@dataclass(frozen=True, slots=True)
class SurfaceLoad:
    """What a plane or the tailplane bears.

    Attributes
    ----------
    name : str
        ``upper``, ``middle`` or a number, ``lower``; ``tailplane``.
    span_m, area_m2 : float
        [m, m²]
    lift_n : float
        Up positive. [N]
    share : float
        Of the lift of the airplane; those of all surfaces make 1.
    lift_slope_per_rad : float
        For a unit of angle of attack of the airplane, on the surface's own area. [1/rad]
    spanwise_m : tuple of float
        Stations from the left tip to the right, right positive. [m]
    lift_n_per_m : tuple of float
        Lift over width there. [N/m]
    local_downwash_deg : tuple of float
        At the stations of the tailplane, by the wing; of planes none. [°]
    """

    name: str
    span_m: float
    area_m2: float
    lift_n: float
    share: float
    lift_slope_per_rad: float
    spanwise_m: tuple[float, ...]
    lift_n_per_m: tuple[float, ...]
    local_downwash_deg: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class SpanLoads:
    """Lift of every surface in straight flight, the elevator balancing, without thrust.

    Attributes
    ----------
    lift_coefficient : float
        Of the airplane, on the area of the wing.
    alpha_deg, elevator_deg : float
        Angle of attack, and elevator, stick forward positive. [°]
    downwash_deg : float
        Mean angle at the tailplane by which the wing turns the stream down. [°]
    downwash_slope : float
        Its change for a unit of angle of attack.
    surfaces : tuple of SurfaceLoad
        Planes of the wing from the top one down, then the tailplane.
    """

    lift_coefficient: float
    alpha_deg: float
    elevator_deg: float
    downwash_deg: float
    downwash_slope: float
    surfaces: tuple[SurfaceLoad, ...]


def span_loads(model: Model, flying: FlyingAirplane) -> SpanLoads:
    """Return the loads along the spans at the lift of an airplane in level flight.

    Parameters
    ----------
    model : Model
        The airplane.
    flying : FlyingAirplane
        With one of its powerplants, at its airspeed and altitude; its flow is not solved again.

    Notes
    -----
    Of the lattice that the derivatives come from: attached flow, free of the slipstream. Lift slope and lift at zero
    incidence are the lattice's also where the scenario gives others; pitching moments are those that are flown.
    """
    airframe, polar = model.airframe, flying.airplane.polar
    flow = airframe_flow(airframe, polar.lift_zero)
    pitch = {name: flying.derivatives[name].value for name in ("pitch_0", "pitch_alpha", "pitch_elevator")}
    motion = balanced(flow.spans, lift_m2=flying.lift * polar.area_m2, **pitch)
    pressure_pa = 0.5 * air(flying.altitude_m).density_kg_m3 * flying.speed_m_s**2
    tail = airframe.tailplane
    sizes = [(plane.name, plane.span_m, plane.area_m2) for plane in airframe.wing.planes]
    loads = [
        _load(span, motion, size, pressure_pa=pressure_pa, whole_m2=flying.lift * polar.area_m2)
        for span, size in zip(flow.spans, (*sizes, (TAILPLANE, tail.span_m, tail.area_m2)), strict=True)
    ]
    return SpanLoads(
        lift_coefficient=flying.lift,
        alpha_deg=float(degrees(motion[W])),
        elevator_deg=float(degrees(motion[ELEVATOR])),
        downwash_deg=degrees(flow.spans[-1].mean_downwash(motion)),
        downwash_slope=flow.downwash_slope,
        surfaces=tuple(loads),
    )


def _load(
    span: SurfaceSpan, motion: Numbers, size: tuple[str, float, float], *, pressure_pa: float, whole_m2: float
) -> SurfaceLoad:
    name, span_m, area_m2 = size
    lift_m2 = span.lift_m2(motion)
    downwash = degrees(span.downwash @ motion).tolist() if name == TAILPLANE else ()
    return SurfaceLoad(
        name=name,
        span_m=span_m,
        area_m2=area_m2,
        lift_n=pressure_pa * lift_m2,
        share=lift_m2 / whole_m2,
        lift_slope_per_rad=float(span.width_m @ span.lift_m[:, W]) / area_m2,
        spanwise_m=tuple(span.spanwise_m.tolist()),
        lift_n_per_m=tuple((pressure_pa * (span.lift_m @ motion)).tolist()),
        local_downwash_deg=tuple(downwash),
    )
