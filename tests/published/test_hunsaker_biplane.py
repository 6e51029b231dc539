"""J. C. Hunsaker, Dynamical Stability of Aeroplanes, 1916, and E. B. Wilson, NACA Report 1, 1915: a tractor biplane.

Mark M R: derivatives of a model in the wind tunnel (damping from its oscillation) and roots are both from memory, and
the roots follow from the derivatives to every digit: neither can be far wrong. That says nothing of area and chord,
which the lift slope and the damping are referred to, nor of the tail: rows marked M alone, not counted in the summary.
Hunsaker's memoir stands in Miscellaneous Collections 62, no. 5 (the type is a Curtiss JN-2, 115.5 ft/s).
"""

from pathlib import Path

import numpy as np
import pytest

SCENARIO = Path(__file__).with_name("hunsaker_biplane.toml")
XU, XW, ZU, ZW, MW, MQ, KB2, SPEED = -0.128, 0.162, -0.557, -3.95, -1.74, -150.0, 34.0, 115.5
"""For a unit of mass; feet, seconds; nose up positive."""
QUARTIC = {"cubed": "8.49", "squared": "24.5", "first power": "3.385", "constant": ".917"}
ROOTS = {"short period": ("-4.18", "2.43"), "phugoid": ("-.0654", ".187")}


@pytest.mark.parametrize("term", QUARTIC)
def test_the_printed_derivatives_make_the_printed_quartic(term, printed):
    """Two memories that agree: this checks the source, not the program."""
    matrix = [[XU, XW, 0.0, -32.17], [ZU, ZW, SPEED, 0.0], [0.0, MW / KB2, MQ / KB2, 0.0], [0.0, 0.0, 1.0, 0.0]]
    ours = np.poly(np.array(matrix))[1 + list(QUARTIC).index(term)]
    printed(ours, QUARTIC[term], row=f"quartic of the printed derivatives, {term}")


@pytest.fixture(scope="module")
def modes():
    import sim

    return {mode.name: mode for mode in sim.modes(SCENARIO, category="A").flights[0].modes}


@pytest.mark.parametrize("name", ROOTS)
def test_roots(modes, name, printed):
    real, imag = ROOTS[name]
    near = 0.03 if name == "phugoid" else 0.002
    how = {"share": near, "why": "the printed Xw is beyond any drag polar; lateral derivatives estimated"}
    printed(modes[name].real_per_s, real, "1/s", row=f"{name}: real part", **how)
    printed(modes[name].imag_rad_s, imag, "rad/s", row=f"{name}: imaginary part", **how)


@pytest.mark.parametrize(("name", "value"), [("lift_alpha", "4.12"), ("pitch_q", "-11.2")])
def test_estimates(estimated, name, value, printed):
    """Without a propeller: that of the scenario turns so fast that it is no fin."""
    ours, band = estimated(SCENARIO, 1.0, "given_thrust")[name]
    far = {"within": 6.0, "why": "farther off than three standard deviations: tail and arm are guesses"}
    far = far if name == "pitch_q" else {}
    printed(ours, value, row=f"Hunsaker's biplane: {name}", band=band, kind=name, mark="M", **far)
