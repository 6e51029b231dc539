"""What marks on a test disc answer: opening, delay and scatter with their ±, causes, and every mark beside the line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    from sim.synchronizer.disc_causes import DiscCause


@dataclass(frozen=True, slots=True)
class MarkRow:
    """One mark beside the line through them all.

    Attributes
    ----------
    rpm : float
        Propeller speed. [rpm]
    angle_deg : float
        Propeller angle at passage, in [0, 360): on the disc, from the line of blade 1 against the rotation. [°]
    line_deg : float
        Where the line is at that speed, in [0, 360). [°]
    lapped_deg : float
        Angle of the mark with its laps. [°]
    off_deg, off_ms : float
        How far past the line the mark is, and the time that the propeller takes for it; late positive. [°, ms]
    odd_probability : float
        That it hung fire or was misread.
    """

    rpm: float
    angle_deg: float
    line_deg: float
    lapped_deg: float
    off_deg: float
    off_ms: float
    odd_probability: float


@dataclass(frozen=True, slots=True)
class DiscLine:
    """The line through the marks over speed, for figures.

    Attributes
    ----------
    rpm : tuple of float
        Propeller speeds. [rpm]
    line_deg, line_error_deg : tuple of float
        Angle, laps counted, and half the width of its 95 % interval. [°]
    scatter_deg : tuple of float
        Standard deviation of a mark. [°]
    stated_deg : tuple of float
        Angle that stated cam and delay would give, laps as nearest to the line; empty where not both are stated. [°]
    """

    rpm: tuple[float, ...]
    line_deg: tuple[float, ...]
    line_error_deg: tuple[float, ...]
    scatter_deg: tuple[float, ...]
    stated_deg: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class HiddenCause:
    """What the program put into an exercise.

    Attributes
    ----------
    cause : str
        Its cause.
    delay_ms, cam_error_deg : float
        Mean delay, and error of the cam. [ms, °]
    sound_scatter_ms : float or None
        Standard deviation of the delay of the gun when sound, which is no fault; None where scatter is the cause. [ms]
    seed : int
        Random seed of the exercise.
    """

    cause: str
    delay_ms: float
    cam_error_deg: float
    sound_scatter_ms: float | None
    seed: int


@dataclass(frozen=True, slots=True)
class DiscAnswer(Answer):
    """What the marks tell; each ``error`` is half the width of a 95 % interval.

    Attributes
    ----------
    delay_ms, delay_error_ms : float or None
        Mean time from cam to passage; None where all marks are at one speed. [ms]
    scatter_ms, scatter_error_ms : float
        Standard deviation of that time at `scatter_rpm`, odd marks left out. [ms]
    scatter_deg : float
        The same as an angle of the propeller. [°]
    scatter_rpm : float
        Geometric mean of the speeds. [rpm]
    cam_error_deg, cam_error_error_deg : float or None
        Propeller angle at which rounds of no delay would pass, less the stated opening of the cam, or less nothing
        where none is stated; within half a step of the cam of 0. [°]
    stated_opens_deg, stated_delay_ms : float or None
        What was stated of cam and delay, by options or a scenario; of a scenario's delay the part that is an angle
        counts with the cam, for marks cannot tell the two apart. [°, ms]
    delay_difference_ms : float or None
        Delay less the stated one. [ms]
    openings : int
        Openings of the cam in a turn, by which marks cannot be told apart.
    causes : tuple of DiscCause
        Those of probability .8 or more, the most probable first; empty where the marks do not tell.
    candidates : tuple of DiscCause
        Every cause that was tested.
    marks : tuple of MarkRow
        In the order given.
    remarks : tuple of str
        What was not tested and why, and what the ± rest on.
    hidden : HiddenCause or None
        What the program put into an exercise.
    powerplant : str
        Whose scenario's cam and delay are stated; empty where none.
    fitted : DiscLine or None
        For figures; not in JSON, as the next three.
    rotation : str
        Sense of the propeller from the cockpit; empty where it is not known.
    blades : int
        Drawn on the disc; 0 where they are not known.
    blocked_deg : float
        Arc that each blocks, margins not counted. [°]
    """

    main: ClassVar[str] = "marks"

    delay_ms: float | None
    delay_error_ms: float | None
    scatter_ms: float
    scatter_error_ms: float
    scatter_deg: float
    scatter_rpm: float
    cam_error_deg: float | None
    cam_error_error_deg: float | None
    stated_opens_deg: float | None
    stated_delay_ms: float | None
    delay_difference_ms: float | None
    openings: int
    causes: tuple[DiscCause, ...]
    candidates: tuple[DiscCause, ...]
    marks: tuple[MarkRow, ...]
    remarks: tuple[str, ...]
    hidden: HiddenCause | None = None
    powerplant: str = ""
    fitted: DiscLine | None = field(default=None, metadata=ASIDE)
    rotation: str = field(default="", metadata=ASIDE)
    blades: int = field(default=0, metadata=ASIDE)
    blocked_deg: float = field(default=0.0, metadata=ASIDE)
