"""Where each engine stands: where the scenario moves it, else where it brings the centre of gravity to its target."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from sim.airframe.engine_position import MOST_MOVE_M, move_to_target
from sim.errors import NoAnswerError
from sim.studies.balanced import balanced
from sim.units.text import in_both

if TYPE_CHECKING:
    from sim.model.model import Model
    from sim.studies.balanced import Balanced

StandsBy = Literal["asked", "move", "target", "drawn"]
"""``asked``: where a question puts it, whatever the scenario says."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where one engine stands.

    Attributes
    ----------
    move_m : float
        From where it is drawn, aft positive. [m]
    by : str
        ``move``: its key ``move`` says so; ``target``: it has none, and stands where the loaded centre of gravity is on
        target; ``drawn``: nor can the airplane be balanced with it.
    target_move_m : float or None
        From where it is drawn to where the centre of gravity is on target, whichever it is; None where there is no such
        place. [m]
    """

    move_m: float
    by: StandsBy
    target_move_m: float | None


def standing(model: Model, powerplant: str) -> Standing:
    """Return where an engine stands.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str
        Name of one of its powerplants.
    """
    given_m, target_m = model.engine_move_m(powerplant), _target_m(model, powerplant)
    if model.move_is_given(powerplant):
        return Standing(given_m, "move", target_m)
    return Standing(given_m, "drawn", None) if target_m is None else Standing(target_m, "target", target_m)


def placed(model: Model) -> Model:
    """Return the airplane with every engine where it stands; what is moved there has its move from now on."""
    for name in model.powerplants:
        found = standing(model, name)
        if found.by == "target":
            model = model.with_engine_moved(name, found.move_m)
    return model


def placing(model: Model) -> dict[str, float]:
    """Return what `placed` sets: the key of each move, and how far aft of where the engine is drawn [m]."""
    found = {name: standing(model, name) for name in model.powerplants}
    return {f"powerplant.{name}.move": one.move_m for name, one in found.items() if one.by == "target"}


def _target_m(model: Model, powerplant: str) -> float | None:
    """Return how far from where it is drawn an engine brings the centre of gravity to the target."""
    if not model.can_balance(powerplant):
        return None
    try:
        return model.engine_move_m(powerplant) + move_on_target(model, powerplant, balanced(model, powerplant))
    except NoAnswerError:
        return None


def move_on_target(model: Model, powerplant: str, found: Balanced) -> float:
    """Return how far an engine must move from where it stands to bring the loaded centre of gravity to the target [m].

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str
        Name of one of its powerplants.
    found : Balanced
        The airplane with it.

    Raises
    ------
    NoAnswerError
        When nothing moves with the engine, or it would stand farther from where it is drawn than any mount reaches: a
        mass or a place is wrong.
    """
    move_m = move_to_target(
        mass_kg=found.whole.mass_kg,
        cg_station_m=found.whole.cg_station_m,
        target_station_m=found.target_m,
        moved_mass_kg=found.moved_kg,
    )
    whole_m = model.engine_move_m(powerplant) + move_m
    if abs(whole_m) > MOST_MOVE_M:
        raise NoAnswerError(_too_far(model, powerplant, whole_m))
    return move_m


def _too_far(model: Model, powerplant: str, move_m: float) -> str:
    """Return why there is no such position, an impossible place first."""
    way = "aft" if move_m > 0.0 else "forward"
    far, most = (in_both("engine_move_m", size_m) for size_m in (abs(move_m), MOST_MOVE_M))
    doubted = [remark.text for remark in model.remarks("places")]
    check = " ".join(doubted) or "Check stations and masses of the items, the weighing, and balance.target."
    return (
        f"{check} No position of {powerplant} brings the loaded CG to the target: it would stand {far} {way} of where "
        f"it is drawn, beyond the {most} that powerplant.{powerplant}.move allows"
    )
