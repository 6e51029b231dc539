"""The line of fire: above the cylinders of a rotary; the link: computed beside what was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.limits import LEAK_OVER_IDLE, LINK_OVER_MEASURED
from sim.model.plausibility.remark import Usual, unusual
from sim.told import told
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
            what=told("the distance of the bore line from the shaft of {name}", name=name),
            cure="Raise the bore line, or check parts.cylinder_radius and parts.cylinder_length.",
        )


def link_against_measured(examined: Examined) -> Iterator[Remark]:
    """Yield a measured time from cam to lock that is far from the one computed from the table link."""
    gun = examined.scenario.gun
    delays = examined.model.link_delays if gun and not _never_trips(examined) else None
    if gun is None or delays is None or not delays.measured_s:
        return
    computed, measured = (brief("link_delay_s", time_s) for time_s in (delays.computed_s, delays.measured_s))
    yield from unusual(
        LINK_OVER_MEASURED,
        delays.computed_s / delays.measured_s,
        key="gun.link_delay",
        what=told(
            "from cam to lock {measured} were measured, the table link makes it {computed} at cruise, which of those",
            measured=measured,
            computed=computed,
        ),
        cure="The table link is what counts; change it until both agree, or leave it out and the measured time counts.",
    )


def leak_at_idle(examined: Examined) -> Iterator[Remark]:
    """Yield a link that leaks so much at idle that the cam moves it in vain there."""
    link, gun = examined.scenario.link, examined.scenario.gun
    for name in examined.scenario.powerplant if link and link.leak_speed_rad_s and gun else ():
        line = examined.model.gun_line(name, ideal=True)
        yield from unusual(
            LEAK_OVER_IDLE,
            line.leak.leak_speed_rad_s / min(line.spin_rad_s),
            key="link.leak_speed",
            what=f"of what the cam delivers at idle of {name} the part that leaks off",
            cure="From 100 % on the gun never trips at idle, and windows, safe-range and compare have no answer there.",
        )


def _never_trips(examined: Examined) -> bool:
    """Return whether the link leaks so much that the gun does not trip in cruise behind the first propeller."""
    line = examined.model.gun_line(ideal=True)
    return line.leak.counts and line.spin_rad_s[1] <= line.leak.leak_speed_rad_s


def _cylinders_m(engine: AnyPowerplant) -> float:
    """Return how far from the shaft the turning cylinders reach [m]; 0 where they stand still or are not given."""
    if engine.kind != "rotary" or engine.parts is None:
        return 0.0
    return engine.parts.cylinder_radius_m + 0.5 * engine.parts.cylinder_length_m  # type: ignore[union-attr]
