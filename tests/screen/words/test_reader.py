"""Sheets, figures and reports in the language of their reader."""

import pickle

import pytest

from sim.told import told
from viz.sheets.blocks import Column, Value, say
from viz.sheets.from_sim import in_either_system
from viz.sheets.text import head_of, text_of
from viz.words import reader
from viz.words.reader import axis_label, language, numbered, reading, tell, worded

WORDS = {
    "{name}: modes": "Modes : {name}",
    "engine": "moteur",
    "nose up": "nez vers le haut",
    "the {part} meets the {other}": "{other} touche {part}",
    "{thing} of {size}": "{thing}, {size}",
    "Bank": "Inclinaison",
    "rpm": "tr/min",
    "bank angle": "inclinaison",
    "{meaning}, {sign} positive": "{meaning}, positif {sign}",
    "right": "à droite",
}


@pytest.fixture
def french(monkeypatch):
    monkeypatch.setattr(reader, "phrases", lambda language: WORDS if language == "french" else {})
    with reading("french"):
        yield


def test_the_language_is_that_of_the_document_and_ends_with_it():
    with reading("french"):
        assert language() == "french"
    assert language() == "english"


@pytest.mark.usefixtures("french")
def test_phrases_are_looked_up_and_slots_filled_in_the_order_of_the_language():
    assert worded("engine") == "moteur"
    assert worded("Tollgate single-seater") == "Tollgate single-seater"
    assert tell("{thing} of {size}", thing="engine", size="7.5 kg") == "moteur, 7,5 kg"
    assert text_of(say("{name}: modes", name="flat-four"), "si") == "Modes : flat-four"
    assert head_of(Column("Bank", (), quantity="bank_deg"), "si") == "Inclinaison [°]"


@pytest.mark.usefixtures("french")
def test_numbers_have_the_marks_and_signs_the_words_of_the_language():
    assert text_of(Value("pitch_n_m", 7.25, signed=True, decimals=2), "si") == "7,25 N m nez vers le haut"


def test_english_is_what_stands_in_the_code():
    assert text_of(say("{name}: modes", name="flat-four"), "si") == "flat-four: modes"
    assert text_of(Value("pitch_n_m", 7.25, signed=True, decimals=2), "si") == "7.25 N m nose up"


def test_a_sentence_of_the_physics_keeps_its_template_in_another_process():
    sentence = pickle.loads(pickle.dumps(told("the {part} meets the {other}", part="cam", other=3)))
    assert (sentence, sentence.template, sentence.values) == (
        "the cam meets the 3",
        "the {part} meets the {other}",
        {"part": "cam", "other": "3"},
    )


@pytest.mark.usefixtures("french")
def test_a_sentence_of_the_physics_is_told_in_the_language_and_units_of_its_reader():
    sentence = told("{thing} of {size}", thing="engine", size="76.2 mm (3 in)")
    for cell in (sentence, in_either_system(sentence), say("{it}", it=sentence)):
        assert [text_of(cell, units) for units in ("si", "us")] == ["moteur, 76,2 mm", "moteur, 3 in"]
    assert worded(told("the {part} meets the {other}", part="cam", other="base")) == "base touche cam"


def test_an_axis_says_the_unit_of_the_reader():
    assert axis_label("speed_m_s") == "true airspeed [m/s]"
    assert axis_label("speed_m_s", "us") == "true airspeed [mph]"
    assert axis_label("polar_inertia_kg_m2") == "polar moment of inertia about the shaft [kg m²]"
    assert axis_label("load_factor", "us") == "load factor"


@pytest.mark.usefixtures("french")
def test_an_axis_and_an_amount_have_the_words_of_the_language():
    assert axis_label("bank_deg") == "inclinaison, positif à droite [°]"
    assert axis_label("rpm").endswith("[tr/min]")
    assert [numbered(text) for text in ("1250 rpm", "7.5°", "2.5 kg", "rpm of 3")] == [
        "1250 tr/min",
        "7,5°",
        "2,5 kg",
        "rpm of 3",
    ]
