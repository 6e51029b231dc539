"""What a dotted key of a scenario holds, without a scenario at hand."""

from __future__ import annotations

from difflib import get_close_matches
from typing import get_origin

from sim.scenario.faults import kinds_at, table_at
from sim.scenario.fields import Given, key_of
from sim.scenario.tables import Scenario

ALIKE = 0.75
"""Least likeness of a misspelt key."""


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


def meant(key: str) -> str | None:
    """Return the key of a scenario that a dotted name of a length seems to be meant for; None for one, or for neither.

    Examples
    --------
    >>> meant("wing.stager"), meant("wing.stagger"), meant("wing.track"), meant("wheel diameter")
    ('wing.stagger', None, None, None)
    """
    *way, last = key.split(".")
    table = table_at(Scenario, tuple(way)) if way else None
    known = [key_of(attribute) for attribute in table.model_fields] if table else []
    near = [] if last in known else get_close_matches(last, known, n=1, cutoff=ALIKE)
    return ".".join([*way, near[0]]) if near else None


def named_by_the_user(path: tuple[str, ...]) -> bool:
    """Return whether the tables at a path have names of the user's own, as ``("weighing", "support")``.

    Examples
    --------
    >>> named_by_the_user(("powerplant",)), named_by_the_user(("wing",))
    (True, False)
    """
    return any(get_origin(kind) is dict for kind in kinds_at(Scenario, path))
