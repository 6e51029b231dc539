"""One name a part: what the parts list calls a part, the texts of the builder's book call it too, in full."""

import re

import pytest
from displays import VARIANTS, built

from viz.drawings import build_steps, preparation, use, wiring
from viz.drawings.items import items, taken_items

OTHERS = ("foot", "felt", "plate", "post", "frame", "seat", "barrier", "outline")
"""Short for a part, and of no part the name."""
SHARED = ("screw", "bolt", "pin", "shaft", "belt", "pulley")
"""Last words of names that are words of the trade of their own."""
NOT_PARTS = ("shim ring", "block of wood", "cap of")


def texts():
    """Yield every text of the book that is not made for one display, with where it stands."""
    yield from build_steps.TEXTS.items()
    for name in ("CRANK", "MOTOR", "COLLAR", "TIGHTENED"):
        yield name, getattr(build_steps, name)
    for name in ("PINS", "BALANCE"):
        yield name, getattr(preparation, name)
    for name in ("FIRST", "SETTING", "TESTS", "HANDLING", "DAILY", "FAULTS"):
        yield name, getattr(use, name)
    yield "wiring", wiring.NOTES


def flat(text):
    return text if isinstance(text, str) else "; ".join(map(flat, text))


@pytest.fixture(scope="module")
def names():
    """Every name of a part or screw that some display has."""
    return {each.name for kind in VARIANTS for each in built(kind).pieces}


def shortened(text, names):
    """Return what stands in a text for a part without the whole of its name: "the keeper", "its post"."""
    whole = "|".join(sorted(map(re.escape, names), key=len, reverse=True))
    masked = re.sub(rf"\b({whole})(e?s)?\b", "#", text, flags=re.IGNORECASE)
    last = {name.split()[-1] for name in names if " " in name} | set(OTHERS)
    words = "|".join(sorted(last - names - set(SHARED)))
    found = re.findall(rf"\b(?:the|its|a|an|each|every|this|that) (?:(?:{words})s?)\b[^;,.]*", masked, re.IGNORECASE)
    return [each for each in found if not any(other in each for other in NOT_PARTS)]


def test_no_text_shortens_the_name_of_a_part(names):
    for where, text in texts():
        assert not shortened(flat(text), names), where


def test_a_shortened_name_is_found(names):
    assert shortened("Lay the keeper on the lead plate; hold its post.", names) == ["the keeper on the #", "its post"]
    assert not shortened("Lay the lead keeper on the lead plate; hold the lever posts.", names)


@pytest.mark.parametrize("kind", VARIANTS)
def test_a_step_calls_its_items_as_the_parts_list_does(kind):
    assembly = built(kind)
    said = taken_items(assembly.pieces, assembly)
    listed = ", ".join(
        f"{one.number} {one.name}{f' (×{one.quantity})' if one.quantity > 1 else ''}" for one in items(assembly)
    )
    assert said == listed
