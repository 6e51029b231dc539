"""What a balance changes in a scenario: mass, inertia, and every arm that is measured from the centre of gravity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.mean_chord import mean_chord
from sim.studies.weights import planes

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario
    from sim.studies.balance import BalanceAnswer


def scenario_keys(scenario: Scenario, answer: BalanceAnswer) -> dict[str, str]:
    """Return the keys of a scenario that its balance settles, as text, for the flights to go by.

    Parameters
    ----------
    scenario : Scenario
        That was balanced.
    answer : BalanceAnswer
        Its balance.

    Notes
    -----
    The wing's arm follows from its station and the loaded centre of gravity; tail and fin stand where they stood, so
    their arms change as much as the wing's. The airplane table leaves the rotor out of the roll inertia; engine and
    propeller are points on the thrust line here, so nothing need be taken off.
    """
    inertia, name = answer.inertia_kg_m2, answer.powerplant
    middle = mean_chord(planes(scenario, 1.0))
    arm_m = middle.station_m(0.25) - answer.cg_station_m
    back_m = arm_m - scenario.wing.arm_m
    propeller = scenario.powerplant[name].propeller
    nose_m = propeller.arm_m - back_m if propeller.station_m is None else answer.cg_station_m - propeller.station_m
    line_m = scenario.balance.thrust_line_m if scenario.balance else 0.0
    error = f" ± {answer.cg_error_m:.2g} m" if answer.cg_error_m > 0.0 else ""
    return {
        "airplane.mass": f"{answer.mass_kg:.2f} kg ± {answer.mass_error_kg:.2g} kg",
        "airplane.inertia_roll": f"{inertia.xx:.1f} kg m^2",
        "airplane.inertia_pitch": f"{inertia.yy:.1f} kg m^2",
        "airplane.inertia_yaw": f"{inertia.zz:.1f} kg m^2",
        "airplane.inertia_product": f"{inertia.xz:.1f} kg m^2",
        "wing.arm": f"{arm_m:.4f} m{error}",
        "tailplane.arm": f"{scenario.tailplane.arm_m + back_m:.4f} m",
        "fin.arm": f"{scenario.fin.arm_m + back_m:.4f} m",
        f"powerplant.{name}.propeller.arm": f"{nose_m:.4f} m",
        f"powerplant.{name}.thrust_arm": f"{answer.cg_waterline_m - line_m:.4f} m",
    }
