"""Colours: words that can be read, and pairs that colour-blind eyes tell apart."""

import itertools

import numpy as np
import pytest
from stage_eyes import EYES, seen

from viz.stage.palette import ROLES, colour, contrast_ratio, luminance

ON = {
    "ink": ("panel", "tag", "button", "back"),
    "ink_quiet": ("panel", "tag", "button", "back"),
    "rotary": ("tag",),
    "fixed": ("tag",),
    "turning": ("panel",),
    "still": ("panel",),
    "caution": ("tag", "back"),
    "on_colour": ("now", "wait", "ink", "ghost", "strike", "steel", "button_on"),
    "strike": ("panel",),
}
"""Role of words -> what they stand on."""
APART = [
    ("rotary", "fixed"),
    ("turning", "still"),
    ("now", "wait"),
    ("wait_dark", "wait"),
    ("now", "strike"),
    ("blade", "paper"),
    ("now", "paper"),
    ("strike", "keyline"),
    ("rotary", "keyline"),
    ("fixed", "keyline"),
    ("linen", "keyline"),
]
"""Pairs whose difference says something."""


@pytest.mark.parametrize(("contrast", "least"), [("normal", 4.5), ("high", 7.0)])
def test_words_can_be_read(contrast, least):
    poor = {
        (words, ground): contrast_ratio(colour(words, contrast), colour(ground, contrast))
        for words, grounds in ON.items()
        for ground in grounds
    }
    assert {pair: ratio for pair, ratio in poor.items() if ratio < least} == {}


@pytest.mark.parametrize(("eyes", "contrast"), list(itertools.product(EYES[:-1], ("normal", "high"))))
def test_colour_blind_eyes_tell_pairs_apart(eyes, contrast):
    """Cube roots of light are roughly even steps of lightness and hue."""
    distance = {
        pair: np.linalg.norm(np.subtract(*(np.cbrt(seen(colour(role, contrast), eyes)) for role in pair)))
        for pair in APART
    }
    assert {pair: far for pair, far in distance.items() if far < 0.18} == {}


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("contrast", ["normal", "high"])
def test_a_blurred_part_differs_from_the_ground_by_less_than_a_flash(role, contrast):
    faint = colour(role, contrast, 1.0, 0.9)
    assert abs(luminance(faint) - luminance(colour("back", contrast))) < 0.1
