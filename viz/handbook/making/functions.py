"""Every function of ``import sim``, from its own docstring."""

from __future__ import annotations

from sim.interface import ABOUT_A_MODEL, BY_ITSELF

PLACES = {"load": "sim.interface", "scale": "sim.studies.scale"} | ABOUT_A_MODEL | BY_ITSELF
"""Function -> the module in which it is written."""
SET = "    options:\n      show_root_heading: false"


def entries() -> str:
    """Return the Markdown that has the docstring of each function set below its name."""
    return "\n\n".join(f"## sim.{name}\n\n::: {place}.{name}\n{SET}" for name, place in PLACES.items())
