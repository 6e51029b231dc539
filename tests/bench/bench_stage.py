"""Frame time of every scene in a real window: median and 99th percentile, and what physics, shapes and paint take.

Bar: 99th percentile 12 ms at 1280 x 720 and at 1920 x 1080, software renderer, one core. Run it under a display, as
in ``xvfb-run -s "-screen 0 1920x1080x24" python tests/bench/bench_stage.py``; each scene gets a process of its own.
"""

import gc
import os
import statistics
import subprocess
import sys
import time

BAR_MS = 12.0
SIZES = ("1280x720", "1920x1080")
SCENES = ("turning", "engine", "blades")
FRAMES = 900
WARM = 120
STEP_S = 1.0 / 60.0


def one(scene, size):
    """Show one scene and return the seconds of every frame and of its parts."""
    import viz.stage.show
    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.stage.app import Window
    from viz.stage.show import Setting

    script = "turn-right" if scene == "turning" else ""
    window = Window(stage(model("tollgate")), Setting(scene=scene, script=script, buttons=True), size)
    import pygame

    assert pygame.display.get_driver() == "x11"
    viz.stage.show.draw = timed(viz.stage.show.draw, "shapes")
    window.show.tick = timed(window.show.tick, "physics")
    pygame.display.flip = timed(pygame.display.flip, "flip")
    for _ in range(WARM):
        window.frame(STEP_S)
    gc.collect()
    gc.freeze()
    gc.disable()  # as the window does while it runs
    SPENT.clear()
    frames = []
    for _ in range(FRAMES):
        before = time.perf_counter()
        window.frame(STEP_S)
        frames.append(time.perf_counter() - before)
        time.sleep(0.002)
    return frames


SPENT = {}


def timed(function, name):
    """Return the function, adding the seconds it takes to `SPENT`."""

    def wrapped(*args, **named):
        before = time.perf_counter()
        result = function(*args, **named)
        SPENT.setdefault(name, []).append(time.perf_counter() - before)
        return result

    return wrapped


def report(scene, size):
    """Measure and print one line."""
    frames = sorted(one(scene, tuple(map(int, size.split("x")))))
    total = sum(frames)
    share = {name: sum(times) / total for name, times in SPENT.items()}
    rest = 1.0 - sum(share.values())
    p99 = 1e3 * frames[int(0.99 * len(frames))]
    parts = " ".join(f"{name} {part:.0%}" for name, part in share.items())
    median = 1e3 * statistics.median(frames)
    print(f"stage {scene} {size}: p99 {p99:.2f} ms (bar {BAR_MS}), median {median:.2f}; {parts} paint {rest:.0%}")


def main():
    """Measure every scene at every size, each in a process of its own, on one core."""
    if len(sys.argv) == 3:
        report(sys.argv[1], sys.argv[2])
        return
    if not os.environ.get("DISPLAY"):
        print("stage: skipped, no display; run it under xvfb-run")
        return
    environment = os.environ | {"SDL_VIDEODRIVER": "x11", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    core = str(max(os.sched_getaffinity(0)))
    for size in SIZES:
        for scene in SCENES:
            command = ["taskset", "-c", core, sys.executable, __file__, scene, size]
            subprocess.run(command, env=environment, check=True)


if __name__ == "__main__":
    main()
