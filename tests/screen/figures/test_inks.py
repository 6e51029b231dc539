"""One look: the rotary warm and the fixed engine cool in every figure, as on the stage, whichever the file names first.

What must be told apart on paper is by lightness too, 3 : 1 (WCAG 2, 1.4.11), for every kind of eyes and in grey.
"""

import colorsys
import inspect
import pkgutil
import re
from importlib import import_module

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from matplotlib.colors import to_hex
from stage_eyes import worst

import viz.figures
from sim.model.model import Model, model
from sim.scenario.reading import load
from viz.figures.inks import (
    COMPRESSION,
    ENGINES,
    INKS,
    MARKS,
    NEUTRAL,
    SERIES,
    STROKES,
    TENSION,
    WARNING,
    engine_places,
    family,
    series,
)
from viz.stage.palette import ROLES

WHITE = (255, 255, 255)
SAME_HUE_DEG = 2.0


def rgb(ink):
    return tuple(int(ink[i : i + 2], 16) for i in (1, 3, 5))


def hue_deg(colour):
    return 360.0 * colorsys.rgb_to_hsv(*(part / 255.0 for part in colour))[0]


@pytest.mark.parametrize("kind", ENGINES)
def test_engines_have_the_hue_that_they_have_on_the_stage(kind):
    for place in ENGINES[kind]:
        assert hue_deg(rgb(INKS[place])) == pytest.approx(hue_deg(ROLES[kind][0]), abs=SAME_HUE_DEG)


def test_the_first_of_each_kind_and_tension_and_compression_are_told_apart_by_any_eyes():
    for one, other in (
        (INKS[ENGINES["rotary"][0]], INKS[ENGINES["fixed"][0]]),
        (TENSION["color"], COMPRESSION["color"]),
    ):
        assert worst(rgb(one), rgb(other)) >= 3.0
        assert min(worst(rgb(ink), WHITE) for ink in (one, other)) >= 3.0
    assert TENSION["linestyle"] != COMPRESSION["linestyle"]


def test_what_is_no_engine_has_none_of_their_inks():
    engines = {INKS[place] for places in ENGINES.values() for place in places}
    others = {*(INKS[place] for place in SERIES), TENSION["color"], COMPRESSION["color"], WARNING}
    assert not engines & others
    for ink in others - {NEUTRAL}:
        off = [abs((hue_deg(rgb(ink)) - hue_deg(ROLES[kind][0]) + 180.0) % 360.0 - 180.0) for kind in ENGINES]
        assert min(off) > 10.0, ink
    assert worst(rgb(WARNING), WHITE) >= 4.5


def test_every_place_belongs_to_one_family_and_has_its_own_ink_stroke_and_mark():
    assert sorted(place for kind in {*map(family, range(len(INKS)))} for place in kind) == list(range(len(INKS)))
    assert len(set(INKS)) == len(STROKES) == len(MARKS) == len(INKS)
    engines = [place for places in ENGINES.values() for place in places]
    for places in (engines, SERIES):
        for told in (STROKES, MARKS):
            assert len({str(told[place]) for place in places}) == len(places)
    assert [series(index) for index in range(8)] == [*SERIES, *SERIES[:2]]


def test_a_fourth_engine_of_a_kind_looks_like_the_first():
    places = engine_places({f"nine_{number}": "rotary" for number in range(4)})
    assert list(places.values()) == [*ENGINES["rotary"], ENGINES["rotary"][0]]


def asked(name, airplane):
    """Return the answer of a study, short where it flies."""
    module = import_module(f"sim.studies.{name}")
    more = {
        "handling": {"banks_deg": (-30.0, 0.0, 30.0)},
        "maneuver": {"name": "blip", "flown_s": 2.0},
        "modes": {"banks_deg": (0.0,)},
        "stall": {"banks_deg": (0.0,)},
        "field": {"surface": "short grass"},
    }.get(name, {})
    return getattr(module, name)(airplane, **more)


ASKED = {
    "compare": "compare",
    "field": "field",
    "handling": "handling",
    "handling_forces": "handling",
    "maneuver": "maneuver",
    "modes": "modes",
    "propeller": "propeller",
    "speeds": "speeds",
    "stall": "stall",
}
"""Figure -> the study that it is drawn from."""


def test_every_figure_with_engines_is_asked_for():
    modules = {one.name: import_module(f"viz.figures.{one.name}") for one in pkgutil.iter_modules(viz.figures.__path__)}
    drawn = {
        name for name, module in modules.items() if name != "inks" and "engine_places(" in inspect.getsource(module)
    }
    assert drawn == set(ASKED)


def turned_round():
    """Return an airplane on its wheels whose file names the fixed engine first."""
    scenario = load(BIPLANE)
    return Model(scenario.model_copy(update={"powerplant": dict(reversed(scenario.powerplant.items()))}))


def shown(figure, kinds):
    """Return the colours of every line and bar that a legend calls by an engine, by its kind."""
    found = {kind: set() for kind in ENGINES}
    for panel in figure.axes:
        lines = [(str(line.get_label()), line.get_color()) for line in panel.get_lines()]
        bars = [(str(box.get_label()), box[0].get_facecolor()) for box in panel.containers if hasattr(box, "patches")]
        for label, colour in (*lines, *bars):
            named = [name for name in kinds if re.match(rf"{name}\b", label)]
            if named and colour != NEUTRAL:
                found[kinds[named[0]]].add(to_hex(colour))
    return found


@pytest.mark.parametrize("name", [name for name in ASKED if name != "handling_forces"])
@pytest.mark.parametrize("file", [TRIPLANE, PARASOL], ids=["rotary first", "fixed first"])
def test_the_rotary_is_warm_and_the_fixed_engine_cool_in_every_figure(name, file):
    airplane = turned_round() if name == "field" and file == PARASOL else model(file)
    answer = asked(ASKED[name], airplane)
    found = shown(import_module(f"viz.figures.{name}").draw(answer, "si"), airplane.engine_kinds)
    for kind, colours in found.items():
        assert colours, kind
        assert colours <= {INKS[place] for place in ENGINES[kind]}
