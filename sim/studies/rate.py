"""Rounds a minute against propeller speed: the staircase, and the plateaus on which the pattern is locked."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.studies.windows import steady_rate
from sim.synchronizer.plateaus import impulse_plateaus, interrupter_plateaus

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.studies.timing import Setup
    from sim.synchronizer.plateaus import Plateau
SWEEP = 240
"""Steps from idle to full speed where a scenario's own range is asked for."""


@dataclass(frozen=True, slots=True)
class RatePoint:
    """The steady rate at one speed; the pattern is None where nothing repeats."""

    rpm: float
    rounds_per_min: float
    rounds_per_pattern: int | None
    intervals_per_pattern: int | None


@dataclass(frozen=True, slots=True)
class RateStep:
    """One plateau: so many rounds in so many blade intervals, from one speed up to another.

    Within it the rate rises in proportion to the speed.
    """

    rounds_per_pattern: int
    intervals_per_pattern: int
    from_rpm: float
    to_rpm: float
    from_rounds_per_min: float
    to_rounds_per_min: float


@dataclass(frozen=True, slots=True)
class Staircase:
    """The rate of one gun behind one propeller over a range of speeds.

    Attributes
    ----------
    powerplant : str
        The scenario's name for the engine; empty without a scenario.
    action : str
        ``interrupter`` or ``impulse``.
    gun_rounds_per_min : float
        The gun's own rate. [1/min]
    rows : tuple of RatePoint
        At the speeds asked for.
    plateaus : tuple of RateStep
        Every pattern up to the longest asked for, between the lowest and the highest speed.
    covered_share : float
        Share of the speed range that those plateaus cover; longer patterns fill the rest.
    """

    powerplant: str
    action: str
    gun_rounds_per_min: float
    rows: tuple[RatePoint, ...]
    plateaus: tuple[RateStep, ...]
    covered_share: float


@dataclass(frozen=True, slots=True)
class Staircases:
    """One staircase for each propeller."""

    staircases: tuple[Staircase, ...]


def rate(setups: Iterable[Setup], *, most_rounds: int = 12) -> Staircases:
    """Return the staircase of each setup.

    Parameters
    ----------
    setups : iterable of Setup
        With the gun's own rate known.
    most_rounds : int
        Longest pattern listed among the plateaus.

    Raises
    ------
    NoAnswerError
        When no window is left between the blades.

    Examples
    --------
    >>> from sim.studies.timing import Setup
    >>> from math import pi
    >>> gun = Setup((30.0 * pi, 50.0 * pi), 2, pi / 4.0, natural_rate_per_s=500.0 / 60.0)
    >>> step = rate([gun], most_rounds=1).staircases[0].plateaus[0]
    >>> step.intervals_per_pattern, step.from_rpm, step.to_rpm
    (4, 937.5, 1000.0)
    """
    return Staircases(tuple(_staircase(setup, most_rounds) for setup in setups))


def _staircase(setup: Setup, most_rounds: int) -> Staircase:
    shut, whole = setup.share()
    if shut > whole:
        message = f"no rate: each blade blocks {setup.shut_deg:g}° with its margins and the blades are "
        raise NoAnswerError(message + f"{360.0 / setup.blades:g}° apart; narrow the arc or take fewer blades")
    found = steady_rate(setup)
    blades_per_opening = setup.blades // setup.openings
    points = zip(
        setup.rpm,
        found.rounds_per_min.tolist(),
        found.rounds_per_pattern.tolist(),
        found.intervals_per_pattern.tolist(),
        strict=True,
    )
    steps = _steps(setup, most_rounds)
    span = max(setup.rpm) - min(setup.rpm)
    return Staircase(
        powerplant=setup.powerplant,
        action=setup.action,
        gun_rounds_per_min=setup.gun_rounds_per_min,
        rows=tuple(RatePoint(rpm, per_min, n or None, m * blades_per_opening or None) for rpm, per_min, n, m in points),
        plateaus=steps,
        covered_share=sum(step.to_rpm - step.from_rpm for step in steps) / span if span else 0.0,
    )


def _steps(setup: Setup, most_rounds: int) -> tuple[RateStep, ...]:
    shut, whole = (Fraction(str(part)) for part in setup.share())
    rpm_per_cycle = Fraction(str(setup.gun_rounds_per_min)) / setup.openings
    start, end = (Fraction(str(edge(setup.rpm))) / rpm_per_cycle for edge in (min, max))
    if start == end or shut == 0:
        return ()
    locked = setup.action == "impulse" or shut == whole
    steps = (
        impulse_plateaus(start, end)
        if locked
        else interrupter_plateaus(shut / whole, start, end, most_rounds=most_rounds)
    )
    return tuple(_step(step, rpm_per_cycle, setup) for step in steps)


def _step(step: Plateau, rpm_per_cycle: Fraction, setup: Setup) -> RateStep:
    from_rpm, to_rpm = step.start * rpm_per_cycle, step.end * rpm_per_cycle
    rounds_per_turn = Fraction(step.rounds * setup.openings, step.intervals)
    return RateStep(
        rounds_per_pattern=step.rounds,
        intervals_per_pattern=step.intervals * (setup.blades // setup.openings),
        from_rpm=float(from_rpm),
        to_rpm=float(to_rpm),
        from_rounds_per_min=float(from_rpm * rounds_per_turn),
        to_rounds_per_min=float(to_rpm * rounds_per_turn),
    )
