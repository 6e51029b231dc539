"""Materials of spars, struts and fittings, with their allowable stresses: the table `materials.toml`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import tomli

from sim.units.parsing import Allowed, read


@dataclass(frozen=True, slots=True)
class StructuralMaterial:
    """A material with its allowable stresses at ultimate load.

    Attributes
    ----------
    name : str
        As a scenario writes it.
    modulus_pa : float
        Young's modulus, of wood along the grain. [Pa]
    tension_pa : float
        Ultimate strength in tension. [Pa]
    yield_pa : float
        Yield strength in compression; of wood the crushing strength. [Pa]
    bending_pa : float
        Stress of the compressed fibre of a solid section at which it fails in bending. [Pa]
    shear_pa, bearing_pa : float
        Ultimate strength in shear, of wood along the grain, and of a plate in bearing under a pin. [Pa]
    column_pa : float
        Stress at which a column of no length fails. [Pa]
    column_power : float
        Power of its slenderness in the short-column formula: 2 is Johnson's parabola.
    density_kg_m3 : float
        [kg/m³]
    strength_scatter : float
        Standard deviation of its strength over its mean.
    source : str
        Where the allowables come from.
    """

    name: str
    modulus_pa: float
    tension_pa: float
    yield_pa: float
    bending_pa: float
    shear_pa: float
    bearing_pa: float
    column_pa: float
    column_power: float
    density_kg_m3: float
    strength_scatter: float
    source: str


@cache
def materials() -> dict[str, StructuralMaterial]:
    """Return every material of the table by its name."""
    table = tomli.loads(Path(__file__).with_name("materials.toml").read_text(encoding="utf-8"))
    return {
        name: StructuralMaterial(
            name=name,
            **{
                f"{key}_pa": read(row[key], Allowed("Pa", above=0.0), key=f"{name}.{key}").value
                for key in ("modulus", "tension", "yield", "bending", "shear", "bearing", "column")
            },
            column_power=row["column_power"],
            density_kg_m3=read(row["density"], Allowed("kg/m^3", above=0.0), key=f"{name}.density").value,
            strength_scatter=row["scatter"],
            source=row["source"],
        )
        for name, row in table.items()
    }


def bolt_steel() -> StructuralMaterial:
    """Return the steel of pins and standard bolts."""
    return materials()["bolt steel"]


def mild_steel() -> StructuralMaterial:
    """Return the steel of tubes of which nothing is known."""
    return materials()["mild steel"]
