"""A derivation can be read in a terminal, set by a typesetter and handed out as a page."""

import json
import re
from html.parser import HTMLParser

import pytest
from airplanes import TRIPLANE

from viz.commands.derive import TOPICS
from viz.sheets.derive import symbol


class Outline(HTMLParser):
    """Collects the tags and the text of a page."""

    def __init__(self):
        super().__init__()
        self.tags, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)


@pytest.mark.parametrize("topic", TOPICS)
def test_terminal(run, topic):
    shown = run("derive", topic)
    assert shown.exit_code == 0
    assert "Results" in shown.output
    caution = "For history" if topic in ("windows", "rate") else "not approved data"
    assert caution in shown.output


def test_latex(run):
    assert r"\[ \omega = \frac{g \sin{\left(\phi \right)}" in run("derive", "turn", "--latex").output


@pytest.mark.parametrize("topic", ["couple", "turn", pytest.param("modes", marks=pytest.mark.slow), "windows", "rate"])
def test_latex_needs_no_letter_that_its_text_fonts_lack(run, topic):
    source = run("derive", topic, "--latex", "--powerplant", "flat_four").output
    assert source.isascii()
    assert not re.search(r"(?<!\\)[%&#]", re.sub(r"\\\[.*?\\\]", "", source, flags=re.DOTALL))
    assert r"flat\_four" in source


def test_the_page_stands_alone(run, tmp_path):
    page = tmp_path / "couple.html"
    assert run("derive", "couple", "--html", page).exit_code == 0
    outline = Outline()
    outline.feed(page.read_text())
    tags = [tag for tag, _ in outline.tags]
    assert ("html", {"lang": "en"}) in outline.tags
    assert tags.count("math") == 7
    assert not {"script", "link", "img"} & set(tags)


def test_json_holds_steps_numbers_and_results(run):
    answer = json.loads(run("derive", "rate", "--json").output)
    assert set(answer) == {"title", "steps", "numbers", "results", "cautions"}
    assert [result["name"] for result in answer["results"]] == [
        "rounds_per_min",
        "rounds_per_pattern",
        "intervals_per_pattern",
    ]


def test_a_wrong_topic(run):
    shown = run("derive", "trn")
    assert shown.exit_code == 2
    assert shown.stderr == (
        'topic: must be couple or turn or modes or windows or rate, got "trn"; did you mean turn?\n'
    )


@pytest.mark.parametrize(("written", "shown"), [("lambda_1", "λ1"), ("Omega", "Ω"), ("I_p", "Ip"), ("mu", "μ")])
def test_symbols_are_written_as_people_do(written, shown):
    assert symbol(written) == shown


def test_the_sheet_as_a_whole(run, snapshot):
    assert run("derive", "couple", TRIPLANE).output == snapshot


def test_a_page_has_the_ending_of_one(run):
    result = run("derive", "couple", "--html", "couple.txt")
    assert (result.exit_code, result.stderr) == (2, '--html: must end in .html or .htm, got "couple.txt"\n')
