"""The PDF: every page numbered on both papers, figures as lines, text that can be found, the same bytes again."""

import pytest
from letters_on_paper import letters
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


def test_figures_are_lines_and_one_is_a_picture(document, texts, page):
    assert len([image for leaf in document.pages for image in leaf.images]) == 1
    words = "".join(texts).replace("\u00a0", " ")
    assert "true airspeed [mph]" in words
    assert all(f"Figure {number}." in words for number in range(1, len(page.all("svg")) + 1))


def test_no_letter_is_under_8_points_or_off_the_paper(files):
    assert letters(files / "report.pdf") == ({}, 0)


def test_a_small_letter_would_be_found(tmp_path):
    from viz.files.typst import pdf

    (tmp_path / "small.pdf").write_bytes(pdf("#set page(width: 90mm, height: 40mm)\n#text(size: 7pt)[tiny] large"))
    assert letters(tmp_path / "small.pdf") == ({7.0: 4}, 0)


def test_the_scenario_is_attached_and_not_printed(document, texts, airplane):
    (kept,) = document.attachments.values()
    assert kept == [airplane.read_bytes()]
    assert not any("[powerplant.rotary]" in text for text in texts)


def test_it_is_tagged_with_words_for_every_figure_and_its_fonts_inside(document, page):
    root = document.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    alternatives = [one for one in tags(root["/StructTreeRoot"]) if one.get("/S") == "/Figure"]
    assert [len(one["/Alt"]) > 60 for one in alternatives] == [True] * len(page.all("svg"))
    fonts = [font.get_object() for leaf in document.pages for font in leaf["/Resources"].get("/Font", {}).values()]
    assert fonts
    for font in fonts:
        under = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(under["/FontDescriptor"].get_object())


def tags(node):
    """Yield every element of the tree of tags."""
    node = node.get_object()
    children = node.get("/K", []) if hasattr(node, "get") else []
    yield from [node] if hasattr(node, "get") else []
    for child in children if isinstance(children, list) else [children]:
        if hasattr(child.get_object(), "get"):
            yield from tags(child)


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
