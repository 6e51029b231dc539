"""The PDF: every page numbered on both papers, figures as lines, text that can be found, the same bytes again."""

import pytest
from pypdf import PdfReader

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def document(files):
    return PdfReader(files / "report.pdf")


@pytest.fixture(scope="module")
def texts(document):
    """Return the words of each page."""
    return [leaf.extract_text() for leaf in document.pages]


def test_it_holds_what_the_page_holds(document, texts, page):
    words = " ".join("".join(texts).split())
    for _, heading in page.all("h2"):
        assert heading == "Sections" or heading in words
    found = [one.title for one in document.outline if not isinstance(one, list)]
    assert found == [heading for _, heading in page.all("h2") if heading != "Sections"]


def test_every_page_carries_caution_and_number(texts):
    whole = len(texts)
    for number, text in enumerate(texts, start=1):
        assert f"{number} of {whole}" in text
        assert "Estimates, not approved data" in text


def test_figures_are_lines_not_pictures(document, texts, page):
    assert not [image for leaf in document.pages for image in leaf.images]
    words = "".join(texts).replace("\u00a0", " ")
    assert "true airspeed [mph]" in words
    assert all(f"Figure {number}." in words for number in range(1, len(page.all("svg")) + 1))


def test_it_says_language_title_and_no_date(document):
    assert document.trailer["/Root"]["/Lang"] == "en"
    assert document.metadata.title == "Frozen test biplane"
    assert document.metadata.creation_date is None


def test_paper_goes_by_units_or_as_asked(files):
    from viz.report.blocks import Report
    from viz.report.document import document

    empty = Report("title", "", "0", (), (), ())
    assert [float(x) for x in PdfReader(files / "report.pdf").pages[0].mediabox[2:]] == [612.0, 792.0]
    import io

    (leaf,) = PdfReader(io.BytesIO(document(empty, "a4", "si"))).pages
    assert [float(x) for x in leaf.mediabox[2:]] == pytest.approx([595.28, 841.89], abs=0.005)
    assert document(empty, "a4", "si") == document(empty, "a4", "si")
