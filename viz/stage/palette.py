"""A colour for every role, in two contrasts; told apart by lightness, so that colour-blind eyes can too."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

Colour = tuple[int, int, int]
Contrast = Literal["normal", "high"]

# role: (normal, high contrast)
ROLES: dict[str, tuple[Colour, Colour]] = {
    "back": ((18, 24, 32), (0, 0, 0)),
    "panel": ((30, 39, 51), (0, 0, 0)),
    "panel_edge": ((128, 146, 164), (255, 255, 255)),
    "ink": ((236, 240, 244), (255, 255, 255)),
    "ink_quiet": ((184, 194, 205), (255, 255, 255)),
    "button": ((52, 66, 84), (0, 0, 0)),
    "button_on": ((120, 190, 240), (120, 200, 255)),
    "focus": ((255, 214, 102), (255, 255, 0)),
    "groove": ((104, 120, 138), (110, 110, 110)),
    "track": ((58, 64, 70), (30, 30, 30)),
    "knob": ((236, 240, 244), (255, 255, 255)),
    "tag": ((18, 24, 32), (0, 0, 0)),
    "rotary": ((240, 150, 50), (255, 176, 0)),
    "fixed": ((86, 180, 233), (120, 200, 255)),
    "linen": ((228, 210, 166), (235, 235, 235)),
    "tape": ((250, 242, 218), (255, 255, 255)),
    "marking": ((186, 66, 38), (200, 60, 40)),
    "metal": ((186, 190, 192), (200, 200, 200)),
    "wood": ((146, 88, 46), (150, 100, 60)),
    "inside": ((44, 38, 34), (20, 20, 20)),
    "wall": ((70, 84, 100), (24, 24, 24)),
    "floor": ((104, 92, 76), (40, 40, 40)),
    "firewall": ((120, 116, 108), (120, 120, 120)),
    "fin_dark": ((102, 98, 94), (90, 90, 90)),
    "fin_light": ((158, 152, 144), (200, 200, 200)),
    "crankcase": ((134, 130, 124), (150, 150, 150)),
    "rotary_fin_light": ((232, 158, 86), (255, 190, 90)),
    "rotary_fin_dark": ((158, 96, 44), (170, 104, 40)),
    "rotary_crankcase": ((198, 128, 66), (220, 150, 60)),
    "fixed_fin_light": ((128, 186, 226), (150, 210, 255)),
    "fixed_fin_dark": ((66, 112, 152), (70, 120, 170)),
    "fixed_crankcase": ((98, 150, 194), (110, 170, 220)),
    "wire": ((58, 54, 52), (40, 40, 40)),
    "tyre": ((70, 66, 64), (60, 60, 60)),
    "leather": ((92, 58, 36), (110, 70, 40)),
    "coat": ((86, 72, 54), (90, 80, 60)),
    "scarf": ((240, 150, 50), (255, 176, 0)),
    "face": ((226, 176, 138), (240, 190, 150)),
    "goggles": ((40, 44, 48), (10, 10, 10)),
    "keyline": ((16, 22, 30), (0, 0, 0)),
    "strut": ((112, 72, 40), (120, 80, 50)),
    "steel": ((160, 172, 184), (220, 220, 220)),
    "steel_dark": ((92, 104, 118), (130, 130, 130)),
    "brass": ((214, 170, 80), (255, 210, 60)),
    "piston": ((222, 228, 234), (255, 255, 255)),
    "still": ((160, 172, 184), (150, 165, 185)),
    "turning": ((255, 214, 102), (255, 255, 0)),
    "blade": ((196, 140, 84), (230, 170, 100)),
    "cam": ((160, 172, 184), (220, 220, 220)),
    "round": ((255, 236, 170), (255, 255, 160)),
    "lead": ((86, 180, 233), (120, 200, 255)),
    "strike": ((255, 120, 80), (255, 140, 90)),
    "paper": ((58, 64, 70), (30, 30, 30)),
    "caution": ((255, 214, 102), (255, 255, 0)),
    "now": ((70, 170, 255), (90, 190, 255)),
    "wait": ((255, 176, 40), (255, 200, 0)),
    "wait_dark": ((66, 50, 18), (50, 36, 0)),
    "ghost": ((226, 240, 255), (255, 255, 255)),
    "on_colour": ((8, 14, 22), (0, 0, 0)),
}

HOLLOW = "fixed"
"""All that is drawn of this engine is an outline, of the other full: both are as light, and the same in grey."""
LEVELS = 30
"""Steps of shade and of fade: finer ones are not seen and would be remembered one by one."""


def colour(role: str, contrast: Contrast, shade: float = 1.0, fade: float = 0.0) -> Colour:
    """Return the colour of a role, darkened by `shade` and taken towards the back colour by `fade` (0..1)."""
    if shade == 1.0 and fade == 0.0:
        return ROLES[role][contrast == "high"]
    return _mixed(role, contrast, round(shade * LEVELS) / LEVELS, round(fade * LEVELS) / LEVELS)


@lru_cache(maxsize=512)
def _mixed(role: str, contrast: Contrast, shade: float, fade: float) -> Colour:
    column = contrast == "high"
    red, green, blue = (part * shade * (1.0 - fade) for part in ROLES[role][column])
    back = [part * fade for part in ROLES["back"][column]]
    return tuple(min(255, round(a + b)) for a, b in zip((red, green, blue), back, strict=True))  # type: ignore[return-value]


def luminance(colour: Colour) -> float:
    """Return the relative luminance of a colour, 0 black to 1 white (WCAG 2, definition of relative luminance)."""
    channels = [part / 255.0 for part in colour]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(one: Colour, other: Colour) -> float:
    """Return the contrast of two colours, 1 to 21 (WCAG 2, definition of contrast ratio)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
