"""What ``scale``, ``balance`` and ``swing`` write into a scenario moves the answers of other commands."""

import pytest

SWUNG = ("swing", "--mass", "40 lb", "--radius", "8 in", "--length", "6 ft", "--swings", "10", "--time", "49 s ± 0.2 s")


@pytest.mark.parametrize(
    "written",
    [
        ("scale", "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"),
        ("balance", "--set", "item.pilot.mass=230 lb"),
        (*SWUNG, "--key", "powerplant.rotary.propeller.polar_inertia"),
    ],
    ids=lambda words: words[0],
)
def test_what_the_shop_corrects_moves_the_roots_of_the_airplane(run, answered, scenario, written):
    def roots():
        rotary = answered("modes", scenario)["flights"][0]
        return [mode["real_per_s"] for mode in rotary["modes"]]

    before = roots()
    assert run(*written, "--write", scenario).exit_code == 0
    assert roots() != pytest.approx(before, rel=1e-4)


def test_a_written_dimension_moves_the_other_answers(run, answered, scenario):
    before = answered("layout", scenario)
    written = run(
        "scale", "--write", scenario, "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"
    )
    assert written.exit_code == 0
    after = answered("layout", scenario)
    assert after["chord_m"] / before["chord_m"] == pytest.approx(1.01, abs=0.002)
