"""What a scene is made of: plain shapes in pixels, each with a role in place of a colour.

Tests compare them as data; the painter alone knows what a role looks like.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray

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
    """Shapes of which only the part inside `rect` is seen.

    One that is `still` fills its rectangle, has it to itself, and is painted again only when it has changed.
    """

    rect: Rect
    items: tuple[Shape, ...]
    still: bool = False


class Layer(NamedTuple):
    """Shapes that seldom change: the painter keeps them as one picture, `clear` where nothing is drawn or filled."""

    rect: Rect
    items: tuple[Shape, ...]
    clear: bool = False


class Keyline(NamedTuple):
    """Edges of faces that are drawn with them: number of the face, both ends [px], and light over that of the face."""

    owner: NDArray[np.intp]
    ends: NDArray[np.float64]
    light: NDArray[np.float64]


class Facets(NamedTuple):
    """Faces and rods of a lit solid.

    `order` numbers them, the farthest first, rods after faces. Each has a role and what light leaves of its colour in
    red, green and blue; a face has four corners [px] and a glint that it adds, a rod two ends and a width [px].
    """

    order: NDArray[np.intp]
    corners: NDArray[np.float64]
    roles: tuple[str, ...]
    role: NDArray[np.intp]
    light: NDArray[np.float64]
    glint: NDArray[np.float64]
    keyline: Keyline
    ends: NDArray[np.float64]
    widths: NDArray[np.float64]


class Outline(NamedTuple):
    """A solid as a ghost: the edges of its silhouette, shape (n, 2, 2) [px]."""

    edges: NDArray[np.float64]
    role: str


class Country(NamedTuple):
    """Ground and sky in a rectangle, from an eye that looks along a heading and down by a tilt, without bank.

    Where the eye is over the ground and above it [m], heading and tilt [rad], focal length, height of the horizon and
    the point that the eye looks at [px]; outlines of what throws a shadow there [px].
    """

    rect: Rect
    north_m: float
    east_m: float
    height_m: float
    heading_rad: float
    tilt_rad: float
    focal_px: float
    horizon_y: float
    centre: Point
    shadow: Sequence[Sequence[Sequence[float]]] = ()


class Veil(NamedTuple):
    """Translucent polygons [px] in one role, each with its opacity 0..1; a later one takes the place of an earlier."""

    polygons: NDArray[np.float64]
    opacity: NDArray[np.float64]
    role: str


Shape = Country | Facets | Outline | Veil | Line | Disc | Polygon | Block | Text | Clip | Layer


def texts(shapes: tuple[Shape, ...] | list[Shape]) -> list[Text]:
    """Return every text among the shapes, those inside clips and pictures too."""
    found: list[Text] = []
    for shape in shapes:
        if isinstance(shape, Text):
            found.append(shape)
        elif isinstance(shape, (Clip, Layer)):
            found.extend(texts(shape.items))
    return found
