"""Events of the window library, told to the hands in their own words."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pygame

from viz.stage.input import MOUSE

if TYPE_CHECKING:
    from collections.abc import Callable

    from viz.stage.show import Show

MOST_A_FRAME = 120
"""Events looked at in a frame; what a storm brings beyond that is dropped."""
TOUCHES = frozenset(
    {pygame.KEYDOWN, pygame.MOUSEBUTTONDOWN, pygame.FINGERDOWN, pygame.JOYBUTTONDOWN, pygame.MOUSEMOTION}
)
"""Events that show that somebody is there."""


def tell(show: Show, event: pygame.event.Event) -> None:
    """Pass one event on."""
    if event.type in TOUCHES and not getattr(event, "touch", False):
        show.touched()
    way = _WAYS.get(event.type)
    if way is not None:
        way(show, event)


def tell_all(show: Show) -> None:
    """Pass on the events of a frame; in a kiosk a failure is logged and the show begins again."""
    for event in pygame.event.get()[:MOST_A_FRAME]:
        try:
            tell(show, event)
        except Exception:
            if not show.kiosk:
                raise
            show.fail()


def _quit(show: Show, event: pygame.event.Event) -> None:  # noqa: ARG001
    if not show.kiosk:
        show.session.finished = True


def _mouse_down(show: Show, event: pygame.event.Event) -> None:
    if event.button == 1 and not getattr(event, "touch", False):
        show.hands.touch(MOUSE, *event.pos)


def _mouse_move(show: Show, event: pygame.event.Event) -> None:
    if event.buttons[0] and not getattr(event, "touch", False):
        show.hands.drag(MOUSE, *event.pos)


def _mouse_up(show: Show, event: pygame.event.Event) -> None:
    if event.button == 1 and not getattr(event, "touch", False):
        show.hands.lift(MOUSE)


def _finger(show: Show, event: pygame.event.Event) -> tuple[int, float, float]:
    width, height = show.size
    return event.finger_id, event.x * width, event.y * height


_WAYS: dict[int, Callable[[Show, pygame.event.Event], None]] = {
    pygame.QUIT: _quit,
    pygame.KEYDOWN: lambda show, event: show.hands.press(pygame.key.name(event.key)),
    pygame.KEYUP: lambda show, event: show.hands.release(pygame.key.name(event.key)),
    pygame.MOUSEBUTTONDOWN: _mouse_down,
    pygame.MOUSEMOTION: _mouse_move,
    pygame.MOUSEBUTTONUP: _mouse_up,
    pygame.FINGERDOWN: lambda show, event: show.hands.touch(*_finger(show, event)),
    pygame.FINGERMOTION: lambda show, event: show.hands.drag(*_finger(show, event)),
    pygame.FINGERUP: lambda show, event: show.hands.lift(event.finger_id),
    pygame.JOYBUTTONDOWN: lambda show, event: show.hands.pad_button(event.button),
    pygame.JOYAXISMOTION: lambda show, event: show.hands.pad_axis(event.axis, event.value),
    pygame.WINDOWEXPOSED: lambda show, event: show.resize(show.size),  # noqa: ARG005
    pygame.WINDOWFOCUSLOST: lambda show, event: show.hands.let_go(),  # noqa: ARG005
}
