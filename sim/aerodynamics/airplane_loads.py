"""Air loads of a whole airplane: linear, with what the slipstream adds, and past the stall where it has strips."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.aerodynamics.forces import air_loads
from sim.aerodynamics.slipstream import Drive, slipstream_loads, wash
from sim.aerodynamics.strips import sized
from sim.aerodynamics.strips_loads import strip_loads

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.forces import AirLoads, Derivatives
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.slipstream import Slipstream
    from sim.aerodynamics.strips import Strips
    from sim.numerics.number import MathFunctions, Number


def airplane_loads(
    polar: Polar,
    derivatives: Derivatives,
    slipstream: Slipstream,
    strips: Strips | None,
    *,
    functions: MathFunctions = math,
) -> Callable[[Number, Number, Number, tuple[Number, Number]], AirLoads]:
    """Return the function ((u, v, w, p, q, r), density, controls, (thrust, torque of the propeller)) -> `AirLoads`.

    Parameters
    ----------
    polar, derivatives : Polar, Derivatives
        Of the linear model.
    slipstream : Slipstream
        What lies in it.
    strips : Strips or None
        Past the stall, scaled to the CLmax of `polar`; without them lift is bounded by CLmax, and nothing else stalls.
    functions : module
        Source of `sqrt` and `atan`.
    """
    air = air_loads(polar, derivatives, functions, bounded=strips is None)
    swept = slipstream_loads(slipstream, functions)
    behind = wash(slipstream, functions)
    past_stall = None
    if strips is not None:
        past_stall = strip_loads(sized(strips, polar.lift_max), functions)

    def loads(motion: Number, density: Number, controls: Number, drive: tuple[Number, Number]) -> AirLoads:
        thrust, torque = drive
        a = air(motion, density, controls)
        b = swept(motion, density, controls, Drive(thrust, torque, a.lift_per_speed))
        whole = a._replace(
            x=a.x + b.x, y=a.y + b.y, z=a.z + b.z, roll=a.roll + b.roll, pitch=a.pitch + b.pitch, yaw=a.yaw + b.yaw
        )
        if past_stall is None:
            return whole
        return past_stall(motion, controls, whole, behind(motion, density, thrust, torque))

    return loads
