"""The actuator disc of momentum theory: limits that no propeller passes.

Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XV, in closed form. Mark: X. A propeller of very many
blades without drag and with uniform inflow is compared: it keeps the loss by the swirl of its slipstream, and a little
at the tip.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_geometry import Blade, pitched_blade
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


def through_the_disc(loads):
    """Return the mean velocity through the disc over n D."""
    weights = loads.radius_share * loads.width_share
    return float((loads.mass_flow[0] * weights).sum() / weights.sum())


def test_80_hp_at_rest(printed):
    """Into a disc of 8.5 ft at 0.002377 slug/ft³: T = (2 ρ A P²)^(1/3), and P/T through the disc."""
    loads = blade_loads(disc_like(0.07), np.zeros(1), section=NO_DRAG)
    ct, cp = float(loads.ct[0]), float(loads.cp[0])
    turns = (80.0 * 550.0 / (cp * 0.002377 * 8.5**5)) ** (1.0 / 3.0)
    thrust = ct * 0.002377 * turns**2 * 8.5**4
    printed(thrust, "805", "lb", row="static thrust of 80 hp, 8.5 ft", share=0.025, why=WHY)
    printed(through_the_disc(loads) * turns * 8.5, "54.6", "ft/s", row="speed through the disc", share=0.025, why=WHY)
    assert thrust < 805.0


def test_a_real_propeller_at_rest(printed):
    """Two wooden blades of 8 ft pitch, 80 hp at about 1150 rpm with 8.5 ft, get 55 to 70 % of the ideal thrust."""
    loads = blade_loads(pitched_blade(2, 0.94, 0.075), np.zeros(1))
    ct, cp = float(loads.ct[0]), float(loads.cp[0])
    turns = (80.0 * 550.0 / (cp * 0.002377 * 8.5**5)) ** (1.0 / 3.0)
    assert 60.0 * turns == pytest.approx(1150.0, rel=0.05)
    ours, how = ct * 0.002377 * turns**2 * 8.5**4 / 805.0, {"within": 0.075, "why": "from .55 to .70"}
    printed(ours, "0.625", row="thrust at rest of two blades, pitch .94 diameter, over the ideal", mark="M", **how)


def test_slipstream(printed):
    """400 lb at 100 ft/s with 9 ft: dynamic pressure 1 + T/qA, its root, and half of what the stream gains."""
    helix, density = 0.05, 0.002377

    def at(turns):
        return blade_loads(disc_like(helix), np.array([100.0 / (turns * 9.0)]), section=NO_DRAG)

    least = 100.0 / (9.0 * math.pi * helix)
    turns = brentq(lambda n: float(at(n).ct[0]) * density * n * n * 9.0**4 - 400.0, least, 3.0 * least)
    inflow = through_the_disc(at(turns)) * turns * 9.0 - 100.0
    ratio, how = 1.0 + 2.0 * inflow / 100.0, {"share": 0.005, "why": WHY}
    printed(inflow, "11.83", "ft/s", row="inflow, 400 lb at 100 ft/s, 9 ft", **how)
    printed(ratio, "1.2365", row="speed of the slipstream over airspeed", **how)
    printed(ratio**2, "1.529", row="dynamic pressure of the slipstream over that of flight", **how)
