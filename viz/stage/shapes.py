"""What a scene is made of: plain shapes in pixels, each with a role in place of a colour.

Tests compare them as data; the painter alone knows what a role looks like.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

Point = tuple[float, float]


class Rect(NamedTuple):
    """A rectangle: left, top, width, height [px]."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        """Right edge [px]."""
        return self.x + self.w

    @property
    def bottom(self) -> float:
        """Bottom edge [px]."""
        return self.y + self.h

    @property
    def center(self) -> Point:
        """Middle [px]."""
        return self.x + self.w / 2, self.y + self.h / 2

    def holds(self, x: float, y: float) -> bool:
        """Tell whether a point lies inside."""
        return self.x <= x < self.right and self.y <= y < self.bottom

    def inset(self, by: float) -> Rect:
        """Return the rectangle `by` pixels smaller on each side."""
        return Rect(self.x + by, self.y + by, self.w - 2 * by, self.h - 2 * by)

    def overlaps(self, other: Rect) -> bool:
        """Tell whether two rectangles share more than an edge."""
        return self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom


class Line(NamedTuple):
    """A chain of straight strokes; smooth strokes cost three times the plain ones."""

    points: Sequence[Sequence[float]]
    role: str
    width: float = 1.0
    smooth: bool = True
    fade: float = 0.0


class Disc(NamedTuple):
    """A filled circle, or its rim where `rim` is a width above 0 [px]."""

    x: float
    y: float
    radius: float
    role: str
    rim: float = 0.0
    fade: float = 0.0


class Polygon(NamedTuple):
    """A filled polygon; `shade` darkens its colour (1 is full light), `fade` takes it towards the back colour."""

    points: Sequence[Sequence[float]]
    role: str
    shade: float = 1.0
    fade: float = 0.0
    smooth: bool = True


class Block(NamedTuple):
    """A filled rectangle with sides along the edges of the window, or its frame where `rim` is above 0."""

    rect: Rect
    role: str
    rim: float = 0.0


class Text(NamedTuple):
    """Words in a box: wrapped into it, and set smaller where they would not fit."""

    rect: Rect
    text: str
    role: str = "ink"
    size: float = 18.0
    align: Literal["left", "center", "right"] = "left"
    bold: bool = False


class Clip(NamedTuple):
    """Shapes of which only the part inside `rect` is seen."""

    rect: Rect
    items: tuple[Shape, ...]


class Layer(NamedTuple):
    """Shapes that seldom change: the painter keeps them as one picture."""

    rect: Rect
    items: tuple[Shape, ...]


Shape = Line | Disc | Polygon | Block | Text | Clip | Layer


def texts(shapes: tuple[Shape, ...] | list[Shape]) -> list[Text]:
    """Return every text among the shapes, those inside clips and pictures too."""
    found: list[Text] = []
    for shape in shapes:
        if isinstance(shape, Text):
            found.append(shape)
        elif isinstance(shape, (Clip, Layer)):
            found.extend(texts(shape.items))
    return found
