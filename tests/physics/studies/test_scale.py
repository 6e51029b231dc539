"""A drawing scaled: its scenario comes back, stretched sheets are told, and wrong readings are named."""

import json
import math

import pytest
from airplanes import BIPLANE, DRAWING

from sim.errors import InputError
from sim.model.drawing import drawing as measured
from sim.scenario.keys import holds_length
from sim.scenario.reading import load
from sim.studies.scale import dimension_texts, scale
from sim.units.text import feet_inches


@pytest.fixture(scope="module")
def biplane():
    return load(BIPLANE)


@pytest.fixture(scope="module")
def drawing():
    return measured(DRAWING)


def test_the_drawing_gives_back_the_scenario(biplane, drawing):
    """It was drawn from the scenario's dimensions: each comes back within three standard errors."""
    texts = dimension_texts(scale(drawing), system="si")
    keys = {name: text for name, text in texts.items() if holds_length(name)}
    assert texts.keys() - keys.keys() == {"wheel diameter", "wheel track", "spar spacing"}
    again = load(BIPLANE, [f"{name}={text}" for name, text in keys.items()])
    for name in keys:
        *way, last = name.split(".")
        here, there = again, biplane
        for part in way:
            here, there = (x[part] if isinstance(x, dict) else getattr(x, part) for x in (here, there))
        error = again.tolerances[name]
        assert abs(getattr(here, f"{last}_m") - getattr(there, f"{last}_m")) < 3.0 * error, name


def test_stretched_copies_are_told_from_originals(drawing):
    found = scale(drawing)
    assert {row.view for row in found.stretches} == {"plan", "side"}
    assert {row.view: round(row.stretch, 2) for row in found.stretches} == {"plan": 0.99, "side": 1.01}
    assert found.contradictions == ()


def test_a_drawing_is_named_given_as_a_file_or_read_before(drawing):
    import sim

    by_file, before = sim.scale(DRAWING), sim.scale(drawing)
    assert by_file == before == scale(drawing)
    assert sim.scale().title == measured("tollgate").title


def test_known_dimensions_that_contradict():
    with pytest.raises(InputError) as caught:
        scale(measured(DRAWING, ["known.wing.span=28 ft 9 in ± 1/4 in"]))
    assert str(caught.value) == (
        "known.wing.span: contradicts the rest: the document says 8.763 m (28 ft 9.00 in), the drawing 8.560 m "
        "(28 ft 0.99 in), 4.4 standard errors apart, at most 3.3; check the document and its readings"
    )


def test_a_reading_that_explains_a_contradiction_as_well_as_the_document_is_named_with_it():
    """The wheel alone tells the scale along the side from its document; misread, it looks like a wrong fuselage."""
    with pytest.raises(InputError) as caught:
        scale(measured("tollgate", ["reading.9.values=['41.98 mm', '42.00 mm']"]))
    assert str(caught.value).startswith("known.fuselage.length: contradicts the rest: ")
    assert str(caught.value).endswith(
        "check the document and its readings, and wheel diameter in view side, which explains it as well"
    )


def test_a_misread_dimension_is_named():
    found = scale(measured(DRAWING, ["reading.19.values=['104.55 mm', '109.3 mm']"]))
    assert {wrong.dimension for wrong in found.contradictions} == {"wheel track"}
    found = scale(measured(DRAWING, ["reading.12.values=['28.9 mm']", "reading_error=0.1 mm"]))
    assert found.contradictions == ()


def test_a_misreading_shows_against_paper_that_is_known_not_to_have_warped():
    """1.2 % too long in one of two views: with five conditions the paper itself may have done that."""
    misread = ["reading.11.values=['90.6 mm']", "reading_error=0.1 mm"]
    assert scale(measured(DRAWING, misread)).contradictions == ()
    found = scale(measured(DRAWING, [*misread, "distortion=0.1 %"]))
    assert {wrong.dimension for wrong in found.contradictions} == {"wing.gap"}
    assert found.paper.source == "given"


def test_a_misreading_that_nothing_checks_is_told_before_it_is_made(drawing):
    """10 mm off on one reading leaves no trace in the residuals: the reading is named as unchecked beforehand."""
    before, after = scale(drawing), scale(measured(DRAWING, ["reading.3.values=['180.1 mm', '180.31 mm']"]))
    assert after.contradictions == ()
    for found in (before, after):
        row = next(each for each in found.readings if each.name == "tailplane.span")
        assert (row.redundancy, row.least_detectable_m) == (pytest.approx(0.0, abs=1e-9), None)
        assert row.advice == "read it across in view front too, or give it from a document"
        assert any("Nothing checks tailplane.span" in remark for remark in found.remarks)


def test_the_bundled_drawing_finds_that_misreading():
    """One reading more, in view front, and the contradiction is named."""
    misread = ["reading.3.values=['180.1 mm', '180.31 mm']"]
    assert scale(measured("tollgate")).contradictions == ()
    found = scale(measured("tollgate", misread))
    assert {(wrong.dimension, wrong.view) for wrong in found.contradictions} == {
        ("tailplane.span", "plan"),
        ("tailplane.span", "front"),
    }
    assert found.remarks[0].startswith("tailplane.span: no ±")
    assert dimension_texts(found, system="us")["tailplane.span"].count("±") == 0


def test_a_scale_whose_only_reading_is_contradicted_by_its_repeat_gives_nothing_with_an_error():
    """The span alone gives the scale across the plan: what was read there has no ±, and no stretch is told of it."""
    found = scale(measured(DRAWING, ["reading.1.values=['531.21 mm', '541.34 mm']"]))
    assert [(wrong.dimension, wrong.view) for wrong in found.contradictions] == [("wing.span", "plan")]
    without = {each.name for each in found.dimensions if math.isnan(each.error_m)}
    assert without == {"tailplane.span", "fuselage.width"}
    assert [(one.view, one.axis) for one in found.scales if math.isnan(one.scale_error)] == [("plan", "across")]
    assert [row.view for row in found.stretches] == ["side"]
    assert found.remarks[0] == (
        "tailplane.span, fuselage.width: no ±: their readings contradict each other or their own repeats."
    )
    assert json.loads(found.to_json())["dimensions"][2]["error_m"] is None


def test_most_readings_of_the_bundled_drawing_are_checked():
    found = scale(measured("tollgate"))
    assert [row.name for row in found.readings if row.least_detectable_m is None] == ["wheel track"]


def test_the_redundancy_of_a_dimension_is_its_documents_or_its_best_readings(drawing):
    found = scale(drawing)
    of = {each.name: each.redundancy for each in found.dimensions}
    best = {}
    for row in found.readings:
        best[row.name] = max(row.redundancy, best.get(row.name, 0.0))
    assert {name: of[name] for name in of if name not in drawing.known} == {
        name: share for name, share in best.items() if name not in drawing.known
    }
    total = sum(row.redundancy for row in found.readings) + sum(of[name] for name in drawing.known)
    assert total == pytest.approx(found.degrees_of_freedom)


def test_the_rate_of_false_alarms_is_that_of_all_tests(drawing):
    """13 readings and documents beside 16 readings with repeats, one in a thousand each."""
    found = scale(drawing)
    assert found.false_alarm_share == pytest.approx(1.0 - 0.999**found.tests)
    checked = sum(row.least_detectable_m is not None for row in found.readings) + 4
    assert found.tests == checked + sum(row.count > 1 for row in found.readings)


def test_dimensions_as_a_shop_of_either_system_writes_them(drawing):
    answer = scale(drawing)
    assert dimension_texts(answer, system="us")["wing.span"] == "28 ft 0.99 in ± 0.22 in"
    assert dimension_texts(answer, system="si")["wing.span"] == "8.5596 m ± 0.0056 m"


@pytest.mark.parametrize(
    ("key", "holds"),
    [
        ("wing.span", True),
        ("powerplant.rotary.propeller.diameter", True),
        ("wing.planes", False),
        ("wing.dihedral", False),
        ("wheel track", False),
        ("wing", False),
    ],
)
def test_a_key_that_holds_a_length(key, holds):
    assert holds_length(key) is holds


def test_a_known_dimension_that_was_not_read():
    found = scale(measured(DRAWING, ["known.door=2 ft"]))
    assert found.remarks[0] == "door is known and was not read: it says nothing of the scale."
    assert not any("door" in remark for remark in found.remarks[1:])


def test_few_conditions_leave_the_usual_distortion_in_the_errors(drawing):
    assert scale(drawing).remarks[-1] == (
        "Local distortion: 5 conditions tell how much the paper has warped, so that about 0.2 %, usual of copies "
        "(common practice, no source), counts too; read more dimensions in two views, or give distortion in the file."
    )
    assert scale(measured(DRAWING, ["distortion=0"])).remarks[-1].startswith("Repeats check")


def refused(*settings):
    with pytest.raises(InputError) as caught:
        measured(DRAWING, settings)
    return str(caught.value)


def test_wrong_readings_are_told_in_the_words_of_the_file():
    assert refused("reading.1.values=['535 mm', '-1 mm']", "reading.2.view=pla", "known.wing.span=28").split("\n") == [
        f'{DRAWING}:11: known: wing.span must have a unit, as in "28 ft 1 in ± 1/4 in", got "28"',
        'set reading.1.values: must be above 0 and at most 100000 mm, got "-1 mm"',
    ]
    assert refused("reading.2.view=pla") == (
        f'{DRAWING}:22: reading: view of number 2 must be one of plan, side, front, got "pla"; did you mean plan?'
    )
    assert refused("reading.2.dimension=wing.span", "reading.2.axis=across") == (
        f"{DRAWING}:22: reading: number 2 reads wing.span across plan a second time"
    )
    assert refused("reading.1.values=[]") == ('set reading.1.values: must hold at least one reading, as in "14.02 in"')


def test_no_such_drawing():
    with pytest.raises(InputError) as caught:
        measured("tolgate")
    assert str(caught.value) == ("tolgate: is neither a file nor a bundled drawing (tollgate); did you mean tollgate?")


@pytest.mark.parametrize(
    ("length_m", "text"),
    [
        (8.5598, "28 ft 1.00 in"),
        (0.1841, "7.25 in"),
        (0.30479, "1 ft 0.00 in"),
        (-0.4572, "-1 ft 6.00 in"),
        (0.0, "0.00 in"),
    ],
)
def test_feet_and_inches(length_m, text):
    assert feet_inches(length_m) == text
