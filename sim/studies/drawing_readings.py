"""Caliper readings off a drawing beside the numbers of the scenario: which of them differ."""

from __future__ import annotations

from math import hypot, isnan
from typing import TYPE_CHECKING

from sim.airframe.drawing_snooping import LIMIT
from sim.model.plausibility.remark import FORBIDDEN
from sim.studies.drawing_answer import ComparedReading

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from sim.airframe.drawing import Dimension
    from sim.model.model import Model
    from sim.studies.scale import ScaleAnswer


def compared(model: Model, scaled: ScaleAnswer, keys: Collection[str]) -> Iterator[ComparedReading]:
    """Yield every scaled dimension that is one of the scenario beside it.

    Parameters
    ----------
    model : Model
        The airplane.
    scaled : ScaleAnswer
        Its drawing.
    keys : collection of str
        Keys that stand in one of the views.
    """
    for each in scaled.dimensions:
        held = model.length_of(each.name)
        if held is not None:
            yield _compared(each, *held, shown=each.name in keys)


def _compared(each: Dimension, drawn_m: float, tolerance_m: float, *, shown: bool) -> ComparedReading:
    off_m, error_m = each.value_m - drawn_m, hypot(each.error_m, tolerance_m)
    ratio = off_m / error_m if error_m > 0.0 else None
    return ComparedReading(
        each.name,
        drawn_m,
        each.value_m,
        each.error_m,
        read_less_drawn_m=off_m,
        normalised_residual=ratio,
        differs=abs(ratio) > LIMIT if ratio is not None else off_m != 0.0 and not isnan(error_m),
        shown=shown,
    )


def reading_remarks(model: Model, scaled: ScaleAnswer) -> Iterator[str]:
    """Yield what forbids the use of the readings, what was read and is not compared, which contradict each other."""
    yield from (each for each in scaled.remarks if each.startswith(FORBIDDEN))
    strange = [each.name for each in scaled.dimensions if model.length_of(each.name) is None]
    if strange:
        yield f"{', '.join(strange)}: read off the drawing, and no length of this scenario."
    wrong = list(dict.fromkeys(each.dimension for each in scaled.contradictions))
    if wrong:
        yield f"{', '.join(wrong)}: readings that contradict the others; whirlgate scale names them."
