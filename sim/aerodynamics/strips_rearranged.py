"""The strips of an airplane whose planes stand farther apart or farther ahead of one another, all else the same."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.airframe_flow import lift_at_zero, turned_flow
from sim.aerodynamics.strips_lattice import Curves, airplane_strips

if TYPE_CHECKING:
    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.slipstream import Slipstream
    from sim.aerodynamics.strips import Strips


def rearranged_strips(
    strips: Strips,
    airframe: Airframe,
    polar: Polar,
    slipstream: Slipstream,
    *,
    gap_m: float,
    stagger_m: float,
    cg_aft_m: float,
) -> Strips:
    """Return the strips of an airframe with another gap and stagger.

    Parameters
    ----------
    strips : Strips
        Of the airframe as it is, whose section curves serve.
    airframe, polar, slipstream : Airframe, Polar, Slipstream
        As for `sim.aerodynamics.strips_lattice.airplane_strips`.
    gap_m, stagger_m : float
        As for `sim.airframe.wing.Wing.rearranged`. [m]
    cg_aft_m : float
        How far the centre of gravity lies aft of that of `airframe`. [m]

    Notes
    -----
    Planes keep their sections and incidences, so that the greatest lift changes as the vortices of one turn the stream
    at the other. What one plane shields of the other past the stall is not computed.
    """
    moved = replace(airframe, wing=airframe.wing.rearranged(gap_m=gap_m, stagger_m=stagger_m))
    zero_rad = -turned_flow(airframe, polar.lift_zero).turn_rad
    curve = {strip.name: strip.curve for strip in (*strips.wing, *strips.tail)}
    planes = tuple(curve[plane.name] for plane in moved.wing.planes)
    return airplane_strips(
        moved,
        replace(polar, lift_zero=lift_at_zero(moved, zero_rad)),
        slipstream,
        Curves(planes, curve["tailplane"], curve["fin"]),
        cg_aft_m=cg_aft_m,
    )
