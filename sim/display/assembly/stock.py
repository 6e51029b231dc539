"""Standard parts in one system of units: threads, bearings, belts, plates, and their designations."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import tomli

from sim.display.assembly.sold import Belts, Pins
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.display.display import Hardware

Size = Literal["small", "medium", "large", "bolt"]
_SIZES: dict[Hardware, dict[Size, str]] = {
    "metric": {"small": "M3", "medium": "M4", "large": "M5", "bolt": "M6"},
    "inch": {"small": "#4-40", "medium": "#8-32", "large": "#10-32", "bolt": "1/4-20"},
}

SIZES = ("plates", "boards", "lengths", "sheets", "bars")
"""Rows of sizes in each table."""


@dataclass(frozen=True, slots=True)
class Disc:
    """A washer, a nut or another ring.

    Attributes
    ----------
    inner_m, outer_m, height_m : float
        Inside diameter, outside diameter over corners, and height. [m]
    name : str
        Standard designation.
    """

    inner_m: float
    outer_m: float
    height_m: float
    name: str


@dataclass(frozen=True, slots=True)
class Thread:
    """A size of screw and what goes with it.

    Attributes
    ----------
    name : str
        ``M4`` or ``#8-32``.
    diameter_m : float
        Nominal diameter. [m]
    heads_m : dict
        Kind of head -> diameter over corners and height. [m]
    passing_m, drill_m : float
        Diameter of a hole that it passes, and of the drill before it is tapped. [m]
    loose_m : float
        Diameter of a hole that it passes in a board, whose holes stand less true. [m]
    washer, large, nut : Disc
        Washer, large washer and self-locking nut.
    """

    name: str
    diameter_m: float
    heads_m: dict[str, tuple[float, float]]
    passing_m: float
    drill_m: float
    loose_m: float
    washer: Disc
    large: Disc
    nut: Disc


@dataclass(frozen=True, slots=True)
class Bearing:
    """A shielded deep-groove ball bearing.

    Attributes
    ----------
    name : str
        Standard designation.
    bore_m, outer_m, width_m : float
        Boundary dimensions. [m]
    dynamic_n, static_n : float
        Load ratings. [N]
    mass_kg : float
        Mass. [kg]
    """

    name: str
    bore_m: float
    outer_m: float
    width_m: float
    dynamic_n: float
    static_n: float
    mass_kg: float

    @property
    def ordered(self) -> str:
        """What is asked for in a shop: the widths are those of bearings with shields."""
        return f"{self.name}, a metal shield on both sides (2Z)"


@dataclass(frozen=True, slots=True)
class Stock:
    """Every standard part of one system of units.

    Attributes
    ----------
    hardware : str
        ``metric`` or ``inch``.
    threads : dict
        Size -> thread, from ``small`` to ``bolt``.
    bearings : tuple of Bearing
        From the smallest bore up.
    rollers : dict
        Bearing that serves as a roller -> thread of its pin.
    belts : Belts
        Belts and pulleys.
    pins : Pins
        Spring pins across hubs.
    knob : Disc
        Ball knob of the lever.
    plates_m, boards_m, lengths_m : tuple of float
        Thicknesses of metal plate and of plywood, lengths of screws. [m]
    sheets_m, bars_m : tuple of float
        Thicknesses of sheet of any material but plywood, diameters of round bar. [m]
    unit : str
        Unit of its designations.
    names : dict
        Kind of fastener -> standard.
    """

    hardware: Hardware
    threads: dict[Size, Thread]
    bearings: tuple[Bearing, ...]
    rollers: dict[str, str]
    belts: Belts
    pins: Pins
    knob: Disc
    plates_m: tuple[float, ...]
    boards_m: tuple[float, ...]
    lengths_m: tuple[float, ...]
    sheets_m: tuple[float, ...]
    bars_m: tuple[float, ...]
    unit: str
    names: dict[str, str]

    def plate(self, least_m: float) -> float:
        """Return the thinnest plate of at least this thickness, else the thickest. [m]."""
        return _at_least(self.plates_m, least_m)

    def board(self, least_m: float) -> float:
        """Return the thinnest plywood of at least this thickness, else the thickest. [m]."""
        return _at_least(self.boards_m, least_m)

    def length(self, least_m: float) -> float:
        """Return the shortest screw of at least this length, else the longest. [m]."""
        return _at_least(self.lengths_m, least_m)

    def bearing(self, bore_m: float) -> Bearing:
        """Return the bearing of the smallest bore that is not below this one, else the largest. [m]."""
        return next((each for each in self.bearings if each.bore_m >= bore_m - 1e-9), self.bearings[-1])

    def bores(self, bore_m: float) -> tuple[float, ...]:
        """Return the bores of bearings on either side of one that is not sold, or that one. [m]."""
        sold = [each.bore_m for each in self.bearings]
        below = max((each for each in sold if each <= bore_m + 1e-9), default=sold[0])
        above = min((each for each in sold if each >= bore_m - 1e-9), default=sold[-1])
        return (below,) if above - below < 1e-9 else (below, above)

    def roller(self, outer_m: float) -> Bearing:
        """Return the bearing that serves as a roller and comes nearest to an outside diameter. [m]."""
        fit = (each for each in self.bearings if each.name in self.rollers)
        return min(fit, key=lambda each: abs(each.outer_m - outer_m))

    def pin(self, roller: Bearing) -> Thread:
        """Return the thread of the pin of a roller."""
        return self.thread(self.rollers[roller.name])

    def thread(self, name: str) -> Thread:
        """Return the thread of a designation."""
        return next(each for each in self.threads.values() if each.name == name)

    def told(self, length_m: float) -> str:
        """Return a length as a designation writes it: ``16``, ``5/8 in``."""
        number = length_m / float(ratio(self.unit, "m"))
        if self.unit == "mm":
            return f"{round(number, 1):g}"
        whole, sixteenths = divmod(round(number * 16), 16)
        top, bottom = sixteenths, 16
        while top and top % 2 == 0:
            top, bottom = top // 2, bottom // 2
        return " ".join(part for part in (str(whole) if whole else "", f"{top}/{bottom}" if top else "", "in") if part)


def _at_least(sizes_m: Iterable[float], least_m: float) -> float:
    sizes = tuple(sizes_m)
    return next((size for size in sizes if size >= least_m - 1e-9), sizes[-1])


@cache
def stock(hardware: Hardware) -> Stock:
    """Return the standard parts of a system.

    Examples
    --------
    >>> stock("metric").bearing(0.010).name
    'ISO 15 - 6000'
    >>> stock("inch").bearing(0.009525).name
    'ABMA R6'
    """
    table = tomli.loads(Path(__file__).with_name("standard_parts.toml").read_text(encoding="utf-8"))[hardware]
    unit_m, belt, knob = float(ratio(table["unit"], "m")), table["belt"], table["knob"]
    lengths = {name: tuple(each * unit_m for each in table[name]) for name in SIZES}
    return Stock(
        hardware=hardware,
        threads={size: _thread(table, name, unit_m) for size, name in _SIZES[hardware].items()},
        bearings=tuple(
            Bearing(
                name,
                row[0] * unit_m,
                row[1] * unit_m,
                row[2] * unit_m,
                row[3],
                row[4],
                row[5] * float(ratio("g", "kg")),
            )
            for name, row in table["bearing"].items()
        ),
        rollers=table["roller"],
        belts=Belts(
            name=belt["name"],
            tooth_m=belt["pitch"] * unit_m,
            width_m=belt["width"] * unit_m,
            flange_m=belt["flange"] * unit_m,
            boss_m=belt["boss"] * unit_m,
            hub_m=belt["hub"] * unit_m,
            teeth=tuple(belt["teeth"]),
            lengths_m=tuple(each * unit_m for each in belt["lengths"]),
        ),
        pins=_pins(table, unit_m),
        knob=Disc(0.0, knob["outside"] * unit_m, knob["height"] * unit_m, knob["name"]),
        plates_m=lengths["plates"],
        boards_m=lengths["boards"],
        lengths_m=lengths["lengths"],
        sheets_m=lengths["sheets"],
        bars_m=lengths["bars"],
        unit=table["unit"],
        names=table["names"],
    )


def _pins(table: dict[str, Any], unit_m: float) -> Pins:
    pin = table["pin"]
    lengths = tuple(each * unit_m for each in pin["lengths"])
    return Pins(table["names"]["pin"], pin["diameter"] * unit_m, pin["hole"], lengths)


def _thread(table: dict[str, Any], name: str, unit_m: float) -> Thread:
    lengths_m = (x * unit_m for x in table["thread"][name])
    nominal, head, height, sunk, sunk_height, corners, hex_height, hole, drill, loose = lengths_m
    names = table["names"]

    def disc(kind: str) -> Disc:
        inner, outer, thick = (each * unit_m for each in table[kind][name])
        return Disc(inner, outer, thick, f"{names[kind]} {name}")

    across, tall = (each * unit_m for each in table["nut"][name])
    return Thread(
        name=name,
        diameter_m=nominal,
        heads_m={"socket": (head, height), "sunk": (sunk, sunk_height), "hex": (corners, hex_height)},
        passing_m=hole,
        drill_m=drill,
        loose_m=loose,
        washer=disc("washer"),
        large=disc("large"),
        nut=Disc(nominal, across, tall, f"{names['nut']} {name}"),
    )
