"""Which file of the report is made how."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.build import build
from viz.report.page import page
from viz.words.reader import reading

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from viz.report.build import Progress
    from viz.report.findings import Findings


def written(
    found: Findings,
    files: Mapping[str, str | None],
    *,
    paper: str,
    progress: Progress,
    language: str = "english",
    address: str | None = None,
) -> Iterator[tuple[str, bytes | str]]:
    """Yield path and content of each file asked for; figures and studies are made once for all of them.

    `language` is that of all of them, `address` where the code on the handout leads.
    """
    with reading(language), found.drawings:
        if files["out"] or files["pdf"]:
            report = build(found, progress)
            if files["out"]:
                yield files["out"], page(report, found.units)
            if files["pdf"]:
                from viz.report.document import document

                yield files["pdf"], document(report, paper, found.units)
        if files["handout"]:
            from viz.report.handout import Handout

            yield files["handout"], Handout(found, language, found.units).page(address)
