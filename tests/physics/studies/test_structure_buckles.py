"""A spar that buckles: the sentence tells which, its case, its bay, and what that bears."""

import re
from dataclasses import replace
from math import pi

import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import answer, built

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.structures.frame import FrameLoad
from sim.structures.frame_failures import BucklingError, bays
from sim.structures.frame_solution import solve_frame
from sim.studies import structure as study
from sim.studies.structure_failures import buckling_words
from sim.units.text import in_both


def test_a_spar_that_buckles_is_named_with_its_case_and_load():
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(TRIPLANE, ["structure.spar.rear.diameter=1 in", "structure.spar.rear.wall=0.035 in"]))
    words = str(caught.value)
    assert words.startswith(
        "pull-up at VA, at 38 % of ultimate load: upper rear spar buckles up and down under a thrust of "
    )
    assert words.endswith("; make it deeper, or put its struts closer together")


def bay_of(words):
    """Return the length of the bay, and what it bears alone, of a sentence. [mm, N]."""
    number = r"([\d.]+)"
    found = re.search(rf": a bay of {number} mm .*, hinged at both ends, bears a thrust of {number} N ", words)
    return tuple(float(text) for text in found.groups())


THIN = ["structure.spar.rear.section=box", "structure.spar.rear.width=1/2 in", "structure.spar.rear.flange=1/4 in"]


def test_a_thin_spar_buckles_fore_and_aft_at_eulers_load_and_ribs_between_the_cabane_cure_it():
    """Flanges 1/2 in wide and 1/4 in deep, webs 1/8 in thick at 3/16 in from the middle, in a bay of 44 in."""
    thin = [*THIN, "structure.spar.rear.web=1/8 in"]
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(BIPLANE, thin))
    words = str(caught.value)
    assert "upper rear spar, centre, buckles fore and aft: a bay of " in words
    assert words.count(" N (") == 1  # one thrust: that borne to a percent and Euler's load would contradict each other
    assert words.endswith("make it wider, or its compression ribs closer together (structure.compression_ribs)")
    length_mm, alone_n = bay_of(words)
    own = next(one for one in answer("layout", BIPLANE).spars if one.name == "rear")
    inch = own.spar_depth_m / 0.0254
    side = 2.0 * 0.25 * 0.5**3 / 12.0 + (inch - 0.5) * 2.0 * (0.125**3 / 12.0 + 0.125 * 0.1875**2)
    bending = 1.3e6 * side * 0.0254**2 * 4.4482216
    assert length_mm == pytest.approx(44.0 * 25.4, rel=1e-3)
    assert alone_n == pytest.approx(pi**2 * bending / (44.0 * 0.0254) ** 2, rel=0.05)
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(BIPLANE, [*thin, 'structure.compression_ribs=["0 in", "45 in", "78 in"]']))
    assert "centre" not in str(caught.value)


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (
            0.8,
            " under a thrust of {thrust}: {bay} would bear {euler} that way, more than here, where its ends give",
        ),
        (0.98, ": {bay} bears a thrust of {euler} that way and no more"),
        (
            1.6,
            " under a thrust of {thrust}: {bay} would bear {euler} that way, less than here, where its ends are held",
        ),
    ],
)
def test_a_bay_is_told_with_its_thrust_only_where_that_differs_from_eulers_load(share, told):
    """The bay between root and first rib or strut of a spar, as thrust as a share of Euler's load has it."""
    one = built(BIPLANE).structure
    rest = solve_frame(one.wing.frame, FrameLoad())
    beam = "upper rear spar, centre"
    bay = next(own for own in bays(one.wing.frame, 1) if own.beam == beam)
    spans = [replace(own, thrust_n=share * bay.euler_n if own.beam == beam else 0.0) for own in rest.spans]
    words = buckling_words(one.wing, BucklingError(beam, 1), replace(rest, spans=tuple(spans)))
    thrust, euler = (in_both("thrust_n", load, digits=4) for load in (share * bay.euler_n, bay.euler_n))
    length = f"a bay of {in_both('strut_length_m', bay.length_m)}, hinged at both ends,"
    assert told.format(thrust=thrust, euler=euler, bay=length) in words
    assert (thrust in words) is (told.find("{thrust}") > 0)
