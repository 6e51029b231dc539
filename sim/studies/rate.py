"""Rounds a minute against propeller speed: the staircase, and the plateaus on which the pattern is locked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import tau
from typing import TYPE_CHECKING, Any, ClassVar

from sim.answer import Answer
from sim.errors import NoAnswerError, refuse
from sim.model.gun_line import neat
from sim.model.gun_options import setups, source
from sim.studies.windows import steady_rate
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.plateaus import impulse_plateaus, interrupter_plateaus
from sim.synchronizer.steady import steady_interval_s

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.model.gun_line import Setup
    from sim.synchronizer.plateaus import Plateau
SWEEP = 240
"""Steps from idle to full speed where a scenario's own range is asked for."""
RATES = 100
"""Steps of the gun's own rate in a map."""
MOST_STEPS = 100_000
"""Plateaus listed at most: more would be no list."""
MOST_SCATTERED = 5000
"""Speeds at which the rate with scatter is found in one go: a second's work."""


@dataclass(frozen=True, slots=True)
class RatePoint:
    """The steady rate at one speed.

    Attributes
    ----------
    rpm : float
        Propeller speed. [rpm]
    rounds_per_min : float
        Without scatter. [1/min]
    scattered_rounds_per_min : float or None
        With the scatter of the cycle; None where none is asked for, or too little for an exact form. [1/min]
    rounds_per_pattern, intervals_per_pattern : int or None
        So many rounds in so many blade intervals; None where nothing repeats.
    """

    rpm: float
    rounds_per_min: float
    scattered_rounds_per_min: float | None
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
class RateMap:
    """How much of its own rate a gun keeps, over propeller speed and that rate.

    Attributes
    ----------
    rpm, gun_rounds_per_min : tuple of float
        The axes. [rpm, 1/min]
    kept_share : tuple of tuple of float
        A row for each of the gun's rates.
    """

    rpm: tuple[float, ...]
    gun_rounds_per_min: tuple[float, ...]
    kept_share: tuple[tuple[float, ...], ...]


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
    cycle_scatter_ms : float
        Standard deviation of the gun's cycle that the scattered rate is for. [ms]
    over_rates : RateMap or None
        Over the gun's own rate as well, where asked for.
    """

    powerplant: str
    action: str
    gun_rounds_per_min: float
    rows: tuple[RatePoint, ...]
    plateaus: tuple[RateStep, ...]
    covered_share: float
    cycle_scatter_ms: float
    over_rates: RateMap | None


@dataclass(frozen=True, slots=True)
class Staircases(Answer):
    """One staircase for each propeller."""

    main: ClassVar[str] = "staircases.rows"

    staircases: tuple[Staircase, ...]


def asked_rate(
    *,
    most_rounds: int = 12,
    cycle_sd_s: float | None = None,
    over_rates: bool = False,
    **given: Any,  # noqa: ANN401
) -> Staircases:
    """Return the staircases that a command asks for: of a scenario with the scatter of its bursts, or of options alone.

    Raises
    ------
    InputError, NoAnswerError
        Every fault at once; no window.
    """
    loaded = source(given)
    burst = loaded.burst if loaded else None
    scatter_s = cycle_sd_s if cycle_sd_s is not None else burst.cycle_scatter_s if burst else 0.0
    found = setups(loaded=loaded, sweep=SWEEP, **given)
    if scatter_s and any(len(setup.spin_rad_s) > MOST_SCATTERED for setup in found):
        refuse("--rpm", f"must be at most {MOST_SCATTERED} speeds where the cycle scatters; give --cycle-scatter-ms 0")
    return rate(found, most_rounds=most_rounds, cycle_sd_s=scatter_s, over_rates=over_rates)


def rate(
    lines: Iterable[Setup], *, most_rounds: int = 12, cycle_sd_s: float = 0.0, over_rates: bool = False
) -> Staircases:
    """Return the staircase of each gun line.

    Parameters
    ----------
    lines : iterable of Setup
        With the gun's own rate known.
    most_rounds : int
        Longest pattern listed among the plateaus.
    cycle_sd_s : float
        Standard deviation of the gun's cycle, for the rate with scatter beside the exact one; 0 for none. [s]
    over_rates : bool
        Whether to map the rate over half to one and a half of the gun's own as well.

    Raises
    ------
    NoAnswerError
        When no window is left between the blades.

    Examples
    --------
    >>> from sim.model.gun_line import Setup
    >>> from math import pi
    >>> gun = Setup((30.0 * pi, 50.0 * pi), 2, pi / 4.0, natural_rate_per_s=500.0 / 60.0)
    >>> step = rate([gun], most_rounds=1).staircases[0].plateaus[0]
    >>> step.intervals_per_pattern, step.from_rpm, step.to_rpm
    (4, 937.5, 1000.0)
    """
    return Staircases(tuple(_staircase(setup, most_rounds, cycle_sd_s, over_rates) for setup in lines))


def _staircase(setup: Setup, most_rounds: int, cycle_sd_s: float, over_rates: bool) -> Staircase:
    shut, whole = setup.share()
    if shut > whole:
        message = f"no rate: each blade blocks {setup.shut_deg:g}° with its margins and the blades are "
        raise NoAnswerError(message + f"{360.0 / setup.blades:g}° apart; narrow the arc or take fewer blades")
    steps = _steps(setup, most_rounds)
    span = max(setup.rpm) - min(setup.rpm)
    return Staircase(
        powerplant=setup.powerplant,
        action=setup.action,
        gun_rounds_per_min=setup.gun_rounds_per_min,
        rows=tuple(_points(setup, cycle_sd_s)),
        plateaus=steps,
        covered_share=sum(step.to_rpm - step.from_rpm for step in steps) / span if span else 0.0,
        cycle_scatter_ms=1e3 * cycle_sd_s,
        over_rates=_map(setup) if over_rates else None,
    )


def _points(setup: Setup, cycle_sd_s: float) -> Iterator[RatePoint]:
    found = steady_rate(setup)
    blades_per_opening = setup.blades // setup.openings
    patterns = zip(found.rounds_per_pattern.tolist(), found.intervals_per_pattern.tolist(), strict=True)
    speeds = zip(setup.rpm, setup.spin_rad_s, strict=True)
    for (rpm, spin), per_min, (rounds, intervals) in zip(speeds, found.rounds_per_min.tolist(), patterns, strict=True):
        scattered = _scattered(setup, spin, cycle_sd_s)
        yield RatePoint(rpm, per_min, scattered, rounds or None, intervals * blades_per_opening or None)


def _scattered(setup: Setup, spin_rad_s: float, cycle_sd_s: float) -> float | None:
    """Return the exact mean rate with a cycle that scatters, rounds a minute; None where there is none."""
    if cycle_sd_s == 0.0:
        return None
    shut, whole = setup.share()
    open_share = 0.0 if setup.action == "impulse" else 1.0 - shut / whole
    line = GunLine(
        spin_rad_s=spin_rad_s,
        blades=setup.blades,
        openings=setup.openings,
        opens_rad=0.0,
        window_rad=open_share * tau / setup.openings,
        blocked_rad=setup.blocked_rad,
        margin_rad=setup.margin_rad,
        delay_s=setup.delay_s,
        cycle_s=60.0 / setup.gun_rounds_per_min,
        cycle_sd_s=cycle_sd_s,
    )
    try:
        return 60.0 / steady_interval_s(line)
    except NoAnswerError:
        return None


def _map(setup: Setup) -> RateMap:
    own = setup.gun_rounds_per_min
    rates = [neat(own * (0.5 + step / RATES)) for step in range(RATES + 1)]
    kept = (steady_rate(replace(setup, natural_rate_per_s=each / 60.0)).rounds_per_min / each for each in rates)
    return RateMap(setup.rpm, tuple(rates), tuple(tuple(row.tolist()) for row in kept))


def _steps(setup: Setup, most_rounds: int) -> tuple[RateStep, ...]:
    shut, whole = (Fraction(str(part)) for part in setup.share())
    rpm_per_cycle = Fraction(str(setup.gun_rounds_per_min)) / setup.openings
    start, end = (Fraction(str(edge(setup.rpm))) / rpm_per_cycle for edge in (min, max))
    if start == end or shut == 0:
        return ()
    locked = setup.action == "impulse" or shut == whole
    a_window = 1.0 if locked else most_rounds * min(float(whole / shut), float(most_rounds))
    if float(end - start) * a_window > MOST_STEPS:
        passing = f"{float(start):.3g} to {float(end):.3g} windows pass while the gun cycles once"
        message = f"no list of plateaus: {passing}; narrow the range of speeds, shorten the patterns or quicken the gun"
        raise NoAnswerError(message)
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
