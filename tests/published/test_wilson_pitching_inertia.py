"""E. B. Wilson, NACA, about 1923, on Norton & Carroll, NACA TN 115: an S.E.5A with 15 % more inertia in pitch.

Mark P: the abstract was read; its number was not seen. In flight no difference of stability was noticed. A model whose
phugoid or static margin moves with the inertia is wrong; the short period may, by about half as much. Asked of the
frozen biplane with its fixed engine.
"""

import math

import pytest
from airplanes import BIPLANE

NONE = {"within": 1.0, "why": "no noticeable difference"}


@pytest.fixture(scope="module")
def both():
    """Frequency of each mode and static margin, with the inertia as it is and with 15 % more."""
    import sim

    inertia = sim.load(BIPLANE).airplane.inertia_pitch_kg_m2
    found = []
    for factor in (1.0, 1.15):
        scenario = sim.load(BIPLANE, set=[f"airplane.inertia_pitch={factor * inertia} kg m^2"])
        flight = next(one for one in sim.modes(scenario).flights if one.powerplant == "flat_four")
        slopes = sim.derivatives(scenario, powerplant="flat_four").derivatives
        margin = -slopes["pitch_alpha"].value / slopes["lift_alpha"].value
        found.append({"margin": margin, **{name: size(flight.modes, name) for name in ("phugoid", "short period")}})
    return found


def size(modes, name):
    """Return the geometric mean of the two roots of a mode, a pair or both real: its frequency. [1/s]."""
    roots = [math.hypot(mode.real_per_s, mode.imag_rad_s) for mode in modes if mode.name == name]
    return math.sqrt(roots[0] * roots[-1])


def change(both, key):
    return 100.0 * (both[1][key] / both[0][key] - 1.0)


def test_phugoid(both, printed):
    printed(change(both, "phugoid"), "0", "%", row="change of the frequency of the phugoid", **NONE)


def test_static_margin(both, printed):
    printed(change(both, "margin"), "0", "%", row="change of the static margin", exact=True)


def test_short_period(both, printed):
    """It falls with the root of the inertia."""
    how = {"within": 1.0, "why": "about half of 15 %", "mark": "X"}
    printed(change(both, "short period"), "-7", "%", row="change of the frequency of the short period", **how)
