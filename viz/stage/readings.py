"""Values in the visitor's words and units, for sliders and instruments."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import km_per_h, ms, rpm
from sim.units.quantities import shown
from viz.words.say import THIN, say

if TYPE_CHECKING:
    from viz.stage.snapshot import Looks, SliderView


BICYCLE_WHEEL_KG_M2_S = 1.3 * 0.33 * 6.0
"""Angular momentum of a wheel with 1.3 kg of rim and tyre at .33 m, at 6 m/s (common practice, no source)."""


def slider(view: SliderView, looks: Looks) -> str:
    """Return the reading of a slider."""
    if view.name in {"rudder", "throttle"}:
        return _share(view, looks.language)
    if view.name == "pace":
        return pace(view.value, looks.language, short=True)
    if view.name == "blades":
        return f"{view.value:.0f}"
    if view.name.endswith("rad_s"):
        return say(looks.language, "value.rpm", number=f"{rpm(view.value):.0f}")
    if view.name.endswith("per_min"):
        return say(looks.language, "value.per_min", number=f"{view.value:.0f}")
    return say(looks.language, "value.ms", number=f"{ms(view.value):.1f}")


def _share(view: SliderView, language: str) -> str:
    percent = round(100.0 * view.value)
    if percent == 0:
        return say(language, "value.middle" if view.name == "rudder" else "value.level")
    signs = ("left", "right") if view.name == "rudder" else ("less", "more")
    return say(language, f"value.{signs[percent > 0]}", share=abs(percent))


def pace(value: float, language: str, *, short: bool = False) -> str:
    """Return how fast the stage runs: real time, or slowed 1 : 100, the ratio alone where `short`."""
    if value == 1.0:
        return say(language, "pace.real")
    return say(language, "pace.ratio" if short else "pace.slow", factor=f"{1.0 / value:g}")


def speed(value_m_s: float, looks: Looks) -> str:
    """Return an airspeed, to the mile or kilometre an hour."""
    if looks.units == "si":
        return say(looks.language, "value.km_h", number=f"{km_per_h(value_m_s):.0f}")
    unit, factor = shown("speed_m_s", looks.units)
    return f"{value_m_s * factor:.0f} {unit}"


def mass(value_kg: float, looks: Looks) -> str:
    """Return a mass, to the pound or kilogram."""
    unit, factor = shown("mass_kg", looks.units)
    return f"{value_kg * factor:.0f} {unit}"


def wheels(value_kg_m2_s: float) -> str:
    """Return how many wheels of a bicycle on its way spin as much, to two digits from ten on."""
    count = abs(value_kg_m2_s) / BICYCLE_WHEEL_KG_M2_S
    return f"{float(f'{count:.2g}'):,.0f}".replace(",", THIN)
