"""The page holds the answer first, the sections asked for, and stands on its own."""

import json
import re
from itertools import pairwise

import pytest
from shared import answer

from viz.report.handout import Handout
from viz.report.printed import printed

pytestmark = pytest.mark.slow

HEADINGS = [
    "The airplane and its mass",
    "The engine mount",
    "Handling in left and right turns",
    "Maneuvers",
    "Firing windows and rate",
    "The inert display",
    "Sensitivity to tolerances",
    "Assumptions and accuracy",
    "Cautions",
    "Reproduction",
]


def test_three_view_and_stage_stand_before_the_answers(text, page):
    first, second = (words for _, words in page.all("figcaption")[:2])
    assert first.startswith("Figure 1. Three-view of the airplane. The airplane from above, from the front and from")
    assert "span 28 ft" in first or "span 2" in first
    assert second.startswith("Figure 2. The same turn with both engines.")
    assert re.search(r"left at \d+\.\d mph the rotor of the rotary makes \d+ lbf ft nose up\.$", second)
    assert text.index("<image") < text.index('id="answer"') < text.index('id="sections"')


def test_five_sentences_for_each_of_three_readers_stand_first(text, page):
    readers = [words for _, words in page.all("h3")[:3]]
    assert readers == ["For the designer", "For the educator", "For the builder of a display"]
    answer = text[text.index('id="answer"') : text.index('id="sections"')]
    blocks = answer.split("<section")[1:]
    assert [block.count("<li>") for block in blocks] == [5, 5, 5]
    assert "No answer here" not in answer


def test_the_sections_in_their_order(page):
    assert [words for _, words in page.all("h2")] == ["The answer", "Sections", *HEADINGS]
    targets = [attributes["href"] for attributes, _ in page.all("a")]
    ids = [attributes["id"] for attributes, _ in page.all("h2")]
    assert targets == [f"#{place}" for place in ids[2:]]


def test_nothing_of_a_whole_scenario_is_left_out(text):
    assert "Left out" not in text


SHORT = ("per min", "Speed", "time", "Lead", "Windows", "Open", "Rounds")
"""Heads that a terminal makes short and the page prints in full."""


def to_targets(run, airplane):
    """Return the settings that put each engine at its own target, where it stands in the report."""
    moves = []
    for name in ("rotary", "flat_four"):
        way_m = json.loads(run("balance", airplane, "--powerplant", name, "--json").output)["engine_move_m"]
        moves += ["--set", f"powerplant.{name}.move={way_m!r} m"]
    return moves


def test_it_says_what_the_commands_say(run, page, airplane):
    words = " ".join(text for _, text in page.all("main"))
    handling = " ".join(run("handling", airplane, "--bands", *to_targets(run, airplane)).output.split())
    quoted = handling[handling.index("To balance the rotor in a level 45° turn") : handling.index(" Next: ")]
    assert printed(quoted) in words
    for command in (("mount",), ("windows", "--all")):
        for line in run(*command, airplane).output.splitlines():
            cells = [cell for cell in re.split(r"\s{2,}", line.strip()) if cell]
            if len(cells) > 4:
                assert all(printed(cell) in words for cell in cells if cell not in SHORT), line


def test_flights_carry_their_bands(run, page, airplane):
    """The reversal's largest values have below them the bands of the command; each section says what a band is."""
    words = " ".join(text for _, text in page.all("main"))
    assert words.count("Bands of 90 %: 256 airplanes drawn from") >= 2
    one = json.loads(run("maneuver", "reversal", airplane, "--bands", "--json", *to_targets(run, airplane)).output)[
        "flights"
    ][0]
    low, high = (round(one[f"peak_sideslip_{end}_deg"]) for end in ("low", "high"))
    assert f"{low} to {high}" in words


def test_it_needs_nothing_else_and_runs_nothing(text, page):
    assert not page.tags & {"script", "link", "img", "iframe", "object", "base", "form"}
    assert not re.search(r"url\((?!#)|@import|javascript:", text)
    names = {name for _, attributes, _ in page.elements for name in attributes}
    assert not [name for name in names if name.startswith("on") or name in ("src", "srcset")]
    (policy,) = [a["content"] for a, _ in page.all("meta") if a.get("http-equiv") == "Content-Security-Policy"]
    assert policy == "default-src 'none'; img-src data:; style-src 'unsafe-inline'"


def test_every_element_closes_and_every_id_is_its_own(page):
    assert page.wrong == []
    ids = [attributes["id"] for _, attributes, _ in page.elements if "id" in attributes]
    assert len(ids) == len(set(ids))


def test_what_a_figure_points_to_is_in_it(text):
    for svg in re.findall(r"<svg.*?</svg>", text, re.DOTALL):
        ids = set(re.findall(r'\bid="([^"]+)"', svg))
        wanted = set(re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', svg))
        assert {one or other for one, other in wanted} <= ids


def test_figures_have_words_and_text_as_text(text, page):
    figures = page.all("svg")
    assert len(figures) >= 12
    assert all(attributes["role"] == "img" and len(attributes["aria-label"]) > 60 for attributes, _ in figures)
    drawn = [svg for svg in re.findall(r"<svg.*?</svg>", text, re.DOTALL) if "<image" not in svg]
    assert len(drawn) == len(figures) - 1
    assert all(svg.count("<text") > 5 for svg in drawn)
    captions = [words for _, words in page.all("figcaption")]
    assert [int(words.split(".")[0].removeprefix("Figure ")) for words in captions] == [*range(1, len(figures) + 1)]


def test_no_name_of_a_key_is_printed_but_in_commands_and_files(text):
    body = re.sub(r"<(style|code|pre)\b.*?</\1>", "", text[: text.index('id="again"')], flags=re.DOTALL)
    words = " ".join(re.sub(r"<[^>]+>", " ", body).split())
    assert re.findall(r"\b[a-z]+(?:_[a-z0-9]+)+\b", words) == []
    assert re.findall(r"\b(?:powerplant|item|wing|mount|weighing)\.[a-z]\w+", words) == []
    assert "flat four" in words


def test_the_scenario_is_folded_up(text, airplane):
    (folded,) = re.findall(r"<details>.*?</details>", text, re.DOTALL)
    assert f"<summary>Scenario: {airplane.name}</summary>" in folded
    assert "open" not in folded[: folded.index(">")]


def test_headings_go_down_one_step_at_a_time(page):
    levels = [int(tag[1]) for tag, _, _ in page.elements if re.fullmatch(r"h\d", tag)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_language_title_and_telephone(page):
    assert page.all("html")[0][0]["lang"] == "en"
    assert page.all("title")[0][1] == "Frozen test biplane: report"
    assert {"name": "viewport", "content": "width=device-width, initial-scale=1"} in [a for a, _ in page.all("meta")]


def test_tables_say_what_their_heads_are_heads_of(page):
    assert len(page.all("table")) == len(page.all("caption")) > 15
    assert {attributes["scope"] for attributes, _ in page.all("th")} == {"col", "row"}
    assert all(words for _, words in page.all("caption"))
    assert not [words for attributes, words in page.all("th") if attributes["scope"] == "col" and not words]


def test_cautions_stand_in_it(page):
    words = page.all("body")[0][1]
    for caution in (
        "Estimates, not approved data: a licensed engineer or mechanic and the local authority decide.",
        "For history and for timing an inert display only; not a guide to building or altering a gun.",
        "at most three flashes a second",
        "Ask first about the rules on replica firearms.",
        "clamp the plate before it is cut",
    ):
        assert caution in words


def test_how_to_get_it_again(page, airplane):
    command, scenario = [words for _, words in page.all("pre")]
    assert command == f"whirlgate --units us report {airplane} --out report.html"
    assert scenario == " ".join(airplane.read_text(encoding="utf-8").split())


def words_of(text):
    return " ".join(re.sub(r"<[^>]+>", " ", re.sub(r"<style.*?</style>", "", text, flags=re.DOTALL)).split())


def test_the_handout_speaks_to_visitors(files, reported):
    """No name of a key, no chart of an engineer; the numbers are those of the studies."""
    text = (files / "handout.html").read_text(encoding="utf-8")
    assert text.index("<svg") < text.index("<image") < text.index("At full speed")
    words = words_of(text)
    assert not re.findall(r"\b[a-z]+_[a-z]+", words)
    assert not re.search(r"lbf|slug|Left out|flat", words)
    compared = answer("compare")
    spun = max(compared.powerplants.values(), key=lambda one: one.momentum_ratio)
    assert f"{spun.momentum_ratio:.2g} times as much spin" in words
    name = next(each for each, one in compared.powerplants.items() if one is spun)
    full = [row for row in answer("windows").rows if row.powerplant == name][-1]
    passing, lead = (re.search(said, words)[1] for said in (r"gun (\d+) times a second", r"turns on by (\d+) ?°"))
    assert (int(passing), int(lead)) == (round(1e3 / full.blade_interval_ms), round(full.lead_deg))
    feet = re.search(r"his feet: (\d+) % of the rudder in that left turn, with the other engine (\d+) %", words)
    shares = [one.left_rudder_share for one in (reported[1].summary.first, reported[1].summary.second)]
    assert [int(feet[1]), int(feet[2])] == [round(100.0 * abs(share)) for share in shares]


@pytest.mark.parametrize(
    ("language", "code", "told"),
    [("french", "fr", r"comme un enfant de \d+ kg"), ("german", "de", r"ein Kind von \d+ kg")],
)
def test_the_handout_in_other_languages_is_metric_with_decimal_commas(reported, language, code, told):
    text = Handout(reported[1], language, "si").page("https://museum.example/page.html")
    words = words_of(text).replace("\u00a0", " ")
    assert f'<html lang="{code}">' in text
    assert re.search(told, words)
    assert re.search(r"\d,\d m\b", words)
    assert not re.search(r"\d\.\d(?!\d\d\b)| lb\b| ft\b| mph", words)
    assert "https://museum.example/page.html" in words
    assert text.count("<svg") == 4
