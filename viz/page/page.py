"""The page as one file: what it is told, what it computes, and a policy that lets nothing in or out."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from sim.live.traced import flight_traces, gun_traces, piston_trace
from sim.numerics.javascript import MODULO, javascript
from viz.page.data import data
from viz.stage.palette import ROLES
from viz.stage.worlds.blades import BladesWorld
from viz.words.catalogue import languages
from viz.words.say import say

if TYPE_CHECKING:
    from sim.live.scene_data import Stage
    from sim.numerics.trace import Trace

FOLDER: Final = Path(__file__).parent
SCRIPTS: Final = ("solid", "flight", "gun", "draw", "turning", "engine", "blades", "page")
INKS: Final = (
    "back", "panel", "panel_edge", "ink", "ink_quiet", "button", "button_on", "focus", "track", "rotary", "fixed",
    "on_colour", "now", "wait", "wait_dark", "strike",
)  # fmt: skip
"""Colours of the style sheet."""


def page(stage: Stage) -> str:
    """Return the page about an airplane, as HTML that needs nothing besides.

    Parameters
    ----------
    stage : Stage
        What is shown; without its gun there are two scenes, not three.
    """
    import jinja2

    world = BladesWorld(stage, seed=0) if stage.gun else None
    blades = replace(world.view(), second=None) if world else None
    told = json.dumps(data(stage, blades), separators=(",", ":"), ensure_ascii=False).replace("<", "\\u003c")
    script = "\n".join(['"use strict";', f"const DATA={told};", kernels(stage, world), *map(_script, SCRIPTS)])
    inks = ";".join(f"--{role.replace('_', '-')}:rgb{ROLES[role][0]}" for role in INKS)
    style = f":root{{{inks}}}" + re.sub(r"\s+", " ", (FOLDER / "page.css").read_text(encoding="utf-8"))
    template = jinja2.Template(
        (FOLDER / "page.html.jinja").read_text(encoding="utf-8"), undefined=jinja2.StrictUndefined
    )
    allowed = {"script-src": _hash(script), "style-src": _hash(style), "base-uri": "'none'", "form-action": "'none'"}
    return str(
        template.render(
            policy="; ".join(["default-src 'none'", *(f"{what} {which}" for what, which in allowed.items())]),
            title=say("english", "page.title"),
            scenes=["turning", "engine", *(["blades"] if blades else [])],
            style=style,
            script=script,
            noscript=" ".join(say(language, "page.needs_script") for language in languages()),
        )
    )


def kernels(stage: Stage, world: BladesWorld | None) -> str:
    """Return the traced functions of a page as JavaScript.

    ``KERNELS`` holds the flight of rotary and fixed engine, ``PISTON`` the pistons of both, ``TIMED`` and ``FREE`` the
    gun of a world with its gear and without.
    """
    lines = [
        MODULO,
        f"const KERNELS=[{','.join(_table(flight_traces(who)._asdict()) for who in (stage.rotary, stage.fixed))}];",
    ]
    setups = stage.rotary_engine, stage.fixed_engine
    lines.append(f"const PISTON=[{','.join(javascript(piston_trace(setup), 'piston') for setup in setups)}];")
    if world:
        for name in ("TIMED", "FREE"):
            lines.append(f"const {name}={_table(gun_traces(world.view().gun)._asdict())};")
            world.change_gear()
    return "\n".join(lines)


def _table(traces: dict[str, Trace]) -> str:
    return "{" + ",".join(f"{name}:{javascript(trace, name)}" for name, trace in traces.items()) + "}"


def _script(name: str) -> str:
    """Return the text of a script without its comments and the space before its lines."""
    lines = map(str.strip, (FOLDER / "scripts" / f"{name}.js").read_text(encoding="utf-8").splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//"))


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
