"""What is printed about an airplane without neutral values is what the physics says, computed here once more."""

import math
import re

import numpy as np
import pytest
from airplanes import LOPSIDED

UNITS = pytest.mark.parametrize("units", ["us", "si"])
INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665


def quintic(share):
    """Return the 3-4-5 polynomial and its two derivatives over the rise."""
    u = np.asarray(share)
    return 10 * u**3 - 15 * u**4 + 6 * u**5, 30 * u**2 - 60 * u**3 + 30 * u**4, 60 * u - 180 * u**2 + 120 * u**3


def cam_torque(told):
    """Return the largest torque of the spring on the cam: at half of the arm it pushes half and moves half."""
    found = told("exhibit")
    assert found["cam"]["law"] == "3-4-5"
    rise, spring = math.radians(found["cam"]["rise_deg"]), found["spring"]
    lift, slope, _ = quintic(np.linspace(0.0, 1.0, 20_001))
    push = 0.5 * (spring["preload_n"] + spring["rate_n_per_m"] * 0.5 * 0.006 * lift)
    return float((push * 0.006 * slope / rise).max())


@UNITS
def test_a_visitor_turns_the_cam_through_the_gear(said, told, amount, units):
    """A propeller that turns slower than the crank takes less at the grip: friction and cam, times .4, over 80 mm."""
    torque = 0.02 + cam_torque(told)
    sheet = said(units, "exhibit")
    for words, expected in (
        ("largest torque at crank or motor", torque * 0.4),
        ("largest force at the grip of the crank", torque * 0.4 / 0.080),
    ):
        printed, rounding = amount(sheet, words)
        assert printed == pytest.approx(expected, abs=rounding + 5e-4 * expected)


def test_a_spring_pressed_solid_is_its_coils(told):
    """Active coils and one at each end that bears; stress there: 8 K F D/(π d³), Wahl's factor."""
    spring = told("exhibit")["spring"]
    wire, coil = spring["wire_m"], spring["coil_m"]
    assert spring["solid_length_m"] == pytest.approx((spring["active_coils"] + 2.0) * wire)
    index = coil / wire
    solid = spring["rate_n_per_m"] * (spring["free_length_m"] - spring["solid_length_m"])
    stress = ((4 * index - 1) / (4 * index - 4) + 0.615 / index) * 8 * solid * coil / (math.pi * wire**3)
    assert spring["solid_safety"] == pytest.approx(spring["allowed_stress_pa"] / stress, rel=1e-6)
    room = spring["free_length_m"] - spring["solid_length_m"] - spring["full_force_n"] / spring["rate_n_per_m"]
    assert room / (spring["full_force_n"] / spring["rate_n_per_m"]) == pytest.approx(spring["clash_allowance"])


@UNITS
def test_an_engine_moved_aft_hangs_nearer_to_the_firewall(said, told, amount, units):
    """By two inches, all that hangs there; the weight at the load factor of 3.8 turns the nose down by its arm."""
    for place, moved in (("2 in aft", 2.0 * INCH), ("2 in forward", -2.0 * INCH)):
        usual, hung = (told("mount", *words) for words in ((), ("--move", place)))
        drawn = usual["hung"]["flat_four"]["ahead_m"] + usual["engine_move_m"]["flat_four"]
        hung = hung["hung"]["flat_four"]
        assert hung["ahead_m"] == pytest.approx(drawn - moved)
        sheet = " ".join(said(units, "mount", "--move", place).split())
        words = re.search(r"flat_four: limit loads.*?engine moved ([\d.]+) (in|mm) (aft|forward)", sheet)
        size, unit, way = words.groups()
        assert way == ("aft" if moved > 0.0 else "forward")
        assert float(size) * {"in": INCH, "mm": 1e-3}[unit] == pytest.approx(abs(moved), abs=5e-4)
        row = next(
            case
            for case in told("mount", "--move", place)["cases"]
            if case["name"] == "weight at the load factor" and case["powerplant"] == "flat_four"
        )
        weight = 3.8 * hung["mass_kg"] * GRAVITY
        assert row["limit_force_n"] == pytest.approx([0.0, 0.0, weight], abs=1e-6)
        assert row["limit_moment_n_m"][1] == pytest.approx(-weight * (drawn - moved))


def test_what_hangs_on_the_mount_is_engine_propeller_and_what_moves_with_them(told):
    """Each where the file has it, moved with the engine; the scales correct the list a little."""
    import tomllib

    text = tomllib.loads(LOPSIDED.read_text(encoding="utf-8"))
    mine = [
        item
        for item in text["item"]
        if item.get("moves_with_engine") and item.get("powerplant", "flat_four") == "flat_four"
    ]
    pounds = lambda words: float(words.split(" lb")[0]) * POUND  # noqa: E731
    inches = lambda words: float(words.split(" in")[0].replace(" 1/2", ".5").replace(" 3/4", ".75")) * INCH  # noqa: E731
    engine = text["powerplant"]["flat_four"]
    lumps = [(pounds(one["mass"]), inches(one["station"])) for one in (engine, engine["propeller"], *mine)]
    mass = sum(each for each, _ in lumps)
    station = sum(each * place for each, place in lumps) / mass
    hung = told("mount")["hung"]["flat_four"]
    assert hung["mass_kg"] == pytest.approx(mass, rel=5e-3)
    ahead = 30.0 * INCH - station - told("mount")["engine_move_m"]["flat_four"]
    assert hung["ahead_m"] == pytest.approx(ahead, rel=0.02)


def plane_chord(*, span, chord, taper, sweep_deg, root_edge):
    """Return area, mean aerodynamic chord and station of its edge of a swept, tapered plane, by integration [m]."""
    y = np.linspace(0.0, span / 2.0, 20_001)
    root = 2.0 * chord / (1.0 + taper)
    local = root * (1.0 - (1.0 - taper) * y / (span / 2.0))
    quarter = root_edge + 0.25 * root + y * math.tan(math.radians(sweep_deg))
    area = 2.0 * np.trapezoid(local, y)
    mean = 2.0 * np.trapezoid(local**2, y) / area
    return area, mean, 2.0 * np.trapezoid(local * quarter, y) / area - 0.25 * mean


@UNITS
def test_the_mean_chord_lies_where_sweep_taper_and_stagger_put_it(said, told, amount, units):
    """The lower plane stands at 42 in, the upper 20 in ahead; of the lower plane's area .92 counts."""
    lower = plane_chord(span=302.0 * INCH, chord=49.0 * INCH, taper=0.91, sweep_deg=2.2, root_edge=42.0 * INCH)
    upper = plane_chord(span=337.0 * INCH, chord=54.0 * INCH, taper=0.84, sweep_deg=4.0, root_edge=22.0 * INCH)
    share = lower[0] * LOWER / (lower[0] * LOWER + upper[0])
    chord, edge = (share * lower[k] + (1.0 - share) * upper[k] for k in (1, 2))
    found = told("balance")
    assert (found["chord_m"], found["leading_edge_station_m"]) == pytest.approx((chord, edge), rel=1e-6)
    sheet = said(units, "balance")
    for words, expected in (("mean aerodynamic chord", chord), ("station of its leading edge", edge)):
        printed, rounding = amount(sheet, words)
        assert printed == pytest.approx(expected, abs=rounding)
    percent = 100.0 * (found["cg_station_m"] - edge) / chord
    assert found["cg_percent_mac"] == pytest.approx(percent, abs=1e-3)


LOWER = 0.92
"""Lift of the lower plane over its share of the area, as the table balance gives it."""

PLANES = {
    "lower": {"edge": 42.0, "line": 31.0, "incidence": 1.2, "sweep": 2.2, "dihedral": 3.7, "chord": 49.0},
    "upper": {"edge": 42.0 - 20.0, "line": 31.0 + 56.0, "incidence": 2.9, "sweep": 4.0, "dihedral": 2.6, "chord": 54.0},
}
"""Degrees and inches, from the file: stagger 20 in, gap 56 in."""
FACES = {"root": 0.5, "cabane": 0.0, "strut foot": 1.0, "strut head": 0.0}
"""Where a fitting sits on the spar, over its depth."""


@UNITS
def test_fittings_stand_where_sweep_dihedral_decalage_and_stagger_put_them(said, told, units):
    sheet = " ".join(said(units, "layout").split())
    spars = {spar["name"]: spar for spar in told("layout")["spars"]}
    for plane, spar, fitting, out in (
        ("lower", "front", "root", 13.0),
        ("lower", "rear", "root", 13.0),
        ("upper", "front", "cabane", 22.0),
        ("upper", "rear", "cabane", 22.0),
        ("lower", "front", "strut foot", 110.0),
        ("upper", "front", "strut head", 110.0),
        ("lower", "rear", "strut foot", 110.0),
        ("upper", "rear", "strut head", 110.0),
    ):
        at, room = PLANES[plane], spars[f"{plane} {spar}"]
        nose, sweep, dihedral = (math.radians(at[key]) for key in ("incidence", "sweep", "dihedral"))
        along = {"front": 0.13, "rear": 0.64}[spar] * at["chord"]
        above = (room["bottom_m"] + FACES[fitting] * (room["top_m"] - room["bottom_m"])) / INCH
        station = at["edge"] + along * math.cos(nose) + above * math.sin(nose) + out * math.tan(sweep)
        line = at["line"] - along * math.sin(nose) + above * math.cos(nose) + out * math.tan(dihedral)
        row = re.search(rf"{plane} {spar} {fitting} ([\d.]+) (in|mm) ([\d.]+) (?:in|mm) ([\d.]+)", sheet)
        scale = {"in": 1.0, "mm": 25.4}[row[2]]
        printed = [float(row[k]) / scale for k in (1, 3, 4)]
        assert printed == pytest.approx([station, line, out], abs=0.5001 * {"in": 0.01, "mm": 1.0}[row[2]] / scale)


def test_the_stick_comes_back_in_steep_turns_and_the_words_say_so(said, told):
    """A positive angle is trailing edge down, stick forward; a turn takes stick back; each way over its own travel."""
    turns = {turn["bank_deg"]: turn for turn in told("handling")["powerplants"]["rotary"]["turns"]}
    sheet = said("us", "handling")
    rows = re.findall(r"^\s*(\d+° \w+|level)\s+(\d+) (\w+)\s+(\d+) (\w+)\s+(\d+) (\w+)", sheet, re.MULTILINE)[:9]
    assert len(rows) == 9
    assert turns[60.0]["elevator_deg"] < turns[30.0]["elevator_deg"] < turns[0.0]["elevator_deg"]
    seen = set()
    for bank, back, stick, side, lean, foot, pedal in rows:
        size, _, to = bank.partition("° ")
        turn = turns[0.0 if bank == "level" else float(size) * (1.0 if to == "right" else -1.0)]
        angle = turn["elevator_deg"]
        travel = 18.0 if angle > 0.0 else 29.0
        assert stick == ("forward" if angle > 0.0 else "back")
        assert int(back) == pytest.approx(100.0 * abs(angle) / travel, abs=0.51)
        assert turn["elevator_share"] == pytest.approx(angle / travel)
        assert lean == ("left" if turn["aileron_deg"] > 0.0 else "right")
        assert int(side) == pytest.approx(100.0 * abs(turn["aileron_deg"]) / 17.0, abs=0.51)
        assert pedal == ("left" if turn["rudder_deg"] > 0.0 else "right")
        assert int(foot) == pytest.approx(100.0 * abs(turn["rudder_deg"]) / 23.0, abs=0.51)
        seen.add(stick)
    assert seen == {"forward", "back"}


@UNITS
def test_an_anticlockwise_rotor_lifts_the_nose_in_a_right_turn(said, told, units):
    """Moment on the airplane −ω × H, H = I n along −x: to the right r > 0 gives r I n up, q > 0 gives q I n left."""
    rotary = told("handling")["powerplants"]["rotary"]
    for turn in rotary["turns"]:
        bank, rate = math.radians(turn["bank_deg"]), math.radians(turn["turn_rate_deg_s"])
        spun = rotary["polar_inertia_kg_m2"] * abs(turn["spin_rad_s"])
        level = math.cos(math.radians(turn["alpha_deg"]))
        assert turn["gyro_pitch_n_m"] == pytest.approx(spun * rate * math.cos(bank), rel=0.02, abs=1e-6)
        assert turn["gyro_yaw_n_m"] == pytest.approx(-spun * rate * math.sin(bank), rel=0.02, abs=1e-6)
        assert 0.95 < level <= 1.0
    sheet = said(units, "handling")
    factor = {"us": 1.3558179483314004, "si": 1.0}[units]
    for bank, sense in ((45.0, "up"), (-45.0, "down")):
        turn = next(each for each in rotary["turns"] if each["bank_deg"] == bank)
        name = f"{abs(bank):.0f}° {'right' if bank > 0 else 'left'}"
        row = re.search(rf"{name}\s+1\.41\s+[\d.]+ (\w+)\s+-\d+\s+([\d.]+) (up|down)\s+([\d.]+) (left|right)", sheet)
        assert (row[1], row[3], row[5]) == ("right" if bank > 0 else "left", sense, "left")
        assert float(row[2]) * factor == pytest.approx(abs(turn["gyro_pitch_n_m"]), abs=0.6 * factor)


ROUNDS = {"rotary": 1250.0, "flat_four": 4100.0 * 0.62}
SECONDS = 1.2e-3 + 4.0e-3 + 1.5e-3
"""From cam to muzzle: link, lock, barrel."""


def lead_deg(rpm):
    """Return the turn of the propeller while a round is on its way: to the muzzle, and 54 in at 2440 ft/s."""
    return 6.0 * rpm * (SECONDS + 54.0 / 12.0 / 2440.0)


def cleared(first_deg, half_deg):
    """Return by how much rounds that pass over 46° from an angle on keep clear of a blade and of the next, 120° on;
    where some strike, less than nothing: the least turn either way by which all would clear."""
    start = first_deg % 120.0
    ahead, behind = 120.0 - half_deg - (start + 46.0), start - half_deg
    if min(ahead, behind) >= 0.0:
        return min(ahead, behind)
    return max(min(ahead, behind), start - 120.0 - half_deg if ahead < 0.0 else ahead)


def test_windows_open_with_the_cam_and_rounds_pass_a_lead_later(said, told):
    """The cam opens at −21°, one blade interval on for each blade; a geared propeller turns .62 of its engine."""
    rows = [row for row in told("windows")["rows"] if row["rpm"] == pytest.approx(ROUNDS[row["powerplant"]])]
    assert [row["powerplant"] for row in rows] == ["rotary", "flat_four"]
    sheet = said("us", "windows")
    for row in rows:
        assert row["lead_deg"] == pytest.approx(lead_deg(row["rpm"]), rel=1e-4)
        opens = [arc["from_deg"] for arc in row["windows_deg"]]
        assert opens == pytest.approx([-21.0 + 120.0 * k for k in (1, 2, 3)])
        assert [arc["to_deg"] - arc["from_deg"] for arc in row["windows_deg"]] == pytest.approx([46.0] * 3)
        assert row["blade_interval_ms"] == pytest.approx(60e3 / row["rpm"] / 3.0)
        clear = cleared(opens[0] + row["lead_deg"], 0.5 * row["blocked_deg"])
        assert row["windows_deg"][0]["clearance_deg"] == pytest.approx(clear, abs=1e-6)
        line = re.search(rf"{row['powerplant']}\s+{row['rpm']:.0f}\s+([\d.]+)\s+([\d.]+)–([\d.]+)\s+(\S+)", sheet)
        assert [float(line[k]) for k in (1, 2, 3)] == pytest.approx([row["lead_deg"], 99.0, 145.0], abs=0.051)
        assert line[4] == (f"{clear:.1f}" if clear > 0.0 else "strikes")


def test_a_gun_to_the_left_stands_before_or_behind_the_vertical_as_the_propeller_turns(told):
    """Its line crosses the disc 4.5 in to the left, less 54 in of 160 yd: clockwise, a blade is there before it is up.

    The cam opens 21° before blade 1 stands straight up: from the line it is that less or more the lean.
    """
    across = 4.5 * (1.0 - 54.0 / (160.0 * 36.0))
    lean = math.degrees(math.atan2(across, 16.4))
    assert lean == pytest.approx(15.2, abs=0.1)
    rows = told("windows", "--set", "cam.opens_from=vertical")["rows"]
    assert {row["rotation"] for row in rows} == {"clockwise", "anticlockwise"}
    for row in rows:
        opens = -21.0 + (lean if row["rotation"] == "clockwise" else -lean)
        first = row["windows_deg"][0]["from_deg"]
        assert (first - opens + 60.0) % 120.0 - 60.0 == pytest.approx(0.0, abs=1e-6)


def test_the_interval_of_counted_strikes_is_that_of_scores(told):
    """Its ends are the shares p from which what was counted is 1.96 standard deviations √(p(1−p)/n) away."""
    found = told(
        "burst",
        "--rounds",
        "20000",
        "--set",
        "burst.hang_share=0",
        "--dwell-deg",
        "80",
        "--set",
        "burst.speed_ripple=0",
    )
    share, error = found["strikes_per_1000"] / 1e3, found["standard_error_per_1000"] / 1e3
    assert 0.0 < share < 1.0
    assert share == pytest.approx(found["strikes"] / found["rounds"])
    rounds = share * (1.0 - share) / error**2
    low, high = (end / 1e3 for end in found["interval_95_per_1000"])
    assert low < share < high
    for end in (low, high):
        assert abs(share - end) == pytest.approx(1.96 * math.sqrt(end * (1.0 - end) / rounds), rel=1e-9)
