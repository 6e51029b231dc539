"""Mass, centre of gravity and inertia that an airplane flies with, and where they come from."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING, Literal

from sim.flight.motion import Body

if TYPE_CHECKING:
    from sim.airframe.masses import Inertia, Total
    from sim.scenario.tables import Scenario
    from sim.units.parsing import Measured

MassSource = Literal["as weighed", "item list", "given"]
LEAST_APART = 0.02
"""Share by which item list and airplane.mass may differ whatever their errors: a list never holds every bolt."""
BUILD_UP = 0.1
"""Relative error of an inertia built up from boxes, see `sim.airframe.masses.total`."""
INERTIAS = {"inertia_roll": "xx", "inertia_pitch": "yy", "inertia_yaw": "zz", "inertia_product": "xz"}
"""Key of the airplane table -> component of the tensor."""
DRAWN = ("inertia_roll", "inertia_pitch")
"""Moments of inertia with an error of their own: that in yaw is nearly their sum, for an airplane is flat."""


@dataclass(frozen=True, slots=True)
class FlownMass:
    """Mass, centre of gravity and inertia of an airplane with one powerplant, loaded as listed.

    Attributes
    ----------
    source : str
        ``as weighed``: the item list, corrected by the scales; ``item list``; ``given``: the keys of the scenario.
    body : Body
        Mass and inertia.
    cg_station_m, cg_error_m : float or None
        Centre of gravity aft of the datum and its standard error; None where the scenario places no wing. [m]
    mass_error_kg : float
        Standard error of the mass. [kg]
    cg_aft_m : float
        How far that centre of gravity lies aft of the one that the arms in the scenario are measured from. [m]
    thrust_arm_m, propeller_arm_m : float
        Shaft below the centre of gravity; from it to the disc, forward positive. [m]
    inertia_stated : bool
        Whether its moments of inertia are those of the airplane table, changed by what the list says of the engine.
    body_inertia_errors : dict of str to float
        Standard errors of the moments of inertia in roll and in pitch, over themselves, by the names that `Body` gives
        them: of a key of the airplane table with a ± that, else `BUILD_UP`.
    """

    source: MassSource
    body: Body
    cg_station_m: float | None
    cg_error_m: float | None
    mass_error_kg: float
    cg_aft_m: float
    thrust_arm_m: float
    propeller_arm_m: float
    inertia_stated: bool
    body_inertia_errors: dict[str, float]


def set_keys(scenario: Scenario) -> frozenset[str]:
    """Return the keys that settings gave, in place of the file: what is asked for so goes before any list."""
    return frozenset(setting.partition("=")[0].strip() for setting in scenario.source.settings)


def given_mass(scenario: Scenario, powerplant: str, key_station_m: float | None) -> FlownMass:
    """Return what the keys of a scenario say, for a powerplant without an item list.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    powerplant : str
        Name of one of its powerplants.
    key_station_m : float or None
        Centre of gravity that its arms are measured from, aft of the datum; None where it places no wing. [m]
    """
    table, engine, errors = scenario.airplane, scenario.powerplant[powerplant], scenario.tolerances
    body = Body(
        mass_kg=table.mass_kg,
        inertia_roll_kg_m2=table.inertia_roll_kg_m2,
        inertia_pitch_kg_m2=table.inertia_pitch_kg_m2,
        inertia_yaw_kg_m2=table.inertia_yaw_kg_m2,
        inertia_product_kg_m2=table.inertia_product_kg_m2,
    )
    return FlownMass(
        source="given",
        body=body,
        cg_station_m=key_station_m,
        cg_error_m=None if key_station_m is None else errors.get("wing.arm", 0.0),
        mass_error_kg=errors.get("airplane.mass", 0.0),
        cg_aft_m=0.0,
        thrust_arm_m=engine.thrust_arm_m,
        propeller_arm_m=engine.propeller.arm_m - engine.move_m,
        inertia_stated=True,
        body_inertia_errors=_inertia_errors(scenario, stated=True),
    )


def listed_mass(
    scenario: Scenario,
    powerplant: str,
    whole: Total,
    *,
    reference: Inertia,
    key_station_m: float,
    disc_station_m: float | None,
    source: MassSource,
) -> FlownMass:
    """Return what an item list says, with the keys that settings gave in its place.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    powerplant : str
        Name of one of its powerplants.
    whole : Total
        The loaded airplane with it.
    reference : Inertia
        Of the list with the powerplant that the inertias in the airplane table are of, nothing moved since. [kg m²]
    key_station_m : float
        Centre of gravity that the arms in the scenario are measured from, aft of the datum. [m]
    disc_station_m : float or None
        Disc of the propeller, likewise; None where the scenario does not say. [m]
    source : str
        Where `whole` comes from.
    """
    table, engine, given = scenario.airplane, scenario.powerplant[powerplant], set_keys(scenario)
    station_m = key_station_m if "wing.arm" in given else whole.cg_station_m
    aft_m = station_m - key_station_m
    arm_m = engine.propeller.arm_m - engine.move_m + aft_m if disc_station_m is None else station_m - disc_station_m
    below_m = engine.thrust_arm_m if scenario.balance is None else whole.cg_waterline_m - scenario.balance.thrust_line_m
    place, stated = f"powerplant.{powerplant}", _keeps_inertia(scenario, reference)
    return FlownMass(
        source=source,
        body=Body(
            table.mass_kg if "airplane.mass" in given else whole.mass_kg,
            **_inertia(scenario, whole.inertia_kg_m2, reference if stated else None),
        ),
        cg_station_m=station_m,
        cg_error_m=whole.cg_error_m,
        mass_error_kg=whole.mass_error_kg,
        cg_aft_m=aft_m,
        thrust_arm_m=engine.thrust_arm_m if f"{place}.thrust_arm" in given else below_m,
        propeller_arm_m=engine.propeller.arm_m if f"{place}.propeller.arm" in given else arm_m,
        inertia_stated=stated,
        body_inertia_errors=_inertia_errors(scenario, stated=stated),
    )


def _inertia_errors(scenario: Scenario, *, stated: bool) -> dict[str, float]:
    found, given = {}, set_keys(scenario)
    for key in DRAWN:
        value, error = getattr(scenario.airplane, f"{key}_kg_m2"), scenario.tolerances.get(f"airplane.{key}", 0.0)
        serves = stated or f"airplane.{key}" in given
        found[f"{key}_kg_m2"] = error / value if error and serves else BUILD_UP
    return found


def _keeps_inertia(scenario: Scenario, reference: Inertia) -> bool:
    """Return whether the airplane table's moments of inertia stay beside a list.

    Boxes are good to a tenth. Where the airplane table says otherwise beyond twice that, it is taken to be swung or the
    boxes to be missing, and the list gives only what another engine changes.
    """
    return any(
        inertia_apart(
            getattr(scenario.airplane, f"{key}_kg_m2"),
            getattr(reference, axis),
            scenario.tolerances.get(f"airplane.{key}", 0.0),
        )
        for key, axis in INERTIAS.items()
        if axis != "xz"
    )


def _inertia(scenario: Scenario, built: Inertia, kept: Inertia | None) -> dict[str, float]:
    """Return the moments of inertia by the name that `Body` gives them.

    Those of the airplane table are changed by what the list says beyond `kept`, None where the list's own serve.
    """
    given, found = set_keys(scenario), {}
    for key, axis in INERTIAS.items():
        stated, listed = getattr(scenario.airplane, f"{key}_kg_m2"), getattr(built, axis)
        beside = stated + listed - getattr(kept, axis) if kept else listed
        found[f"{key}_kg_m2"] = stated if f"airplane.{key}" in given else beside
    return found


def inertia_apart(stated: float, built: float, error: float = 0.0) -> bool:
    """Return whether a moment of inertia of the airplane table contradicts the one built up from items.

    Parameters
    ----------
    stated, error : float
        Of the airplane table, and its standard error. [kg m²]
    built : float
        By the list. [kg m²]
    """
    return abs(stated - built) > 2.0 * hypot(BUILD_UP * built, error)


def mass_apart(stated: Measured, built: Total) -> bool:
    """Return whether the mass of the airplane table contradicts that of the items, see `LEAST_APART`.

    Parameters
    ----------
    stated : Measured
        `airplane.mass`, and its standard error. [kg]
    built : Total
        Of the items, loaded as listed.
    """
    band_kg = hypot(2.0 * built.mass_error_kg, LEAST_APART * built.mass_kg)
    return abs(stated.value - built.mass_kg) > hypot(band_kg, 2.0 * stated.tolerance)
