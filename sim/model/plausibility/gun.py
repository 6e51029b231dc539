"""The line of fire: above the cylinders of a rotary."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.remark import Usual, unusual

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


def _cylinders_m(engine: AnyPowerplant) -> float:
    """Return how far from the shaft the turning cylinders reach [m]; 0 where they stand still or are not given."""
    if engine.kind != "rotary" or engine.parts is None:
        return 0.0
    return engine.parts.cylinder_radius_m + 0.5 * engine.parts.cylinder_length_m  # type: ignore[union-attr]
