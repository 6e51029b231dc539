"""The sheet of `whirlgate disc`: delay, scatter and cam error, the causes that the marks speak for, and odd marks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.synchronizer.disc_causes import LIKELY
from viz.sheets.blocks import Run, Table, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.disc_answer import DiscAnswer, HiddenCause
    from sim.synchronizer.disc_causes import DiscCause
    from viz.sheets.blocks import Block, Cell, Sentence

SIGNS: Final = {
    "gear slack": "scatter in angle, alike at every speed",
    "ammunition or lock": "scatter in time: in angle it grows with speed",
    "speed reading": "marks of a speed are off together",
    "hang-fires": "single marks are late",
    "misread mark": "single marks are anywhere",
    "cam setting": "another angle at standstill than stated",
    "speed reading or stated delay": "another slope than stated",
}
"""Cause -> what it shows on the disc."""
ODD = 0.5
INTERVALS = "±: half the width of a 95 % interval. Scatter: one standard deviation, marks off the line left out."
DIRECTION = (
    "Angles are propeller angles, 0 with blade 1 on the bore line: on the disc, from the line of blade 1 against the "
    "direction of rotation."
)
_LIMIT = Value("probability", LIKELY, decimals=0, percent=True)
FIRST_EXERCISE = 7


def sheet(answer: DiscAnswer) -> Iterator[Block]:
    """Yield what the marks tell."""
    yield _verdict(answer)
    yield _values(answer)
    yield _causes(answer)
    odd = [mark for mark in answer.marks if mark.odd_probability > ODD]
    if odd:
        yield rows(
            "Marks off the line",
            ("Propeller speed", "Angle", "Past the line", "Late by", "Hung fire or misread"),
            [
                (
                    Value("rpm", mark.rpm, plain=True),
                    Value("angle_deg", mark.angle_deg, decimals=1),
                    Value("off_deg", mark.off_deg, decimals=1),
                    Value("off_ms", mark.off_ms, decimals=1),
                    Value("odd_probability", mark.odd_probability, decimals=0, percent=True),
                )
                for mark in odd
            ],
        )
    if answer.remarks:
        yield remarks(answer.remarks)
    exercise = FIRST_EXERCISE if answer.hidden is None else answer.hidden.seed + 1
    yield next_steps(
        say("{run}, the release windows of cam and delay", run=Run("windows")),
        f"whirlgate disc --exercise {exercise}, a disc to read oneself",
    )


def _verdict(answer: DiscAnswer) -> Sentence:
    """Return what is named, and what was hidden in an exercise."""
    if not answer.causes:
        said: Cell = say(
            "The marks tell no cause: none has a probability of {limit}.", limit=_share("probability", LIKELY)
        )
    else:
        named = listed([_named(cause) for cause in answer.causes], ", ")
        said = say("The marks speak for: {named}.", named=named)
    if answer.hidden is None:
        return say("{said}", said=said)
    return say(
        "{said} Hidden in this exercise: {cause}; delay {delay}, cam error {error}.{sound}",
        said=said,
        cause=answer.hidden.cause,
        delay=Value("delay_ms", answer.hidden.delay_ms, decimals=2),
        error=Value("cam_error_deg", answer.hidden.cam_error_deg, decimals=1),
        sound=_sound(answer, answer.hidden),
    )


def _sound(answer: DiscAnswer, hidden: HiddenCause) -> Cell:
    """Return what the scatter of a sound gun is taken for, where the marks speak for a cause that it is."""
    named = {cause.name for cause in answer.causes} & {"ammunition or lock", "gear slack"} - {hidden.cause}
    if not named or hidden.sound_scatter_ms is None:
        return ""
    return say(
        " Scatter named {cause} is that of a sound gun, {scatter} from round to round: no fault.",
        cause=" or ".join(sorted(named)),
        scatter=Value("sound_scatter_ms", hidden.sound_scatter_ms, decimals=2),
    )


def _named(cause: DiscCause) -> Sentence:
    return say("{name} ({probability})", name=cause.name, probability=_share("probability", cause.probability))


def _share(name: str, share: float) -> Value:
    return Value(name, share, decimals=0, percent=True)


def _values(answer: DiscAnswer) -> Table:
    speeds = len({mark.rpm for mark in answer.marks})
    title = say(
        "Test disc: {marks} marks at {speeds}{of}",
        marks=str(len(answer.marks)),
        speeds="one speed" if speeds == 1 else f"{speeds} speeds",
        of=f", beside cam and delay of {answer.powerplant}" if answer.powerplant else "",
    )
    scatter = say("Scatter of the delay at {speed}", speed=Value("scatter_rpm", answer.scatter_rpm, decimals=0))
    return rows(
        title,
        ("Quantity", "From the marks", "Stated", "Difference"),
        [
            (
                "Delay from cam to passage",
                _both(("delay_ms", answer.delay_ms), ("delay_error_ms", answer.delay_error_ms), 2),
                Value("stated_delay_ms", answer.stated_delay_ms, decimals=2),
                Value("delay_difference_ms", answer.delay_difference_ms, decimals=2, change=True),
            ),
            (
                "Angle of passage without delay",
                _both(("stated_opens_deg", _opening(answer)), ("cam_error_error_deg", answer.cam_error_error_deg), 1),
                Value("stated_opens_deg", answer.stated_opens_deg, decimals=1),
                Value("cam_error_deg", answer.cam_error_deg, decimals=1, change=True)
                if answer.stated_opens_deg is not None
                else "–",
            ),
            (
                scatter,
                _both(("scatter_ms", answer.scatter_ms), ("scatter_error_ms", answer.scatter_error_ms), 2),
                "–",
                "–",
            ),
            ("The same as an angle", Value("scatter_deg", answer.scatter_deg, decimals=1), "–", "–"),
        ],
        INTERVALS,
        DIRECTION,
    )


def _opening(answer: DiscAnswer) -> float | None:
    """Return the angle at which the cam lets go, in [0, 360)."""
    if answer.cam_error_deg is None:
        return None
    return ((answer.stated_opens_deg or 0.0) + answer.cam_error_deg) % 360.0


def _both(value: tuple[str, float | None], error: tuple[str, float | None], decimals: int) -> Cell:
    if value[1] is None:
        return "cannot be told"
    return say(
        "{value} ± {error}",
        value=Value(*value, decimals=decimals, bare=True),
        error=Value(*error, decimals=decimals),
    )


def _causes(answer: DiscAnswer) -> Table:
    return rows(
        "Causes",
        ("Cause", "Probability", "Before the marks", "What it shows on the disc"),
        [
            (
                cause.name,
                _share("probability", cause.probability),
                _share("prior_probability", cause.prior_probability),
                SIGNS[cause.name],
            )
            for cause in answer.candidates
        ],
        say(
            "A cause is named from {limit} on. Gear slack and ammunition or lock exclude each other; others may come "
            "together.",
            limit=_LIMIT,
        ),
    )
