"""What the reader of a scaled drawing must know: what forbids its use, what nothing checks, what its errors rest on."""

from __future__ import annotations

from math import hypot, log
from typing import TYPE_CHECKING

from sim.airframe.drawing_snooping import LIMIT
from sim.airframe.drawing_variance import USUAL_DISTORTION
from sim.model.drawing import ASSUMED_LEAST_M, ASSUMED_SHARE
from sim.model.plausibility.remark import FORBIDDEN
from sim.units.text import fixed, in_both

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.airframe.drawing import Check, MeasuredDrawing, Readings, Scaled
    from sim.studies.scale import DocumentRow, Stretch

FEW = 10
"""Degrees of freedom below which what is usual of paper counts noticeably beside what the drawing tells."""
MOST_STRETCH = 0.02
"""Difference of the scales along and across beyond which a sheet is no copy: common practice, no source."""


def is_no_copy(sheet: Stretch, found: Scaled) -> bool:
    """Whether the two scales of a sheet differ by more than a copier does, and by more than their errors explain."""
    error = hypot(*(each.scale_error / each.scale_ratio for each in found.scales if each.view == sheet.view))
    return abs(sheet.stretch - 1.0) > MOST_STRETCH and abs(log(sheet.stretch)) > LIMIT * error


def doubted_documents(documents: Iterable[DocumentRow], found: Scaled, beyond: Iterable[Stretch]) -> tuple[str, ...]:
    """Return the documents behind sheets that are no copies; those that nothing checks where there are some."""
    views = {each.view for each in beyond}
    behind = {name for each in found.scales if each.view in views for name in each.documents}
    rows = [each for each in documents if each.name in behind]
    alone = [each.name for each in rows if each.least_detectable_m is None]
    return tuple(alone or (each.name for each in rows))


def no_copy(doubted: tuple[str, ...], found: Scaled, beyond: Iterable[Stretch]) -> Iterator[str]:
    """Yield what forbids the use of scales that no copier makes, once for sheets that rest on the same documents."""
    groups: dict[tuple[str, str], list[str]] = {}
    for sheet in beyond:
        rests = {each.axis: _listed(each.documents) for each in found.scales if each.view == sheet.view}
        share = f"{100.0 * abs(sheet.stretch - 1.0):.1f} % in view {sheet.view}"
        groups.setdefault((rests["along"], rests["across"]), []).append(share)
    for (along, across), shares in groups.items():
        yield (
            f"{FORBIDDEN} before {_listed(doubted)} is checked, in the document and on the drawing: the scales along "
            f"and across differ by {', '.join(shares)}; paper and copier make {100.0 * MOST_STRETCH:.0f} % at most "
            f"(common practice, no source). The scale along rests on {along}, the scale across on {across}."
        )


def remarks(drawing: MeasuredDrawing, found: Scaled, documents: Iterable[DocumentRow]) -> Iterator[str]:
    """Yield what the reader must know: what the file leaves open, what nothing checks, what the errors rest on."""
    read = {row.dimension for row in drawing.readings}
    for name in drawing.known:
        if name not in read:
            yield f"{name} is known and was not read: it says nothing of the scale."
    for name, near in drawing.meant.items():
        yield f"{name} is a name of its own, and no key of a scenario: did you mean {near}?"
    if found.unsure:
        yield f"{_listed(found.unsure)}: no ±: their readings contradict each other or their own repeats."
    yield from _apart(drawing.readings, found)
    yield from _unchecked(drawing.readings, found.checks)
    yield from _unchecked_documents(documents)
    yield from _without_error(documents)
    if found.distortion.source != "given" and found.degrees_of_freedom < FEW:
        yield _assumed(found)


def _apart(readings: Iterable[Readings], found: Scaled) -> Iterator[str]:
    """Yield what two repeats that differ say: one of them is wrong, and not which."""
    wrong = {(each.dimension, each.view) for each in found.contradictions}
    for reading in readings:
        if (reading.dimension, reading.view) in wrong and len(reading.values_m) == 2:
            first_m, second_m = reading.values_m
            if abs(first_m - second_m) > LIMIT * 2.0**0.5 * (reading.error_m or found.reading_error_m):
                one, other = (fixed("mean_m", value_m, "si", 2) for value_m in (first_m, second_m))
                yield (
                    f"{reading.dimension} in view {reading.view} was read as {one} and as {other}: one of them is "
                    "wrong, and the two do not tell which. Measure it again."
                )


def _unchecked(readings: Iterable[Readings], checks: Iterable[Check]) -> Iterator[str]:
    """Yield the readings that nothing checks, together where the same would check them."""
    groups: dict[tuple[str, str, str], list[str]] = {}
    for reading, check in zip(readings, checks, strict=True):
        if check.least_detectable_m is None:
            groups.setdefault((reading.view, reading.axis, check.advice), []).append(reading.dimension)
    for (view, axis, advice), names in groups.items():
        yield f"Nothing checks {_listed(names)} {axis} in view {view}: to check, {advice}."
    if groups:
        yield "Repeats check for gross misreadings only: they share the paper and the lines that were measured."


def _unchecked_documents(documents: Iterable[DocumentRow]) -> Iterator[str]:
    """Yield the documents that nothing checks: a slip in one goes into every size that rests on it."""
    for each in documents:
        if each.least_detectable_m is None:
            yield f"Nothing checks the document of {each.name}: to check, {each.advice}."


def _without_error(documents: Iterable[DocumentRow]) -> Iterator[str]:
    """Yield what is taken of documents that state no ±."""
    rows = [f"{each.name} {in_both('error_m', each.error_m)}" for each in documents if each.error_assumed]
    if rows:
        yield (
            f"Documents without ±, taken with a standard error of {100.0 * ASSUMED_SHARE:.1f} %, at least "
            f"{in_both('error_m', ASSUMED_LEAST_M)} (estimate, no source): {_listed(rows)}. "
            "Give the ± of each in the file."
        )


def _assumed(found: Scaled) -> str:
    usual = f"{USUAL_DISTORTION:.1%}".replace("%", " %")
    much = f"{found.degrees_of_freedom} conditions tell" if found.degrees_of_freedom else "nothing tells"
    return (
        f"Local distortion: {much} how much the paper has warped, so that about {usual}, usual of copies (common "
        "practice, no source), counts too; read more dimensions in two views, or give distortion in the file."
    )


def _listed(names: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(names))
