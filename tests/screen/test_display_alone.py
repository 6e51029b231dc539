"""A display without an airplane: the same cam, parts and files as that of an airplane with the same timing."""

import json
import math

import pytest

from sim.model.display_model import DisplayModel, display_model
from sim.model.model import model
from sim.scenario.new import new


@pytest.fixture
def alone(tmp_path):
    file = tmp_path / "alone.toml"
    file.write_text(new(exhibit=True), encoding="utf-8")
    return file


def exact(line):
    """Return settings by which a display alone has the timing of a gun line, the whole delay at its one speed."""
    (spin,) = line.spin_rad_s
    first = line.cam.windows[0]
    return [
        f"timing.speed={spin!r} rad/s",
        f"timing.blades={line.blades}",
        f"timing.blocked={line.blocked_rad!r} rad",
        f"timing.margin={line.margin_rad!r} rad",
        f"timing.delay={line.delay_s + line.delay_rad / spin!r} s",
        f"timing.dwell={first.dwell_rad!r} rad",
        f"timing.opens={first.opens_rad!r} rad",
    ]


def test_it_is_the_display_of_an_airplane_with_that_timing(run, alone):
    """Sizes, checks, parts and screws to rounding; only the name of the powerplant differs."""
    line = model("tollgate").display_line()
    words = [word for setting in exact(line) for word in ("--set", setting)]
    own, of_airplane = (json.loads(run("exhibit", *args, "--json").stdout) for args in ((alone, *words), ("tollgate",)))
    assert own["shown"].pop("powerplant") == ""
    assert of_airplane["shown"].pop("powerplant") == "rotary"
    said, told = (found["shown"].pop("cam") for found in (own, of_airplane))
    assert said["opens_deg"] == pytest.approx(told["opens_deg"])
    assert own["shown"] == pytest.approx(of_airplane["shown"])
    assert own["cam"] == pytest.approx(of_airplane["cam"])
    assert len(own["parts"]) == len(of_airplane["parts"]) > 60
    for one, other in zip(own["parts"], of_airplane["parts"], strict=True):
        assert (one["name"], one["material"], one["fit"]) == (other["name"], other["material"], other["fit"])
        for key in ("mass_kg", "x_m", "y_m", "z_from_m", "z_to_m"):
            assert one[key] == pytest.approx(other[key], rel=1e-9, abs=1e-12)
    assert own["fasteners"] == of_airplane["fasteners"]
    assert [check["name"] for check in own["checks"]] == [check["name"] for check in of_airplane["checks"]]


def test_as_written_it_passes_every_check_and_says_its_timing(run, alone):
    assert run("check", alone).stdout == f"{alone}: no faults\n"
    shown = " ".join(run("exhibit", alone).stdout.split())
    lead_deg = 0.0085 * 1250 * 6.0
    assert "The lamp shows the timing at 1250 rpm: of each turn it is first lit from 55.0° to 125.0°" in shown
    assert f"released {lead_deg:.1f}° earlier (the lead)" in shown
    found = json.loads(run("exhibit", alone, "--json").stdout)
    assert all(check["passes"] for check in found["checks"])
    assert found["shown"]["clearance_deg"] == pytest.approx((180.0 - 18.4 - 6.0 - 70.0) / 2.0)


def test_its_files_are_those_of_a_display_and_name_no_airplane(run, alone, tmp_path):
    folder = tmp_path / "display"
    assert run("exhibit", alone, "--out", folder).exit_code == 0
    names = {path.name for path in folder.rglob("*") if path.is_file()}
    assert {"cam.dxf", "book.pdf"} <= names
    text = "".join(path.read_text(encoding="utf-8", errors="ignore") for path in folder.rglob("*.svg"))
    assert "rotary" not in text
    assert "tollgate" not in text.lower()


def test_ideal_is_the_whole_clear_arc(alone):
    ideal = display_model(alone).display(ideal=True).window
    assert math.degrees(ideal.to_rad - ideal.from_rad) == pytest.approx(180.0 - 18.4 - 6.0)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--set", "timing.blades=0"], '--set timing.blades: must be 1 to 6, got "0"'),
        (["--set", "timing.blade=3"], "--set timing.blade: unknown key; did you mean blades?"),
        (["--set", "exhibit.powerplant=rotary"], "--set exhibit.powerplant: is one of an airplane, and this display"),
        (["--set", "exhibit.firing_pin=steel"], "--set exhibit.firing_pin: a firing pin is a part of a working gun"),
    ],
)
def test_wrong_keys_are_told_with_a_cure(run, alone, words, said):
    result = run("exhibit", alone, *words)
    assert result.exit_code == 2
    assert result.stderr.startswith(said)


def test_an_opening_without_a_dwell_is_refused(run, alone):
    text = alone.read_text(encoding="utf-8")
    alone.write_text(
        "".join(line for line in text.splitlines(keepends=True) if not line.startswith("dwell")).replace(
            "# opens", "opens"
        ),
        encoding="utf-8",
    )
    assert "timing.opens: belongs to dwell, which is missing; give it" in run("exhibit", alone).stderr


def test_a_cam_that_never_shuts_is_a_fault_of_the_file(run, alone):
    words = ("--set", "timing.dwell=180 °", "--set", "timing.opens=3 °")
    assert run("exhibit", alone, *words).exit_code == 1
    result = run("check", alone, *words)
    assert result.exit_code == 2
    assert "the cam never shuts, so that the lamp would never go out; give dwell a shorter angle" in result.stderr


@pytest.mark.parametrize("command", ["compare", "windows", "view"])
def test_what_needs_an_airplane_says_so(run, alone, command):
    said = "holds a display alone, for exhibit and check; the rest needs an airplane: whirlgate new writes one"
    result = run(command, alone)
    assert (result.exit_code, result.stderr) == (2, f"{alone}: {said}\n")


def test_python_takes_it_by_the_same_name(alone):
    import sim

    assert isinstance(display_model(alone), DisplayModel)
    assert sim.exhibit(alone).shown.powerplant == ""
