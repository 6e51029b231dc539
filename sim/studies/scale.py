"""A drawing scaled: real dimensions with their errors, and the readings that contradict the others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.drawing import Contradiction, Dimension, Distortion, Readings, Scale, scatter_m, stretch
from sim.airframe.drawing_adjustment import adjust
from sim.airframe.drawing_snooping import LIMIT, SIGNIFICANCE, TIE
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.studies.scale_remarks import doubted_documents, is_no_copy, no_copy, remarks
from sim.units.text import feet_inches, fixed

if TYPE_CHECKING:
    from sim.airframe.drawing import Check, MeasuredDrawing, Scaled
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
    name : str
        The dimension once more, under the key that the dimensions have.
    redundancy : float
        Share of an error of the reading that shows in its residual, 0 to 1.
    least_detectable_m : float or None
        Error at full size that the test finds with 80 % probability; None where nothing checks the reading. [m]
    advice : str
        What would check it, where nothing does.
    """

    dimension: str
    view: str
    axis: str
    count: int
    mean_m: float
    scatter_m: float | None
    name: str
    redundancy: float
    least_detectable_m: float | None
    advice: str


@dataclass(frozen=True, slots=True)
class DocumentRow:
    """One known dimension, and how well the rest of the drawing checks it.

    Attributes
    ----------
    name : str
        The dimension.
    known_m, error_m : float
        As documented, and its standard error. [m]
    error_assumed : bool
        Whether the document states no ±, so that the standard error is an estimate.
    redundancy : float
        Share of an error of the document that shows in its residual, 0 to 1.
    least_detectable_m : float or None
        Error that the test finds with 80 % probability; None where nothing checks the document. [m]
    advice : str
        What would check it, where nothing does.
    """

    name: str
    known_m: float
    error_m: float
    error_assumed: bool
    redundancy: float
    least_detectable_m: float | None
    advice: str


@dataclass(frozen=True, slots=True)
class ScaleAnswer(Answer):
    """The scaled drawing.

    Attributes
    ----------
    title : str
        Name of the drawing.
    reading_error_m : float
        Standard error of a reading without its own. [m]
    paper : Distortion
        Local distortion, given, estimated or assumed.
    degrees_of_freedom : int
        Observations less unknowns.
    tests : int
        Number of tests for misreadings.
    false_alarm_share : float
        Greatest probability that a drawing without a misreading is called wrong: one in a thousand a test.
    scales : tuple of Scale
        By view and direction.
    stretches : tuple of Stretch
        Of the sheets whose two scales are known apart.
    dimensions : tuple of Dimension
        Real sizes.
    readings : tuple of ReadingRow
        The readings, each with its own scatter.
    documents : tuple of DocumentRow
        The known dimensions that were read.
    contradictions : tuple of Contradiction
        Readings that contradict the others, the worst first.
    doubted_documents : tuple of str
        Known dimensions that give the scales of sheets whose two scales differ by more than paper and copier do; of
        those of one direction only, where the others check each other. Empty where no sheet is so.
    remarks : tuple of str
        What the reader must know; one that begins with ``DO NOT USE`` where documents are doubted.
    """

    main: ClassVar[str] = "dimensions"

    title: str
    reading_error_m: float
    paper: Distortion
    degrees_of_freedom: int
    tests: int
    false_alarm_share: float
    scales: tuple[Scale, ...]
    stretches: tuple[Stretch, ...]
    dimensions: tuple[Dimension, ...]
    readings: tuple[ReadingRow, ...]
    documents: tuple[DocumentRow, ...]
    contradictions: tuple[Contradiction, ...]
    doubted_documents: tuple[str, ...]
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
    found = adjust(
        readings,
        known,
        one_scale=drawing.one_scale,
        error_m=drawing.reading_error_m,
        distortion=drawing.distortion,
    )
    faults = [
        Fault(f"known.{wrong.dimension}", _contradicted(known[wrong.dimension].value_m, wrong, found))
        for wrong in found.contradictions
        if not wrong.view
    ]
    if faults:
        raise InputError(faults)
    ratios = ((view, stretch(found, view)) for view in dict.fromkeys(one.view for one in found.scales))
    stretches = tuple(Stretch(view, ratio) for view, ratio in ratios if ratio is not None)
    beyond = tuple(each for each in stretches if is_no_copy(each, found))
    documents = tuple(_document(name, drawing, check) for name, check in found.document_checks.items())
    doubted = doubted_documents(documents, found, beyond)
    return ScaleAnswer(
        title=drawing.title,
        reading_error_m=found.reading_error_m,
        paper=found.distortion,
        degrees_of_freedom=found.degrees_of_freedom,
        tests=found.tests,
        false_alarm_share=1.0 - (1.0 - SIGNIFICANCE) ** found.tests,
        scales=found.scales,
        stretches=stretches,
        dimensions=found.dimensions,
        readings=tuple(map(_row, readings, found.checks)),
        documents=documents,
        contradictions=found.contradictions,
        doubted_documents=doubted,
        remarks=(*no_copy(doubted, found, beyond), *remarks(drawing, found, documents)),
    )


def _row(reading: Readings, check: Check) -> ReadingRow:
    own_m, spare = scatter_m([reading])
    count = len(reading.values_m)
    middle_m = sum(reading.values_m) / count
    return ReadingRow(
        reading.dimension,
        reading.view,
        reading.axis,
        count,
        mean_m=middle_m,
        scatter_m=own_m if spare else None,
        name=reading.dimension,
        redundancy=check.redundancy,
        least_detectable_m=check.least_detectable_m,
        advice=check.advice,
    )


def _document(name: str, drawing: MeasuredDrawing, check: Check) -> DocumentRow:
    known = drawing.known[name]
    return DocumentRow(
        name,
        known_m=known.value_m,
        error_m=known.error_m,
        error_assumed=name in drawing.without_error,
        redundancy=check.redundancy,
        least_detectable_m=check.least_detectable_m,
        advice=check.advice,
    )


def _contradicted(value_m: float, wrong: Contradiction, found: Scaled) -> str:
    alike = ", ".join(f"{each.dimension} in view {each.view}" for each in found.contradictions if _alike(each, wrong))
    also = f", and {alike}, which explains it as well" if alike else ""
    return (
        f"contradicts the rest: the document says {_both(value_m)}, the drawing {_both(value_m - wrong.residual_m)}, "
        f"{abs(wrong.normalised_residual):.1f} standard errors apart, at most {LIMIT:.1f}; "
        f"check the document and its readings{also}"
    )


def _alike(each: Contradiction, wrong: Contradiction) -> bool:
    """Whether a reading of another dimension explains a contradiction as well as the document does."""
    ratio = abs(each.normalised_residual / wrong.normalised_residual)
    return each.dimension != wrong.dimension and bool(each.view) and abs(ratio - 1.0) < TIE


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
    return {
        each.name: _size(each.value_m, system) + (f" ± {_error(each.error_m, system)}" if each.error_m > 0.0 else "")
        for each in answer.dimensions
    }


def _size(length_m: float, system: System) -> str:
    return feet_inches(length_m) if system == "us" else fixed("length_m", length_m, system, 4)


def _error(length_m: float, system: System) -> str:
    return fixed("error_m", length_m, system) if system == "us" else fixed("length_m", length_m, system, 4)
