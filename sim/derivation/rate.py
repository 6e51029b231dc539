"""The steady rate of fire through the propeller from the instants at which the gun is ready."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy as sp

from sim.derivation.steps import Derivation, Number, Step, equation, step

if TYPE_CHECKING:
    from fractions import Fraction

CYCLE, INTERVAL, ROUND, OPEN, COUNT, PHASE = sp.symbols("T tau j w n x", positive=True)
MOST_ROUNDS = 100_000
"""Patterns longer than this are not looked for."""

STEPS = (
    step(
        "Let a round be fired just as a window opens. The gun is ready again after its own cycle T, and, while it is "
        "never held, for round j after it at",
        equation("t_j", ROUND * CYCLE),
    ),
    step(
        "A window opens at every interval τ. Each cycle moves the instant at which the gun is ready by the same "
        "fraction x of an interval within the interval.",
        sp.Eq(PHASE, sp.Mod(CYCLE / INTERVAL, 1), evaluate=False),
    ),
    step(
        "The window is open for the fraction w of the interval. Round n is the first to be held: the first that is "
        "ready while the window is shut.",
        sp.Ge(sp.Mod(COUNT * PHASE, 1), OPEN, evaluate=False),
    ),
    step(
        "It waits for the next opening and is fired just as a window opens: the cycle repeats. So n rounds take "
        "a whole number of intervals, and that is the rate. Without such an n the gun fires at its own rate.",
        equation("R", COUNT / (INTERVAL * sp.ceiling(COUNT * CYCLE / INTERVAL))),
    ),
)


IMPULSE_STEPS = (
    step(
        "Each impulse of the cam releases one round, if the gun is ready. After a round it needs its own cycle:", CYCLE
    ),
    step(
        "An impulse comes every τ. The first one that finds the gun ready again is number k, and every round repeats "
        "the one before it: one round in k impulses.",
        equation("k", sp.ceiling(CYCLE / INTERVAL)),
        equation("R", 1 / (INTERVAL * sp.ceiling(CYCLE / INTERVAL))),
    ),
)


def first_held(advance: Fraction, open_share: Fraction) -> int:
    """Return the number n of the first round that is held, or 0 where none ever is.

    Parameters
    ----------
    advance : Fraction
        x, how far "ready" moves past the openings in a round, in intervals, from 0 up to 1.
    open_share : Fraction
        w, the open share of an interval, above 0 and at most 1.
    """
    turns = min(advance.denominator, MOST_ROUNDS)
    return next((n for n in range(1, turns + 1) if n * advance % 1 >= open_share), 0)


def derive_rate(
    *, gun_rounds_per_min: Fraction, openings_per_min: Fraction, blocked_share: Fraction | None
) -> Derivation:
    """Derive the rate of a gun whose sear a cam holds over each blade, or of one released by impulses; insert numbers.

    Parameters
    ----------
    gun_rounds_per_min : Fraction
        The gun's own rate. [1/min]
    openings_per_min : Fraction
        Windows that pass in a minute: blades times propeller speed. [1/min]
    blocked_share : Fraction or None
        Shut part of an interval, from 0 up to 1; None for impulses.
    """
    ratio = openings_per_min / gun_rounds_per_min
    n = 1 if blocked_share is None else first_held(ratio % 1, 1 - blocked_share)
    rounds, intervals = (n, -(-(n * ratio) // 1)) if n else (ratio.denominator, ratio.numerator)
    rate = rounds * openings_per_min / intervals
    shut = () if blocked_share is None else (Number("1 - w", "blocked_share", float(blocked_share)),)
    return Derivation(
        title="How many rounds per minute pass between the blades?",
        steps=(*(IMPULSE_STEPS if blocked_share is None else STEPS), _in_numbers(ratio, n)),
        numbers=(
            Number("1/T", "gun_rounds_per_min", float(gun_rounds_per_min)),
            Number("1/tau", "openings_per_min", float(openings_per_min)),
            *shut,
        ),
        results=(
            Number("R", "rounds_per_min", float(rate)),
            Number("n", "rounds_per_pattern", float(rounds)),
            Number("m", "intervals_per_pattern", float(intervals)),
        ),
    )


def _in_numbers(ratio: Fraction, n: int) -> Step:
    whole, phase = (sp.Rational(part.numerator, part.denominator) for part in (ratio, ratio % 1))
    words = "In numbers: T/τ is the number of windows per minute over the gun's own rate; x and the first n are exact."
    shown = (sp.Eq(CYCLE / INTERVAL, whole, evaluate=False), sp.Eq(PHASE, phase, evaluate=False))
    if not n:
        return step(f"{words} No round is ever held: the gun fires at its own rate.", *shown)
    return step(words, *shown, sp.Eq(COUNT, n, evaluate=False))
