"""The item list with one powerplant as the scales correct it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.list_correction import corrected, with_another_engine
from sim.airframe.loading import PILOT, with_pilot
from sim.airframe.mass_state import MassState
from sim.errors import InputError
from sim.model.weights import doubts

if TYPE_CHECKING:
    from sim.model.mass import MassModel


def corrected_list(model: MassModel, powerplant: str) -> MassState:
    """Return the items with a powerplant before any of them or the engine was moved; as listed without a weighing.

    Parameters
    ----------
    model : MassModel
        The airplane.
    powerplant : str
        Name of one of its powerplants.

    Raises
    ------
    InputError
        A weighing that cannot be of the airplane in the list, after what stands where nothing can.
    """
    items, scales, compared = model.weights(powerplant).items, model.weighing, model.compared
    if scales is None or compared is None:
        return MassState(items)
    if powerplant != scales.powerplant:
        return with_another_engine(model.as_stood(scales.powerplant), items)
    try:
        there = (item.name for item in scales.there(items))
        found = corrected(scales.stood(items), compared.answer.weighed, there, doubts=compared.doubts)
    except InputError as error:
        raise InputError((*doubts(model.remarks("places"), model.set_on_scales), *error.faults)) from error
    listed_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    drawn = found.moved(-scales.engine_move_m)
    return drawn if scales.pilot_kg is None else with_pilot(drawn, listed_kg)
