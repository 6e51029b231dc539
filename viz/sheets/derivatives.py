"""The sheet of `whirlgate derivatives`: a line for each derivative."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.sheets.blocks import Value, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.aerodynamics.derivatives import Derivative
    from sim.studies.derivatives import DerivativesAnswer
    from viz.sheets.blocks import Block, Cell

ORIGINS = {"estimated": "estimated from geometry", "given": "given"}


def sheet(answer: DerivativesAnswer) -> Iterator[Block]:
    """Yield value, error band and origin of every derivative, and what they are referred to."""
    note = say(
        "Referred to {area}, span {span}, chord {chord}. Equivalent monoplane: aspect ratio {aspect}, span factor "
        "{factor}. Per radian, rates as q c/2V, p b/2V, r b/2V; at {speed} with the propeller of the {powerplant}. The "
        "band is one standard deviation of the estimate.",
        area=Value("area_m2", answer.area_m2),
        span=Value("span_m", answer.span_m),
        chord=Value("chord_m", answer.chord_m),
        aspect=Value("aspect", answer.aspect, decimals=2),
        factor=Value("span_factor", answer.span_factor, decimals=3),
        speed=Value("speed_m_s", answer.speed_m_s),
        powerplant=answer.powerplant,
    )
    lines = (_row(name, found) for name, found in answer.derivatives.items())
    yield rows("Aerodynamic derivatives", ["Derivative", "Value", "Band", "Origin"], lines, note)
    yield say("Next: a measured value replaces its estimate, as in whirlgate modes --set derivatives.yaw_beta=0.03.")


def _row(name: str, found: Derivative) -> list[Cell]:
    band = say("± {band}", band=Value("band", found.band, decimals=4)) if found.band else ""
    return [f"{name}  {quantity(name).symbol}", Value(name, found.value, decimals=4), band, ORIGINS[found.origin]]
