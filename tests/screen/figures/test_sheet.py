"""The look of every figure: told apart by stroke as well as ink, dark enough, and the same bytes every time."""

import pytest

from sim.errors import InputError
from viz.figures.inks import INKS, SERIES, style
from viz.figures.sheet import rendered, save, sheet


def luminance(colour: str) -> float:
    """Return the relative luminance of WCAG 2.2 (definition "relative luminance")."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of WCAG 2.2, success criterion 1.4.3."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_contrast_formula():
    """WCAG: #767676 on white 4.542, #777777 on white 4.478."""
    assert contrast("#767676", "#ffffff") == pytest.approx(4.542, abs=5e-4)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.478, abs=5e-4)


@pytest.mark.parametrize("ink", [INKS[place] for place in SERIES])
def test_ink_is_dark_enough_for_text_on_paper(ink):
    assert contrast(ink, "#ffffff") >= 4.5


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_the_same_figure_gives_the_same_bytes(ending):
    def drawn():
        figure, (ax,) = sheet()
        ax.plot([0, 1], [0, 1], **style(0))
        return rendered(figure, ending)

    assert drawn() == drawn()


def test_an_unknown_ending_is_refused(tmp_path):
    figure, _ = sheet()
    with pytest.raises(InputError) as refusal:
        save(figure, tmp_path / "answer.jpg")
    assert str(refusal.value) == f'--figure: a figure ends in .svg, .png or .pdf, got "{tmp_path / "answer.jpg"}"'
