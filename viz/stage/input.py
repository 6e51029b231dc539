"""Fingers, mouse, keys and pad, turned into what the session understands; no window library here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.actions import HELD, KIOSK_CHORD, PAD_AXES, PAD_BUTTONS, PAD_DEAD_SHARE, Action, key_called
from viz.stage.bank_pad import BankPad
from viz.stage.controls import widgets
from viz.stage.layout import layout
from viz.stage.widgets import Button, Slider, Stick

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.session import Session
    from viz.stage.widgets import Widget

KEY_REACH = 0.6
"""How far a held key moves the stick or the rudder, as a share of the travel."""
NUDGE = 0.05
MOST_POINTERS = 10
"""Fingers followed at a time; more than that is a storm."""
MOUSE = -1


class Hands:
    """Follows every finger and key that is down."""

    def __init__(self, session: Session, size: tuple[int, int]) -> None:
        self.session, self.size = session, size
        self._dragged: dict[int, tuple[str, str]] = {}
        self._down: set[str] = set()
        self._axes = {"roll": 0.0, "pitch": 0.0, "yaw": 0.0}

    def _layout(self) -> Layout:
        return layout(*self.size, self.session.looks.font_scale, self.session.front)

    def _touchable(self) -> tuple[Widget, ...]:
        return widgets(self.session.snapshot(), self._layout())

    def touch(self, pointer: int, x: float, y: float) -> None:
        """Put a finger, or the mouse button, down at a point [px]."""
        if len(self._dragged) >= MOST_POINTERS:
            return
        found = next((widget for widget in self._touchable() if widget.rect.holds(x, y)), None)
        if self.session.attract:
            self.session.wake(found.choice if isinstance(found, Button) else "")
        elif found is not None:
            self._take(pointer, found, x, y)

    def _take(self, pointer: int, widget: Widget, x: float, y: float) -> None:
        if isinstance(widget, Button) and widget.action is Action.FIRE:
            self._dragged[pointer] = ("trigger", "")
            self._pull()
        elif isinstance(widget, Button):
            self.session.act(widget.action, widget.choice)
        else:
            self._dragged[pointer] = ("stick", "") if isinstance(widget, Stick | BankPad) else ("slider", widget.name)
            self.drag(pointer, x, y)

    def drag(self, pointer: int, x: float, y: float) -> None:
        """Move a finger that is down; one that holds nothing is let pass."""
        kind, name = self._dragged.get(pointer, ("", ""))
        if not kind:
            return
        for widget in self._touchable():
            if isinstance(widget, Stick | BankPad) and kind == "stick":
                self.session.stick(*widget.deflection_at(x, y))
            elif isinstance(widget, Slider) and kind == "slider" and widget.name == name:
                self.session.world.set(name, widget.share_at(x))

    def lift(self, pointer: int) -> None:
        """Take a finger off; stick and rudder go back to the middle, as springs would bring them."""
        kind, name = self._dragged.pop(pointer, ("", ""))
        if kind == "stick":
            self.session.stick(0.0, 0.0)
        elif kind == "trigger":
            self._pull()
        elif name == "rudder":
            self.session.turning.set("rudder", 0.5)

    def _pull(self) -> None:
        """Pull the trigger as long as a finger, its key, or the key that presses it in focus is down."""
        touchable, focus = self._touchable(), self.session.focus
        focused = touchable[focus] if 0 <= focus < len(touchable) else None
        pressed = isinstance(focused, Button) and focused.action is Action.FIRE
        keys = {key.action for key in map(key_called, self._down) if key}
        down = Action.FIRE in keys or (pressed and Action.PRESS in keys)
        self.session.pull(down or any(kind == "trigger" for kind, _ in self._dragged.values()))

    def press(self, name: str) -> None:
        """Push a key down."""
        self._down.add(name)
        if self.session.kiosk and self._down >= KIOSK_CHORD:
            self.session.finished = True
        if self.session.attract:
            self.session.wake()
            return
        key = key_called(name)
        if key is None:
            return
        if key.action is Action.FIRE:
            self._pull()
        elif key.held:
            self._steer()
        else:
            self._act(key.action)

    def _act(self, action: Action) -> None:
        session = self.session
        if action in {Action.NEXT_CONTROL, Action.LAST_CONTROL}:
            count = len(self._touchable())
            session.focus = (session.focus + (1 if action is Action.NEXT_CONTROL else -1)) % count
        elif action in {Action.PRESS, Action.LESS, Action.MORE}:
            self._use_focused(action)
        else:
            session.act(action)

    def _use_focused(self, action: Action) -> None:
        session, touchable = self.session, self._touchable()
        if session.overlay and action is Action.PRESS:
            pressed = touchable[session.focus if session.focus < len(touchable) else -1]
            session.act(pressed.action)  # type: ignore[union-attr]
        elif 0 <= session.focus < len(touchable):
            widget = touchable[session.focus]
            if isinstance(widget, Button) and widget.action is Action.FIRE and action is Action.PRESS:
                self._pull()
            elif isinstance(widget, Button) and action is Action.PRESS:
                session.act(widget.action, widget.choice)
            elif isinstance(widget, Slider) and action is not Action.PRESS:
                self._nudge(widget, 1.0 if action is Action.MORE else -1.0)

    def _nudge(self, slider: Slider, way: float) -> None:
        if slider.name == "pace":
            self.session.world.pace.shift(int(way))
        else:
            dial = self.session.world.dials[slider.name]
            least = 1.0 / (dial.range.most - dial.range.least) if dial.range.whole else NUDGE
            self.session.world.set(slider.name, slider.share + way * least)

    def release(self, name: str) -> None:
        """Let a key go."""
        self._down.discard(name)
        key = key_called(name)
        if key is not None and key.action in {Action.FIRE, Action.PRESS}:
            self._pull()
        elif key is not None and key.held:
            self._steer()

    def _steer(self) -> None:
        """Bring stick and rudder to where the held keys and the pad want them."""
        wanted = dict(self._axes)
        for name in self._down:
            key = key_called(name)
            if key is not None and key.action in HELD:
                control, way = HELD[key.action]
                wanted[control] += KEY_REACH * way
        self.session.stick(*(min(max(wanted[control], -1.0), 1.0) for control in ("roll", "pitch")))
        self.session.turning.set("rudder", 0.5 + 0.5 * wanted["yaw"])

    def pad_button(self, button: int) -> None:
        """Press a button of a gamepad."""
        if self.session.attract:
            self.session.wake()
        elif button in PAD_BUTTONS:
            self._act(PAD_BUTTONS[button])

    def pad_axis(self, axis: int, value: float) -> None:
        """Move an axis of a gamepad, −1..1; near the middle it rests."""
        control = PAD_AXES.get(axis)
        value = 0.0 if abs(value) < PAD_DEAD_SHARE else value
        if control and value and self.session.attract:
            self.session.wake()
        if control and self._axes[control] != value:
            self._axes[control] = value
            self._steer()

    def let_go(self) -> None:
        """Forget everything that is down: the window lost the keyboard, a pad was pulled out, another visitor came."""
        held = bool(self._dragged or self._down or any(self._axes.values()))
        self._dragged.clear()
        self._down.clear()
        if held:
            self.session.pull(False)
            self.session.stick(0.0, 0.0)
            self.session.turning.set("rudder", 0.5)
        self._axes = dict.fromkeys(self._axes, 0.0)
