"""Buttons, sliders and the stick, as data: where they stand, what they do, and the shapes that show them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from viz.stage import bank_pad
from viz.stage.bank_pad import BankPad
from viz.stage.palette import HOLLOW
from viz.stage.shapes import Block, Disc, Line, Rect, Shape, Text

if TYPE_CHECKING:
    from viz.stage.actions import Action
    from viz.stage.shapes import Point


KNOB = 13.0
"""Radius of the knob of a stick, in units."""
LETTERS = 16.0
"""Letters of a button, in units."""
LETTERS_HIGH, LETTERS_MOST = 56.0, 1.8
"""Height of a button in units from which its letters grow with it, and how many times as large they get."""


class Button(NamedTuple):
    """Something to press: does one action, or chooses one of several things."""

    rect: Rect
    action: Action
    label: str
    on: bool = False
    choice: str = ""


class Slider(NamedTuple):
    """Something to drag along: a share 0..1 of a value's range, with the value in words."""

    rect: Rect
    name: str
    label: str
    reading: str
    share: float

    @property
    def groove(self) -> Rect:
        """The track under the words, as wide as the knob can go."""
        height = self.rect.h * 0.44
        knob = height / 2
        return Rect(self.rect.x + knob, self.rect.bottom - height, self.rect.w - 2 * knob, height)

    def share_at(self, x: float) -> float:
        """Return the share that a finger at `x` asks for."""
        groove = self.groove
        return min(max((x - groove.x) / groove.w, 0.0), 1.0)


class Stick(NamedTuple):
    """A square in which the stick is dragged: right and down (pulled) are positive, each −1..1.

    `words` stand at its upper, lower, left and right edge; `marks` are where the sticks of both airplanes stand: role,
    roll and pitch.
    """

    rect: Rect
    words: tuple[str, str, str, str]
    roll: float
    pitch: float
    marks: tuple[tuple[str, float, float], ...] = ()

    def deflection_at(self, x: float, y: float) -> tuple[float, float]:
        """Return roll and pitch, −1..1, that a finger at a point asks for."""
        middle_x, middle_y = self.rect.center
        reach = self.rect.w * 0.42
        return _within((x - middle_x) / reach), _within((y - middle_y) / reach)


Widget = Button | Slider | Stick | BankPad


def _within(value: float) -> float:
    return min(max(value, -1.0), 1.0)


def still(widget: Widget, unit: float, focused: bool) -> tuple[Shape, ...]:
    """Return the shapes of a widget that change only when it is pressed, named or moved between languages."""
    frame: tuple[Shape, ...] = (Block(widget.rect.inset(1), "focus", rim=3 * unit),) if focused else ()
    if isinstance(widget, Button):
        return (
            Block(widget.rect, "button_on" if widget.on else "button"),
            Block(widget.rect, "panel_edge", rim=unit),
            _label(widget, unit),
            *frame,
        )
    if isinstance(widget, Stick):
        return (*_still_stick(widget, unit), *frame)
    return (*bank_pad.still(widget, unit), *frame) if isinstance(widget, BankPad) else frame


def _still_stick(stick: Stick, unit: float) -> tuple[Shape, ...]:
    """Return the square with its words, beside the knob where it is at an end: each right of a line, or over one."""
    rect, (x, y), letters = stick.rect, stick.rect.center, 14 * unit
    line = Rect(x + (KNOB + 3) * unit, rect.y, 0.5 * rect.w - (KNOB + 6) * unit, 0.14 * rect.h)
    above, below, left, right = stick.words
    side = Rect(rect.x + 3 * unit, y - line.h - KNOB * unit, 0.5 * rect.w - 6 * unit, line.h)
    return (
        Block(rect, "button"),
        Block(rect, "panel_edge", rim=unit),
        Line(((rect.x, y), (rect.right, y)), "groove", unit, smooth=False),
        Line(((x, rect.y), (x, rect.bottom)), "groove", unit, smooth=False),
        Text(line, above, "ink_quiet", letters),
        Text(line._replace(y=rect.bottom - line.h), below, "ink_quiet", letters),
        Text(side, left, "ink_quiet", letters),
        Text(side._replace(x=x + 3 * unit), right, "ink_quiet", letters, "right"),
    )


def _label(button: Button, unit: float) -> Text:
    """Return what stands on a button, in larger letters on a larger one."""
    letters = LETTERS * unit * min(max(button.rect.h / (LETTERS_HIGH * unit), 1.0), LETTERS_MOST)
    return Text(
        button.rect.inset(3 * unit),
        button.label,
        "on_colour" if button.on else "ink",
        letters,
        "center",
        bold=button.on,
    )


def moving(widget: Widget, unit: float) -> tuple[Shape, ...]:
    """Return the shapes of a widget that follow its value."""
    if isinstance(widget, Slider):
        return _slider(widget, unit)
    if isinstance(widget, Stick):
        return _stick(widget, unit)
    if isinstance(widget, BankPad):
        return bank_pad.moving(widget, unit)
    return ()


def _slider(slider: Slider, unit: float) -> tuple[Shape, ...]:
    groove = slider.groove
    words = Rect(slider.rect.x, slider.rect.y, slider.rect.w, slider.rect.h - groove.h)
    label = Rect(words.x, words.y, words.w * 0.52, words.h)
    reading = Rect(words.right - words.w * 0.45, words.y, words.w * 0.45, words.h)
    y = groove.center[1]
    x = groove.x + slider.share * groove.w
    return (
        Text(label, slider.label, "ink_quiet", 15 * unit),
        Text(reading, slider.reading, "ink", 15 * unit, align="right", bold=True),
        Line(((groove.x, y), (groove.right, y)), "groove", 6 * unit, smooth=False),
        Line(((groove.x, y), (x, y)), "knob", 6 * unit, smooth=False),
        Disc(x, y, groove.h / 2, "knob"),
    )


def _stick(stick: Stick, unit: float) -> tuple[Shape, ...]:
    middle_x, middle_y = stick.rect.center
    reach = stick.rect.w * 0.42

    def at(roll: float, pitch: float) -> Point:
        return middle_x + min(max(roll, -1.0), 1.0) * reach, middle_y + min(max(pitch, -1.0), 1.0) * reach

    hand = at(stick.roll, stick.pitch)
    return (
        Line(((middle_x, middle_y), hand), "knob", 3 * unit),
        Disc(*hand, KNOB * unit, "knob"),
        *(
            Disc(*at(roll, pitch), 11 * unit, role, rim=3 * unit)
            if role == HOLLOW
            else Disc(*at(roll, pitch), 6 * unit, role)
            for role, roll, pitch in stick.marks
        ),
    )
