"""The page in Chromium slowed four times, as a phone's processor: script of a frame against a sixtieth of a second.

What fills the pixels is another thread, or a graphics processor, that the slow-down leaves alone; a machine without one
shows fewer frames than the script allows.
"""

import os
import tempfile
from pathlib import Path

from chromium_pipe import Tab
from side_by_side import say

FRAME_MS = 1000.0 / 60.0
WORK = """new Promise(done => {
  run(false);
  const taken = [];
  const once = () => {
    const begun = performance.now();
    scenes[current].advance(1 / 60);
    draw();
    taken.push(performance.now() - begun);
    if (taken.length < 80) requestAnimationFrame(once);
    else { run(true); done(taken.sort((one, other) => one - other)[40]); }
  };
  requestAnimationFrame(once);
})"""
FIRST = "performance.getEntriesByName('first-contentful-paint')[0].startTime"


def main() -> None:
    """Print work of a frame in each scene on a phone held upright, first paint, and size."""
    os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.page.page import page

    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        path = Path(folder) / "page.html"
        path.write_text(page(stage(model("tollgate"))), encoding="utf-8")
        say("size of the page / 400 kB", path.stat().st_size / 400_000, 1.0)
        tab = Tab(Path(folder) / "profile")
        try:
            tab.call("Emulation.setCPUThrottlingRate", rate=4)
            tab.open(path.as_uri(), 390, 844, 2.0)
            tab.rest(1.0)
            say("first paint, slowed 4 times / 1 s", tab.ask(FIRST) / 1000.0, 1.0)
            for scene in ("turning", "engine", "blades"):
                tab.ask(f"show('{scene}'); lean(1); scenes.blades.trigger = true; 0")
                tab.rest(1.0)
                say(f"script of a frame of {scene}, slowed 4 times / frame of 60 Hz", tab.ask(WORK) / FRAME_MS, 1.0)
        finally:
            tab.close()


if __name__ == "__main__":
    main()
