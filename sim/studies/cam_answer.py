"""Which cam an answer about timing is of."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees
from typing import TYPE_CHECKING

from sim.synchronizer.gun_line import neat
from sim.told import in_series, together, told
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

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
        Where its windows open, ascending, each within the turns after which they come again; empty for an ideal one of
        several speeds. [°]
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


def cams_used(lines: Iterable[GunLine]) -> dict[str, CamUsed]:
    """Return the cam with each engine, by its name: cut once, it has other windows where gear or rotation differ."""
    return {line.powerplant: cam_used(line) for line in lines}


def cam_used(line: GunLine) -> CamUsed:
    """Return the cam of a gun line."""
    cam = line.cam
    if cam is None:
        says = IDEAL_IMPULSE if line.action == "impulse" else IDEAL
        return CamUsed(True, (), None, line.openings.denominator, says)
    period_deg = 360.0 * cam.period_turns
    opens_deg = tuple(sorted(neat(round(degrees(each.opens_rad), 9) % period_deg) for each in cam.windows))
    dwell_deg = neat(degrees(cam.dwell_rad))
    head = "Ideal cam, fitted to this speed: {cam}" if cam.ideal else "Fixed cam: {cam}"
    said = told(head, cam=_says(opens_deg, dwell_deg, cam.period_turns))
    return CamUsed(cam.ideal, opens_deg, dwell_deg, cam.period_turns, said)


def _says(opens_deg: Sequence[float], dwell_deg: float, turns: int) -> str:
    """Return a cam in words; they are the same in either system of units."""
    if turns == 1:
        places = _listed(sorted(round(each, 1) % 360.0 for each in opens_deg))
    else:
        rounded = sorted(round(each, 1) % (360.0 * turns) for each in opens_deg)
        each_turn = [[each - 360.0 * turn for each in rounded if each // 360.0 == turn] for turn in range(turns)]
        own = [(turn, _listed(angles)) for turn, angles in enumerate(each_turn, 1) if angles]
        places = together([told("{angles} in turn {turn}", angles=angles, turn=turn) for turn, angles in own], ", ")
        number = NUMBERS[turns] if turns < len(NUMBERS) else str(turns)
        places = told("{places} of {number},", places=places, number=number)
    if dwell_deg == 0.0:
        return told("impulses {places} after blade 1 crosses the bore line.", places=places)
    each = len(opens_deg) > 1
    opens = "opens {places} after blade 1 crosses the bore line, for {dwell} each."
    if not each:
        opens = "opens {places} after blade 1 crosses the bore line, for {dwell}."
    return told(opens, places=places, dwell=fixed("dwell_deg", dwell_deg, "si", 1))


def _listed(angles_deg: Sequence[float]) -> str:
    return in_series([fixed("opens_deg", angle, "si", 1) for angle in angles_deg])
