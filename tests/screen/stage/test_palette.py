"""Colours: words that can be read, and pairs that colour-blind eyes tell apart."""

import itertools

import numpy as np
import pytest

from viz.stage.palette import ROLES, colour, contrast_ratio, luminance

ON = {
    "ink": ("panel", "tag", "button", "button_on", "back"),
    "ink_quiet": ("panel", "tag", "button", "back"),
    "rotary": ("tag",),
    "fixed": ("tag",),
    "turning": ("panel",),
    "still": ("panel",),
    "caution": ("tag", "back"),
    "on_colour": ("now", "wait", "ink", "ghost", "strike", "steel"),
    "strike": ("panel",),
}
"""Role of words -> what they stand on."""
APART = [
    ("rotary", "fixed"),
    ("turning", "still"),
    ("now", "wait"),
    ("now_dark", "wait"),
    ("now", "strike"),
    ("ghost", "now_dark"),
    ("blade", "now_dark"),
    ("now", "paper"),
    ("wait", "paper"),
    ("rotary", "keyline"),
    ("fixed", "keyline"),
    ("linen", "keyline"),
]
"""Pairs whose difference says something."""
# Viénot, Brettel & Mollon 1999, linear RGB: what is left without the long-wave or the middle-wave cones
BLIND = {
    "protan": np.array([[0.11238, 0.88762, 0.0], [0.11238, 0.88762, 0.0], [0.00401, -0.00401, 1.0]]),
    "deutan": np.array([[0.29275, 0.70725, 0.0], [0.29275, 0.70725, 0.0], [-0.02234, 0.02234, 1.0]]),
}


def linear(rgb):
    share = np.asarray(rgb) / 255.0
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def seen(rgb, eyes):
    """Return a colour as cube roots of what such eyes see, roughly even steps of lightness and hue."""
    return np.cbrt(np.clip(BLIND[eyes] @ linear(rgb), 0.0, 1.0))


def test_published_contrast_of_grey_on_white():
    """WCAG 2: #767676 on white 4.542, #777777 on white 4.478."""
    assert contrast_ratio((0x76,) * 3, (255,) * 3) == pytest.approx(4.542, abs=5e-4)
    assert contrast_ratio((0x77,) * 3, (255,) * 3) == pytest.approx(4.478, abs=5e-4)


@pytest.mark.parametrize(("contrast", "least"), [("normal", 4.5), ("high", 7.0)])
def test_words_can_be_read(contrast, least):
    poor = {
        (words, ground): contrast_ratio(colour(words, contrast), colour(ground, contrast))
        for words, grounds in ON.items()
        for ground in grounds
    }
    assert {pair: ratio for pair, ratio in poor.items() if ratio < least} == {}


@pytest.mark.parametrize(("eyes", "contrast"), list(itertools.product(BLIND, ("normal", "high"))))
def test_colour_blind_eyes_tell_pairs_apart(eyes, contrast):
    distance = {
        pair: np.linalg.norm(seen(colour(pair[0], contrast), eyes) - seen(colour(pair[1], contrast), eyes))
        for pair in APART
    }
    assert {pair: far for pair, far in distance.items() if far < 0.18} == {}


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("contrast", ["normal", "high"])
def test_a_blurred_part_differs_from_the_ground_by_less_than_a_flash(role, contrast):
    faint = colour(role, contrast, 1.0, 0.9)
    assert abs(luminance(faint) - luminance(colour("back", contrast))) < 0.1
