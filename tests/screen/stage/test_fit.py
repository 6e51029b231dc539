"""Nothing is clipped, hidden, on top of anything else or too small, in any size, language, letters and contrast."""

import itertools

import pytest
from stage_fit import faults
from stage_shapes import flown_through, later

from viz.stage.actions import Action
from viz.stage.controls import widgets
from viz.stage.layout import FINGER, LEAST, LEAST_PICTURE, MOST, SENTENCE, layout
from viz.stage.scenes.scene import draw
from viz.stage.session import Session
from viz.stage.shapes import Text, texts
from viz.stage.snapshot import FONT_SCALES, SCENES, Looks
from viz.stage.worlds.narrator import WAYS
from viz.words.catalogue import languages, own_name, words
from viz.words.say import say

SIZES = [
    LEAST,
    (1024, 600),
    (1024, 768),
    (1280, 720),
    (1280, 800),
    (1920, 1080),
    (2560, 1080),
    (3840, 2160),
    (540, 960),
    (720, 960),
    (1080, 1920),
    (1536, 2048),
]
BARE = [LEAST_PICTURE, LEAST_PICTURE[::-1], (1000, 1000), (2000, 400), MOST]
"""Sizes of pictures alone, besides."""
FEW = [((1280, 720), 0), ((1024, 600), 2), ((1080, 1920), 1)]
"""Sizes and letters of the quick test."""
STATES = [
    *itertools.product(SCENES, ("", "bare", "attract")),
    ("turning", "by hand"),
    ("turning", "full"),
    ("turning", "bench"),
    ("turning", "rings"),
    ("turning", "compared"),
    *(("blades", state) for state in ("settings", "menu", "devices", "help", "caution")),
]
SHARE, LEAST_PX = 0.75, 8
"""Words are set at most so much smaller than the smallest letters ask for; larger letters never smaller than those."""


@pytest.fixture(scope="module")
def sessions(stage):
    """Return a session for every state of the front, with something going on."""
    found = {}
    for scene, state in STATES:
        session = Session(stage, scene=scene)
        if scene == "turning" and state in {"", "bare", "attract"}:
            session.turning.perform("turn-left")
        if state == "full":
            session.act(Action.FULL_CONTROL)
        if state == "bench":
            session.to_bench(True)
            session.stick(-1.0, 0.0)
        if state in {"rings", "compared"}:
            session.to_rings()
        if state == "compared":
            flown_through(session)
        later(session, 4.0)
        session.attract, session.buttons = state == "attract", state != "bare"
        session.overlay = state if state in {"menu", "devices", "help", "caution"} else ""
        if state == "settings":
            session.blades.toggle_settings()
        found[scene, state] = session
    return found


def wrong(session, stage, size):
    snapshot = session.snapshot()
    font = snapshot.looks.font_scale
    at = layout(*size, font, snapshot.front)
    return faults(draw(snapshot, at, stage.figure, size), size, font, least_share=SHARE, least_px=LEAST_PX)


@pytest.mark.parametrize(("scene", "state"), STATES)
def test_nothing_is_clipped_hidden_or_small_in_a_few_looks(sessions, stage, scene, state):
    session = sessions[scene, state]
    for language, (size, font) in itertools.product(languages(), FEW):
        session.looks = Looks(language, font=font)
        assert wrong(session, stage, size) == [], (language, size, font)


def test_labels_of_gap_and_push_meet_nothing_as_they_move(session, stage):
    session.turning.perform("pull")
    told = set()
    for (size, font), language in itertools.product(FEW[1:], ("english", "german")):
        later(session, 1.0)
        session.looks = Looks(language, font=font)
        assert wrong(session, stage, size) == [], (language, size, font)
        snapshot = session.snapshot()
        drawn = draw(snapshot, layout(*size, snapshot.looks.font_scale), stage.figure, size)
        told |= {text.text for text in texts(drawn) if text.role == "on_colour"}
    assert told & {say(language, "turning.gap") for language in languages()}
    assert told & {say(language, f"turning.spin_{way}") for language in languages() for way in WAYS}


@pytest.mark.parametrize("push", [(1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.0, 0.0)])
def test_names_of_the_arrows_on_the_bench_meet_nothing(session, stage, push):
    session.to_bench(True)
    session.stick(*push)
    later(session, 3.0)
    for language, (size, font) in itertools.product(languages(), FEW[1:]):
        session.looks = Looks(language, font=font)
        assert wrong(session, stage, size) == [], (language, size, font)


@pytest.mark.slow
@pytest.mark.parametrize(("scene", "state"), STATES)
def test_nothing_is_clipped_hidden_or_small_in_any_look(sessions, stage, scene, state):
    session = sessions[scene, state]
    sizes = [*SIZES, *BARE] if state == "bare" else SIZES
    found = {}
    for language, font, contrast, size in itertools.product(languages(), range(3), ("normal", "high"), sizes):
        session.looks = Looks(language, contrast, font)
        if told := wrong(session, stage, size):
            found[language, font, contrast, size] = told
    assert found == {}


@pytest.mark.parametrize(("scene", "state"), STATES)
def test_what_is_touched_is_apart_and_fits_a_finger(sessions, scene, state):
    session = sessions[scene, state]
    for language, font, size in itertools.product(languages(), range(3), SIZES):
        session.looks = Looks(language, font=font)
        at = layout(*size, FONT_SCALES[font], session.front)
        rects = [widget.rect for widget in widgets(session.snapshot(), at)]
        assert all(min(rect.w, rect.h) >= FINGER * at.unit - 1e-6 for rect in rects)
        assert all(rect.x >= 0 and rect.y >= 0 and rect.right <= size[0] and rect.bottom <= size[1] for rect in rects)
        assert not [pair for pair in itertools.combinations(rects, 2) if pair[0].inset(0.01).overlaps(pair[1])]
        if at.upright:
            assert all(rect.y >= 0.5 * size[1] for rect in rects), "one hand reaches the lower half"


@pytest.mark.parametrize("language", languages())
def test_a_language_is_one_word_in_reach_in_every_state_but_a_page(sessions, language):
    for (_, state), session in sessions.items():
        if state in {"", "bench", "rings", "compared", "settings", "attract"}:
            at = layout(1280, 720, 1.0, session.front)
            found = [one for one in widgets(session.snapshot(), at) if getattr(one, "choice", "") == language]
            assert [one.label for one in found] == [own_name(language)]


@pytest.mark.parametrize("language", languages())
def test_every_sentence_is_as_large_as_can_be_read_from_three_metres(sessions, stage, language):
    """Letters 14 mm high on a screen of 43 inches (535 mm high where it is 16:9) are seen under 16 minutes of arc."""
    fill = {"cause": say(language, "cause.nose_right"), "effect": say(language, "effect.nose_right")}
    fill |= {"rotary": "1.8", "fixed": "1.1", "nose": "1.3"}
    session = sessions["engine", "bare"]
    session.looks = Looks(language)
    for size in ((1920, 1080), (1080, 1920)):
        snapshot = session.snapshot()
        at = layout(*size, 1.0, snapshot.front)
        box = next(text for text in texts(draw(snapshot, at, stage.figure, size)) if text.size == SENTENCE * at.unit)
        said = [
            box._replace(text=say(language, key, ratio="11.8", lead="145°", **fill))
            for key in words("english")
            if key.startswith("caption.")
        ]
        small = [text for text in said if faults([text], size, 1.0, least_share=1.0, least_px=0)]
        assert small == []
        capital_mm = 0.729 * SENTENCE * at.unit * 535.0 / 1080.0
        assert capital_mm / 3000.0 >= 16.0 / 60.0 * 3.14159 / 180.0


def test_the_test_sees_what_is_wrong():
    from viz.stage.shapes import Block, Clip, Rect

    size, words = (200, 100), Text(Rect(10, 10, 150, 30), "Words", "ink", 16)
    told = lambda *shapes: faults(shapes, size, 1.0, least_share=SHARE, least_px=LEAST_PX)  # noqa: E731
    assert told(words) == []
    assert told(words, Block(Rect(0, 20, 60, 60), "back")) == ["hidden: Words"]
    assert told(Clip(Rect(0, 0, 30, 100), (words,))) == ["clipped: Words"]
    assert told(words, words._replace(text="Other")) == ["overlap: Words | Other"]
    assert told(words._replace(rect=Rect(10, 10, 30, 30)))[0].startswith("small: Words")
