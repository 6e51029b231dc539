"""What the session asks of every world; and what most of them do alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.dials import Dial
from viz.stage.snapshot import SliderView

if TYPE_CHECKING:
    from viz.stage.dials import Range
    from viz.stage.snapshot import BenchView, BladesView, Caption, EngineView, RingsView, TurningView
    from viz.stage.worlds.paces import Pace

STEP_S = 1.0 / 60.0
"""Fixed step of every world, in its own seconds for the flight and in the room's seconds elsewhere [s].

In eight seconds of any maneuver of the bundled airplane attitudes err by less than 5e-4, and places by less than
0.1 m: below a pixel. Half the step takes twice the time; in some maneuvers, where laws jump, it errs as much.
"""


class World:
    """Dials and a pace; a world adds what goes on. Where the visitor asks for little motion it is `steady`."""

    def __init__(self, ranges: tuple[Range, ...], pace: Pace) -> None:
        self.dials = {extent.name: Dial(extent) for extent in ranges}
        self.pace = pace
        self.steady = False

    def reset(self) -> None:
        """Start again, dials and pace too."""
        for dial in self.dials.values():
            dial.reset()
        self.pace.reset()

    def set(self, name: str, share: float) -> None:
        """Ask a dial, or the pace, for a share of its range; a name of another scene is let pass."""
        if name == "pace":
            self.pace.pick(share)
        elif name in self.dials:
            self.dials[name].set(share)

    def follow(self, elapsed_s: float) -> None:
        """Let the dials come nearer to what was asked for, paused or not."""
        for dial in self.dials.values():
            dial.follow(elapsed_s)

    def sliders(self) -> tuple[SliderView, ...]:
        """Return every slider of the scene as it stands."""
        dials = tuple(SliderView(name, dial.wanted, dial.value) for name, dial in self.dials.items())
        return (*dials, SliderView("pace", self.pace.share, self.pace.value))

    @property
    def shown_pace(self) -> float:
        """Seconds on the stage for a second in the room, as they are told."""
        return self.pace.value

    def advance(self, elapsed_s: float) -> None:
        """Let `elapsed_s` seconds of the room pass."""
        raise NotImplementedError

    def step(self) -> None:
        """Go on by one step and stand still again."""
        raise NotImplementedError

    def view(self) -> TurningView | RingsView | BenchView | EngineView | BladesView:
        """Return what there is to see."""
        raise NotImplementedError

    def caption(self) -> Caption:
        """Return what is happening, in words."""
        raise NotImplementedError
