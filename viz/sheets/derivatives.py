"""The sheet of `whirlgate derivatives`: a line for each derivative."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.masses import flown_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.aerodynamics.derivatives import Derivative
    from sim.studies.derivatives import DerivativesAnswer
    from viz.sheets.blocks import Block, Cell, Next

ORIGINS = {"estimated": "estimated from geometry", "given": "given"}
SIGNS = (
    "Body axes: x forward, y right, z down. Moments positive nose up, right wing down, nose right; sideslip positive "
    "with the wind from the right. Positive controls: stick forward, stick left, left rudder."
)
MOVED = (
    "Given values are those about the CG that wing.arm is measured from; here they stand about the CG flown, as the "
    "estimates do."
)
EXAMPLE = "yaw_beta"
"""The derivative of which the sheet says how a measured value is given."""


def sheet(answer: DerivativesAnswer) -> Iterator[Block]:
    """Yield value, standard deviation and source of every derivative, and what they are referred to."""
    note = say(
        "Reference area {area}, span {span}, mean chord {chord}; equivalent monoplane: aspect ratio {aspect}, span "
        "factor {factor}. Per radian; rates as q c/2V, p b/2V, r b/2V. After ±: one standard deviation of the "
        "estimate. The first word is the key of the table derivatives.",
        area=Value("area_m2", answer.area_m2),
        span=Value("span_m", answer.span_m),
        chord=Value("chord_m", answer.chord_m),
        aspect=Value("aspect", answer.aspect, decimals=2),
        factor=Value("span_factor", answer.span_factor, decimals=3),
    )
    title = say(
        "Aerodynamic derivatives at {speed} and {altitude} with the propeller of the {powerplant}",
        speed=Value("speed_m_s", answer.speed_m_s),
        altitude=Value("altitude_m", answer.altitude_m),
        powerplant=answer.powerplant,
    )
    lines = (_row(name, found) for name, found in answer.derivatives.items())
    moved = (MOVED,) if any(found.origin == "given" for found in answer.derivatives.values()) else ()
    yield rows(title, ["Derivative", "Value", "Std. dev.", "Source"], lines, note, SIGNS, *moved)
    yield flown_at({answer.powerplant: answer.mass})
    yield _next(answer)


def _next(answer: DerivativesAnswer) -> Next:
    if answer.derivatives[EXAMPLE].origin == "given":
        return next_steps(say("the modes with these derivatives, with {run}", run=Run("modes")))
    run = Run("modes", f"--set derivatives.{EXAMPLE}=0.03")
    return next_steps(say("a measured value replaces its estimate, as in {run}", run=run))


def _row(name: str, found: Derivative) -> list[Cell]:
    band = say("± {band}", band=Value("band", found.band, decimals=4)) if found.band else ""
    return [f"{name}  {quantity(name).symbol}", Value(name, found.value, decimals=4), band, ORIGINS[found.origin]]
