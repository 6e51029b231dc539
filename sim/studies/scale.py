"""A drawing scaled: real dimensions with their errors, and the readings that contradict the others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.drawing import Contradiction, Dimension, Readings, Scale, scatter_m, stretch
from sim.airframe.drawing_adjustment import LIMIT, adjust
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.units.text import feet_inches, fixed

if TYPE_CHECKING:
    from sim.airframe.drawing import MeasuredDrawing
    from sim.units.quantities import System


@dataclass(frozen=True, slots=True)
class Stretch:
    """The distortion of one sheet.

    Attributes
    ----------
    view : str
        Name of the view.
    stretch : float
        Length across over length along, on paper, of the same real length.
    """

    view: str
    stretch: float


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One dimension in one view, as it was read.

    Attributes
    ----------
    dimension, view, axis : str
        The dimension, its view and its direction on the sheet.
    count : int
        Number of readings.
    mean_m : float
        On paper. [m]
    scatter_m : float or None
        Of its own repeats; None where it was read once. [m]
    """

    dimension: str
    view: str
    axis: str
    count: int
    mean_m: float
    scatter_m: float | None


@dataclass(frozen=True, slots=True)
class ScaleAnswer(Answer):
    """The scaled drawing.

    Attributes
    ----------
    title : str
        Name of the drawing.
    reading_error_m : float
        Standard error of a reading without its own. [m]
    scales : tuple of Scale
        By view and direction.
    stretches : tuple of Stretch
        Of the sheets whose two scales are known apart.
    dimensions : tuple of Dimension
        Real sizes.
    readings : tuple of ReadingRow
        The readings, each with its own scatter.
    contradictions : tuple of Contradiction
        Readings that contradict the others, the worst first.
    remarks : tuple of str
        What the reader must know.
    """

    main: ClassVar[str] = "dimensions"

    title: str
    reading_error_m: float
    scales: tuple[Scale, ...]
    stretches: tuple[Stretch, ...]
    dimensions: tuple[Dimension, ...]
    readings: tuple[ReadingRow, ...]
    contradictions: tuple[Contradiction, ...]
    remarks: tuple[str, ...]


def scale(drawing: MeasuredDrawing) -> ScaleAnswer:
    """Return the real dimensions of a drawing.

    Parameters
    ----------
    drawing : MeasuredDrawing
        Readings and known dimensions, as of `sim.model.drawing.drawing`.

    Raises
    ------
    InputError
        Known dimensions that contradict each other or the drawing, a known dimension that was not read, a view
        whose scale nothing gives: every fault at once.
    """
    known, readings = drawing.known, drawing.readings
    found = adjust(readings, known, one_scale=drawing.one_scale, error_m=drawing.reading_error_m)
    faults = [
        Fault(f"known.{wrong.dimension}", _contradicted(known[wrong.dimension].value_m, wrong))
        for wrong in found.contradictions
        if not wrong.view
    ]
    if faults:
        raise InputError(faults)
    unread = [name for name in known if name not in {row.dimension for row in readings}]
    stretches = ((view, stretch(found, view)) for view in dict.fromkeys(one.view for one in found.scales))
    return ScaleAnswer(
        title=drawing.title,
        reading_error_m=found.reading_error_m,
        scales=found.scales,
        stretches=tuple(Stretch(view, ratio) for view, ratio in stretches if ratio is not None),
        dimensions=found.dimensions,
        readings=tuple(map(_row, readings)),
        contradictions=found.contradictions,
        remarks=tuple(f"{name} is known and was not read: it says nothing of the scale." for name in unread),
    )


def _row(reading: Readings) -> ReadingRow:
    own_m, spare = scatter_m([reading])
    count = len(reading.values_m)
    middle_m = sum(reading.values_m) / count
    return ReadingRow(
        reading.dimension, reading.view, reading.axis, count, mean_m=middle_m, scatter_m=own_m if spare else None
    )


def _contradicted(value_m: float, wrong: Contradiction) -> str:
    return (
        f"contradicts the rest: the document says {_both(value_m)}, the drawing {_both(value_m - wrong.residual_m)}, "
        f"{abs(wrong.normalised_residual):.1f} standard errors apart, at most {LIMIT:g}; "
        "check the document and its readings"
    )


def _both(length_m: float) -> str:
    """Return a length for a shop of either system: ``8.560 m (28 ft 1.00 in)``."""
    return f"{fixed('length_m', length_m, 'si', 3)} ({feet_inches(length_m)})"


def dimension_texts(answer: ScaleAnswer, *, system: System) -> dict[str, str]:
    """Return every dimension with its standard error as a scenario file holds it, by name.

    Parameters
    ----------
    answer : ScaleAnswer
        Of `scale`.
    system : {"us", "si"}
        Feet and inches, or metres.
    """
    return {each.name: f"{_size(each.value_m, system)} ± {_error(each.error_m, system)}" for each in answer.dimensions}


def _size(length_m: float, system: System) -> str:
    return feet_inches(length_m) if system == "us" else fixed("length_m", length_m, system, 4)


def _error(length_m: float, system: System) -> str:
    return fixed("error_m", length_m, system) if system == "us" else fixed("length_m", length_m, system, 4)
