"""The report put together: the table of its sections, each a few parts that may be left out with a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim import __version__
from sim.errors import InputError, NoAnswerError
from viz.report.answers import answers
from viz.report.blocks import Report, Section
from viz.report.printed import in_print
from viz.report.reason import reason
from viz.report.sections import against, airplane, closing, exhibit, flight, sensitivity, timing
from viz.sheets.blocks import say
from viz.sheets.complete import complete

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block

    Part = Callable[[Findings], Iterator[Block]]
    Plan = tuple[str, str, tuple[Part, ...]]
    Progress = Callable[[Iterable[Plan], int, str], Iterable[Plan]]

SECTIONS: tuple[Plan, ...] = (
    ("airplane", "The airplane and its mass", (airplane.engines, airplane.weight, airplane.drag, airplane.speeds)),
    ("mount", "The engine mount", (airplane.mount,)),
    ("handling", "Handling in left and right turns", (flight.quoted, flight.couples, flight.turns)),
    ("maneuvers", "Maneuvers", (flight.inputs, flight.reversal)),
    (
        "firing",
        "Firing windows and rate",
        (timing.windows, timing.rate, timing.safe_range, timing.burst, timing.cooling),
    ),
    ("exhibit", "The inert display", (exhibit.display,)),
    ("sensitivity", "Sensitivity to tolerances", (sensitivity.sensitivities,)),
    ("assumptions", "Assumptions and accuracy", (closing.assumptions, closing.derivatives)),
    ("cautions", "Cautions", (closing.beware,)),
    ("again", "Reproduction", (closing.again,)),
)
"""Place for links, heading, and the parts in their order."""


AGAINST: Plan = ("against", "Against another airplane", (against.differences,))
"""The section of a report that compares with another airplane."""


def plan(found: Findings) -> tuple[Plan, ...]:
    """Return the sections of a report: with another airplane the differences stand before the assumptions."""
    if found.other is None:
        return SECTIONS
    before = next(place for place, (name, _, _) in enumerate(SECTIONS) if name == "assumptions")
    return (*SECTIONS[:before], AGAINST, *SECTIONS[before:])


def build(found: Findings, progress: Progress = lambda sections, _count, _label: sections) -> Report:
    """Return the report on everything found.

    Parameters
    ----------
    found : Findings
        About one scenario.
    progress : callable
        Wraps the table of the sections; given their number and a label as well.
    """
    planned = plan(found)
    sections = tuple(
        Section(name, heading, tuple(map(in_print, complete(block for part in parts for block in told(part, found)))))
        for name, heading, parts in progress(planned, len(planned), "reporting")
    )
    scenario = found.scenario
    opening = tuple(map(in_print, (*told(airplane.seen, found), *told(airplane.turning, found))))
    return Report(scenario.title, scenario.note, __version__, opening, tuple(answers(found)), sections)


def told(part: Part, found: Findings) -> Iterator[Block]:
    """Yield the blocks of a part, or the sentence that says why it is left out."""
    try:
        yield from part(found)
    except (InputError, NoAnswerError) as error:
        yield say("Left out: {reason}", reason=reason(error))
