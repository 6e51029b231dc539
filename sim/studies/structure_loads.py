"""Loads of a load case on the planes of a wing: the lattice's lift, ailerons deflected, drag, weight and inertia."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING, Final

from sim.aerodynamics.airframe_flow import airframe_flow
from sim.aerodynamics.lattice_airplane import aileron_cover
from sim.aerodynamics.lattice_motion import AILERON, W
from sim.aerodynamics.span_loads import balanced
from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3
from sim.structures.wing_air_loads import PlaneCondition, PlaneLift, plane_strips
from sim.units.convert import degrees

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.span_loads import SurfaceSpan
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.model.structure import WingStructure
    from sim.structures.spar_loads import SparPlaces, StripLoads
    from sim.structures.wing_cases import WingCase

    Numbers = NDArray[np.float64]
    Strips = dict[str, tuple[StripLoads, SparPlaces]]

AILERON_MOMENT: Final = -0.01
"""Change of the moment coefficient of a section for a degree of aileron down (14 CFR 23.349(b), from memory)."""


@dataclass(frozen=True, slots=True, eq=False)
class CaseLoads:
    """The loads of a load case.

    Attributes
    ----------
    case : WingCase
        The condition.
    alpha_rad, wing_lift_n, tail_lift_n : float
        Angle of attack, and lift of planes and tailplane. [rad, N, N]
    strips : dict
        Loads of the planes at limit load, and where their spars lie.
    """

    case: WingCase
    alpha_rad: float
    wing_lift_n: float
    tail_lift_n: float
    strips: Strips


def case_loads(
    model: Model, built: WingStructure, flying: FlyingAirplane, case: WingCase, *, kg_per_m2: float
) -> CaseLoads:
    """Return the loads of a load case.

    Parameters
    ----------
    model : Model
        Its airframe.
    built : WingStructure
        Where the spars lie.
    flying : FlyingAirplane
        With one powerplant.
    case : WingCase
        The condition.
    kg_per_m2 : float
        Mass of the planes over their area. [kg/m²]

    Notes
    -----
    Ailerons are as in the first moment after they are thrown over: the airplane does not roll yet, its inertia in roll
    bears what they lift, that of the planes on the planes. Rolling steadily the wing's damping would bear it instead.
    Lift due to an aileron bears at the quarter chord, with the moment about it that the rule gives.
    """
    airframe, polar = model.airframe, flying.airplane.polar
    spans = airframe_flow(airframe, polar.lift_zero).spans
    pressure_pa = 0.5 * SEA_LEVEL_KG_M3 * case.speed_m_s**2
    lift_n = case.load_factor * flying.airplane.body.mass_kg * GRAVITY_M_S2
    pitch = {name: flying.derivatives[name].value for name in ("pitch_0", "pitch_alpha", "pitch_elevator")}
    motion = balanced(spans, lift_m2=lift_n / pressure_pa, **pitch)
    aileron_rad = case.aileron_share * flying.travel.aileron_rad
    motion[AILERON] = aileron_rad
    coefficient = lift_n / pressure_pa / polar.area_m2
    condition = PlaneCondition(
        pressure_pa=pressure_pa,
        alpha_rad=float(motion[W]),
        induced_over_lift=coefficient / (pi * polar.span_efficiency * polar.aspect_ratio),
        plane_drag=built.plane_drag,
        kg_per_m2=kg_per_m2,
        wing_cg=built.wing_cg,
        inertia_factor=case.inertia_factor,
        left_share=case.left_share,
        right_share=case.right_share,
        roll_rad_s2=pressure_pa * _aileron_roll_m3(spans, aileron_rad) / flying.airplane.body.inertia_roll_kg_m2,
    )
    strips = {}
    for number, (plane, span) in enumerate(zip(airframe.wing.planes, spans[:-1], strict=True)):
        turn_rad = aileron_rad if number < airframe.aileron_planes else 0.0
        lift = PlaneLift(
            span.spanwise_m,
            span.width_m,
            pressure_pa * (span.lift_m @ motion),
            AILERON_MOMENT * degrees(turn_rad) * _cover(airframe, span, 0.5 * plane.span_m),
        )
        strips[plane.name] = (plane_strips(plane, lift, condition), built.places[plane.name])
    wing_n = pressure_pa * sum(span.lift_m2(motion) for span in spans[:-1])
    return CaseLoads(case, float(motion[W]), wing_n, lift_n - wing_n, strips)


def _cover(airframe: Airframe, span: SurfaceSpan, half_m: float) -> Numbers:
    """Return the share of each strip that an aileron covers, positive on the right."""
    left, right = ((span.spanwise_m + side * 0.5 * span.width_m) / half_m for side in (-1.0, 1.0))
    return aileron_cover(airframe, left, right)


def _aileron_roll_m3(spans: tuple[SurfaceSpan, ...], aileron_rad: float) -> float:
    """Return the rolling moment of ailerons over dynamic pressure, right wing down positive [m³]."""
    return -aileron_rad * sum(float((one.width_m * one.spanwise_m) @ one.lift_m[:, AILERON]) for one in spans)
