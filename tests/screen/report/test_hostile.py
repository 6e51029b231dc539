"""Names that try to be something else stay names: markup, quotes, right-to-left letters, pictures, great length."""

import io

import pytest

from viz.report.blocks import ReaderAnswer, Report, Section
from viz.report.page import page as page_of
from viz.sheets.blocks import Caution, Checklist, Picture, Points, Verbatim, rows, say

NAMES = {
    "markup": "<script>alert(1)</script><img src=x onerror=alert(2)>",
    "closing": "</title></style></svg></pre><h1>",
    "quotes": '"\' onmouseover="alert(1)" & &lt; \'>',
    "template": "{{ 7 * 7 }}{% raw %}",
    "mathematics": "$\\frac{1$ and $$ $x_{$",
    "right to left": "טייס שלום العربية",
    "pictures": "🛩️👩‍✈️🚫 ✈",
    "long": "x" * 500,
    "long words": "wide open " * 50,
}


@pytest.fixture(params=NAMES.values(), ids=NAMES.keys())
def report(request):
    """Return a report every string of which is hostile."""
    from viz.figures.complete import Drawing
    from viz.figures.inks import style
    from viz.figures.sheet import rendered, sheet

    name = request.param
    figure, (panel,) = sheet()
    panel.plot([0, 1], [0, 1], label=name[:80], **style(0))
    panel.set_title(name[:80])
    panel.legend()
    said = say("{name}", name=name)
    blocks = (
        said,
        Caution(name),
        Points((name, said)),
        Checklist(name, (name,)),
        Picture(lambda: Drawing(rendered(figure).decode(), 8.0), name, said),
        rows(name, (name, "", name), ((name, f"{name}\n{name}", ""),) * 3, name),
        Verbatim(name, name),
    )
    answers = (ReaderAnswer(name, name, (name,) * 5),)
    return Report(name, name, "0", (said,), answers, (Section("one", name, blocks),))


def test_a_page_shows_them_as_they_are(report, read):
    page = read(page_of(report, "us"))
    assert page.wrong == []
    assert not page.tags & {"script", "img", "raw"}
    assert not [name for _, attributes, _ in page.elements for name in attributes if name.startswith("on")]
    whole = " ".join(report.title.split())
    for tag, count in (("h1", 1), ("h3", 2), ("li", 9), ("pre", 1), ("caption", 1), ("figcaption", 1)):
        found = [words for _, words in page.all(tag) if whole in words]
        assert len(found) == count, tag
    (figure,) = page.all("svg")
    assert " ".join(figure[0]["aria-label"].split()) == whole
    drawn = [words for _, words in page.all("text")]
    assert drawn.count(" ".join(report.title[:80].split())) == 2


def test_paper_holds_them_within_its_edges(report):
    from pypdf import PdfReader

    from viz.report.document import document

    pages = PdfReader(io.BytesIO(document(report, "a4", "us"))).pages
    edge = float(pages[0].mediabox.width)
    places = []

    def note(words, _matrix, text_matrix, _font, _size):
        if words.strip():
            places.append(text_matrix[4])

    for page in pages:
        page.extract_text(visitor_text=note)
    assert places
    assert all(0.0 <= place <= edge for place in places)


@pytest.mark.slow
def test_a_scenario_of_hostile_names_is_reported(run, read, airplane, tmp_path):
    scenario, out = tmp_path / "odd.toml", tmp_path / "odd.html"
    title = "<script>alert(1)</script> \"' & $x_{ שלום 🛩️"
    engine = "r" * 40
    words = airplane.read_text(encoding="utf-8").replace('"Frozen test biplane"', f"'''{title}'''")
    words = words.replace('name = "upper wing"', f'name = "<b>{"upper wing " * 3}"')
    words = words.replace("[powerplant.rotary", f"[powerplant.{engine}")
    words = words.replace('"rotary"', f'"{engine}"').replace(f'kind = "{engine}"', 'kind = "rotary"')
    scenario.write_text(words, encoding="utf-8")
    done = run("report", scenario, "--out", out)
    assert done.exit_code == 0, done.stderr
    page = read(out.read_text(encoding="utf-8"))
    assert page.all("h1")[0][1] == title
    assert page.wrong == []
    assert not page.tags & {"script", "b"}
