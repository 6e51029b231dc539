"""Named quantities in one text: every way of parting them, and every fault at once."""

import math

import pytest

from sim.errors import InputError
from sim.units.parsing import Allowed
from sim.units.pieces import read_pieces

ALLOWED = {"span": Allowed("m", above=0.0), "sweep": Allowed("rad"), "section slope": Allowed("1", example="5.7")}


@pytest.mark.parametrize(
    "text",
    [
        "span 1,200 ft, sweep -3 °, section slope 5.7",
        "span 1200 ft,sweep −3°,section slope 5.7",
        "section slope = 5.7; sweep=-3 deg; span=1200 ft",
    ],
)
def test_one_meaning_however_written(text):
    found = read_pieces(text, ALLOWED, key="plane")
    assert found == pytest.approx({"span": 365.76, "sweep": math.radians(-3.0), "section slope": 5.7}, rel=1e-12)


def test_every_fault_at_once():
    with pytest.raises(InputError) as caught:
        read_pieces(
            "spam 3 m, span, sweep 4 ft, section slope 5, section slope 6, span -2 m, 7 m", ALLOWED, key="plane"
        )
    assert str(caught.value).splitlines() == [
        'plane: a name must be one of span, sweep, section slope, got "spam"; did you mean span?',
        'plane span: must be a length, as in "28 ft 1 in", got ""',
        'plane sweep: must be an angle, as in "12 °", got "4 ft", which is a length',
        "plane section slope: is given twice",
        'plane span: must be a length, as in "28 ft 1 in", got "-2 m, 7 m"',
    ]


def test_an_empty_text_gives_nothing_but_a_fault():
    with pytest.raises(InputError, match='plane: a name must be one of span, sweep, section slope, got ""'):
        read_pieces("", ALLOWED, key="plane")
