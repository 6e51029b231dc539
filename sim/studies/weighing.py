"""The weighing beside the item list, and the groups that it makes suspect."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.airframe.masses import total
from sim.airframe.weighing import Weighed, weigh
from sim.airframe.weighing_residuals import Suspicion, suspicions
from sim.answer import Answer

if TYPE_CHECKING:
    from sim.model.model import Model


@dataclass(frozen=True, slots=True)
class WeighingAnswer(Answer):
    """The airplane on the scales beside the same items as estimated.

    Attributes
    ----------
    powerplant : str
        The engine that was in it.
    aboard : tuple of str
        Groups aboard besides the empty airplane.
    weighed : Weighed
        Weight and centre of gravity by the scales.
    estimate_kg, estimate_cg_station_m : float
        Weight and centre of gravity by the item list. [kg, m]
    over_kg : float
        Scales less estimate, heavier positive. [kg]
    over_cg_m : float
        Scales less estimate, aft positive. [m]
    suspicions : tuple of Suspicion
        Most likely corrections, the strongest first: suspicions, not facts.
    """

    powerplant: str
    aboard: tuple[str, ...]
    weighed: Weighed
    estimate_kg: float
    estimate_cg_station_m: float
    over_kg: float
    over_cg_m: float
    suspicions: tuple[Suspicion, ...]


def weighing(model: Model) -> WeighingAnswer | None:
    """Return the weighing of an airplane beside its item list; None where it was not weighed.

    Parameters
    ----------
    model : Model
        The airplane.

    Raises
    ------
    InputError
        A group aboard that is not in the item list; readings that are missing, do not balance or put the centre of
        gravity outside the wheels.
    """
    readings = model.weighing
    if readings is None:
        return None
    items = model.weights(readings.powerplant).items
    there = [item for item in items if item.group not in USEFUL or item.group in readings.aboard]
    estimate = total(there)
    weighed = weigh(readings.supports, readings.attitudes, assumed_waterline_m=estimate.cg_waterline_m)
    return WeighingAnswer(
        powerplant=readings.powerplant,
        aboard=readings.aboard,
        weighed=weighed,
        estimate_kg=estimate.mass_kg,
        estimate_cg_station_m=estimate.cg_station_m,
        over_kg=weighed.mass_kg - estimate.mass_kg,
        over_cg_m=weighed.cg_station_m - estimate.cg_station_m,
        suspicions=suspicions(
            there,
            mass_kg=weighed.mass_kg,
            mass_error_kg=weighed.mass_error_kg,
            cg_station_m=weighed.cg_station_m,
            cg_error_m=weighed.cg_error_m,
        ),
    )
