"""``whirlgate handling`` says the worst first, and names what ends the steepest bank, airplane or pilot."""

import math

import pytest
from airplanes import BIPLANE, PARASOL

POUND_N, MPH = 4.4482216152605, 0.44704


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
        worst = max(level, key=lambda row: abs(row["stick_force_n"]))
        fast = worst["speed_m_s"] / MPH
        most = f"{abs(worst['stick_force_n']) / POUND_N:.1f} lbf pull on the stick ({fast:.{int(fast < 100.0)}f} mph)"
        how, limit = ("a moment", 60) if worst["force_held"] == "no" else ("minutes", 10)
        assert f"level flight takes up to {most}, more than a pilot holds for {how} ({limit} lbf)" in told
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
        digits = 1 if high - low < 10.0 else 0
        assert f"° right ({low:.{digits}f} to {high:.{digits}f})" in told
        left = sorted(abs(one[f"steepest_left_{end}_deg"]) for end in ("low", "high"))
        digits = 1 if left[1] - left[0] < 10.0 else 0
        assert f"° left ({left[0]:.{digits}f} to {left[1]:.{digits}f})" in told


def test_where_no_straight_flight_holds_no_bank_is_told_as_held(run):
    fast = " ".join(run("handling", "--speed", "200 mph").stdout.split())
    assert fast.count("No bank can be held: a limit prevents steady straight flight.") == 2
    assert "Steepest steady banks" not in fast


def test_an_engine_that_overspeeds_is_told_first_and_in_every_table(run, answered):
    """At 105 mph the flat-four has power to spare, above its full speed."""
    asked = ("handling", "--speed", "105 mph")
    found = answered(*asked)["powerplants"]["flat_four"]
    level = next(turn for turn in found["turns"] if turn["bank_deg"] == 0.0)
    turning = level["spin_rad_s"] * 30.0 / math.pi
    assert (level["limit"], level["holds"]) == ("overspeed", False)
    assert turning > 2600.0
    text = run(*asked).stdout
    first = " ".join(text.split("\n\n")[0].split("- ")[2].split())
    assert first.startswith("flat_four: no steady straight flight at 105 mph without overspeed: the engine would turn")
    assert f"at {turning:.0f} rpm, above its full speed of 2600 rpm" in first
    own = text.split("flat_four: steady turns")[1]
    for title in ("Limit", "forces that the pilot holds in these turns", "forces that the pilot holds in straight"):
        assert "overspeed" in own.split(title)[1].split("flat_four: ")[0]


def test_which_limit_of_the_pilot_is_passed_is_named_for_minutes_and_for_a_moment(run, answered):
    """Both engines, every bank: the sentence is the numbers of the table against 10, 5, 20 and 60, 30, 150 lbf."""
    asked = ("handling", "--set", "controls.stick_travel=100 mm")
    names = {"stick_force_n": "stick force", "stick_side_force_n": "sideways force", "pedal_force_n": "pedal force"}
    text = run(*asked).stdout
    for powerplant, found in answered(*asked)["powerplants"].items():
        flown = [turn for turn in found["turns"] if turn["limit"] is None]
        told = text.split(f"{powerplant}: forces that the pilot holds in these turns")[1].split("For one more unit")[0]
        parts = " ".join(told.split()).split("past the limit for minutes: ")[1].split(" For a moment: ")
        for part, field, most in zip(parts, ("past_minutes", "past_moment"), ((10, 5, 20), (60, 30, 150)), strict=True):
            over = {}
            for (force, name), limit in zip(names.items(), most, strict=True):
                over[name] = [turn for turn in flown if abs(turn[force]) > limit * POUND_N]
                assert over[name] == [turn for turn in flown if name in turn[field]]
                assert (f"{name} ({limit} lbf) in" in part) == bool(over[name])
            assert any(over.values()), "a stick geared so high passes both"
            mixed = next(some for some in over.values() if 0 < len(some) < len(flown))
            said = [f"{abs(turn['bank_deg']):.0f}° {'left' if turn['bank_deg'] < 0.0 else 'right'}" for turn in mixed]
            assert ", ".join(said) in part


def test_an_open_gap_is_told_with_what_was_measured_of_one(run, answered):
    """Trends with incidence of the number used and of the one measured are opposite: the sheet says so."""
    sealed = [word for name in ("elevator", "rudder") for word in ("--set", f'{name}.gap="sealed"')]
    assert answered("handling", BIPLANE, *sealed)["powerplants"]["rotary"]["forces"]["open_gaps"] == ["aileron"]
    told = " ".join(run("handling", BIPLANE, *sealed).stdout.split())
    assert "Open gap at the hinge of aileron: taken to leave 85 % of the hinge moment with incidence and 93 %" in told
    assert "found measured had 105 % and 79 % (NACA 0015" in told
    closed = run("handling", BIPLANE, *sealed, "--set", 'aileron.gap="sealed"').stdout
    assert "Open gap" not in closed


def test_a_force_reversed_by_the_setting_of_the_tailplane_is_told_beside_a_stable_margin(run, answered):
    """Turned as the sheet says the tailplane rights it, and both margins stay."""
    far = ("handling", BIPLANE, "--set")
    before = answered(*far, "tailplane.incidence=2 deg")["powerplants"]["rotary"]["forces"]
    turned_deg = 2.0 + before["tail_turn_deg"]
    after = answered(*far, f"tailplane.incidence={turned_deg} deg")["powerplants"]["rotary"]["forces"]
    assert (before["force_reversed"], after["force_reversed"]) == (True, False)
    assert before["static_margin_free"] == pytest.approx(after["static_margin_free"])
    assert after["static_margin_free"] > 0.0
    told = "With the tailplane turned as below none is held, and the margins stay."
    assert told in " ".join(run(*far, "tailplane.incidence=2 deg").stdout.split())
    assert told not in " ".join(run(*far, f"tailplane.incidence={turned_deg} deg").stdout.split())
