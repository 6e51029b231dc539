"""The session: what a visitor does goes in, what there is to see comes out; no window, no clock, no pixels."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from viz.stage.actions import Action
from viz.stage.flashes import Ration
from viz.stage.snapshot import FONT_SCALES, SCENES, Looks, SceneName, Snapshot
from viz.stage.worlds.bench import IDLE_S, BenchWorld
from viz.stage.worlds.blades import BladesWorld
from viz.stage.worlds.engine import EngineWorld
from viz.stage.worlds.rings import RingsWorld
from viz.stage.worlds.turning import TurningWorld
from viz.words.catalogue import languages

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.live.scene_data import Stage
    from viz.stage.layout import Front
    from viz.stage.worlds.world import World

EXCHANGES = frozenset(
    {
        Action.TURNING,
        Action.ENGINE,
        Action.BLADES,
        Action.NEXT_SCENE,
        Action.HELP,
        Action.DEVICES,
        Action.CAUTIONS,
        Action.MENU,
        Action.CONTRAST,
        Action.MOTION,
        Action.FONT,
        Action.LANGUAGE,
        Action.RESTART,
        Action.MANEUVER,
        Action.LET_GO,
        Action.FULL_CONTROL,
        Action.RINGS,
        Action.RECUT,
        Action.GEAR,
        Action.REPLAY,
        Action.SETTINGS,
        Action.FULLSCREEN,
        Action.LEAVE,
    }
)
"""Actions that exchange much of the picture at once: rationed, see `viz.stage.flashes`."""
FROM_BENCH = frozenset({Action.MANEUVER, Action.LET_GO, Action.FULL_CONTROL})
"""What a visitor asks of the pair of airplanes: it ends the time at the bench and among the rings."""
PAGES = {Action.HELP: "help", Action.DEVICES: "devices", Action.CAUTIONS: "caution", Action.MENU: "menu"}
"""Action -> page that it opens over the scene, and closes."""


class Session:
    """Three worlds, two without a gun, of which one is on the stage, and how the visitor wants to see it."""

    def __init__(
        self, stage: Stage, *, looks: Looks | None = None, scene: SceneName = "turning", seed: int = 1
    ) -> None:
        self.turning = TurningWorld(stage.rotary, stage.fixed)
        self.bench = BenchWorld(stage.rotary_engine, stage.fixed_engine)
        self.rings = RingsWorld(stage.rotary, stage.fixed, stage.figure.span_m)
        self.engine = EngineWorld(stage.rotary_engine, stage.fixed_engine)
        self.blades = BladesWorld(stage, seed) if stage.gun else None
        self._worlds: dict[SceneName, World] = {"turning": self.turning, "engine": self.engine}
        if self.blades:
            self._worlds["blades"] = self.blades
        self._start_looks = looks or Looks()
        self.scene = self._start_scene = scene
        self.overlay = ""
        self.buttons = True
        self.sound = self.loud = True
        self.attract = self.kiosk = self.finished = self.fullscreen = False
        self.now_s = 0.0
        self._stepped = False
        self._exchange, self._halt = Ration(), Ration()
        self.restart()

    @property
    def scenes(self) -> tuple[SceneName, ...]:
        """The scenes that there are, in the order of their tabs."""
        return tuple(self._worlds)

    @property
    def front(self) -> Front:
        """What stands about the picture."""
        return "attract" if self.attract else "full" if self.buttons else "bare"

    @property
    def world(self) -> World:
        """The world that is on the stage."""
        return self.bench if self.on_bench else self.rings if self.on_rings else self._worlds[self.scene]

    def restart(self) -> None:
        """Start every scene again, with the looks of the start; the scene that is on stays on."""
        for world in (*self._worlds.values(), self.bench, self.rings):
            world.reset()
        self.on_bench = self.on_rings = False
        self.looks = self._start_looks
        self.sound = self.loud
        self.paused = False
        self.focus = -1

    def wake(self, language: str = "") -> None:
        """End the attract loop: a visitor is there, who may have touched a language."""
        self.attract = False
        self.restart()
        self.show(self._start_scene)
        self.on_bench = self.scene == "turning"
        if language:
            self._look(language=language)

    def act(self, action: Action, choice: str = "") -> None:
        """Do what was asked for; an exchange that comes too soon after another one is let pass."""
        if action in EXCHANGES and not self._exchange.grant(self.now_s):
            return
        if choice:
            self._look(language=choice)
            return
        if action in FROM_BENCH:
            self.on_bench = self.on_rings = False
        if action is Action.TURNING and self.scene == "turning":
            self.to_bench(not self.on_bench)
        elif action in SCENES:
            self.show(action.value)  # type: ignore[arg-type]
        else:
            self._deeds().get(action, lambda: None)()

    def _deeds(self) -> dict[Action, Callable[[], None]]:
        return {
            Action.PAUSE: self._pause,
            Action.STEP: self._single_step,
            Action.SLOWER: lambda: self.world.pace.shift(-1),
            Action.FASTER: lambda: self.world.pace.shift(1),
            Action.RESTART: self._start_again,
            Action.NEXT_SCENE: lambda: self.show(self._next(self.scenes, self.scene)),
            Action.RINGS: self.to_rings,
            **(self._flying_deeds(self.turning) if self.scene == "turning" else {}),
            **(self._gun_deeds(self.blades) if self.blades and self.scene == "blades" else {}),
            Action.LANGUAGE: lambda: self._look(language=self._next(languages(), self.looks.language)),
            Action.FONT: lambda: self._look(font=(self.looks.font + 1) % len(FONT_SCALES)),
            Action.CONTRAST: lambda: self._look(contrast=self._next(("normal", "high"), self.looks.contrast)),
            Action.MOTION: lambda: self._look(steady=not self.looks.steady),
            Action.UNITS: lambda: self._look(chosen_units=self._next(("us", "si"), self.looks.units)),
            **{action: partial(self._page, name) for action, name in PAGES.items()},
            Action.SOUND: lambda: setattr(self, "sound", not self.sound),
            Action.FULLSCREEN: self._fullscreen,
            Action.LEAVE: self._leave,
        }

    @staticmethod
    def _flying_deeds(turning: TurningWorld) -> dict[Action, Callable[[], None]]:
        return {
            Action.MANEUVER: turning.next_script,
            Action.LET_GO: turning.let_go,
            Action.FULL_CONTROL: turning.toggle_full,
        }

    @staticmethod
    def _gun_deeds(blades: BladesWorld) -> dict[Action, Callable[[], None]]:
        return {
            Action.MANEUVER: blades.toggle_trigger,  # a pad's third button, which says nothing when it is let go
            Action.GEAR: blades.change_gear,
            Action.RECUT: blades.recut,
            Action.REPLAY: blades.replay,
            Action.SETTINGS: blades.toggle_settings,
        }

    def to_bench(self, there: bool) -> None:
        """Put the engines on their bench before the first scene's flight, or go on to the flight."""
        self.bench.reset()
        self.on_bench, self.on_rings = there, False
        self.focus = -1

    def to_rings(self) -> None:
        """Begin the challenge of the first scene."""
        self.show("turning")
        self.rings.reset()
        self.on_bench, self.on_rings = False, True
        self.focus = -1

    def stick(self, roll: float, pitch: float) -> None:
        """Move the stick of what flies, or push the noses on the bench; right and pulled (down) positive, −1..1."""
        (self.bench if self.on_bench else self.rings if self.on_rings else self.turning).stick(roll, pitch)

    def pull(self, trigger: bool) -> None:
        """Pull the trigger of the gun that is on the stage, or let go of it."""
        if self.blades and self.scene == "blades":
            self.blades.pull(trigger)

    @staticmethod
    def _next(names: tuple, name: str):  # type: ignore[no-untyped-def,type-arg]  # noqa: ANN205
        return names[(names.index(name) + 1) % len(names)]

    def _look(self, **change: object) -> None:
        self.looks = replace(self.looks, **change)  # type: ignore[arg-type]

    def show(self, scene: SceneName) -> None:
        """Put a scene on the stage, where there is such a one."""
        if scene != self.scene and scene in self._worlds:
            self.scene = scene
            self.on_bench = self.on_rings = False
            self.focus = -1

    def _start_again(self) -> None:
        self.world.reset()
        self.paused = False

    def _pause(self) -> None:
        """Pause or go on, no sooner than the light button of it may change again."""
        if self._halt.grant(self.now_s):
            self.paused = not self.paused

    def _single_step(self) -> None:
        """Go on by one step, and by no more than one between two frames."""
        self.paused = True
        if not self._stepped:
            self._stepped = True
            self.world.step()

    def _page(self, name: str) -> None:
        """Open a page over the scene, or close it."""
        self.overlay = "" if self.overlay == name else name
        self.focus = -1

    def _fullscreen(self) -> None:
        if not self.kiosk:
            self.fullscreen = not self.fullscreen

    def _leave(self) -> None:
        if self.overlay:
            self.overlay = ""
        elif not self.kiosk:
            self.finished = True

    def tick(self, elapsed_s: float) -> None:
        """Let `elapsed_s` seconds of the room pass."""
        self.now_s += elapsed_s
        self._stepped = False
        self.world.steady = self.looks.steady
        self.world.follow(elapsed_s)
        if not self.paused and not self.overlay:
            self.world.advance(elapsed_s)
            if self.on_bench and self.bench.idle_s >= IDLE_S:
                self.to_bench(False)

    def snapshot(self) -> Snapshot:
        """Return everything the scenes need for one frame."""
        return Snapshot(
            scene=self.scene,
            scenes=self.scenes,
            overlay=self.overlay,  # type: ignore[arg-type]
            paused=self.paused,
            front=self.front,
            kiosk=self.kiosk,
            sound=self.sound,
            now_s=self.now_s,
            pace=self.world.shown_pace,
            looks=self.looks,
            caption=self.world.caption(),
            sliders=self.world.sliders(),
            maneuver=self.turning.script,
            gear=self.blades.gear if self.blades else "",
            focus=self.focus,
            view=self.world.view(),
        )
