"""Derivatives about another centre of gravity."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.derivative import values

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.forces import Derivatives
    from sim.aerodynamics.polar import Polar


def about_moved_cg(derivatives: Derivatives, polar: Polar, aft_m: float) -> Derivatives:
    """Return the derivatives about a centre of gravity that was moved along the x axis.

    Parameters
    ----------
    derivatives : Derivatives
        About the present centre of gravity.
    polar : Polar
        The lift at no angle of attack, and the dimensions that the derivatives are referred to.
    aft_m : float
        Displacement of the centre of gravity, aft positive. [m]

    Notes
    -----
    With ξ = aft/c and η = aft/b. The forces act where they did, so Cm grows by ξ CL and Cn by η CY. A pitch rate about
    the new point moves the old one: its angle of attack is less by 2 ξ q c/2V, and its sideslip more by 2 η r b/2V.
    Exact to first order in the angles but for two parts: normal force is taken as lift, which leaves CD beside CLα out,
    1 to 3 % of the change of Cmα in cruise; and lift stands square to the flow at the new point, not at the old one.
    Moving by as much the other way gives the old derivatives again.

    `sim.aerodynamics.derivatives.estimate` with all arms changed by ``aft_m`` gives the same CLα, CLδ, Cmα and Cmδ. It
    differs in the rates, for which it counts the tail alone (here all that lifts), and in Cm0, where its tail carries a
    lift at no angle of attack that CL0 leaves out. Cmα̇ stays as it is, for CL has no part due to α̇; the estimate's
    changes by twice ``aft_m`` over the tail's arm. For 8 cm each of these differences is under half of its band.
    """
    d, pitch, yaw = derivatives, aft_m / polar.chord_m, aft_m / polar.span_m
    return replace(
        d,
        lift_q=d.lift_q - 2.0 * pitch * d.lift_alpha,
        pitch_0=d.pitch_0 + pitch * polar.lift_zero,
        pitch_alpha=d.pitch_alpha + pitch * d.lift_alpha,
        pitch_q=d.pitch_q + pitch * (d.lift_q - 2.0 * d.pitch_alpha) - 2.0 * pitch**2 * d.lift_alpha,
        pitch_elevator=d.pitch_elevator + pitch * d.lift_elevator,
        side_r=d.side_r + 2.0 * yaw * d.side_beta,
        roll_r=d.roll_r + 2.0 * yaw * d.roll_beta,
        yaw_beta=d.yaw_beta + yaw * d.side_beta,
        yaw_p=d.yaw_p + yaw * d.side_p,
        yaw_r=d.yaw_r + yaw * (d.side_r + 2.0 * d.yaw_beta) + 2.0 * yaw**2 * d.side_beta,
        yaw_rudder=d.yaw_rudder + yaw * d.side_rudder,
        roll_r_per_lift=d.roll_r_per_lift + 2.0 * yaw * d.roll_beta_per_lift,
        yaw_p_per_lift=d.yaw_p_per_lift + yaw * d.side_p_per_lift,
        yaw_r_per_lift=d.yaw_r_per_lift + yaw * (d.side_r_per_lift + 2.0 * d.yaw_beta_per_lift),
    )


def given_about_moved_cg(
    given: Mapping[str, float], estimated: Mapping[str, Derivative], polar: Polar, aft_m: float
) -> Mapping[str, float]:
    """Return given derivatives about a centre of gravity that was moved from the one that they were measured for.

    Parameters
    ----------
    given : Mapping of str to float
        About the centre of gravity that they were measured for, per radian.
    estimated : Mapping of str to Derivative
        Of `sim.aerodynamics.derivatives.estimate`, about the moved one; they serve in the place of those not given.
    polar : Polar
        As in `about_moved_cg`.
    aft_m : float
        Displacement of the centre of gravity, aft positive. [m]
    """
    if not given or aft_m == 0.0:
        return given
    before = replace(about_moved_cg(values(estimated), polar, -aft_m), **given)
    moved = about_moved_cg(before, polar, aft_m)
    return {name: getattr(moved, name) for name in given}
