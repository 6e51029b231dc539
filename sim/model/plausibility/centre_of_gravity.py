"""Centre of gravity of every loading, against mean chord, limits and neutral point."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark

FOREMOST = "the foremost centre of gravity with {name}, over the mean chord,"
AFTMOST = "the aftmost centre of gravity with {name}, over the mean chord,"


def within_the_chord(examined: Examined) -> Iterator[Remark]:
    """Yield loadings whose centre of gravity lies outside the limits, without any outside the mean chord."""
    model = examined.model
    for name in model.powerplants:
        foremost, aftmost = model.cg_range(name)
        if model.can_balance(name):
            given = Usual(model.limits.forward_limit, model.limits.aft_limit, "as given", rule="as given", percent=True)
            for key, subject, share in (("forward_limit", FOREMOST, foremost), ("aft_limit", AFTMOST, aftmost)):
                what = told(subject, name=name)
                cure = "Check stations and masses, or move engine, wing or ballast."
                yield from unusual(given, share, key=f"balance.{key}", what=what, cure=cure)
        else:
            what = told("the centre of gravity with {name}, over the mean chord,", name=name)
            cure = "Check it: a quarter chord ahead of the centre of gravity is negative."
            yield from unusual(limits.CHORD_SHARE, foremost, key="wing.arm", what=what, cure=cure)


def static_margin_aft(examined: Examined) -> Iterator[Remark]:
    """Yield powerplants with which the airplane is hardly stable, or not at all, at its aftmost loading."""
    from sim.flight.stability_margins import static_margin

    model = examined.model
    for name in model.powerplants:
        flying, aft = model.airplane(name), model.cg_range(name)[1]
        station_m = model.flown_mass(name).cg_station_m
        loaded = aft if station_m is None else 0.01 * model.mean_chord.percent(station_m)
        yield from unusual(
            limits.STATIC_MARGIN,
            static_margin(flying.airplane) - (aft - loaded),
            key="balance.aft_limit" if model.can_balance(name) else "wing.arm",
            what=told("the static margin at the aftmost loading with {name}, over the mean chord,", name=name),
            cure="Move masses forward or the wing aft, or enlarge the tailplane.",
        )
