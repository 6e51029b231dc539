"""A sheet on a terminal: in order, with short first columns whole, cautions of its quantities last."""

import re
from pathlib import Path

import pytest

from sim.units.quantities import printed_units
from viz.sheets.blocks import Checklist, Points, Value, rows, say
from viz.sheets.complete import complete
from viz.sheets.from_sim import remarks
from viz.sheets.terminal import write

MASS = Value("mass_kg", 0.45359237 * 1400.0, digits=4)


def test_a_sheet_is_written_in_order():
    said = write([rows("First", ["What", "m"], [["a", "1"]], "Note."), say("Then a sentence.")], "us").split()
    assert said[:3] == ["First", "What", "m"]
    assert said[-4:] == ["Note.", "Then", "a", "sentence."]


def test_a_short_first_column_is_never_broken():
    heads = ["Mode", *("a long head" for _ in range(9))]
    assert "short period" in write([rows("T", heads, [["short period", *"123456789"]])], "us")


def test_numbers_take_unit_digits_and_sign_from_their_quantity():
    pitch = Value("pitch_n_m", -1.3558179483314004 * 73.8, signed=True)
    said = say("{mass}, {pitch}, {share}", mass=MASS, pitch=pitch, share=Value("rudder_share", 0.17, percent=True))
    assert write([said], "us") == "1400 lb, 73.8 lbf ft nose down, 17.0 %"
    assert write([say("{mass}", mass=MASS)], "si") == "635.0 kg"


def test_no_number_says_so():
    assert write([say("{top}", top=Value("top_m_s", None, absent="does not hold"))], "us") == "does not hold"


def test_a_sheet_ends_with_the_cautions_of_its_quantities():
    *_, last = complete([say("{moment}", moment=Value("pitch_n_m", 1.0))])
    assert last.text.startswith("Estimates, not approved data")
    assert complete([say("{plain}", plain="words")]) == (say("{plain}", plain="words"),)


def test_a_number_is_never_broken_between_lines():
    numbers = ["-0.00238", "0.00614", "-1234.567", "0.000123", "-98765.4", "12345.67", "0.0000009", "-0.00007"]
    text = write([rows("T", ["Mode", *"abcdefgh"], [["short period", *numbers]])], "us")
    assert all(number in text.split() for number in numbers)


def test_a_number_that_rounds_to_nothing_has_no_sign():
    little = (Value("station_z_score", number, decimals=1) for number in (-0.049, -0.051, 0.0))
    said = write([say("{a} {b} {c}", **dict(zip("abc", little, strict=True)))], "us")
    assert said == "0.0 -0.1 0.0"


BLOCKS = {
    "sentence": lambda text: say(text),
    "points": lambda text: Points((text,)),
    "checklist": lambda text: Checklist("Look", (text,)),
    "remark": lambda text: remarks((text,)),
    "note": lambda text: rows("T", ["What", "m"], [["a" * 40, "1"]], text),
    "title": lambda text: rows(text, ["What", "m"], [["a" * 40, "1"]]),
    "cell": lambda text: rows("T", ["What", "words"], [["a", text]]),
}


@pytest.mark.parametrize("block", BLOCKS.values(), ids=BLOCKS)
def test_a_line_never_ends_between_a_number_and_its_unit(block):
    told, broken = "moved 12.84 mm ± 7.81 mm and 28 ft 1.00 in", 0
    for shift in range(90):
        text = write([block(f"{'x' * shift} {told} {'and so on ' * 12}")], "si")
        assert all(part in text for part in ("12.84 mm", "± 7.81 mm", "28 ft 1.00 in")), shift
        broken += told not in text
    assert broken > 5


UNIT_AT_START = re.compile(rf"\d\n +-?(?:{'|'.join(map(re.escape, printed_units()))})(?!\w)")


@pytest.mark.parametrize("file", sorted(Path(__file__).parents[1].rglob("*.ambr")), ids=lambda file: file.stem)
def test_no_sheet_breaks_a_quantity(file):
    assert UNIT_AT_START.search("cut at 12\n  mm")
    assert not UNIT_AT_START.findall(file.read_text(encoding="utf-8"))


def test_a_long_dotted_name_in_another_column_is_broken_at_its_dots():
    name, file = "powerplant.rotary.propeller.diameter", "a/rather/long/way/to.the.scenario.toml"
    text = write([rows("", ("Quantity", "Of"), [("size", f"{name}, side"), ("file", file)])], "us")
    assert name not in text
    assert "powerplant.rotary\n" in "".join(line.rstrip() + "\n" for line in text.splitlines())
    assert ".propeller.diameter, side" in text
    assert file in text
