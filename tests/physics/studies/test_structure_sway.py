"""A wing that sways because its bracing is soft or overloaded: the sentence names the bracing, not a sound bay."""

import re

import pytest

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.studies import structure as study

STRENGTH_LBF = 480.0
"""Of a cable of 1/16 in, 7 x 7 (`sizes.toml`)."""


def test_a_wing_sways_by_its_drag_wires_which_are_named_instead_of_a_bay_that_would_hold():
    """The weakest wire first, beyond its 480 lbf; rigged so that none is slack the wing stands, its wires too weak."""
    thin = ["structure.member.drag_wire.size=1/16 cable"]
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model("hayrick", thin))
    words = str(caught.value)
    assert ": the wing sways fore and aft, and upper front spar with it under a thrust of " in words
    assert "buckles" not in words
    assert "a bay of" not in words
    first = re.search(
        r"overloaded: upper centre drag wire at (\d+) N \(([\d.]+) lbf\) of tension \(margin (\S+)\)", words
    )
    load_n, load_lbf, margin = (float(text) for text in first.groups())
    assert load_n == pytest.approx(4.4482216 * load_lbf, rel=1e-3)
    assert margin == pytest.approx(STRENGTH_LBF / load_lbf - 1.0, abs=0.006)
    told = [float(text) for text in re.findall(r"margin (-[\d.]+)", words)]
    assert len(told) > 2
    assert told == sorted(told)
    assert "; slack: " in words
    assert "upper drag wire 1" in words.partition("slack: ")[2]
    assert max(len(number.replace(".", "")) for number in re.findall(r"[\d.]*\d", words)) <= 5
    firm = study.structure(model("hayrick", [*thin, "structure.member.drag_wire.tension=200 lbf"]))
    assert min(one.margin for one in firm.members if one.kind == "drag wire") < 0.0
