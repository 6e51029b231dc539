"""Places and masses of what is aboard: items within the airplane, pilots of human size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.layout import placed
from sim.airframe.loading import FUEL
from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark

WITHIN = "from ahead of the propeller to behind the tail"


def item_stations(examined: Examined) -> Iterator[Remark]:
    """Yield items, engines and ballast that stand ahead of the propeller, behind the tail or beyond the wing tips."""
    usual, semi_m = _length(examined), 0.5 * examined.model.wing.span_m
    abeam = Usual(-semi_m, semi_m, limits.PRACTICE, "buttline_m")
    cure = "Check the station and its unit."
    for key, station_m in _stations(examined) if usual else ():
        yield from unusual(usual, station_m, key=key, what="the station", cure=cure)  # type: ignore[arg-type]
    for item in examined.scenario.item:
        key = f"item.{item.name}.buttline"
        yield from unusual(
            abeam, item.buttline_m, key=key, what="the buttline", cure="Check the buttline and its unit."
        )


def item_waterlines(examined: Examined) -> Iterator[Remark]:
    """Yield items that stand below the wheels or above the wing; an item at 0 states no waterline."""
    scenario, model = examined.scenario, examined.model
    layout, past_m = scenario.layout, limits.PAST_THE_ENDS_M
    if scenario.balance is None or layout is None:
        return
    reach_m = max(0.5 * engine.propeller.diameter_m for engine in scenario.powerplant.values())
    line_m = scenario.balance.thrust_line_m
    planes_m = [
        one.leading_edge_waterline_m
        for one in placed(model.wing, layout.leading_edge_m, layout.leading_edge_waterline_m)
    ]
    supports = scenario.weighing.support.values() if scenario.weighing else ()
    low_m = min(line_m - reach_m, *planes_m, *(row.waterline_m for row in supports))
    high_m = max(line_m + reach_m, *planes_m)
    usual = Usual(low_m - past_m, high_m + past_m, limits.PRACTICE, "waterline_m", "from the wheels to above the wing")
    for item in scenario.item:
        if item.waterline_m != 0.0:
            cure = "Check the waterline and its unit."
            key = f"item.{item.name}.waterline"
            yield from unusual(usual, item.waterline_m, key=key, what="the waterline", cure=cure)


def fuel_in_its_tank(examined: Examined) -> Iterator[Remark]:
    """Yield fuel that would be heavier than water in the box that stands for its tank."""
    for item in examined.scenario.item:
        room_m3 = item.length_m * item.width_m * item.height_m
        if item.group == FUEL and item.mass_kg and room_m3 > 0.0:
            yield from unusual(
                limits.FUEL_DENSITY,
                item.mass_kg / room_m3,
                key=f"item.{item.name}.mass",
                what="the mass of the fuel over the room of its box, in kg/m³,",
                cure="Check the mass and its unit, and length, width and height.",
            )


def _stations(examined: Examined) -> Iterator[tuple[str, float]]:
    scenario = examined.scenario
    yield from ((f"item.{item.name}.station", item.station_m) for item in scenario.item)
    yield from ((f"item.{item.name}.move", item.station_m + item.move_m) for item in scenario.item if item.move_m)
    for name, engine in scenario.powerplant.items():
        if engine.station_m is not None:
            yield f"powerplant.{name}.station", engine.station_m + engine.move_m
    if scenario.balance is not None:
        if scenario.balance.ballast_station_m is not None:
            yield "balance.ballast_station", scenario.balance.ballast_station_m
        yield from ((f"balance.ballast.{name}", station_m) for name, station_m in scenario.balance.ballast.items())


def _length(examined: Examined) -> Usual | None:
    """Return the stations between propeller and tail; None where the scenario does not place them."""
    model, tail = examined.model, examined.model.airframe
    discs_m = [one.propeller.station_m for one in model.powerplants.values() if one.propeller.station_m is not None]
    cg_m = model.key_station_m
    if cg_m is None or not discs_m:
        return None
    behind_m = max(surface.arm_m + 0.75 * surface.chord_m for surface in (tail.tailplane, tail.fin))
    past_m = limits.PAST_THE_ENDS_M
    return Usual(min(discs_m) - past_m, cg_m + behind_m + past_m, limits.PRACTICE, "station_m", WITHIN)


def pilots(examined: Examined) -> Iterator[Remark]:
    """Yield pilots outside the range of people."""
    scenario = examined.scenario
    masses = {f"item.{item.name}.mass": item.mass_kg for item in scenario.item if item.group == "pilot"}
    if len(masses) != 1:  # several items of the group share one pilot
        masses = {}
    if scenario.balance is not None:
        masses["balance.pilot_lightest"] = scenario.balance.pilot_lightest_kg
        masses["balance.pilot_heaviest"] = scenario.balance.pilot_heaviest_kg
    if scenario.weighing is not None:
        masses["weighing.pilot"] = scenario.weighing.pilot_kg
    for key, mass_kg in masses.items():
        if mass_kg is not None:
            cure = "Check the mass and its unit."
            yield from unusual(limits.PILOT, mass_kg, key=key, what="the mass of a pilot", cure=cure)
