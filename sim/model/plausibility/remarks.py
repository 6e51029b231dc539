"""All remarks on a scenario, by the study that they concern."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, TypeAlias

from sim.errors import WhirlgateError
from sim.model.plausibility.centre_of_gravity import static_margin_aft, within_the_chord
from sim.model.plausibility.coefficients import stated_coefficients
from sim.model.plausibility.drag import stated_against_built_up
from sim.model.plausibility.engine import engine_mass, engine_speeds
from sim.model.plausibility.gun import line_of_fire
from sim.model.plausibility.inertia import radii_of_gyration
from sim.model.plausibility.places import item_stations, pilots
from sim.model.plausibility.propeller import blade_proportions, ground_clearance, static_speed, tips_and_gear
from sim.model.plausibility.structure import longerons, spars
from sim.model.plausibility.tail import tail_volumes
from sim.model.plausibility.wheels import wheel_angle
from sim.model.plausibility.wing import angles, aspect_ratio, gap_and_stagger, power_loading, wing_loading

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.model.plausibility.remark import Examined, Remark

Topic: TypeAlias = Literal[
    "balance", "handling", "mount", "speeds", "compare", "layout", "windows", "propeller", "drag"
]
CHECKS: dict[Callable[[Examined], Iterator[Remark]], tuple[Topic, ...]] = {
    engine_speeds: ("mount", "speeds", "compare", "windows"),
    engine_mass: ("balance", "mount"),
    tips_and_gear: ("handling", "mount", "speeds", "compare", "windows", "propeller"),
    blade_proportions: ("speeds", "windows", "propeller"),
    static_speed: ("speeds", "compare"),
    ground_clearance: ("mount", "layout", "propeller"),
    line_of_fire: ("compare", "windows"),
    gap_and_stagger: ("handling", "speeds", "layout"),
    angles: ("handling", "layout"),
    aspect_ratio: ("handling", "speeds", "layout"),
    wing_loading: ("speeds",),
    power_loading: ("speeds",),
    stated_coefficients: ("speeds", "drag"),
    stated_against_built_up: ("speeds", "drag"),
    radii_of_gyration: ("handling", "compare"),
    tail_volumes: ("handling",),
    within_the_chord: ("handling", "compare"),
    static_margin_aft: ("balance", "handling", "compare"),
    spars: ("layout",),
    longerons: ("layout",),
    item_stations: ("balance", "mount"),
    pilots: ("balance",),
    wheel_angle: ("balance", "layout"),
}
"""Check -> the studies whose answers it concerns; the balance has the limits of the centre of gravity in its tables."""


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


def _of(check: Callable[[Examined], Iterator[Remark]], examined: Examined) -> tuple[Remark, ...]:
    try:
        return tuple(check(examined))
    except (WhirlgateError, ArithmeticError):  # the study that needs the missing or senseless part says so
        return ()
