"""Bands of the rotor's effect, and how sure it is that one powerplant needs more control than another."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.studies import doubling_bands
from sim.studies.bands import drawn_flying, drawn_turns, ends_of
from sim.studies.rotor_effect import BANK_DEG, Conclusion
from sim.studies.turns import turns, without_rotor

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.rotor_effect import RotorEffect, RotorShare

    Shares = Mapping[str, NDArray[np.float64]]

BANKS_RAD = np.radians((-BANK_DEG, BANK_DEG))
SIDES = ("left", "right")
CONTROLS = ("rudder", "elevator")


def banded(
    model: Model, effect: RotorEffect, first: FlyingAirplane, second: FlyingAirplane, *, seed: int
) -> RotorEffect:
    """Return the rotor's effect with its bands and conclusions.

    Parameters
    ----------
    model : Model
        That both airplanes are of.
    effect : RotorEffect
        Without bands.
    first, second : FlyingAirplane
        The two powerplants of `effect`.
    seed : int
        Of the draws; both powerplants fly in the same drawn airframes.
    """
    with_rotor, shares = {}, {}
    drawn = {one.name: drawn_flying(model, one, seed) for one in (first, second)}
    for one in (first, second):
        many = drawn[one.name]
        with_rotor[one.name], bare = (_shares(each) for each in (many, without_rotor(many)))
        shares[one.name] = {control: with_rotor[one.name][control] - bare[control] for control in CONTROLS}
    conclusions = () if first.name == second.name else _conclusions(first, second, with_rotor)
    return replace(
        effect,
        first=_banded(effect.first, shares[first.name]),
        second=_banded(effect.second, shares[second.name]),
        doubling=doubling_bands.banded(effect.doubling, drawn[first.name]),
        conclusions=conclusions,
    )


def _shares(many: FlyingAirplane) -> Shares:
    return many.travel.shares(drawn_turns(many, BANKS_RAD).only_found())


def _banded(share: RotorShare, drawn: Shares) -> RotorShare:
    ends: dict[str, Any] = ends_of(
        {
            f"{side}_{control}_share": values[number :: len(SIDES)]
            for control, values in drawn.items()
            for number, side in enumerate(SIDES)
        }
    )
    return replace(share, **ends)


def _conclusions(first: FlyingAirplane, second: FlyingAirplane, drawn: Mapping[str, Shares]) -> tuple[Conclusion, ...]:
    likely = [one.travel.shares(turns(one, BANKS_RAD)) for one in (first, second)]
    found = []
    for number, side in enumerate(SIDES):
        for control in CONTROLS:
            more = float(likely[0][control][number] - likely[1][control][number])
            differences = (drawn[first.name][control] - drawn[second.name][control])[number :: len(SIDES)]
            differences = differences[np.isfinite(differences)]
            sure = float(np.mean(np.sign(differences) == np.sign(more))) if differences.size else np.nan
            found.append(Conclusion(side, control, more, sure))
    return tuple(found)
