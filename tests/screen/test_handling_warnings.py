"""``whirlgate handling`` says the worst first, and names what ends the steepest bank, airplane or pilot."""

import math

import pytest
from airplanes import BIPLANE, PARASOL

POUND_N = 4.4482216152605


def test_the_worst_stands_first_of_each_engine(run, answered):
    """Of a tailplane set too far up what is wrong, by the numbers of the answer; of another that nothing is."""
    asked = ("handling", "--set", "tailplane.incidence=2 deg")
    lines = run(*asked).stdout.split("\n\n")[0].split("- ")[1:]
    for line, (name, found) in zip(lines, answered(*asked)["powerplants"].items(), strict=True):
        told = " ".join(line.split())
        slower, faster = (row for row in found["forces"]["straight"] if row["power"] == "same")
        assert faster["stick_force_n"] > slower["stick_force_n"]
        before, after = (f"{row['stick_force_n'] / POUND_N:.1f} lbf pull" for row in (slower, faster))
        assert told.startswith(f"{name}: the stick force changes the wrong way with speed, which nothing")
        assert f"{before} at 72.0 mph, {after} at 88.0 mph at one throttle" in told
        grows = next(mode for mode in found["free_modes"] if mode["real_per_s"] > 0.0)
        assert "with stick and pedals free a departure in speed (a phugoid without oscillation) doubles" in told
        assert f"in {math.log(2.0) / grows['real_per_s']:.3g} s" in told
        level = [row for row in found["forces"]["straight"] if row["power"] == "level" and not row["limit"]]
        most = max(abs(row["stick_force_n"]) for row in level) / POUND_N
        assert f"level flight takes up to {most:.1f} lbf pull on the stick" in told
    good = run("handling", PARASOL, "--speed", "38 m/s").stdout.split("\n\n")[0]
    assert " ".join(good.split()).count("nothing unstable: flying faster takes less pull and the stick farther") == 2


def test_first_stands_that_straight_flight_is_beyond_a_limit(run):
    first = " ".join(run("handling", "--speed", "200 mph").stdout.split("\n\n")[0].split())
    assert first.startswith("- rotary: no steady straight flight at 200 mph within power, for which full throttle")


@pytest.mark.parametrize(
    ("settings", "limits", "told"),
    [
        ((), ("power", "power"), "lack of power"),
        (("--set", "elevator.up_travel=3 deg"), ("elevator travel", "elevator travel"), "elevator travel"),
        (("--speed", "46 mph"), ("CLmax", "rudder travel"), "the stall"),
    ],
)
def test_the_limit_of_the_steepest_bank_is_named(run, answered, settings, limits, told):
    found = answered("handling", *settings)["powerplants"]["rotary"]
    assert (found["steepest_left_limit"], found["steepest_right_limit"]) == limits
    assert f"° left, ended by {told}, and" in " ".join(run("handling", *settings).stdout.replace(" *", "").split())


def test_where_the_pilot_ends_before_the_airplane_the_force_is_named(run, answered):
    """At the bank told the force is the limit of 14 CFR 23.143(c), 60 lbf."""
    asked = ("handling", "--set", "controls.stick_travel=150 mm")
    found = answered(*asked)["powerplants"]["rotary"]
    bank = found["force_right_deg"]
    assert (found["force_left_limit"], found["force_right_limit"]) == (None, "stick force")
    assert found["force_left_deg"] == found["steepest_left_deg"]
    at = answered(*asked, "--bank", f"{bank} deg")["powerplants"]["rotary"]["turns"][0]
    assert at["stick_force_n"] == pytest.approx(60.0 * POUND_N, rel=2e-3)
    told = " ".join(run(*asked).stdout.split())
    assert f"no farther than {bank:.1f}° right, where the stick force passes 60 lbf" in told


def test_the_table_of_the_rotor_is_inertia_times_speed_times_rate(run, answered):
    """The shaft speed printed beside the moments makes them: I Ω times the rate of turn across the shaft."""
    for found in answered("handling")["powerplants"].values():
        for turn in found["turns"]:
            yawing = math.radians(turn["turn_rate_deg_s"]) * math.cos(math.radians(turn["bank_deg"]))
            momentum = found["polar_inertia_kg_m2"] * turn["spin_rad_s"]
            assert turn["gyro_pitch_n_m"] == pytest.approx(-momentum * yawing, rel=0.02, abs=1e-9)
    rotary = answered("handling")["powerplants"]["rotary"]["turns"][0]
    text = run("handling").stdout
    assert f"{rotary['spin_rad_s'] * 30.0 / math.pi:.0f}" in text.split("rotary: rotor in these turns")[1]


def test_the_steepest_banks_are_printed_with_their_bands(run, answered):
    words = ("handling", "--bank", "30 deg", "--bands", BIPLANE)
    told = " ".join(run(*words).stdout.split())
    for one in answered(*words)["powerplants"].values():
        low, high = (one[f"steepest_right_{end}_deg"] for end in ("low", "high"))
        assert high - low > 2.0
        assert f"° right ({low:.0f} to {high:.0f})" in told
        left = sorted(abs(one[f"steepest_left_{end}_deg"]) for end in ("low", "high"))
        assert f"° left ({left[0]:.0f} to {left[1]:.0f})" in told


def test_where_no_straight_flight_holds_no_bank_is_told_as_held(run):
    fast = " ".join(run("handling", "--speed", "200 mph").stdout.split())
    assert fast.count("No bank can be held: a limit prevents steady straight flight.") == 2
    assert "Steepest steady banks" not in fast
