"""The sheet of `whirlgate derivatives`: a line for each derivative."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.masses import flown_at
from viz.sheets.validity import outside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.aerodynamics.derivative import Derivative
    from sim.studies.derivatives import DerivativesAnswer
    from sim.studies.span_loads import SpanLoads
    from viz.sheets.blocks import Block, Cell, Next, Sentence, Table

ORIGINS = {"estimated": "geometry", "given": "given"}
SIGNS = (
    "Body axes: x forward, y right, z down. Moments positive nose up, right wing down, nose right; sideslip positive "
    "with the wind from the right. Positive controls: stick forward, stick left, left rudder."
)
MOSTLY = {
    "wing_lift": "lift of the wing",
    "wing_moment": "moment of the section",
    "wing_sideways": "wing across the stream",
    "wing_height": "height of the wing",
    "roll_damping": "damping of the wing",
    "roll_to_yaw": "suction of the wing",
    "profile_drag": "profile drag",
    "tail_pressure": "stream at the tail",
    "downwash": "downwash",
    "elevator": "elevator",
    "aileron": "ailerons",
    "adverse_yaw": "adverse yaw",
    "fin_lift": "lift of the fin",
    "sidewash": "sidewash at the fin",
    "rudder": "rudder",
    "body_pitch": "body in pitch",
    "body_yaw": "body in yaw",
    "body_side": "body across the stream",
    "lag": "lag of the downwash",
}
"""Sources of error in words."""
BALANCED = (
    "Straight flight, balanced by the elevator, without thrust and slipstream, so that the fin bears nothing; a share "
    "below 0 presses down."
)
MOVED = (
    "Given values are those about the CG that wing.arm is measured from; here they stand about the CG flown, as the "
    "estimates do."
)
EXAMPLE = "yaw_beta"
"""The derivative of which the sheet says how a measured value is given."""


def sheet(answer: DerivativesAnswer) -> Iterator[Block]:
    """Yield value, standard deviation and source of every derivative, and what of them grows with lift."""
    note = say(
        "Reference area {area}, span {span}, mean chord {chord}; equivalent monoplane: aspect ratio {aspect}, span "
        "factor {factor}. Per radian; rates as q c/2V, p b/2V, r b/2V. After ±: one standard deviation of the "
        "estimate. The first word is the key of the table derivatives. Propeller and slipstream are not in them: "
        "flights add both at the power of the moment.",
        area=Value("area_m2", answer.area_m2),
        span=Value("span_m", answer.span_m),
        chord=Value("chord_m", answer.chord_m),
        aspect=Value("aspect", answer.aspect, decimals=2),
        factor=Value("span_factor", answer.span_factor, decimals=3),
    )
    title = say(
        "Aerodynamic derivatives, power off, at {speed} and {altitude} with the {powerplant}",
        speed=Value("speed_m_s", answer.speed_m_s),
        altitude=Value("altitude_m", answer.altitude_m),
        powerplant=answer.powerplant,
    )
    lines = (_row(name, found) for name, found in answer.derivatives.items())
    moved = (MOVED,) if any(found.origin == "given" for found in answer.derivatives.values()) else ()
    heads = ["Derivative", "Value", "Std. dev.", "Of which most by", "Source"]
    yield rows(title, heads, lines, note, SIGNS, *moved, *_beyond(answer))
    yield from _growing(answer)
    yield _lift(answer.loads)
    yield flown_at({answer.powerplant: answer.mass})
    if answer.remarks:
        yield remarks(answer.remarks)
    yield _next(answer)


def _beyond(answer: DerivativesAnswer) -> Iterator[Sentence]:
    """Yield the bounds that level flight passes, and where the wing cannot carry the airplane that it cannot."""
    if answer.lift_level > answer.lift_max:
        yield say(
            "Below the stall: level flight at {speed} requires CL {needed}; these values are at the greatest, {most}. "
            "The airplane flies level from {stall} on.",
            speed=Value("speed_m_s", answer.speed_m_s),
            needed=Value("lift_level", answer.lift_level),
            most=Value("lift_max", answer.lift_max),
            stall=Value("stall_m_s", answer.stall_m_s),
        )
    yield from outside([answer.beyond], "Level flight is outside")


def _growing(answer: DerivativesAnswer) -> Iterator[Block]:
    grows: list[list[Cell]] = [
        [_title(name), Value("per_lift", one.per_lift, decimals=4)]
        for name, one in answer.derivatives.items()
        if one.per_lift
    ]
    if grows:
        yield rows("Growing with the lift of the moment", ["Derivative", "Per unit of CL"], grows)


def _lift(loads: SpanLoads) -> Table:
    """Return how planes and tailplane share the lift, and the downwash."""
    lines: list[list[Cell]] = [
        [
            surface.name,
            Value("area_m2", surface.area_m2),
            Value("lift_slope_per_rad", surface.lift_slope_per_rad),
            Value("lift_n", surface.lift_n),
            Value("share", surface.share, percent=True, decimals=1),
        ]
        for surface in loads.surfaces
    ]
    title = say(
        "Who bears the lift at CL {lift}: angle of attack {alpha}, elevator {elevator}",
        lift=Value("lift_coefficient", loads.lift_coefficient),
        alpha=Value("alpha_deg", loads.alpha_deg, decimals=1),
        elevator=Value("elevator_deg", loads.elevator_deg, decimals=1, signed=True),
    )
    downwash = say(
        "Downwash at the tailplane {angle}, {slope} for a unit of angle of attack.",
        angle=Value("downwash_deg", loads.downwash_deg, decimals=1),
        slope=Value("downwash_slope", loads.downwash_slope, decimals=3),
    )
    heads = ["Surface", "Area", "Lift slope on its area", "Lift", "Share of lift"]
    return rows(title, heads, lines, downwash, BALANCED)


def _title(name: str) -> str:
    return f"{name}  {quantity(name).symbol}"


def _next(answer: DerivativesAnswer) -> Next:
    if answer.derivatives[EXAMPLE].origin == "given":
        return next_steps(say("the modes with these derivatives, with {run}", run=Run("modes")))
    run = Run("modes", f"--set derivatives.{EXAMPLE}=0.03")
    return next_steps(say("a measured value replaces its estimate, as in {run}", run=run))


def _row(name: str, found: Derivative) -> list[Cell]:
    band = say("± {band}", band=Value("band", found.band, decimals=4)) if found.band else ""
    mostly = MOSTLY[found.dominated_by] if found.dominated_by else ""
    return [
        f"{name}  {quantity(name).symbol}",
        Value(name, found.value, decimals=4),
        band,
        mostly,
        ORIGINS[found.origin],
    ]
