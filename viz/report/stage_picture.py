"""One picture of the stage: both airplanes in the same turn, with their arrows; or the gun behind its propeller."""

from __future__ import annotations

import base64
from functools import cache, partial
from typing import TYPE_CHECKING

from viz.figures.complete import PAGE_IN, Drawing

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.live.scene_data import Stage
    from viz.sheets.format import Units
    from viz.stage.show import Setting
    from viz.stage.snapshot import SceneName

SIZE = (960, 540)
"""So small that letters of the largest size are no less than 8 points over the width of a page [px]."""
SHOWN_PX = 514
"""Height of it that is shown: below stands the strip of cautions, smaller than 8 points, which the page says itself."""
LARGEST_LETTERS = 2
MOMENTS_S: dict[SceneName, float] = {"turning": 6.0, "blades": 4.0}
"""Scene -> when its picture is taken: in the turn with both banked; with a round under way. [s]"""
SCRIPT = "turn-left"


def stage_picture(stage: Stage, scene: SceneName, units: Units, language: str) -> Callable[[], Drawing]:
    """Return what draws a scene once, however often it is asked."""
    return cache(partial(_drawn, stage, scene, units, language))


def shown(scene: SceneName, units: Units, language: str) -> Setting:
    """Return how a scene is set for its picture: in the largest letters, without buttons."""
    from viz.stage.show import Setting
    from viz.stage.snapshot import Looks

    looks = Looks(language, font=LARGEST_LETTERS, chosen_units=units)
    return Setting(looks, scene, SCRIPT if scene == "turning" else "", buttons=False)


def _drawn(stage: Stage, scene: SceneName, units: Units, language: str) -> Drawing:
    from viz.stage.sdl_environment import prepare

    prepare()
    from viz.stage.recorder import picture

    told = base64.b64encode(picture(stage, shown(scene, units, language), SIZE, at_s=MOMENTS_S[scene])).decode()
    wide, high = SIZE[0], SHOWN_PX
    points = 72.0 * PAGE_IN[0]
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{points:.3f}pt" height="{points * high / wide:.3f}pt" '
        f'viewBox="0 0 {wide} {high}"><image width="{wide}" height="{SIZE[1]}" '
        f'href="data:image/png;base64,{told}"/></svg>'
    )
    return Drawing(svg, PAGE_IN[0])
