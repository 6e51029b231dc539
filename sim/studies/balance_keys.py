"""What a balance changes in a scenario: mass, inertia, and every arm that is measured from the centre of gravity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.balance_remarks import wing_arm_m
from sim.units.quantities import System, written

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario
    from sim.studies.balance import BalanceAnswer


def scenario_keys(scenario: Scenario, answer: BalanceAnswer, *, system: System) -> dict[str, str]:
    """Return the keys of a scenario that its balance settles, as text, for the flights to go by.

    Parameters
    ----------
    scenario : Scenario
        That was balanced.
    answer : BalanceAnswer
        Its balance.
    system : {"us", "si"}
        Units to write.

    Notes
    -----
    The wing's arm follows from its station and the loaded centre of gravity; tail and fin stand where they stood, so
    their arms change as much as the wing's. The airplane table leaves the rotor out of the roll inertia; engine and
    propeller are points on the thrust line here, so nothing need be taken off.
    """
    inertia, name = answer.inertia_kg_m2, answer.powerplant
    arm_m = wing_arm_m(scenario, answer.cg_station_m)
    back_m = arm_m - scenario.wing.arm_m
    propeller = scenario.powerplant[name].propeller
    nose_m = propeller.arm_m - back_m if propeller.station_m is None else answer.cg_station_m - propeller.station_m
    line_m = scenario.balance.thrust_line_m if scenario.balance else 0.0
    arms_m = {
        "tailplane.arm": scenario.tailplane.arm_m + back_m,
        "fin.arm": scenario.fin.arm_m + back_m,
        f"powerplant.{name}.propeller.arm": nose_m,
        f"powerplant.{name}.thrust_arm": answer.cg_waterline_m - line_m,
    }
    inertias = {"roll": inertia.xx, "pitch": inertia.yy, "yaw": inertia.zz, "product": inertia.xz}
    return {
        "airplane.mass": written("kg", answer.mass_kg, answer.mass_error_kg, system=system),
        **{f"airplane.inertia_{axis}": written("kg m^2", of, system=system) for axis, of in inertias.items()},
        "wing.arm": written("m", arm_m, answer.cg_error_m, system=system),
        **{key: written("m", of_m, system=system) for key, of_m in arms_m.items()},
    }
