"""Scaling a drawing: caliper readings and a few known dimensions turned into real dimensions with error bars.

The adjustment itself stands in `sim.airframe.drawing_adjustment`, the tests for misreadings in `drawing_snooping`.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from math import isnan
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

Axis = Literal["along", "across"]
Direction = tuple[str, Axis]
Source = Literal["given", "estimated", "assumed"]


@dataclass(frozen=True, slots=True)
class Readings:
    """Caliper readings of one dimension in one view, one or several.

    Attributes
    ----------
    dimension, view : str
        The dimension, and the sheet that it was measured on.
    axis : str
        ``along`` or ``across`` the sheet.
    values_m : tuple of float
        Readings on paper, above 0. [m]
    error_m : float or None
        Standard error of a single reading; None where it follows from the scatter. [m]
    """

    dimension: str
    view: str
    axis: Axis
    values_m: tuple[float, ...]
    error_m: float | None = None


@dataclass(frozen=True, slots=True)
class Known:
    """A dimension known from a document.

    Attributes
    ----------
    value_m, error_m : float
        Real size and its standard error; 0 where it is exact, and then no other observation can doubt it. [m]
    """

    value_m: float
    error_m: float = 0.0


@dataclass(frozen=True, slots=True)
class MeasuredDrawing:
    """A drawing before it is scaled.

    Attributes
    ----------
    title : str
        Name of the drawing.
    readings : tuple of Readings
        One for each dimension and view.
    known : dict of Known
        Dimensions known from documents, by name.
    one_scale : tuple of str
        Views whose sheet has not stretched: along and across have one scale.
    reading_error_m : float or None
        Standard error of a reading without its own; None where the scatter of the repeats serves. [m]
    distortion : float or None
        Local distortion of the paper, standard deviation as a fraction of length; None where it is estimated.
    meant : dict of str
        Names of dimensions that seem to be misspelt keys of a scenario, each with that key.
    without_error : tuple of str
        Known dimensions whose document states no ±: their standard errors are assumed.
    """

    title: str
    readings: tuple[Readings, ...]
    known: dict[str, Known]
    one_scale: tuple[str, ...] = ()
    reading_error_m: float | None = None
    distortion: float | None = None
    meant: dict[str, str] = field(default_factory=dict)
    without_error: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Scale:
    """Scale of one view in one direction.

    Attributes
    ----------
    view, axis : str
        Which.
    scale_ratio, scale_error : float
        Real length over length on paper, and its standard error: not-a-number where the readings that give it
        contradict each other.
    documents : tuple of str
        Known dimensions that it rests on, directly or through dimensions seen in other views.
    """

    view: str
    axis: Axis
    scale_ratio: float
    scale_error: float
    documents: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Dimension:
    """One real dimension.

    Attributes
    ----------
    name : str
        As the user wrote it.
    value_m, error_m : float
        Best value from all observations that do not contradict each other, and its standard error: the half width of
        the 95 % interval over 1.96; not-a-number where the readings that give it contradict each other. [m]
    known_m : float or None
        Size by the document. [m]
    residual_m : float or None
        Document less the size by the rest of the drawing; None where nothing else determines it. [m]
    normalised_residual : float or None
        The residual over its standard error: the normal deviate that is as rare.
    redundancy : float
        Of the document where there is one, else of the best checked reading: 0 where no other observation takes part
        in the size, 1 where the others alone give it.
    """

    name: str
    value_m: float
    error_m: float
    known_m: float | None
    residual_m: float | None
    normalised_residual: float | None
    redundancy: float


@dataclass(frozen=True, slots=True)
class Contradiction:
    """An observation that contradicts the others.

    Attributes
    ----------
    dimension, view : str
        Which reading; the view is empty for a document.
    size_m, others_m : float
        Full size by this one, at the scale of its view, and by all others. [m]
    residual_m : float
        The first less the second. [m]
    normalised_residual : float
        The residual over its standard error: the normal deviate that is as rare.
    """

    dimension: str
    view: str
    size_m: float
    others_m: float
    residual_m: float
    normalised_residual: float


@dataclass(frozen=True, slots=True)
class Check:
    """How well the other observations check a reading or a document.

    Attributes
    ----------
    redundancy : float
        Share of an error of the observation that shows in its residual, 0 to 1.
    least_detectable_m : float or None
        Error at full size that the test finds with 80 % probability; None where nothing checks the observation. [m]
    advice : str
        What would check it, where nothing does.
    """

    redundancy: float
    least_detectable_m: float | None
    advice: str = ""


@dataclass(frozen=True, slots=True)
class Distortion:
    """Local distortion of the paper, beyond the stretch along and across.

    Attributes
    ----------
    distortion : float
        Standard deviation from place to place, a fraction of length; the median of its distribution.
    distortion_low, distortion_high : float
        Its 95 % limits.
    source : str
        ``given`` in the file, ``estimated`` from the residuals, or ``assumed`` where nothing in the drawing tells.
    """

    distortion: float
    distortion_low: float
    distortion_high: float
    source: Source


@dataclass(frozen=True, slots=True)
class Scaled:
    """The adjusted drawing.

    Attributes
    ----------
    scales : tuple of Scale
        By view and direction.
    dimensions : tuple of Dimension
        In the order first read.
    contradictions : tuple of Contradiction
        The worst first.
    reading_error_m : float
        Standard error of one reading: given, or pooled from the repeats. [m]
    checks : tuple of Check
        Of each reading, in their order.
    document_checks : dict of Check
        Of each document of a dimension that was read, by its name.
    distortion : Distortion
        Of the paper.
    degrees_of_freedom : int
        Observations less unknowns.
    tests : int
        Observations and groups of repeats that were tested.
    unsure : tuple of str
        Dimensions that rest on observations that contradict each other: their errors say nothing.
    """

    scales: tuple[Scale, ...]
    dimensions: tuple[Dimension, ...]
    contradictions: tuple[Contradiction, ...]
    reading_error_m: float
    checks: tuple[Check, ...]
    document_checks: dict[str, Check]
    distortion: Distortion
    degrees_of_freedom: int
    tests: int
    unsure: tuple[str, ...]


def scatter_m(readings: Sequence[Readings]) -> tuple[float, int]:
    """Return the scatter of a single reading pooled from all repeats, and its degrees of freedom [m].

    Examples
    --------
    >>> scatter_m([Readings("span", "plan", "along", (0.1, 0.102))])[1]
    1
    """
    spare = sum(len(reading.values_m) - 1 for reading in readings)
    squares = sum(_squares(reading.values_m) for reading in readings)
    return (squares / spare) ** 0.5 if spare else 0.0, spare


def _squares(values: Sequence[float]) -> float:
    """Return the sum of the squared distances from the mean."""
    middle = sum(values) / len(values)
    return sum((value - middle) ** 2 for value in values)


def stretch(scaled: Scaled, view: str) -> float | None:
    """Return how much longer a view's sheet has become across than along, as a ratio, or None where not known apart.

    Examples
    --------
    A copy that grew 1 % across has its readings across 1 % too long, so its scale there is 1 % too small and the
    answer is 1.01.
    """
    found = Counter(scale.view for scale in scaled.scales if not isnan(scale.scale_error))
    if found[view] < 2:
        return None
    ratio = {scale.axis: scale.scale_ratio for scale in scaled.scales if scale.view == view}
    return ratio["along"] / ratio["across"]
