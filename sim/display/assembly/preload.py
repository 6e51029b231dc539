"""How hard each kind of screw is tightened: as its thread, what it is tapped into and what lies under its head bear."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.display.assembly.screws import WOOD
from sim.display.assembly.stock import stock
from sim.units.convert import MM_PER_M
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Fastener, Part

NUT_FACTOR = 0.20
"""Torque over preload and diameter, as received: Shigley, Mechanical Engineering Design, table 8-15."""
PROOF_PA = 580e6
"""Proof stress of property class 8.8 up to M16: ISO 898-1; SAE grade 5 bears 585 MPa. [Pa]"""
PROOF_SHARE = 0.75
"""Preload of a joint that is taken apart again, over the proof load: Shigley, chapter 8."""
SUNK_SHARE = 0.8
"""Load that a countersunk screw bears over that of another: ISO 10642."""
CONE = math.tan(math.radians(30.0))
"""Spread of the clamping force below a head: Shigley, chapter 8."""
PRESSED_PA = {
    "steel": 200e6,
    "aluminium": 100e6,
    "brass": 100e6,
    "acetal": 20e6,
    "polycarbonate": 15e6,
    "PLA": 8e6,
    "birch plywood": 3e6,
    "": 8e6,
}
"""Pressure that each material bears for years under a head, bought parts as plastic: own limits, low. [Pa]"""
STRIPPED_PA = {"steel": 100e6, "aluminium": 50e6, "brass": 50e6, "acetal": 10e6}
"""Shear that a tapped thread bears, half of what strips it or less: own limits. [Pa]"""
FILLED = 0.5
"""Share of the cylinder of the nominal diameter that a tapped thread shears through: own estimate, low."""
SET_BY_HAND = ("clutch screw",)
"""Screws that are set by what they do, not by a torque."""


@dataclass(frozen=True, slots=True)
class Tightening:
    """How a kind of screw is tightened.

    Attributes
    ----------
    name, standard, thread : str
        What it holds, its designation and its thread.
    bolt_preload_n : float
        Preload of each. [N]
    tightening_n_m : float
        Torque of the key, the thread dry. [N m]
    bears : str
        What limits the preload: ``its own thread``, ``thread in`` or ``pressure on`` a material.
    """

    name: str
    standard: str
    thread: str
    bolt_preload_n: float
    tightening_n_m: float
    bears: str


def tightenings(assembly: Assembly) -> tuple[Tightening, ...]:
    """Return how each kind of screw is tightened, wood screws and what is set by hand left out.

    Notes
    -----
    T = K F d (Shigley, eq. 8-27). F is the least of three quarters of the proof load, of what a tapped thread bears in
    shear along the length that the screw fills, and of what each part bears that lies within the cone of pressure.
    """
    kinds: dict[tuple[str, str], Fastener] = {}
    for screw in assembly.fasteners:
        if screw.thread != WOOD and screw.name not in SET_BY_HAND:
            kinds.setdefault((screw.name, screw.standard), screw)
    return tuple(_of(screw, assembly) for screw in kinds.values())


def _of(screw: Fastener, assembly: Assembly) -> Tightening:
    force, bears = min(_borne(screw, assembly))
    wide = stock(assembly.hardware).thread(screw.thread).diameter_m
    return Tightening(screw.name, screw.standard, screw.thread, force, NUT_FACTOR * force * wide, bears)


def stress_area(thread: str) -> float:
    """Return the tensile stress area of a thread, ISO 898-1 and ASME B1.1. [m²].

    Examples
    --------
    >>> round(1e6 * stress_area("M6"), 1)
    20.1
    """
    metric = thread.startswith("M")
    wide = stock("metric" if metric else "inch").thread(thread).diameter_m
    return math.pi / 4.0 * (wide - (0.9382 if metric else 0.9743) * pitch(thread)) ** 2


def pitch(thread: str) -> float:
    """Return the pitch of a coarse metric or of a unified thread. [m]."""
    coarse = {"M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0}
    if thread in coarse:
        return coarse[thread] / MM_PER_M
    return float(ratio("in", "m")) / float(thread.rsplit("-", 1)[1])


def _borne(screw: Fastener, assembly: Assembly) -> Iterator[tuple[float, str]]:
    """Yield each force that limits the preload, and what bears it. [N]."""
    thread = stock(assembly.hardware).thread(screw.thread)
    share = PROOF_SHARE * (SUNK_SHARE if screw.head == "sunk" else 1.0)
    yield share * PROOF_PA * stress_area(screw.thread), "its own thread"
    parts = [_nearest(name, screw, assembly) for name in screw.joins]
    if screw.nut.startswith("tapped"):
        holder, shank = parts.pop(), screw.slabs[1]
        long = min(shank.z_to_m, holder.z_to_m) - max(shank.z_from_m, holder.z_from_m)
        yield math.pi * thread.diameter_m * FILLED * long * STRIPPED_PA[holder.material], f"thread in {holder.material}"
    faces = _faces(screw, parts)
    under = screw.slabs[2] if screw.washers else screw.slabs[0]
    outer = 2.0 * float(under.outline_m[:, 0].max())
    for part in parts:
        deep = min(abs(face - end) for face in faces for end in (part.z_from_m, part.z_to_m))
        reach = outer + 2.0 * CONE * deep
        area = math.pi / 4.0 * (reach**2 - thread.passing_m**2)
        yield area * PRESSED_PA[part.material], f"pressure on {part.material or part.name}"


def _faces(screw: Fastener, parts: list[Part]) -> tuple[float, ...]:
    """Return the places along the shaft of the faces that are pressed on. [m]."""
    ends = min(part.z_from_m for part in parts), max(part.z_to_m for part in parts)
    if not screw.nut.startswith("tapped"):
        return ends
    return (ends[1],) if screw.front else (ends[0],)


def _nearest(name: str, screw: Fastener, assembly: Assembly) -> Part:
    alike = (part for part in assembly.parts if part.name == name)
    return min(alike, key=lambda part: math.hypot(part.x_m - screw.x_m, part.y_m - screw.y_m))
