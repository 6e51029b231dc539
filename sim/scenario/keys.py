"""What a dotted key of a scenario holds, without a scenario at hand."""

from __future__ import annotations

from sim.scenario.faults import table_at
from sim.scenario.fields import Given, key_of
from sim.scenario.tables import Scenario


def holds_length(key: str) -> bool:
    """Return whether a dotted key, ``wing.span``, is one of a scenario and holds a length.

    Examples
    --------
    >>> holds_length("wing.span"), holds_length("wing.planes"), holds_length("wheel diameter")
    (True, False, False)
    """
    *way, last = key.split(".")
    table = table_at(Scenario, tuple(way))
    for attribute, field in table.model_fields.items() if table and way else ():
        if key_of(attribute) == last:
            return any(isinstance(item, Given) and item.unit == "m" for item in field.metadata)
    return False
