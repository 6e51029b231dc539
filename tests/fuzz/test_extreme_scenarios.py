"""Scenarios that a file may hold and no airplane is: every study answers, or says why not, in time and in numbers."""

import math
from functools import cache

import tomli
from airplanes import BIPLANE
from fuzzed import ends_well, examples, in_time
from hypothesis import given
from hypothesis import strategies as st

from sim.scenario.faults import table_at
from sim.scenario.fields import Count, Given, key_of
from sim.scenario.tables import Scenario

ASKED = (
    *("compare", "handling", "modes", "derivatives", "layout", "drag", "speeds", "stall", "field", "propeller"),
    *("balance", "structure", "mount", "windows", "rate", "safe-range", "link", "cooling", "exhibit", "drawing"),
    *("derive couple", "derive turn", "derive modes", "derive windows", "derive rate"),
    *(f"maneuver {name}" for name in ("rudder-kick", "pull", "roll-in", "turn", "blip", "slam", "take-off")),
    *("burst --rounds 100", "check"),
)
SIZES = (5e-324, 1e-300, 1e-30, 1e-12, 1e-6, 1e-3, 0.1, 10.0, 1e3, 1e6)


def tables(data, path=()):
    """Yield the path of every table of a scenario, items of lists by their number from 1."""
    yield path
    pairs = data.items() if isinstance(data, dict) else enumerate(data, 1)
    for key, inner in pairs:
        if isinstance(inner, dict) or (isinstance(inner, list) and inner and isinstance(inner[0], dict)):
            yield from tables(inner, (*path, str(key)))


@cache
def places():
    """Return every key that a table of the frozen biplane may hold, dotted, with what may stand there."""
    found = []
    for path in tables(tomli.loads(BIPLANE.read_text(encoding="utf-8"))):
        table = table_at(Scenario, path) if path else None
        for attribute, field in table.model_fields.items() if table else ():
            found += [
                (".".join((*path, key_of(attribute))), mark)
                for mark in field.metadata
                if isinstance(mark, Given | Count)
            ]
    return found


def extremes(key):
    """Return what may just stand at a key, and what is smaller than anything that can be built."""
    if isinstance(key, Count):
        return [str(key.least), str(key.most)]
    low = key.least if key.least is not None else key.above
    high = key.most if key.most is not None else key.below
    ends = [0.0, *(end for end in (low, high) if end is not None)]
    near = [math.nextafter(end, way) for end in ends for way in (math.inf, -math.inf)]
    sizes = [sign * size for size in SIZES for sign in (1.0, -1.0)]
    inside = (value for value in (*ends, *near, *sizes) if allowed(value, key))
    return [f"{value!r} {'' if key.unit == '1' else key.unit}".strip() for value in inside]


def allowed(value, key):
    return (
        (key.above is None or value > key.above)
        and (key.least is None or value >= key.least)
        and (key.below is None or value < key.below)
        and (key.most is None or value <= key.most)
    )


@st.composite
def settings_of(draw):
    """Draw up to three keys and a value at an end of what each allows."""
    chosen = draw(st.lists(st.sampled_from(places()), min_size=1, max_size=3, unique_by=lambda place: place[0]))
    return [f"{place}={draw(st.sampled_from(extremes(key)))}" for place, key in chosen]


def test_every_study_answers_or_says_why_not(run):
    @examples(12)
    @given(settings_of(), st.sampled_from(ASKED))
    def hold(changed, command):
        words = command.split()
        with in_time():
            result = run(*words, BIPLANE, *(word for one in changed for word in ("--set", one)))
        ends_well(result)

    hold()
