"""An exercise: marks on a test disc with a hidden cause, to be read by hand, and the cause to compare with."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, ClassVar, Final

import numpy as np

from sim.answer import ASIDE, Answer
from sim.errors import one_of, refuse, whole_faults
from sim.studies.disc_answer import HiddenCause
from sim.synchronizer.disc_shots import DiscShots, fire
from sim.synchronizer.gun_line import neat
from sim.units.convert import ms, per_s, rpm

if TYPE_CHECKING:
    from sim.studies.disc_answer import DiscAnswer

SPEEDS_RPM = tuple(range(400, 1401, 100))
ROUNDS = 4
SOUND_SD_S = 0.2e-3
"""Standard deviation of the delay of a sound gun: ordinary, and no fault. Common practice, no source."""
FINE_DEG = 0.5
"""To which angles are read."""


@dataclass(frozen=True, slots=True)
class ExerciseMark:
    """A mark: propeller speed and propeller angle at passage. [rpm, °]."""

    rpm: float
    angle_deg: float


@dataclass(frozen=True, slots=True)
class DiscExercise(Answer):
    """A disc to be read.

    Attributes
    ----------
    seed : int
        Random seed, by which it comes again.
    stated_opens_deg, stated_delay_ms : float
        Where the cam is meant to open, and the delay measured on the bench. [°, ms]
    sound_scatter_ms : float
        Standard deviation of the delay of a sound gun, which is no fault. [ms]
    marks : tuple of ExerciseMark
        In the order fired.
    hidden : HiddenCause
        What is to be found; not in JSON.
    """

    main: ClassVar[str] = "marks"

    seed: int
    stated_opens_deg: float
    stated_delay_ms: float
    sound_scatter_ms: float
    marks: tuple[ExerciseMark, ...]
    hidden: HiddenCause = field(metadata=ASIDE)


HIDDEN: Final[dict[str, dict[str, Any]]] = {
    "gear slack": {"angle_sd_rad": math.radians(3.0), "time_sd_s": 0.05e-3},
    "ammunition or lock": {"time_sd_s": 0.6e-3},
    "hang-fires": {"hang_share": 0.12, "hang_s": 6e-3},
    "speed reading": {"reading_sd": 0.05},
    "cam setting": {},
    "speed reading or stated delay": {},
}
"""Cause -> what it changes of a gun that scatters little; two more change cam and speed by an amount drawn."""


def disc_exercise(seed: float = 1, *, cause: str | None = None) -> DiscExercise:
    """Return a disc with a hidden cause.

    Parameters
    ----------
    seed : int
        Random seed, 0 or more.
    cause : str or None
        The cause; None for one drawn.

    Raises
    ------
    InputError
        A seed that is no whole number, a cause that is not known.

    Examples
    --------
    >>> exercise = disc_exercise(1)
    >>> len(exercise.marks), disc_exercise(1) == exercise
    (44, True)
    """
    for fault in whole_faults({"seed": seed}):
        refuse(fault.where, fault.what)
    if cause is not None and cause not in HIDDEN:
        refuse("cause", one_of(HIDDEN, cause))
    rng = np.random.default_rng(int(seed))
    drawn = tuple(HIDDEN)[int(rng.integers(len(HIDDEN)))]
    chosen = drawn if cause is None else cause
    stated_opens_deg, delay_s = float(rng.integers(20, 140)), round(float(rng.uniform(5e-3, 10e-3)), 4)
    off = float(rng.choice([-1.0, 1.0]) * rng.uniform(0.5, 1.0))
    cam_error_deg = 12.0 * off if chosen == "cam setting" else 0.0
    slower = 1.0 + 0.2 * off if chosen == "speed reading or stated delay" else 1.0
    gun = DiscShots(math.radians(stated_opens_deg + cam_error_deg), delay_s, SOUND_SD_S)
    gun = replace(gun, **{"reading_factor": slower, **HIDDEN[chosen]})
    marks = fire(gun, [math.tau * per_s(speed) for speed in SPEEDS_RPM], ROUNDS, rng)
    rows = zip(marks.spin_rad_s, np.round(np.degrees(marks.angle_rad) / FINE_DEG) * FINE_DEG % 360.0, strict=True)
    return DiscExercise(
        seed=int(seed),
        stated_opens_deg=stated_opens_deg,
        stated_delay_ms=ms(delay_s),
        sound_scatter_ms=ms(SOUND_SD_S),
        marks=tuple(ExerciseMark(neat(rpm(float(spin))), float(angle)) for spin, angle in rows),
        hidden=HiddenCause(
            cause=chosen,
            delay_ms=slower * ms(gun.delay_s),
            cam_error_deg=cam_error_deg,
            sound_scatter_ms=None if chosen == "ammunition or lock" else ms(gun.time_sd_s),
            seed=int(seed),
        ),
    )


def solved(exercise: DiscExercise) -> DiscAnswer:
    """Return what the marks of an exercise tell, and its hidden cause with it."""
    from sim.studies.disc import disc

    found = disc(
        spin_rad_s=[math.tau * per_s(mark.rpm) for mark in exercise.marks],
        angle_deg=[mark.angle_deg for mark in exercise.marks],
        stated_opens_deg=exercise.stated_opens_deg,
        stated_delay_s=exercise.stated_delay_ms / ms(1.0),
    )
    return replace(found, hidden=exercise.hidden)
