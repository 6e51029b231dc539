"""An amount of a remark, which `sim` writes in both systems, is shown in the reader's own."""

import pytest

from viz.sheets.from_sim import remarks
from viz.sheets.text import text_of

SAID = (
    "key: the clearance is 76.2 mm (3 in); usual is from -741.3 mm (-29.19 in) to 6675 mm (262.8 in) (14 CFR 23.925, "
    "tail {wheel}). Check 2 of 3 (both)."
)


@pytest.mark.parametrize(
    ("units", "shown"),
    [
        ("us", "key: the clearance is 3 in; usual is from -29.19 in to 262.8 in (14 CFR 23.925, tail {wheel})."),
        ("si", "key: the clearance is 76.2 mm; usual is from -741.3 mm to 6675 mm (14 CFR 23.925, tail {wheel})."),
    ],
)
def test_each_reader_has_one(units, shown):
    ((cell,),) = remarks((SAID,)).rows()
    assert text_of(cell, units) == f"{shown} Check 2 of 3 (both)."


@pytest.mark.parametrize("text", ["no amount at all", "a share of 28.5 % (as given)", "1.8 kg m² of it"])
def test_other_words_stay(text):
    ((cell,),) = remarks((text,)).rows()
    assert text_of(cell, "us") == text_of(cell, "si") == text
