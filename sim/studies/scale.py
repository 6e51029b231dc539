"""A drawing scaled: real dimensions with their errors, what contradicts what, and keys for a scenario."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.adjustment import LIMIT, adjust
from sim.airframe.drawing import Contradiction, Dimension, Known, Readings, Scale, scatter_m, stretch
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.scenario import drawing as files
from sim.scenario.faults import table_at
from sim.scenario.fields import Given, key_of
from sim.scenario.tables import Scenario

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.scenario.drawing import DrawingTable

FOOT_M, INCH_M = 0.3048, 0.0254


@dataclass(frozen=True, slots=True)
class Stretch:
    """How one sheet has stretched.

    Attributes
    ----------
    view : str
        Which.
    stretch : float
        Length across over length along that the same real length has on paper.
    """

    view: str
    stretch: float


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One dimension in one view, as it was read.

    Attributes
    ----------
    dimension, view, axis : str
        What and where.
    count : int
        How often it was read.
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
        Which.
    reading_error_m : float
        Standard error of a reading without its own. [m]
    scales : tuple of Scale
        By view and direction.
    stretches : tuple of Stretch
        Of the sheets whose two scales are known apart.
    dimensions : tuple of Dimension
        Real sizes.
    readings : tuple of ReadingRow
        What was read, with its own scatter.
    contradictions : tuple of Contradiction
        Readings that the others do not bear out, the worst first.
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


def load(path_or_name: str, settings: Iterable[str] = ()) -> DrawingTable:
    """Return the drawing in a file, or the bundled one of that name; see `sim.scenario.drawing.load`."""
    return files.load(path_or_name, settings)


def study(drawing: DrawingTable) -> ScaleAnswer:
    """Return the real dimensions of a drawing.

    Parameters
    ----------
    drawing : DrawingTable
        Readings and known dimensions.

    Raises
    ------
    InputError
        Known dimensions that contradict each other or the drawing, a known dimension that was not read, a view
        whose scale nothing gives: every fault at once.
    """
    readings = [
        Readings(row.dimension, row.view, row.axis, tuple(value.value for value in row.values), _error(row))
        for row in drawing.reading
    ]
    known = {name: Known(size.value, size.tolerance) for name, size in drawing.known.items()}
    one_scale = [name for name, view in drawing.view.items() if view.one_scale]
    found = adjust(readings, known, one_scale=one_scale, error_m=drawing.reading_error_m)
    faults = [
        Fault(f"known.{wrong.dimension}", _contradicted(known[wrong.dimension].value_m, wrong))
        for wrong in found.contradictions
        if not wrong.view
    ]
    if faults:
        raise InputError(faults)
    unread = [name for name in known if name not in {row.dimension for row in drawing.reading}]
    stretches = ((view, stretch(found, view)) for view in dict.fromkeys(scale.view for scale in found.scales))
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


def _error(row: files.DrawingReadingTable) -> float | None:
    """Return the standard error of a single reading, root mean square of those given; None where none is."""
    given = [value.tolerance for value in row.values if value.tolerance > 0.0]
    return (sum(error**2 for error in given) / len(given)) ** 0.5 if given else None


def _contradicted(value_m: float, wrong: Contradiction) -> str:
    return (
        f"contradicts the rest: the document says {both(value_m)}, the drawing {both(value_m - wrong.residual_m)}, "
        f"{abs(wrong.normalised_residual):.1f} standard errors apart, at most {LIMIT:g}; "
        "check the document and its readings"
    )


def both(length_m: float) -> str:
    """Return a length in words for a shop of either system: ``8.560 m (28 ft 1.00 in)``.

    Parameters
    ----------
    length_m : float
        [m]
    """
    return f"{length_m:.3f} m ({feet_inches(length_m)})"


def feet_inches(length_m: float) -> str:
    """Return a length as the shop reads a tape: ``28 ft 1.00 in``, below a foot ``7.25 in``.

    Parameters
    ----------
    length_m : float
        [m]
    """
    hundredths = round(abs(length_m) / INCH_M * 100.0)
    feet, inches = divmod(hundredths, 1200)
    text = f"{feet} ft {inches / 100.0:.2f} in" if feet else f"{inches / 100.0:.2f} in"
    return f"-{text}" if length_m < 0.0 and hundredths else text


def scenario_keys(answer: ScaleAnswer, *, metric: bool) -> tuple[dict[str, str], tuple[str, ...]]:
    """Return the dimensions that are keys of a scenario as text with ±, and the names of those that are none.

    Parameters
    ----------
    answer : ScaleAnswer
        Of `study`.
    metric : bool
        Whether to write metres; else feet and inches.

    Raises
    ------
    InputError
        When readings contradict each other: nothing is written before they are mended.
    """
    if answer.contradictions:
        names = ", ".join(dict.fromkeys(wrong.dimension for wrong in answer.contradictions))
        what = f"nothing is written while readings contradict each other ({names}); read these again"
        raise InputError([Fault("--write", what)])
    texts = {
        each.name: f"{each.value_m:.4f} m ± {each.error_m:.4f} m"
        if metric
        else f"{feet_inches(each.value_m)} ± {each.error_m / INCH_M:.2f} in"
        for each in answer.dimensions
    }
    keys = {name: text for name, text in texts.items() if _is_length(name)}
    return keys, tuple(name for name in texts if name not in keys)


def _is_length(name: str) -> bool:
    """Tell whether a dotted name is a key of a scenario that holds a length."""
    *way, last = name.split(".")
    table = table_at(Scenario, tuple(way))
    for attribute, field in table.model_fields.items() if table and way else ():
        if key_of(attribute) == last:
            return any(isinstance(item, Given) and item.unit == "m" for item in field.metadata)
    return False
