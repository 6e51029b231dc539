"""Which cam an answer about timing is of."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees
from typing import TYPE_CHECKING

from sim.synchronizer.gun_line import neat
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.synchronizer.gun_line import GunLine

NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
IDEAL = "Ideal cam, fitted to each speed: open for the whole clear arc; no single cam is so at every speed."
IDEAL_IMPULSE = "Ideal cam, fitted to each speed: its impulse in the middle of the clear arc; no single cam is so."


@dataclass(frozen=True, slots=True)
class CamUsed:
    """The cam, in propeller angles, 0 with blade 1 on the bore line.

    Attributes
    ----------
    ideal : bool
        Whether it is fitted to the speed, which no single cam is at every speed.
    opens_deg : tuple of float
        Where its windows open, ascending from the first; empty for an ideal one of several speeds. [°]
    dwell_deg : float or None
        Turn of the propeller for which each is open, 0 for impulses; None for an ideal one of several speeds. [°]
    period_turns : int
        Turns of the propeller after which they come again.
    says : str
        The same in a sentence.
    """

    ideal: bool
    opens_deg: tuple[float, ...]
    dwell_deg: float | None
    period_turns: int
    says: str


def cam_used(line: GunLine) -> CamUsed:
    """Return the cam of a gun line."""
    cam = line.cam
    if cam is None:
        return CamUsed(True, (), None, 1, IDEAL_IMPULSE if line.action == "impulse" else IDEAL)
    opens_deg = tuple(neat(degrees(opening.opens_rad)) for opening in cam.windows)
    dwell_deg = neat(degrees(cam.dwell_rad))
    head = "Ideal cam, fitted to this speed" if cam.ideal else "Fixed cam"
    said = f"{head}: {_says(opens_deg, dwell_deg, cam.period_turns)}"
    return CamUsed(cam.ideal, opens_deg, dwell_deg, cam.period_turns, said)


def _says(opens_deg: Sequence[float], dwell_deg: float, turns: int) -> str:
    """Return a cam in words, its angles within its period; they are the same in either system of units."""
    places = [
        fixed("opens_deg", angle, "si", 1) for angle in sorted(round(each, 1) % (360 * turns) for each in opens_deg)
    ]
    listed = places[0] if len(places) == 1 else f"{', '.join(places[:-1])} and {places[-1]}"
    words = " ".join((NUMBERS[turns] if turns < len(NUMBERS) else str(turns), "turns"))
    again = "" if turns == 1 else f", in every {words}"
    if dwell_deg == 0.0:
        return f"impulses {listed} after blade 1 crosses the bore line{again}."
    dwell = fixed("dwell_deg", dwell_deg, "si", 1)
    return (
        f"opens {listed} after blade 1 crosses the bore line{again}, for {dwell}{' each' if len(places) > 1 else ''}."
    )
