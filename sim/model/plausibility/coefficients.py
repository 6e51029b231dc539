"""Coefficients that a scenario states outright: lift, drag and propeller efficiency."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark


def stated_coefficients(examined: Examined) -> Iterator[Remark]:
    """Yield coefficients far from those of airplanes without flaps."""
    scenario = examined.scenario
    rows = [
        ("lift.max", limits.LIFT_MAX, scenario.lift.max, "It is that of the whole airplane, without flaps."),
        ("drag.zero_lift", limits.DRAG_ZERO_LIFT, scenario.drag.zero_lift, "It is on the area of the wing."),
        (
            "drag.span_efficiency",
            limits.SPAN_EFFICIENCY,
            scenario.drag.span_efficiency,
            "It is that of the equivalent monoplane.",
        ),
        (
            "wing.section_lift_slope",
            limits.SECTION_SLOPE,
            scenario.wing.section_lift_slope,
            "It is per radian, not per degree.",
        ),
    ]
    rows += [
        (
            f"powerplant.{name}.propeller.efficiency",
            limits.EFFICIENCY,
            engine.propeller.efficiency,
            "It is the maximum, of a propeller of fixed pitch.",
        )
        for name, engine in scenario.powerplant.items()
        if engine.propeller.efficiency is not None
    ]
    for key, usual, value, cure in rows:
        if value is None:  # built up
            continue
        yield from unusual(usual, value, key=key, what="the coefficient", cure=told("Check it. {cure}", cure=cure))


def stated_section_moment(examined: Examined) -> Iterator[Remark]:
    """Yield a moment of the wing's section that is not that of the table section."""
    wing, section = examined.scenario.wing, examined.model.thin_airfoil
    if section is None or "section_moment" not in wing.model_fields_set:
        return
    own = section.pitch_quarter_chord
    stated = Usual(own - limits.SECTION_MOMENT_APART, own + limits.SECTION_MOMENT_APART, "thin-airfoil theory")
    cure = "Leave it out to have that of the section, or give the section that it belongs to."
    yield from unusual(stated, wing.section_moment, key="wing.section_moment", what="the coefficient", cure=cure)
