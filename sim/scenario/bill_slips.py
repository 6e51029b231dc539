"""Slips of a bill of items beside the scenario that it is for: a row of sums, names alike, masses of the other unit."""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

from sim.errors import Fault
from sim.scenario.bill_columns import NAME
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from sim.scenario.bill import Bill

SUMS = frozenset(("total", "totals", "sum", "sums", "subtotal", "all", "empty weight", "gross weight"))
"""Names of rows that hold sums."""
ALIKE_SHARE = 0.005
"""How near the masses are to those of the scenario in the other unit: a spreadsheet's rounding."""
FEW = 3
"""Items from which on a common factor is no chance."""
MASS = "mass"


def slips(bill: Bill, masses_kg: Mapping[str, float], found_kg: Mapping[str, float]) -> Iterator[Fault]:
    """Yield what a bill is most probably not meant to say.

    Parameters
    ----------
    bill : Bill
        The file.
    masses_kg : mapping
        Name -> mass of each item that the scenario has. [kg]
    found_kg : mapping
        Name -> mass of each item as the bill has it, where it can be read. [kg]
    """
    yield from _alike(bill, masses_kg)
    factors = [found_kg[name] / kg for name, kg in masses_kg.items() if kg > 0.0 and name in found_kg]
    usual = median(factors) if factors else 1.0
    head = bill.heads.get(MASS, MASS)
    for factor, how in _units():
        share = sum(abs(one / factor - 1.0) < ALIKE_SHARE for one in factors)
        if share >= FEW and abs(usual / factor - 1.0) < ALIKE_SHARE:
            what = (
                f"most masses are {factor:.3f} times those of the scenario, as if {how}: give the column the unit that "
                "its numbers are of"
            )
            yield Fault(head, what, bill.called, 1)


def _units() -> tuple[tuple[float, str], ...]:
    pound_kg = float(ratio("lb", "kg"))
    return (1.0 / pound_kg, "pounds stood under a head of kilograms"), (pound_kg, "kilograms under a head of pounds")


def _alike(bill: Bill, names: Iterable[str]) -> Iterator[Fault]:
    """Yield rows whose name is that of an item but for blanks and capitals: they would be counted twice."""
    listed = {_plain(name): name for name in names}
    known = set(listed.values())
    for row in bill.rows:
        other = listed.get(_plain(row.name))
        if row.name not in known and other is not None:
            what = f'is "{row.name}", and the scenario has "{other}": write one of them as the other'
            yield Fault(NAME, what, bill.called, row.line)


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()


def sums(name: str) -> bool:
    """Return whether a row of this name holds sums, and no item."""
    return _plain(name).rstrip(":") in SUMS
