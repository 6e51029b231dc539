"""Where a cam that is cut once should open, so that it serves a range of propeller speeds best."""

from __future__ import annotations

from math import tau
from typing import TYPE_CHECKING

from sim.synchronizer.safe_range import CamWindow, best_opening

if TYPE_CHECKING:
    from sim.synchronizer.cam import Cam
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.link import DelayDeviation

SIGMAS = 3.0
"""Standard deviations of the delay, its stages independent, for which the best opening makes room."""


def best_phase(cam: Cam, line: GunLine, sd: DelayDeviation) -> tuple[float, float]:
    """Return the propeller angle at which the first window of a cam should open, and the clearance it leaves.

    Parameters
    ----------
    cam : Cam
        Its windows, wherever they stand.
    line : GunLine
        The gun line and the range of speeds that it must serve.
    sd : DelayDeviation
        Standard deviation of the delay.

    Returns
    -------
    tuple of float
        The angle, and the clearance left at both ends of the range; negative where not all of it can be served: the
        angle is then that of `sim.synchronizer.safe_range.best_opening`. [rad]

    Notes
    -----
    The one rule for a cam whose opening is not given: its rounds, SIGMAS standard deviations early at the lowest speed
    and as late at the highest, pass blade and margin at equal clearance. It rests on the whole range of the engine for
    which the cam is cut and on the scatter of its delay, not on the speed that a question is about. Where the windows
    meet the blades at several places, as many as possible of them are served so.
    """
    spacing_rad = tau / line.blades
    first_rad = cam.windows[0].opens_rad
    places = sorted({round((each.opens_rad - first_rad) % spacing_rad, 9) % spacing_rad for each in cam.windows})
    room_rad = max(line.clear_rad - cam.dwell_rad, 0.0)
    ahead = [*places, *(place + spacing_rad for place in places)]
    groups = ([place for place in ahead[start:] if place <= ahead[start] + room_rad] for start in range(len(places)))
    group = max(groups, key=lambda each: (len(each), each[0] - each[-1]))
    whole = CamWindow(line, cam.dwell_rad + group[-1] - group[0], SIGMAS * sd.time_s, SIGMAS * sd.turn_rad)
    opens_rad, spare_rad = best_opening(whole, min(line.spin_rad_s), max(line.spin_rad_s))
    return opens_rad - group[0], spare_rad
