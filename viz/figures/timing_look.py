"""Colours and words of every timing picture: those of the viewer, told apart in grey by hatch and edge."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.convert import degrees, ms, per_s, rpm
from viz.stage.palette import ROLES
from viz.words.reader import worded

if TYPE_CHECKING:
    import numpy as np
    from matplotlib.patches import Patch
    from matplotlib.projections.polar import PolarAxes
    from numpy.typing import NDArray

    from sim.synchronizer.leak import Leak

    Floats = NDArray[np.float64]


WINDOW, BLADE = "#007294", "#96342c"
"""Blue where a round may pass, as in the viewer, and the red-brown of a blade: as dark as white paper asks for."""
STRIKE = "#{:02x}{:02x}{:02x}".format(*ROLES["strike"][0])
TURN_DEG = 360.0
ABOVE = 1.01
"""Speed from which a lead is drawn, over that at which a leak lets nothing trip."""
SENSES = {
    "clockwise": "turns clockwise, seen from the cockpit",
    "anticlockwise": "turns anticlockwise, seen from the cockpit",
    "": "is drawn clockwise, its sense not being given",
}
LIGHT = 0.55
"""Opacity of the window where its rounds pass, a lead after their release."""
HELD, INK = "#e4e4e4", "#202020"
BLOCKED: dict[str, Any] = {"facecolor": "#ecd6d3", "edgecolor": BLADE, "hatch": "////", "linewidth": 0.8}
"""An arc in which a blade stands in the line of fire."""
STRUCK: dict[str, Any] = {"facecolor": STRIKE, "edgecolor": INK, "hatch": "xxx", "linewidth": 0.8}
"""Rounds that meet a blade."""


def patch(label: str, **look: Any) -> Patch:  # noqa: ANN401
    """Return the patch of a legend."""
    from matplotlib.patches import Patch

    return Patch(label=label, **look)


def turn(panel: PolarAxes, rotation: str) -> None:
    """Let the angles of a clock face grow in the sense in which the propeller turns, seen from the cockpit."""
    panel.set_theta_zero_location("N")
    panel.set_theta_direction(1 if rotation == "anticlockwise" else -1)


def turns(rotation: str) -> str:
    """Return the sense in which a propeller turns, in words that stand behind its name."""
    return worded(SENSES[rotation])


def rotation_arrow(panel: PolarAxes, radius: float, from_rad: float, to_rad: float) -> None:
    """Draw an arc with a head, in the sense in which the propeller turns."""
    steps = [from_rad + (to_rad - from_rad) * step / 24 for step in range(25)]
    panel.plot(steps, [radius] * len(steps), color=INK, linewidth=1.6, clip_on=False)
    arrow_head(panel, (steps[-2], radius), (to_rad + 0.02, radius))


def arrow_head(panel: PolarAxes, before: tuple[float, float], tip: tuple[float, float]) -> None:
    """Draw the head of an arrow that comes from a place to its tip, both as angle and radius."""
    look = {"arrowstyle": "-|>", "color": INK, "linewidth": 1.2, "mutation_scale": 9.0, "shrinkA": 0.0, "shrinkB": 0.0}
    panel.annotate("", xy=tip, xytext=before, arrowprops=look, annotation_clip=False)


def lead_deg(speeds_rpm: Floats, angle_deg: float, time_ms: float, leak: Leak) -> Floats:
    """Return how far the propeller turns in a delay that is an angle [°], a time [ms] and a leak, at speeds in rpm [°].

    The speeds are above that at which the leak lets nothing trip.
    """
    return angle_deg + time_ms * _turn_deg(speeds_rpm) + degrees(leak.extra_rad(speeds_rpm / rpm(1.0)))


def trips_from_rpm(leak: Leak) -> float:
    """Return the least speed from which a lead is drawn: a little above that at which nothing trips."""
    return ABOVE * rpm(leak.leak_speed_rad_s)


def lead_off_deg(speeds_rpm: Floats, angle_deg: float, time_ms: float) -> Floats:
    """Return by how much that turn deviates, where angle and time deviate independently [°]."""
    import numpy as np

    return np.hypot(angle_deg, time_ms * _turn_deg(speeds_rpm))


def _turn_deg(speeds_rpm: Floats) -> Floats:
    """Return the turn of a propeller in a millisecond [°]."""
    return speeds_rpm * (TURN_DEG * per_s(1.0) / ms(1.0))
