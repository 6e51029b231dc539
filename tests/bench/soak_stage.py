"""A day at the stand: 200,000 frames of the kiosk with seeded random input, and the memory it takes.

Every now and then a storm of other sizes of the screen comes over it, on a window as well; pads are plugged in and
pulled out, one of them in the moment in which it is looked for; and the screen is lost, at times for a while. Resident
memory at the end must lie within 2 % of that after 10,000 frames, nothing may be raised and no failure logged. Run it
by name; ``soak_stage.py 3000`` is the short run.
"""

import collections
import gc
import os
import random
import sys
from pathlib import Path

FRAMES = 200_000
SETTLED = 10_000
BAR = 0.02
SIZE = (960, 540)
STEP_S = 1.0 / 60.0
QUIET_SHARE = 0.3
"""Share of the time nobody is there, so that the attract loop and the way back to the start are soaked too."""
BUSY_FRAMES = 1500
STORM_EVERY, STORM_FRAMES = 1900, 60
"""A storm of sizes begins every so many frames and lasts so many; all of them are over before memory is looked at."""
SIDES = (540, 600, 720, 768, 800, 960, 1024, 1080, 1280)
LOST_EVERY, PAD_EVERY = 1300, 170
LOST_CALLS = 2
"""So many times a lost screen cannot be opened again, every other time it is lost."""


def resident_bytes():
    """Return the memory this process holds."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE")


def events(chance, names):
    """Return the random input of one frame: keys, mouse, fingers and pad."""
    import pygame

    x, y = chance.randrange(SIZE[0]), chance.randrange(SIZE[1])
    code = pygame.key.key_code(chance.choice(names))
    finger = {"finger_id": chance.randrange(4), "x": chance.random(), "y": chance.random(), "dx": 0.0, "dy": 0.0}
    choices = (
        (pygame.KEYDOWN, {"key": code}),
        (pygame.KEYUP, {"key": code}),
        (pygame.MOUSEBUTTONDOWN, {"button": 1, "pos": (x, y)}),
        (pygame.MOUSEMOTION, {"pos": (x, y), "rel": (1, 1), "buttons": (1, 0, 0)}),
        (pygame.MOUSEBUTTONUP, {"button": 1, "pos": (x, y)}),
        (pygame.FINGERDOWN, finger),
        (pygame.FINGERMOTION, finger),
        (pygame.FINGERUP, finger),
        (pygame.JOYAXISMOTION, {"axis": chance.randrange(4), "value": chance.uniform(-1.0, 1.0)}),
        (pygame.JOYBUTTONDOWN, {"button": chance.randrange(12)}),
        (pygame.WINDOWFOCUSLOST, {}),
        (pygame.QUIT, {}),
    )
    return [pygame.event.Event(kind, detail) for kind, detail in chance.sample(choices, chance.randrange(4))]


class Pads:
    """Pads that come and go; every so often one is gone in the moment in which it is looked for."""

    def __init__(self, chance):
        self.count, self.chance = 0, chance

    def get_count(self):
        return self.count

    def take(self, place):
        import pygame

        if self.chance.random() < 0.2:
            message = "Invalid joystick device number"
            raise pygame.error(message)
        return object()


class Mishaps:
    """What happens to screen and pads of a window, by the number of the frame."""

    def __init__(self, window, chance, monkey):
        import pygame

        self.window, self.chance, self.done = window, chance, collections.Counter()
        self.pads, self.shut = Pads(chance), 0
        self._opened = pygame.display.init
        monkey(pygame.joystick, "get_count", self.pads.get_count)
        monkey(pygame.joystick, "Joystick", self.pads.take)
        monkey(pygame.display, "init", self._open)

    def _open(self):
        import pygame

        if self.shut:
            self.shut -= 1
            message = "No available video device"
            raise pygame.error(message)
        self._opened()

    def befall(self, frame):
        import pygame

        storm = frame % STORM_EVERY
        if storm < STORM_FRAMES and pygame.display.get_surface() is not None:
            self.window.show.session.fullscreen = self.done["storms"] % 2 == 0
            size = (self.chance.choice(SIDES), self.chance.choice(SIDES))
            if not self.window.show.session.fullscreen:
                size = tuple(side // self.chance.randrange(1, 4) for side in size)
            pygame.display.set_mode(size if storm < STORM_FRAMES - 1 else SIZE, pygame.RESIZABLE)
            self.done["sizes"] += 1
            self.done["storms"] += storm == STORM_FRAMES - 1
            self.window.show.session.fullscreen |= storm == STORM_FRAMES - 1
        if frame % PAD_EVERY == PAD_EVERY - 1:
            self.pads.count = self.chance.randrange(3)
            self.done["pads"] += 1
        if frame % LOST_EVERY == LOST_EVERY - 1:
            pygame.display.quit()
            self.shut = LOST_CALLS if self.done["screens lost"] % 2 else 0
            self.done["screens lost"] += 1


def soak(frames, seed=1):
    """Run the kiosk and return the memory when settled and at the end, the failures logged, and what befell it."""
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    import pygame

    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.stage.actions import KEYS
    from viz.stage.app import Window
    from viz.stage.show import Setting

    window = Window(stage(model("tollgate")), Setting(kiosk=True, seed=seed), SIZE)
    chance = random.Random(seed)
    mishaps = Mishaps(window, random.Random(seed + 1), setattr)
    names = [key.name for key in KEYS]
    settled, busy_until, busy = 0, 0, False
    for frame in range(frames):
        if frame >= busy_until:
            busy = chance.random() > QUIET_SHARE
            busy_until = frame + (BUSY_FRAMES if busy else 3 * BUSY_FRAMES)
        mishaps.befall(frame)
        if busy and pygame.display.get_init():
            for event in events(chance, names):
                pygame.event.post(event)
        window.frame(STEP_S)
        if frame + 1 == min(SETTLED, frames // 2):
            gc.collect()
            settled = resident_bytes()
    gc.collect()
    return settled, resident_bytes(), window.show.failures, window.show.session.finished, mishaps.done


def main():
    """Print the growth beside its bar."""
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else FRAMES
    settled, end, failures, left, befell = soak(frames)
    growth = end / settled - 1.0
    print(
        f"soak of {frames} frames: memory {settled / 2**20:.1f} -> {end / 2**20:.1f} MiB, "
        f"growth {growth:+.2%} (bar {BAR:.0%}), failures {failures}, left {left}; "
        + ", ".join(f"{count} {what}" for what, count in sorted(befell.items()))
    )


if __name__ == "__main__":
    main()
