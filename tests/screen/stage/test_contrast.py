"""What must be told apart is, for every kind of eyes and in grey, measured on pictures of the stage.

Words and their ground 4.5 : 1, everything else 3 : 1 (WCAG 2, 1.4.3 and 1.4.11). Colour alone tells nothing: rotary
and fixed engine, now and not now, passed and struck differ in outline, hatch or shape as well, and in words.
"""

import itertools

import numpy as np
import pygame
import pytest
from stage_eyes import EYES, ratio, worst
from stage_fit import inked, walk
from stage_shapes import flown_through, later

from viz.stage.controls import widgets
from viz.stage.gun_states import crossing
from viz.stage.layout import layout
from viz.stage.lettering import Lettering
from viz.stage.palette import colour
from viz.stage.scenes.rounds import places
from viz.stage.scenes.scene import draw
from viz.stage.shapes import Rect, Text
from viz.stage.show import Setting, Show
from viz.stage.snapshot import SCENES, Looks
from viz.stage.widgets import Button, Slider

WORDS, THINGS = 4.5, 3.0
STATES = [
    *itertools.product(SCENES, ("", "attract")),
    ("turning", "rings"),
    ("turning", "compared"),
    *(("blades", state) for state in ("settings", "menu", "devices", "help", "caution")),
]
QUICK = ((1280, 720), 0)
MOMENTS = ("close", "held", "clear")
LOOKS = [QUICK, ((1024, 600), 2), ((1080, 1920), 0), ((1536, 2048), 1), ((1920, 1080), 0), ((3840, 2160), 0)]


def taken(stage, scene, state, contrast, size, font):
    """Return a picture of the stage as an array (width, height, 3), its shapes, and what can be touched on it."""
    show = Show(
        stage, Setting(Looks("english", contrast, font), scene, "turn-left" if scene == "turning" else ""), size
    )
    if state in {"rings", "compared"}:
        show.session.to_rings()
    if state == "compared":
        flown_through(show.session)
    later(show.session, 4.0)
    show.session.attract = state == "attract"
    show.session.overlay = state if state in {"menu", "devices", "help", "caution"} else ""
    if state == "settings":
        show.session.blades.toggle_settings()
    if state in MOMENTS:
        to_a_round_that_is(show.session, state)
    surface = pygame.Surface(size, depth=32)
    show.paint(surface)
    snapshot = show.session.snapshot()
    at = layout(*size, snapshot.looks.font_scale, snapshot.front)
    shapes = draw(snapshot, at, stage.figure, size)
    return pygame.surfarray.array3d(surface), shapes, widgets(snapshot, at), snapshot.looks.font_scale


def to_a_round_that_is(session, state):
    """Let the gun go on until a round is on its way, or let go of it until one would come too close, or be held."""
    session.blades.pull(True)
    session.blades.pull(state == "clear")
    for _ in range(3600):
        session.tick(1.0 / 60.0)
        view = session.blades.view()
        if crossing(view, session.blades.gear) == state and (state != "clear" or places(view)):
            return


def commonest(pixels):
    colours, counts = np.unique(packed(pixels), return_counts=True)
    return np.array(list(int(colours[counts.argmax()]).to_bytes(3)))


def packed(pixels):
    """Return colours as one number each: those are sorted sooner than three."""
    return pixels.reshape(-1, 3).astype(np.int64) @ (65536, 256, 1)


def crop(picture, rect):
    left, top = max(0, int(rect.x)), max(0, int(rect.y))
    return picture[left : int(rect.right) + 1, top : int(rect.bottom) + 1]


def poor_words(picture, shapes, scale, contrast):
    """Return the words that some eyes cannot tell well enough from the ground they were found on."""
    found, lettering = {}, Lettering()
    whole = Rect(0, 0, *picture.shape[:2])
    for text in (shape for shape, _ in walk(shapes, whole) if isinstance(shape, Text) and shape.text):
        for line in inked(lettering, text, scale)[2]:
            pixels = crop(picture, line)
            ink = np.array(colour(text.role, contrast))
            there = np.abs(pixels.astype(int) - ink).max(axis=2).min() <= 2
            ground = commonest(crop(picture, line.inset(-1.0)))
            least = worst(ink, ground) if there else 0.0
            if least < WORDS:
                found[text.text] = (round(least, 2), tuple(map(int, ground)))
    return found


def poor_things(picture, touched):
    """Return the buttons and sliders whose edge, state or place some eyes cannot tell."""

    def at(x, y):
        return picture[min(int(x), picture.shape[0] - 1), min(int(y), picture.shape[1] - 1)]

    pairs = {}
    for widget in touched:
        rect = widget.rect
        if isinstance(widget, Button):
            edge, inside = at(rect.x + 0.5, rect.center[1]), at(rect.x + 4.5 + 0.01 * rect.w, rect.y + 0.12 * rect.h)
            outside = at(rect.x - 1.5, rect.center[1])
            pairs[f"{widget.label}: edge"] = max(worst(edge, outside), worst(inside, outside))
        elif isinstance(widget, Slider):
            groove = widget.groove
            y, knob = groove.center[1], groove.x + widget.share * groove.w
            free = 0.25 if widget.share > 0.5 else 0.75
            track = at(groove.x + free * groove.w, y)
            pairs[f"{widget.label}: track"] = worst(track, at(groove.x + free * groove.w, groove.bottom - 1))
            if free > widget.share:
                pairs[f"{widget.label}: knob"] = worst(track, at(knob, y))
    return {name: round(value, 2) for name, value in pairs.items() if value < THINGS}


def check(stage, scene, state, contrast, look):
    picture, shapes, touched, scale = taken(stage, scene, state, contrast, *look)
    assert poor_words(picture, shapes, scale, contrast) == {}
    assert poor_things(picture, touched) == {}
    on = [one for one in touched if isinstance(one, Button) and one.on]
    off = [one for one in touched if isinstance(one, Button) and not one.on]
    if on and off:
        faces = [commonest(crop(picture, one[0].rect)) for one in (on, off)]
        assert worst(*faces) >= THINGS


@pytest.mark.parametrize("contrast", ["normal", "high"])
@pytest.mark.parametrize(("scene", "state"), STATES)
def test_words_and_buttons_are_told_from_their_ground(stage, scene, state, contrast):
    check(stage, scene, state, contrast, QUICK)


@pytest.mark.slow
@pytest.mark.parametrize("look", LOOKS[1:])
@pytest.mark.parametrize("contrast", ["normal", "high"])
@pytest.mark.parametrize(("scene", "state"), STATES)
def test_words_and_buttons_are_told_from_their_ground_in_any_size(stage, scene, state, contrast, look):
    check(stage, scene, state, contrast, look)


BESIDE = {
    "turning": [("rotary", "keyline"), ("fixed", "keyline"), ("rotary", "track"), ("fixed", "track")],
    "rings": [("caution", "keyline"), ("ink", "keyline"), ("rotary", "keyline")],
    "compared": [("rotary", "track"), ("fixed", "track"), ("ink", "tag")],
    "engine": [("turning", "keyline"), ("rotary", "track"), ("fixed", "track"), ("panel_edge", "back")],
    "close": [("wait", "wait_dark"), ("wait", "keyline"), ("wait", "back"), ("ghost", "back"), ("blade", "paper")],
    "held": [("steel", "back"), ("steel", "keyline"), ("wait", "wait_dark")],
    "clear": [("now", "back"), ("now", "keyline"), ("now", "paper"), ("round", "keyline"), ("tape", "keyline")],
}
"""Scene, part or moment of it -> what lies beside what: arrow on dark edge, hatch on its ground, bar on its track."""


@pytest.mark.parametrize("contrast", ["normal", "high"])
@pytest.mark.parametrize("scene", BESIDE)
def test_what_lies_beside_something_else_is_told_from_it(stage, scene, contrast):
    moment = scene in MOMENTS
    of_scene = "blades" if moment else scene if scene in SCENES else "turning"
    picture = taken(stage, of_scene, "" if of_scene == scene else scene, contrast, (1920, 1080), 0)[0]
    there = {tuple(int(one).to_bytes(3)) for one in np.unique(packed(picture))}
    for pair in BESIDE[scene]:
        shown = [colour(role, contrast) for role in pair]
        assert set(shown) <= there, pair
        assert worst(*shown) >= THINGS, pair


def test_to_full_sight_the_ratio_is_that_of_wcag():
    """#767676 on white 4.542 (WCAG 2); and a grey is the same to every eyes, but for the rounding of matrices."""
    assert ratio((0x76,) * 3, (255,) * 3, "all") == pytest.approx(4.542, abs=5e-4)
    for eyes in EYES:
        assert ratio((0x76,) * 3, (255,) * 3, eyes) == pytest.approx(4.542, abs=2e-3)


def test_a_red_on_green_that_some_eyes_confuse_is_found():
    """Without long-wave cones a red is as light as a green that is much darker to eyes without middle-wave ones."""
    red, green = (255, 0, 0), (0, 104, 0)
    assert ratio(red, green, "protan") < 1.1
    assert ratio(red, green, "deutan") > 2.0
    assert worst(red, green) == ratio(red, green, "protan")
