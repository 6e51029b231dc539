"""Frame time of every scene in a real window: median and 99th percentile, and what physics, shapes and paint take.

Bar: 99th percentile of the work 12 ms at 1280 x 720 and at 1920 x 1080, software renderer, one core. Every run shows
the same frames, so the work of a frame is the least that it took in some runs: what a run takes beyond that is what
else the machine does. Printed as well is the 99th percentile of the quickest run as it was. Run it under a display, as
in ``xvfb-run -s "-screen 0 1920x1080x24" python tests/bench/bench_stage.py``; each run gets a process of its own.
"""

import gc
import json
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
RUNS = 4


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
    pygame.display.update = timed(pygame.display.update, "copy")
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


def percentile_99_ms(frames):
    """Return the time that one frame of a hundred takes longer than [ms]."""
    return 1e3 * sorted(frames)[int(0.99 * len(frames))]


def report(scene, size, runs):
    """Print one line of some runs: seconds of every frame, and of its parts."""
    frames = [min(times) for times in zip(*(each for each, _ in runs), strict=True)]
    quickest, parts = min(runs, key=lambda run: sum(run[0]))
    share = {name: seconds / sum(quickest) for name, seconds in parts.items()} | {
        "paint": 1.0 - sum(parts.values()) / sum(quickest)
    }
    print(
        f"stage {scene} {size}: p99 of the work {percentile_99_ms(frames):.2f} ms (bar {BAR_MS}), median "
        f"{1e3 * statistics.median(frames):.2f}; quickest run p99 {percentile_99_ms(quickest):.2f}, median "
        f"{1e3 * statistics.median(quickest):.2f}; {' '.join(f'{name} {part:.0%}' for name, part in share.items())}"
    )


def main():
    """Measure every scene at every size, each run in a process of its own, on one core; or those asked for."""
    if len(sys.argv) == 4:
        frames = one(sys.argv[1], tuple(map(int, sys.argv[2].split("x"))))
        print(json.dumps([frames, {name: sum(times) for name, times in SPENT.items()}]))
        return
    if not os.environ.get("DISPLAY"):
        print("stage: skipped, no display; run it under xvfb-run")
        return
    environment = os.environ | {"SDL_VIDEODRIVER": "x11", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    core = str(max(os.sched_getaffinity(0)))
    for size in SIZES:
        for scene in sys.argv[1:] or SCENES:
            command = ["taskset", "-c", core, sys.executable, __file__, scene, size, "once"]
            runs = [
                subprocess.run(command, env=environment, check=True, capture_output=True, text=True).stdout
                for _ in range(RUNS)
            ]
            report(scene, size, [json.loads(run) for run in runs])


if __name__ == "__main__":
    main()
