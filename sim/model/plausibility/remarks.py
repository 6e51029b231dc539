"""All remarks on a scenario, by the study that they concern."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Literal, TypeAlias

from sim.errors import WhirlgateError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.model.plausibility.remark import Examined, Remark

Topic: TypeAlias = Literal[
    "balance",
    "handling",
    "masses",
    "mount",
    "speeds",
    "compare",
    "layout",
    "structure",
    "windows",
    "link",
    "propeller",
    "places",
    "drag",
    "derivatives",
    "modes",
    "drawing",
]
CHECKS: dict[str, tuple[Topic, ...]] = {
    "scales.list_contradicts": (
        "masses",
        "handling",
        "speeds",
        "compare",
        "modes",
        "derivatives",
        "drag",
        "structure",
        "drawing",
    ),
    "keys.mass_against_list": ("handling", "speeds", "compare", "modes", "drag"),
    "places.item_stations": ("balance", "mount", "places"),
    "places.item_waterlines": ("balance", "mount", "places"),
    "scales.engine_is_named": ("balance",),
    "scales.pilot_was_aboard": ("balance",),
    "groups.loads": ("balance", "mount"),
    "centre_of_gravity.static_margin_aft": (
        "balance",
        "handling",
        "speeds",
        "compare",
        "drag",
        "derivatives",
        "modes",
    ),
    "centre_of_gravity.within_the_chord": ("handling", "compare", "layout"),
    "structure.firewall": ("balance", "mount"),
    "engine.behind_its_propeller": ("balance", "mount"),
    "wing_places.wing_items": ("balance", "mount", "layout"),
    "wing_places.struts": ("layout",),
    "engine.engine_speeds": ("mount", "speeds", "compare", "windows"),
    "engine.engine_mass": ("balance", "mount"),
    "propeller.tips_and_gear": ("handling", "mount", "speeds", "compare", "windows", "propeller"),
    "propeller.blade_proportions": ("speeds", "windows", "propeller"),
    "propeller.static_speed": ("speeds", "compare"),
    "propeller.ground_clearance": ("mount", "layout", "propeller"),
    "gun.line_of_fire": ("compare", "windows"),
    "gun.link_against_measured": ("compare", "windows", "link"),
    "gun.leak_at_idle": ("compare", "windows", "link"),
    "wing.gap_and_stagger": ("handling", "speeds", "layout"),
    "wing.angles": ("handling", "layout"),
    "wing.aspect_ratio": ("handling", "speeds", "layout"),
    "wing.wing_loading": ("speeds",),
    "wing.power_loading": ("speeds",),
    "coefficients.stated_coefficients": ("speeds", "drag"),
    "coefficients.stated_section_moment": ("handling", "compare", "drag"),
    "drag.stated_against_built_up": ("speeds", "drag"),
    "inertia.radii_of_gyration": ("handling", "compare"),
    "tail.tail_volumes": ("handling",),
    "controls.gearing": ("handling",),
    "controls.elevator_weight": ("handling",),
    "controls.centring": ("handling", "balance"),
    "load_cases.load_factors": ("structure",),
    "load_cases.design_speeds": ("structure",),
    "structure.spars": ("layout",),
    "structure.spar_depths": ("layout",),
    "structure.bracing": ("layout",),
    "structure.struts": ("layout",),
    "structure.longerons": ("layout",),
    "places.pilots": ("balance",),
    "places.fuel_in_its_tank": ("balance",),
    "wheels.wheels_of_an_axle": ("balance",),
    "wheels.wheel_angle": ("balance", "layout"),
    "wheels.track": ("balance", "layout"),
}
"""Module and name of a check, which loads when it is made -> the studies whose answers it concerns; the gravest first:
masses that the scales contradict, what stands where nothing can, an unstable airplane, loads that point the wrong way.

The balance has the limits of the centre of gravity in its tables.
"""


def remarks(examined: Examined, topic: Topic | None = None) -> Iterator[Remark]:
    """Yield the remarks on a scenario.

    Parameters
    ----------
    examined : Examined
        Without faults; a check whose tables are missing or incomplete says nothing.
    topic : str or None
        The study that they must concern; None for all.
    """
    told = set()
    for check, topics in CHECKS.items():
        if topic is None or topic in topics:
            for remark in _of(check, examined):
                if remark.text not in told:
                    told.add(remark.text)
                    yield remark


def _of(check: str, examined: Examined) -> tuple[Remark, ...]:
    module, _, function = check.partition(".")
    made: Callable[[Examined], Iterator[Remark]] = getattr(import_module(f"{__package__}.{module}"), function)
    try:
        return tuple(made(examined))
    except (WhirlgateError, ArithmeticError):  # the study that needs the missing or senseless part says so
        return ()
