"""Commands about the lopsided airplane, each run once; what they print, word by word."""

import json
import re
from functools import cache

import pytest
from airplanes import LOPSIDED

INCH = 0.0254
POUND_FORCE = 4.4482216152605
FACTORS = {
    "in": INCH,
    "ft": 0.3048,
    "mm": 1e-3,
    "m": 1.0,
    "lbf": POUND_FORCE,
    "N": 1.0,
    "lbf in": POUND_FORCE * INCH,
    "lbf ft": POUND_FORCE * 0.3048,
    "N m": 1.0,
    "ft/s": 0.3048,
    "m/s": 1.0,
    "lb": 0.45359237,
    "kg": 1.0,
}
"""SI over a unit as it is printed, from the definitions of inch, pound and standard gravity."""


@pytest.fixture(scope="session")
def said(run):
    """Return what a command prints about the lopsided airplane, its lines joined: `said("si", "mount")`."""

    @cache
    def printed(units, command, *words):
        result = run("--units", units, command, LOPSIDED, *words)
        assert (result.exit_code, result.stderr) == (0, "")
        return result.stdout

    return printed


@pytest.fixture(scope="session")
def told(run):
    """Return the JSON of a command about the lopsided airplane."""

    @cache
    def answered(command, *words):
        result = run(command, LOPSIDED, *words, "--json")
        assert (result.exit_code, result.stderr) == (0, "")
        return json.loads(result.stdout)

    return answered


@pytest.fixture(scope="session")
def amount():
    """Return the amount that follows some words in a text, in SI, and half of its last digit."""

    def found(text, words):
        match = re.search(re.escape(words) + r"\s+(-?[\d.]+) ([a-zA-Z/]+(?: (?:in|ft|m)\b)?)", text)
        assert match, f"{words!r} is not in {text}"
        number, unit = match.groups()
        factor = FACTORS[unit]
        decimals = len(number.partition(".")[2])
        return float(number) * factor, 0.5001 * 10.0**-decimals * factor

    return found
