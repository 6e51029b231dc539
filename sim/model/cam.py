"""The cam of a scenario's gun or of options: what is said of it, and the cam that this makes for a gun line."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import tau
from typing import TYPE_CHECKING

from sim.errors import refuse
from sim.synchronizer.cam import SAME_RAD, even, uneven
from sim.synchronizer.cam_phase import best_phase
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.scenario.tables import Scenario
    from sim.synchronizer.cam import Cam
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.link import DelayDeviation

MOST_TEETH = 40
"""Largest number in a ratio of shafts that is taken for a gear; one that needs a larger number lets a cam drift."""
MOST_TURNS = 12
"""Most turns of the propeller after which a cam may come round again, so many impulses a turn being a ratio."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CamKeys:
    """What is said of a cam; None for what is not.

    Attributes
    ----------
    dwell_rad : float or None
        Turn of the propeller for which each window is open; None for the whole clear arc. [rad]
    opens_rad : float or None
        Propeller angle at which the first window opens; None for the best one. [rad]
    from_vertical : bool
        Whether that angle is 0 with blade 1 straight up; otherwise it is 0 with blade 1 on the bore line.
    windows_rad : tuple of float
        Where windows at uneven angles open, counted from the first; empty for even ones. [rad]
    period_turns : int
        Turns of the propeller after which they come again.
    said_in : str
        Key or option that gives the dwell.
    """

    dwell_rad: float | None
    opens_rad: float | None = None
    from_vertical: bool = False
    windows_rad: tuple[float, ...] = ()
    period_turns: int = 1
    said_in: str = "cam.dwell"


def cam_keys(scenario: Scenario) -> CamKeys | None:
    """Return what a scenario says of its cam; None where it has none."""
    table = scenario.cam
    if table is None:
        return None
    return CamKeys(
        dwell_rad=table.dwell_rad,
        opens_rad=table.opens_rad,
        from_vertical=table.opens_from == "vertical",
        windows_rad=tuple(each - min(table.windows) for each in sorted(table.windows)),
        period_turns=table.turns,
    )


def impulses_per_turn(scenario: Scenario, powerplant: str) -> Fraction:
    """Return the impulses in a turn of a powerplant's propeller; 0 for as many as it has blades.

    Raises
    ------
    InputError
        When the cam turns with an engine whose gear is no ratio of whole numbers.
    """
    gun, engine = scenario.gun, scenario.powerplant[powerplant]
    if gun is None or gun.impulses_per_rev is None:
        return Fraction(0)
    impulses = whole_ratio(gun.impulses_per_rev)
    if scenario.cam is None or scenario.cam.shaft == "propeller":
        return impulses
    gear = Fraction(abs(engine.gear_ratio)).limit_denominator(MOST_TEETH)
    if abs(gear / Fraction(abs(engine.gear_ratio)) - 1) > Fraction(1, 10**4):
        where = f"powerplant.{powerplant}.gear_ratio"
        refuse(
            where,
            f'must be a ratio of whole numbers up to {MOST_TEETH} for a cam on the engine, got "{engine.gear_ratio:g}"',
        )
    return impulses / gear


def whole_ratio(number: float) -> Fraction:
    """Return a number of impulses in a turn as the ratio that it is."""
    return Fraction(number).limit_denominator(MOST_TURNS)


def is_ratio(number: float) -> bool:
    """Return whether a number of impulses in a turn is a ratio with a small denominator."""
    return abs(float(whole_ratio(number)) - number) <= 1e-6 * abs(number)


def shape(keys: CamKeys, line: GunLine) -> Cam:
    """Return the cam of a gun line with its first window opening at 0.

    Raises
    ------
    InputError
        When a window would close after the next opens.
    """
    dwell_rad = 0.0 if line.action == "impulse" else line.clear_rad if keys.dwell_rad is None else keys.dwell_rad
    count, turns = replace(line, cam=None).openings.as_integer_ratio()
    again_rad = keys.period_turns * tau if keys.windows_rad else turns * tau / count
    starts = keys.windows_rad or (0.0,)
    nearest_rad = min(later - start for start, later in pairwise((*starts, starts[0] + again_rad)))
    if keys.dwell_rad is not None and dwell_rad > nearest_rad + SAME_RAD:
        most, came = (brief("dwell_rad", angle, digits=4) for angle in (nearest_rad, dwell_rad))
        refuse(keys.said_in, f'must be at most the {most} from one window to the next, got "{came}"')
    if keys.windows_rad:
        return uneven(keys.windows_rad, dwell_rad, turns=keys.period_turns)
    return even(0.0, dwell_rad, count, turns=turns)


def with_cam(lines: Iterable[GunLine], first: GunLine, keys: CamKeys, sd: DelayDeviation) -> tuple[GunLine, ...]:
    """Return gun lines with the cam, which is cut once, for the first of the engines.

    Parameters
    ----------
    lines : iterable of GunLine
        Those that are asked about.
    first : GunLine
        The line behind the engine for which the cam is cut, its speeds that engine's range.
    keys : CamKeys
        What is said of the cam.
    sd : DelayDeviation
        Standard deviation of the delay.
    """
    cut = shape(keys, first)
    opens_rad = keys.opens_rad if keys.opens_rad is not None else best_phase(cut, first, sd)[0]
    return tuple(
        replace(line, cam=shape(keys, line).turned(opens_rad - (line.bore_turn_rad if keys.from_vertical else 0.0)))
        for line in lines
    )
