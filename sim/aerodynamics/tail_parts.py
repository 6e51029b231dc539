"""What tailplane and fin alone give of the derivatives: the slipstream changes these, and not the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from sim.aerodynamics.airframe_flow import airframe_flow
from sim.aerodynamics.derivatives import coefficients, pitch_by_tail_setting, sidewash
from sim.aerodynamics.lattice_airplane import FIN, TAIL
from sim.aerodynamics.lattice_motion import ELEVATOR, PITCH, RUDDER, YAW, P, Q, R, V, W

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar


class TailParts(NamedTuple):
    """What the tailplane gives of pitching moment, and the fin of yawing moment, per radian as the derivatives.

    `pitch_setting` is by the tailplane's own setting and `pitch_stream` by the wing's downwash, both without incidence.
    """

    pitch_alpha: float
    pitch_q: float
    pitch_elevator: float
    pitch_stream: float
    pitch_setting: float
    yaw_beta: float
    yaw_p: float
    yaw_r: float
    yaw_rudder: float

    def of_given(self, estimated: Mapping[str, Derivative], given: Mapping[str, float]) -> TailParts:
        """Return the parts where derivatives are given: what they differ from the estimate, by the size of its parts.

        Parameters
        ----------
        estimated : Mapping of str to Derivative
            From `sim.aerodynamics.derivatives.estimate`, with the same arguments.
        given : Mapping of str to float
            Power off, by name.
        """
        changed = {}
        for name, part in self._asdict().items():
            if name in given:
                whole = estimated[name].value
                size = abs(part) + abs(whole - part)
                changed[name] = part + (given[name] - whole) * abs(part) / size if size else part
        return self._replace(**changed)


def tail_parts(airframe: Airframe, polar: Polar, *, lift: float, cg_aft_m: float = 0.0) -> TailParts:
    """Return the parts of tailplane and fin in the estimate with the same arguments, without slipstream."""
    at = coefficients(airframe_flow(airframe, polar.lift_zero), polar, lift=lift, cg_aft_m=cg_aft_m)
    pitch, yaw = at.value[TAIL, PITCH], at.value[FIN, YAW]
    setting = pitch_by_tail_setting(airframe, at) * airframe.tailplane.incidence_rad
    return TailParts(
        pitch_alpha=float(pitch[W]),
        pitch_q=float(pitch[Q]),
        pitch_elevator=float(pitch[ELEVATOR]),
        pitch_stream=float(at.pitch_0[TAIL]) - setting,
        pitch_setting=setting,
        yaw_beta=float(yaw[V]) * sidewash(airframe, polar),
        yaw_p=float(yaw[P]),
        yaw_r=float(yaw[R]),
        yaw_rudder=float(yaw[RUDDER]),
    )
