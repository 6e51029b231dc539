"""The PDF engine: what is printed as it is, what is taken in, and what a fault says."""

import io

import pytest
from pypdf import PdfReader

from sim.errors import NoAnswerError
from viz.files.typst import FAMILIES, pdf, string, text

SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm"><path d="M0 0H90V50H0Z"/></svg>'
AWKWARD = '#let x = 1 *b* _i_ $y$ @z <l> [c] {d} = -- "q" \\ // /* ~ `r` #pagebreak()'


def read(made: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(made))


def words(made: bytes) -> str:
    return "\n".join(page.extract_text() for page in read(made).pages)


def test_markup_is_typeset_and_user_text_is_printed_as_it_is():
    made = pdf("#set page(width: 400mm)\n= Heading\n" + text(AWKWARD) + ".upper()[z]")
    assert len(read(made).pages) == 1
    assert " ".join(words(made).split()) == f"Heading {AWKWARD}.upper()[z]"


def test_a_string_of_code_holds_any_letter():
    made = pdf(f"#let given = {string(AWKWARD)}\n#set page(width: 400mm)\n#given #given.len()")
    assert " ".join(words(made).split()) == f"{AWKWARD} {len(AWKWARD)}"


@pytest.mark.parametrize("odd", ["\x00\x07", "\ud800", "\u202e", "漢字", "a\r\n\tb", ""])
def test_letters_that_no_font_has_do_no_harm(odd):
    assert words(pdf(text(odd) + " after")).endswith("after")


def test_same_source_same_bytes_and_no_date():
    source = "#set document(title: [Tollgate])\n= Heading"
    assert pdf(source) == pdf(source)
    assert read(pdf(source)).metadata == {"/Title": "Tollgate", "/Creator": read(pdf(source)).metadata.creator}


def test_the_pdf_is_tagged_and_carries_its_fonts():
    reader = read(pdf("".join(f"#text(font: {string(family)})[x]" for family in FAMILIES)))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] == True  # noqa: E712 (a PDF truth value)
    assert "/StructTreeRoot" in root
    fonts = reader.pages[0]["/Resources"]["/Font"].values()
    inner = [font["/DescendantFonts"][0]["/FontDescriptor"] for font in fonts]
    assert len(inner) == len(FAMILIES)
    assert all("/FontFile2" in each or "/FontFile3" in each for each in inner)


def test_a_picture_goes_in_as_lines_not_as_dots():
    made = pdf('#image(file("square.svg"), alt: "a square")', {"square.svg": SQUARE})
    resources = read(made).pages[0]["/Resources"]
    assert "/Image" not in [each["/Subtype"] for each in resources.get("/XObject", {}).values()]
    assert b"a square" in made


@pytest.mark.parametrize(
    ("source", "told"),
    [
        ("Fine.\n#nowhere", "unknown variable: nowhere (line 2 of the source)"),
        ('#image(file("no.svg"))', 'dictionary does not contain key "no.svg"'),
        ('#image(file("broken.svg"))', "unknown image format (line 1 of the source)"),
    ],
)
def test_a_fault_is_a_sentence_with_its_line(source, told):
    with pytest.raises(NoAnswerError) as caught:
        pdf(source, {"broken.svg": "<svg"})
    assert str(caught.value).startswith(f"the PDF cannot be typeset: {told}")
    assert str(caught.value).endswith("this is a fault of the program, please report it together with the scenario")
