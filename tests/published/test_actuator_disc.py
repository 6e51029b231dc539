"""The actuator disc of momentum theory: limits that no propeller passes.

Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XV, in closed form. Mark: E. A propeller of very many
blades without drag and with uniform inflow is compared: it keeps the loss by the swirl of its slipstream, and a little
at the tip.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_geometry import Blade
from sim.propulsion.blade_section import BladeSection

NO_DRAG = BladeSection(drag_min=0.0, drag_rise=0.0)
WHY = "swirl, and the tip of a hundred blades"


def disc_like(helix):
    stations = np.linspace(0.02, 1.0, 80)
    return Blade(100, stations, np.full(80, 0.002), np.arctan(helix / stations) + NO_DRAG.zero_lift_rad)


@pytest.mark.parametrize(("loading", "ideal"), [(0.1, "0.943"), (0.5, "0.7975")])
def test_ideal_efficiency(loading, ideal, printed):
    """At T/(ρV²D²): CT = loading J², so the advance ratio with that loading is looked for."""

    def found(ratio):
        return blade_loads(disc_like(0.11), np.array([ratio]), section=NO_DRAG)

    ratio = brentq(lambda ratio: float(found(ratio).ct[0]) - loading * ratio**2, 0.02, 0.34)
    loads = found(ratio)
    printed(
        float(ratio * loads.ct[0] / loads.cp[0]),
        ideal,
        row=f"efficiency at T/ρV²D² = {loading:g}",
        share=0.025,
        why=WHY,
    )
    assert float(ratio * loads.ct[0] / loads.cp[0]) < 2.0 / (1.0 + math.sqrt(1.0 + 8.0 * loading / math.pi))


def test_static_thrust_of_80_hp(printed):
    """80 hp into a disc of 8.5 ft at 0.002377 slug/ft³: T = (2 ρ A P²)^(1/3)."""
    loads = blade_loads(disc_like(0.07), np.zeros(1), section=NO_DRAG)
    ct, cp = float(loads.ct[0]), float(loads.cp[0])
    turns = (80.0 * 550.0 / (cp * 0.002377 * 8.5**5)) ** (1.0 / 3.0)
    printed(ct * 0.002377 * turns**2 * 8.5**4, "805", "lb", row="static thrust", share=0.025, why=WHY)
