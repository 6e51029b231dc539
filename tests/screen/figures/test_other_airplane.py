"""A figure with another airplane: its lines at its own numbers in the second stroke, named; or a sentence."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from matplotlib.backends.backend_agg import FigureCanvasAgg

import sim
from viz.figures.complete import Other, complete
from viz.figures.inks import INKS
from viz.figures.other_airplane import DRAWN_BY_LINES, SECOND_STROKE, THINNER
from viz.figures.sheet import arrange

ASKED = {
    "balance": sim.balance,
    "compare": sim.compare,
    "cooling": sim.cooling,
    "handling": sim.handling,
    "maneuver": lambda file: sim.maneuver(file, "blip", flown_s=2.0),
    "modes": lambda file: sim.modes(file, banks_deg=(0.0, -37.0)),
    "propeller": sim.propeller,
    "speeds": sim.speeds,
}


@pytest.fixture(scope="module", params=ASKED)
def both(request):
    """Return the name, the figures of the biplane and of the parasol alone, and that of both."""
    name = request.param
    first, second = (ASKED[name](file) for file in (BIPLANE, PARASOL))
    alone = [complete(name, answer, "si") for answer in (first, second)]
    return name, *alone, complete(name, first, "si", Other("the parasol", second))


def points(line):
    return [list(map(str, values)) for values in line.get_data()]  # as text, since no NaN equals another


def drawn_lines(panel):
    return [line for line in panel.get_lines() if len(line.get_data()[0])]


def test_the_other_stands_in_each_panel_at_its_own_numbers(both):
    _, first, second, together = both
    for own, other, panel in zip(first.axes, second.axes, together.axes, strict=True):
        ours, theirs, whole = (drawn_lines(one) for one in (own, other, panel))
        assert [points(line) for line in whole] == [points(line) for line in (*ours, *theirs)]
        for line, copy in zip(theirs, whole[len(ours) :], strict=True):
            assert copy.get_linewidth() == pytest.approx(THINNER * line.get_linewidth())
            if line.get_marker() not in ("None", ""):
                assert copy.get_fillstyle() == "left"
        for low, high, limits in ((*sorted(panel.get_xlim()), other.get_xlim()), (*panel.get_ylim(), other.get_ylim())):
            assert low <= min(limits) <= max(limits) <= high


def test_the_legend_names_the_stroke_and_what_the_first_has_not(both):
    _, first, second, together = both
    (legend,) = (legend for legend in together.legends if legend not in first.legends)
    told = [" ".join(text.get_text().split()) for text in legend.get_texts()]
    assert told[0] == SECOND_STROKE.format(name="the parasol")

    def labels(figure):
        every = [line.get_label() for panel in figure.axes for line in panel.get_lines()]
        return [label for label in dict.fromkeys(every) if label and not label.startswith("_")]

    new = [label for label in labels(second) if label not in labels(first)]
    drawn = {line.get_label() for panel in second.axes for line in drawn_lines(panel)}
    assert told[1:] == [f"the other: {label}" for label in new if label in drawn]


def test_what_the_first_has_too_keeps_its_ink_and_what_it_has_not_gets_another(both):
    name, first, second, together = both
    for own, other, panel in zip(first.axes, second.axes, together.axes, strict=True):
        inks = {line.get_label(): line.get_color() for line in own.get_lines()}
        count = len(drawn_lines(own))
        for line, copy in zip(drawn_lines(other), drawn_lines(panel)[count:], strict=True):
            label = line.get_label()
            if label in inks and not label.startswith("_"):
                assert copy.get_color() == inks[label]
            elif label.startswith(("flat_six", "upright_four")) and name != "maneuver":
                assert copy.get_color() in set(INKS) - {ink for text, ink in inks.items() if not text.startswith("_")}


def test_the_legend_keeps_clear_of_the_axes_and_the_cautions(both):
    *_, together = both
    renderer = FigureCanvasAgg(together).get_renderer()
    arrange(together)
    together.draw_without_rendering()
    legend = together.legends[-1].get_window_extent(renderer)
    lowest = min(panel.get_tightbbox(renderer).y0 for panel in together.axes)
    assert legend.y1 <= lowest + 2.0
    assert legend.y0 >= 0.0
    (words,) = (text for text in together.texts if text.get_text() == together.get_supxlabel())
    cautions = words.get_text().lstrip("\n").count("\n") + 1
    assert legend.y0 >= words.get_window_extent(renderer).y0 + 6.0 * cautions


@pytest.mark.parametrize("name", ["burst", "layout", "mount"])
def test_a_figure_that_cannot_draw_it_says_so(name):
    ask = {"burst": lambda file: sim.burst(file, rounds=2000), "layout": sim.layout, "mount": sim.mount}[name]
    first, second = (ask(file) for file in (BIPLANE, TRIPLANE))
    figure = complete(name, first, "si", Other("the triplane", second))
    told = " ".join(figure.get_supxlabel().split())
    sentence = "the triplane, the other airplane, is not drawn in this figure: what differs stands in the sheet. "
    assert told == sentence + " ".join(complete(name, first, "si").get_supxlabel().split())
    assert name not in DRAWN_BY_LINES


def test_panels_that_the_other_has_not_are_told():
    first, second = (sim.modes(file, banks_deg=banks) for file, banks in ((BIPLANE, (0.0, 30.0)), (PARASOL, (0.0,))))
    figure = complete("modes", first, "us", Other("the parasol", second))
    assert figure.get_supxlabel().startswith("the parasol, the other airplane, is not drawn")
