"""Keys of the airplane beside its item list, which goes before them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.flown_mass import mass_apart, set_keys
from sim.model.plausibility.remark import Remark, amount
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined

MASS = "airplane.mass"


def mass_against_list(examined: Examined) -> Iterator[Remark]:
    """Yield a mass in the file that the item list contradicts: flights take the list; a setting goes before it."""
    model = examined.model
    engine = model.usual_powerplant().name
    if MASS in set_keys(examined.scenario) or not model.has_list(engine):
        return
    stated, whole = model.flight_keys[MASS], model.mass_state(engine).whole()
    if mass_apart(stated, whole):
        given, listed = (amount("mass_kg", mass_kg) for mass_kg in (stated.value, whole.mass_kg))
        yield Remark(
            MASS,
            told(
                "{key}: the mass is {given}, and the items with {engine} come to {listed}, which is what flies. "
                "Correct the items, or write the key from the balance.",
                key=MASS,
                given=given,
                engine=engine,
                listed=listed,
            ),
        )
