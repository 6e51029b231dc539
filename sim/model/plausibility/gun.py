"""The line of fire: above the cylinders of a rotary; the link: computed beside what was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.limits import LINK_OVER_MEASURED
from sim.model.plausibility.remark import Usual, unusual
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark
    from sim.scenario.powerplant import AnyPowerplant


def line_of_fire(examined: Examined) -> Iterator[Remark]:
    """Yield bore lines that run through the turning cylinders of a rotary."""
    gun = examined.scenario.gun
    for name, engine in examined.scenario.powerplant.items() if gun else ():
        blade = examined.model.blade_at_bore(name)
        lowest_m = _cylinders_m(engine) + 0.5 * blade.bullet_diameter_m
        usual = Usual(lowest_m, None, "geometry", "bore_radius_m", "outside the turning cylinders")
        yield from unusual(
            usual,
            blade.bore_radius_m,
            key="gun.bore_radius",
            what=f"the distance of the bore line from the shaft of {name}",
            cure="Raise the bore line, or check parts.cylinder_radius and parts.cylinder_length.",
        )


def link_against_measured(examined: Examined) -> Iterator[Remark]:
    """Yield a measured time from cam to lock that is far from the one computed from the table link."""
    gun = examined.scenario.gun
    delays = examined.model.link_delays if gun else None
    if gun is None or delays is None or not delays.measured_s:
        return
    computed, measured = (brief("link_delay_s", time_s) for time_s in (delays.computed_s, delays.measured_s))
    yield from unusual(
        LINK_OVER_MEASURED,
        delays.computed_s / delays.measured_s,
        key="gun.link_delay",
        what=f"from cam to lock {measured} were measured, the table link makes it {computed} at cruise, which of those",
        cure="The table link is what counts; change it until both agree, or leave it out and the measured time counts.",
    )


def _cylinders_m(engine: AnyPowerplant) -> float:
    """Return how far from the shaft the turning cylinders reach [m]; 0 where they stand still or are not given."""
    if engine.kind != "rotary" or engine.parts is None:
        return 0.0
    return engine.parts.cylinder_radius_m + 0.5 * engine.parts.cylinder_length_m  # type: ignore[union-attr]
