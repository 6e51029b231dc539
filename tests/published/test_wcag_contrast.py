"""WCAG 2.x, contrast ratio and success criterion 1.4.3: 4.5 for text. Mark P."""

import pytest

from sim.display.guard import TEXT_CONTRAST, contrast


@pytest.mark.parametrize(
    ("ink", "ratio"), [("#767676", "4.542"), ("#777777", "4.478"), ("#000000", "21.000"), ("#ffffff", "1.000")]
)
def test_grey_on_white(ink, ratio, printed):
    printed(contrast(ink, "#ffffff"), ratio, row=f"{ink} on white")


def test_the_limit_lies_between_the_two_greys(printed):
    printed(TEXT_CONTRAST, "4.5", row="least contrast of text", exact=True)
    assert contrast("#777777", "#ffffff") < TEXT_CONTRAST < contrast("#767676", "#ffffff")
