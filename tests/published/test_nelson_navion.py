"""R. C. Nelson, Flight Stability and Automatic Control, 2nd ed. 1998, Examples 2.2, 4.3, 5.1 and 5.3: the Navion.

Mark P; the control powers and the dimensions behind the estimates M. Data also NASA CR-96008 (Teper, 1969). The
scenario stands beside this file. Roots are recomputed from the printed derivatives and agree within 1 %, the spiral
within 10 %: it is the small difference of large products, and the book's rounded matrix does not give its own roots.
Seckel & Morris, after flight tests of the same airplane, have derivatives that differ from these by up to half.
"""

import json
import tomllib
from pathlib import Path

import pytest
from strip_formulas import downwash_slope, lift_slope, roll_damping, tail_volume

SCENARIO = Path(__file__).with_name("nelson_navion.toml")
ROOTS = {
    "short period": ("-2.51", "2.59"),
    "phugoid": ("-0.0171", "0.213"),
    "Dutch roll": ("-0.487", "2.335"),
    "roll": ("-8.435", ""),
    "spiral": ("-0.00877", ""),
}
PRINTED = {
    "lift_alpha": "4.44",
    "lift_elevator": "0.355",
    "pitch_alpha": "-0.683",
    "pitch_alpha_dot": "-4.36",
    "pitch_q": "-9.96",
    "pitch_elevator": "-0.923",
    "side_beta": "-0.564",
    "side_rudder": "0.157",
    "roll_beta": "-0.074",
    "roll_p": "-0.410",
    "roll_r": "0.107",
    "roll_aileron": "-0.134",
    "yaw_beta": "0.071",
    "yaw_p": "-0.0575",
    "yaw_r": "-0.125",
    "yaw_rudder": "-0.072",
}
CHORD = 5.7 / (184.0 / 33.4)
"""The book's mean chord over the scenario's; pitching derivatives are referred to it, rates of pitch twice."""


@pytest.fixture(scope="module")
def modes():
    from click.testing import CliRunner

    from viz.cli import main

    out = CliRunner().invoke(main, ["modes", str(SCENARIO), "--json", "--category", "A"])
    return {mode["name"]: mode for mode in json.loads(out.stdout)["flights"][0]["modes"]}


@pytest.mark.parametrize("name", ROOTS)
def test_roots(modes, name, printed):
    real, imag = ROOTS[name]
    near, why = 0.10 if name == "spiral" else 0.01, "the book's matrix is rounded"
    printed(modes[name]["real_per_s"], real, "1/s", row=f"{name}: real part", share=near, why=why)
    if imag:
        printed(modes[name]["imag_rad_s"], imag, "rad/s", row=f"{name}: imaginary part", share=near, why=why)
    else:
        assert modes[name]["imag_rad_s"] == 0.0


def test_level_1_in_all(modes):
    assert {mode["level"] for mode in modes.values()} == {1}


def test_the_airplane_without_a_heavy_rotor_has_two_blocks(modes):
    assert all(mode["coupling_share"] < 1e-4 for mode in modes.values())


def test_wing_lift_slope(printed):
    printed(lift_slope(0.097 * 57.3, 6.063), "4.30", "1/rad", row="wing: lift slope")


def test_tail_lift_slope(printed):
    printed(lift_slope(0.1 * 57.3, 4.0), "3.94", "1/rad", row="tailplane: lift slope")


def test_downwash(printed):
    printed(downwash_slope(4.30, 6.063), "0.45", row="downwash slope")


def test_tail_volumes(printed):
    tail, fin = (
        tail_volume(43.0, 16.0, wing_area_m2=184.0, reference_m=5.7),
        tail_volume(12.5, 16.0, wing_area_m2=184.0, reference_m=33.4),
    )
    printed(tail, "0.656", row="tail volume", mark="M")
    printed(fin, "0.0325", row="fin volume", mark="M")


def test_roll_damping_by_the_book_s_formula(printed):
    """−.610 against the −.410 of the airplane."""
    printed(roll_damping(4.30, 0.54), "-0.610", "1/rad", row="roll damping by the book's formula")


@pytest.mark.parametrize("name", PRINTED)
def test_estimates(estimated, name, printed):
    value, band = estimated(SCENARIO, CHORD, "flat_six")[name]
    printed(value, PRINTED[name], row=f"Navion: {name}", band=band, kind=name)


def test_the_scenario_gives_every_derivative():
    given = tomllib.loads(SCENARIO.read_text(encoding="utf-8"))["derivatives"]
    assert set(PRINTED) <= set(given)
