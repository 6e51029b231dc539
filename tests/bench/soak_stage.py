"""A day at the stand: 200,000 frames of the kiosk with seeded random input, and the memory it takes.

Resident memory at the end must lie within 2 % of that after 10,000 frames, and no failure may be logged. Run it by
name; ``soak_stage.py 3000`` is the short run.
"""

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


def soak(frames, seed=1):
    """Run the kiosk and return the memory when settled and at the end, and the failures logged."""
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    import pygame

    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.stage.actions import KEYS
    from viz.stage.app import Window
    from viz.stage.show import Setting

    window = Window(stage(model("tollgate")), Setting(kiosk=True, seed=seed), SIZE)
    chance = random.Random(seed)
    names = [key.name for key in KEYS]
    settled, busy_until, busy = 0, 0, False
    for frame in range(frames):
        if frame >= busy_until:
            busy = chance.random() > QUIET_SHARE
            busy_until = frame + (BUSY_FRAMES if busy else 3 * BUSY_FRAMES)
        if busy:
            for event in events(chance, names):
                pygame.event.post(event)
        window.frame(STEP_S)
        if frame + 1 == min(SETTLED, frames // 2):
            gc.collect()
            settled = resident_bytes()
    gc.collect()
    return settled, resident_bytes(), window.show.failures, window.show.session.finished


def main():
    """Print the growth beside its bar."""
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else FRAMES
    settled, end, failures, left = soak(frames)
    growth = end / settled - 1.0
    print(
        f"soak of {frames} frames: memory {settled / 2**20:.1f} -> {end / 2**20:.1f} MiB, "
        f"growth {growth:+.2%} (bar {BAR:.0%}), failures {failures}, left {left}"
    )


if __name__ == "__main__":
    main()
