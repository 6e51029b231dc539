"""How far each part of an exploded view is moved from its place, so that none stands behind another."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from shapely.affinity import translate

from sim.display.assembly.data import Fastener
from sim.display.assembly.order import HUBS, PIN
from viz.drawings.hidden_lines import is_clear
from viz.drawings.items import key
from viz.drawings.oblique import WAY
from viz.drawings.ways import outward

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from shapely.geometry.base import BaseGeometry

    from viz.drawings.oblique import Body, Shift

SEEN_SHARE, WIDER = 0.35, 1.2
"""Share of a piece that the next before it leaves to be seen, and how much wider each next gap is that is tried."""
BOARD = "wood"
"""Process of the boards that a wall of the guard is made of."""
STILL = (0.0, 0.0)


def shifts(
    bodies: Sequence[Body],
    sides: Sequence[float],
    gap: float,
    *,
    least: float,
    more: Mapping[tuple[object, ...], float],
    pale: Collection[int] = (),
) -> list[Shift]:
    """Return by how much each is moved to the right, up, and nearer to who looks. [mm].

    Parameters
    ----------
    bodies : sequence of Body
        In their places.
    sides : sequence of float
        To which side each is moved along the shaft: 1 nearer, −1 away.
    gap : float
        Between two that stand one before the other, at least. [mm]
    least : float
        By how much each is moved nearer at least; what is moved away, by a gap. [mm]
    more : mapping of tuple to float
        By how much a kind is moved farther than it needs for what it lies over. [mm]
    pale : collection of int
        Numbers of those that hide nothing.
    """
    across = [_across(one, bodies, gap) for one in bodies]
    along = moved_along(bodies, gap)
    aside = [number for number in range(len(bodies)) if number not in along]
    near = [0.0] * len(bodies)
    shadows = [translate(one.shadow, *aside) for one, aside in zip(bodies, across, strict=True)]
    for side in (1.0, -1.0):
        stack = _Stack(bodies, shadows, side, gap, more, pale)
        here = [number for number in along if sides[number] == side]
        for number, shift in stack.shifts(here, aside, least if side > 0.0 else gap).items():
            near[number] = side * shift
    return [(right, up, shift) for (right, up), shift in zip(across, near, strict=True)]


def moved_along(bodies: Sequence[Body], gap: float) -> list[int]:
    """Return the numbers of those that are moved along the shaft: not boards and upright screws, which go aside."""
    return [number for number, one in enumerate(bodies) if one.of.name == PIN or _across(one, bodies, gap) == STILL]


def _middle(one: Body) -> float:
    return (one.back + one.face) / 2.0


def _across(one: Body, bodies: Sequence[Body], gap: float) -> tuple[float, float]:
    """Return how a piece is moved right and up: a board along its thin side, pins and upright screws along theirs."""
    left, low, right, high = one.shadow.bounds
    if isinstance(one.of, Fastener):
        return (0.0, _upright(one, one.of, bodies, gap)) if one.of.upright else STILL
    if one.of.name == PIN:
        return _out_of_hub(one, bodies, gap)
    thin = min(right - left, high - low)
    if one.of.process != BOARD or thin >= one.face - one.back:
        return STILL
    if right - left == thin:
        return (gap if left + right > 0.0 else -gap), 0.0
    return 0.0, (gap if low + high > 0.0 else -gap)


def _upright(one: Body, screw: Fastener, bodies: Sequence[Body], gap: float) -> float:
    """Return how far an upright screw is moved up, or down until no board above it hides it. [mm]."""
    _, low, _, high = one.shadow.bounds
    head, shank = (float(slab.outline_m[:, 1].mean()) for slab in screw.slabs[:2])
    if head > shank:
        return high - low + 2.0 * gap
    boards = (each for each in bodies if getattr(each.of, "process", "") == BOARD)
    reach = max((each.face - one.back for each in boards if each.back < one.back < each.face), default=0.0)
    return -(high - low + 2.0 * gap - WAY[1] * reach)


def _out_of_hub(pin: Body, bodies: Sequence[Body], gap: float) -> tuple[float, float]:
    """Return how a cross pin is moved out of what it goes through, along its own length."""
    axis = pin.of.x_m, pin.of.y_m
    hubs = (
        one.shadow
        for one in bodies
        if one.of.name.endswith(HUBS) and (one.of.x_m, one.of.y_m) == axis and one.back <= _middle(pin) <= one.face
    )
    left, low, most, high = next(hubs, pin.shadow).bounds
    (ax, ay), (bx, by), (cx, cy) = list(pin.shadow.minimum_rotated_rectangle.boundary.coords)[:3]
    right, up = max(((bx - ax, by - ay), (cx - bx, cy - by)), key=lambda way: hypot(*way))
    out = (max(most - left, high - low) + hypot(right, up) + gap) / 2.0 / hypot(right, up)
    sense = 1.0 if right + up > 0.0 else -1.0
    return sense * out * right, sense * out * up


@dataclass(frozen=True, slots=True)
class _Stack:
    """Pieces that are moved along the shaft to one side: 1 nearer, −1 away."""

    bodies: Sequence[Body]
    shadows: Sequence[BaseGeometry]
    side: float
    gap: float
    more: Mapping[tuple[object, ...], float]
    pale: Collection[int]

    def shifts(self, here: Sequence[int], aside: Sequence[int], least: float) -> dict[int, float]:
        """Return how far each is moved: clear of all before it that it lies over, and leaving enough of them seen.

        Boards that were moved aside stay where they are along the shaft; what lies over them is clear of them too.
        """
        alike: dict[tuple[object, ...], list[int]] = {}
        for number in sorted(here, key=lambda each: -self.shadows[each].area):
            one = self.bodies[number]
            alike.setdefault((key(one.of), round(one.back, 3)), []).append(number)
        rows = list(alike.values())
        found: dict[int, float] = dict.fromkeys(
            (one for one in aside if not isinstance(self.bodies[one].of, Fastener)), 0.0
        )
        for row in (rows[place] for place in outward([[self.bodies[each] for each in row] for row in rows], self.side)):
            pairs = [(mine, other) for mine in row for other in found if self._over(mine, other)]
            clear = (
                self._end(other, found[other]) + self._away(mine, other) - self._start(mine) for mine, other in pairs
            )
            extra = self.more.get(key(self.bodies[row[0]].of), 0.0)
            found |= dict.fromkeys(row, max((least, *clear)) + extra)
        return {number: found[number] for number in here}

    def _over(self, mine: int, other: int) -> bool:
        return bool(self.shadows[mine].envelope.intersects(self.shadows[other].envelope))

    def _away(self, mine: int, other: int) -> float:
        """Return how far apart a piece and one before it are drawn so that enough of the farther one is seen. [mm]."""
        near, far = (mine, other) if self.side > 0.0 else (other, mine)
        hidden, before, away = self.shadows[far], self.shadows[near], self.gap
        if near in self.pale or is_clear(self.bodies[near].of):
            return away
        while hidden.difference(translate(before, WAY[0] * away, WAY[1] * away)).area < SEEN_SHARE * hidden.area:
            away *= WIDER
        return away

    def _start(self, number: int) -> float:
        one = self.bodies[number]
        return one.back if self.side > 0.0 else -one.face

    def _end(self, number: int, moved: float) -> float:
        one = self.bodies[number]
        return moved + (one.face if self.side > 0.0 else -one.back)
