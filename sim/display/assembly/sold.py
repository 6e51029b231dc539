"""Pins, belts and pulleys as they are sold."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Pins:
    """Slotted spring pins of one diameter.

    Attributes
    ----------
    name : str
        Standard.
    diameter_m : float
        Nominal diameter. [m]
    hole : str
        ISO 286 class of the hole that they are driven into.
    lengths_m : tuple of float
        Lengths sold. [m]
    """

    name: str
    diameter_m: float
    hole: str
    lengths_m: tuple[float, ...]

    def length(self, most_m: float) -> float:
        """Return the longest pin of at most this length, else the shortest. [m]."""
        return max((each for each in self.lengths_m if each <= most_m + 1e-9), default=self.lengths_m[0])


@dataclass(frozen=True, slots=True)
class Belts:
    """A range of toothed belts with the pulleys sold for it.

    Attributes
    ----------
    name : str
        Standard designation of profile and width.
    tooth_m, width_m, flange_m : float
        Pitch of the teeth, width of the belt, and how far pulley flanges stand beyond on both sides together. [m]
    boss_m, hub_m : float
        Length of a pulley's boss, and by how much its diameter is below that of the pitch circle. [m]
    teeth : tuple of int
        Teeth of pulleys.
    lengths_m : tuple of float
        Lengths of endless belts. [m]
    """

    name: str
    tooth_m: float
    width_m: float
    flange_m: float
    boss_m: float
    hub_m: float
    teeth: tuple[int, ...]
    lengths_m: tuple[float, ...]
