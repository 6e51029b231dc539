"""Wing: gap, stagger, dihedral, incidence, proportions, and what it and the engines carry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Remark, Usual, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined


def gap_and_stagger(examined: Examined) -> Iterator[Remark]:
    """Yield an unusual gap or stagger of two or more planes."""
    wing = examined.model.wing
    if len(wing.planes) < 2:
        return
    chord_m, cure = wing.mean("chord_m"), "Check it and its unit, and wing.chord."
    for key, usual, size_m in (
        ("gap", limits.GAP_SHARE, wing.gap_m),
        ("stagger", limits.STAGGER_SHARE, wing.stagger_m),
    ):
        yield from unusual(
            usual, size_m / chord_m, key=f"wing.{key}", what=told("{size} over mean chord", size=key), cure=cure
        )


def angles(examined: Examined) -> Iterator[Remark]:
    """Yield unusual dihedral and incidence of every plane, and incidence of the tailplane."""
    table = examined.scenario.wing
    for plane in examined.model.wing.planes:
        for word, usual, angle in (
            ("dihedral", limits.DIHEDRAL, plane.dihedral_rad),
            ("incidence", limits.WING_INCIDENCE, plane.incidence_rad),
        ):
            own = plane.name in table.plane and getattr(table.plane[plane.name], f"{word}_rad") is not None
            key = f"wing.plane.{plane.name}.{word}" if own else f"wing.{word}"
            yield from unusual(usual, angle, key=key, what="the angle", cure="Check the angle, its sign and its unit.")
    yield from unusual(
        limits.TAIL_INCIDENCE,
        examined.scenario.tailplane.incidence_rad,
        key="tailplane.incidence",
        what="the angle",
        cure="Check the angle, its sign and its unit.",
    )


def aspect_ratio(examined: Examined) -> Iterator[Remark]:
    """Yield planes that are unusually short or slender."""
    table = examined.scenario.wing
    for plane in examined.model.wing.planes:
        own = plane.name in table.plane and table.plane[plane.name].span_m is not None
        key = f"wing.plane.{plane.name}.span" if own else "wing.span"
        cure = "Check span and chord and their units."
        yield from unusual(limits.ASPECT, plane.span_m / plane.chord_m, key=key, what="span over chord", cure=cure)


def wing_loading(examined: Examined) -> Iterator[Remark]:
    """Yield a mass that is unusual for the area of the wing, with any powerplant."""
    wing, model = examined.model.wing, examined.model
    least, most = limits.BIPLANE_LOADING if len(wing.planes) > 1 else limits.MONOPLANE_LOADING
    usual = Usual(least * wing.area_m2, most * wing.area_m2, limits.PRACTICE, "mass_kg")
    for name in model.powerplants:
        mass = model.flown_mass(name)
        key = "airplane.mass" if mass.source == "given" else "item"
        yield from unusual(
            usual,
            mass.body.mass_kg,
            key=key,
            what=told("the loaded mass with {name}", name=name),
            cure="That is for the area of the wing: check masses, span and chord and their units.",
        )


def power_loading(examined: Examined) -> Iterator[Remark]:
    """Yield powers that are unusual for the mass of the airplane."""
    model = examined.model
    for name, engine in model.powerplants.items():
        mass_kg = model.flown_mass(name).body.mass_kg
        least, most = (loading * mass_kg for loading in limits.POWER_OVER_MASS)
        yield from unusual(
            Usual(least, most, limits.PRACTICE, "power_w"),
            engine.power_w,
            key=f"powerplant.{name}.power",
            what="the power",
            cure="That is for the loaded mass: check both and their units.",
        )
