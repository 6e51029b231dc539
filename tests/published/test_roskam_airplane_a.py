"""J. Roskam, Airplane Flight Dynamics and Automatic Flight Controls, part I, 1995, appendix B: airplane A, cruise.

Mark P: the derivatives, pp. 480-482, read in two public transcriptions (the type is a Cessna 182; drag, its slope and
the thrust derivative from memory). How the author came by them the transcriptions do not say. The roots were computed
from the same derivatives by a program of its own; the book's are from memory and agree. The scenario stands beside this
file: its dimensions are from memory, and three public sets of them contradict one another (tailplane 22 to 48 ft²).
"""

import math
from pathlib import Path

import pytest

from sim.atmosphere import air

SCENARIO = Path(__file__).with_name("roskam_airplane_a.toml")
CHORD = 4.9 / (174.0 / 36.0)
ROOTS = {
    "short period": ("-4.451", "2.825"),
    "phugoid": ("-0.0145", "0.1707"),
    "Dutch roll": ("-0.670", "3.175"),
    "roll": ("-13.01", ""),
    "spiral": ("-0.0179", ""),
}
BOOK = {"short period": ("5.27", "0.844"), "Dutch roll": ("3.245", "0.207")}
PRINTED = {
    "lift_alpha": "4.41",
    "lift_q": "3.9",
    "lift_elevator": "0.43",
    "pitch_alpha": "-0.613",
    "pitch_alpha_dot": "-7.27",
    "pitch_q": "-12.4",
    "pitch_elevator": "-1.122",
    "side_beta": "-0.393",
    "side_p": "-0.075",
    "side_r": "0.214",
    "side_rudder": "0.187",
    "roll_beta": "-0.0923",
    "roll_p": "-0.484",
    "roll_r": "0.0798",
    "roll_aileron": "-0.229",
    "yaw_beta": "0.0587",
    "yaw_p": "-0.0278",
    "yaw_r": "-0.0937",
    "yaw_aileron": "0.0216",
    "yaw_rudder": "-0.0645",
}


@pytest.fixture(scope="module")
def modes():
    import sim

    return {mode.name: mode for mode in sim.modes(SCENARIO, category="A").flights[0].modes}


def test_condition(printed):
    """The air of 5000 ft at 220.1 ft/s, and the lift that carries 2650 lb."""
    pressure = 0.5 * air(5000.0 * 0.3048).density_kg_m3 * (220.1 * 0.3048) ** 2 / 47.880259  # lbf/ft²
    printed(pressure, "49.61", "lb/ft²", row="dynamic pressure", within=0.02, why="density with four digits", mark="R")
    printed(2650.0 / (pressure * 174.0), "0.307", row="lift coefficient")


@pytest.mark.parametrize("name", ROOTS)
def test_roots(modes, name, printed):
    """The lift due to the rate of incidence, which the program does not know, is .9 % of the mass."""
    real, imag = ROOTS[name]
    how = {"share": 0.01, "why": "without lift due to the rate of incidence", "mark": "R"}
    printed(modes[name].real_per_s, real, "1/s", row=f"{name}: real part", **how)
    if imag:
        printed(modes[name].imag_rad_s, imag, "rad/s", row=f"{name}: imaginary part", **how)


@pytest.mark.parametrize("name", BOOK)
def test_frequencies_of_the_book(modes, name, printed):
    frequency, damping = BOOK[name]
    how = {"share": 0.01, "why": "without lift due to the rate of incidence", "mark": "M R"}
    printed(modes[name].natural_frequency_rad_s, frequency, "rad/s", row=f"{name}: natural frequency", **how)
    printed(modes[name].damping_ratio, damping, row=f"{name}: damping ratio", **how)


def test_period_of_the_phugoid(modes, printed):
    """Longer than Lanchester's 30.4 s at this speed."""
    ours = 2.0 * math.pi / modes["phugoid"].natural_frequency_rad_s
    printed(
        ours,
        "36.7",
        "s",
        row="period of the phugoid",
        within=0.1,
        why="the printed frequency has three digits",
        mark="R",
    )
    assert ours > 30.4


@pytest.mark.parametrize("name", PRINTED)
def test_estimates(estimated, name, printed):
    value, band = estimated(SCENARIO, CHORD, "flat_six")[name]
    printed(value, PRINTED[name], row=f"Airplane A: {name}", band=band, kind=name)
