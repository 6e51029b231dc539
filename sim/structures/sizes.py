"""Standard sizes of wires and tubes: the table `sizes.toml`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import tomli

from sim.units.parsing import Allowed, read


@dataclass(frozen=True, slots=True)
class WireSize:
    """A standard wire.

    Attributes
    ----------
    name, family : str
        As a scenario writes it; the family is what its name ends in.
    strength_n : float
        Rated breaking strength with its terminals. [N]
    area_m2 : float
        Cross section of the metal. [m²]
    modulus_pa, density_kg_m3 : float
        Young's modulus of the wire as a whole, and density of the metal. [Pa, kg/m³]
    strength_scatter : float
        Standard deviation of its strength over its mean.
    source : str
        Where strength and mass come from.
    """

    name: str
    family: str
    strength_n: float
    area_m2: float
    modulus_pa: float
    density_kg_m3: float
    strength_scatter: float
    source: str


@dataclass(frozen=True, slots=True)
class TubeSize:
    """A standard round tube: outside diameter and wall, as the table writes them too. [m]."""

    name: str
    diameter_m: float
    wall_m: float
    diameter: str
    wall: str


@cache
def _table() -> dict[str, dict[str, Any]]:
    return tomli.loads(Path(__file__).with_name("sizes.toml").read_text(encoding="utf-8"))


def _number(text: str, unit: str) -> float:
    return read(text, Allowed(unit, above=0.0), key="sizes").value


@cache
def wire_sizes() -> dict[str, WireSize]:
    """Return every wire by its name, family by family from the weakest up."""
    families = _table()["family"]
    sizes = {}
    for name, row in _table()["wire"].items():
        family = next(one for one in families if name.endswith(one))
        common = families[family]
        sizes[name] = WireSize(
            name=name,
            family=family,
            strength_n=_number(row["strength"], "N"),
            area_m2=_number(row["area"], "m^2"),
            modulus_pa=_number(common["modulus"], "Pa"),
            density_kg_m3=_number(common["density"], "kg/m^3"),
            strength_scatter=float(common["scatter"]),
            source=str(common["source"]),
        )
    return sizes


@cache
def tube_sizes() -> tuple[TubeSize, ...]:
    """Return every tube from the lightest up."""
    found = [
        TubeSize(
            name=f"{diameter.removesuffix(' in')} x {wall}",
            diameter_m=_number(diameter, "m"),
            wall_m=_number(wall, "m"),
            diameter=diameter,
            wall=wall,
        )
        for diameter, walls in _table()["tube"].items()
        for wall in walls
    ]
    return tuple(sorted(found, key=lambda one: (one.diameter_m - one.wall_m) * one.wall_m))
