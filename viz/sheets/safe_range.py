"""The sheet of `whirlgate safe-range`: the cam, the delay stage by stage, the safe speeds and their sensitivity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, listed, next_steps, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.safe_range_answer import EdgeSensitivity, PropellerBand, SafeBand, SafeRangeAnswer
    from viz.sheets.blocks import Block, Cell, Sentence

NEXT = next_steps(say("{run}, strikes with scatter beyond these limits", run=Run("burst")))


def sheet(answer: SafeRangeAnswer) -> Iterator[Block]:
    """Yield the delay, the cam and its safe speeds behind each propeller."""
    yield _stages(answer)
    yield say(
        "Cam for {cut_for}: opens at propeller angle {opens} (0 with blade 1 on the bore line), dwell {dwell}. Largest "
        "deviation of the delay, each stage within {sigmas} standard deviations: {likely} for independent stages (root "
        "sum of squares), {worst} in the worst case (sum).",
        cut_for=answer.cut_for,
        opens=Value("opens_deg", answer.opens_deg, decimals=1),
        dwell=Value("dwell_deg", answer.dwell_deg, decimals=1),
        sigmas=Value("sigmas", answer.sigmas, plain=True),
        worst=Value("worst_case_ms", answer.worst_case_ms, decimals=2),
        likely=Value("root_sum_square_ms", answer.root_sum_square_ms, decimals=2),
    )
    for propeller in answer.propellers:
        yield from _propeller(propeller)
    yield NEXT


def _stages(answer: SafeRangeAnswer) -> Table:
    stages, cut_for = answer.stages, answer.propellers[0]
    highest = Value("rpm", max(speed.rpm for speed in cut_for.speeds), plain=True)

    def column(head: str, name: str, decimals: int, short: str) -> Column:
        return Column(head, tuple(Value(name, getattr(s, name), decimals=decimals) for s in stages), short=short)

    return Table(
        say("Delay from cam to disc, as time and as propeller angle at {highest}", highest=highest),
        (
            Column("Stage", tuple(stage.name for stage in stages)),
            column("Mean time", "mean_ms", 2, "Mean"),
            column("Standard deviation of the time", "sd_ms", 2, "Scatter"),
            column("Mean angle", "mean_deg", 1, "Angle"),
            column("Standard deviation of the angle", "sd_deg", 2, "Scatter"),
        ),
        ("Scatter: one standard deviation.",),
    )


def _propeller(propeller: PropellerBand) -> Iterator[Block]:
    lines = [
        ("independent stages", _listed(propeller.bands)),
        ("worst case", _listed(propeller.worst_case_bands)),
    ]
    yield rows(
        f"Safe speeds: {propeller.powerplant}".removesuffix(": "), ("Combination of scatter", "Propeller speed"), lines
    )
    yield Points(tuple(speed.says for speed in propeller.speeds))
    if propeller.sensitivity:
        yield _sensitivity(propeller.sensitivity)


def _sensitivity(found: EdgeSensitivity) -> Points:
    def changed(name: str) -> Value:
        return Value(name, getattr(found, name), decimals=0)

    return Points(
        (
            say(
                "1 ms more delay changes the lower limit by {low}, the upper limit by {high}.",
                low=changed("from_shift_1_ms_rpm"),
                high=changed("to_shift_1_ms_rpm"),
            ),
            say(
                "A cam that opens 1° later changes the lower limit by {low}, the upper limit by {high}.",
                low=changed("from_shift_1_deg_rpm"),
                high=changed("to_shift_1_deg_rpm"),
            ),
            say(
                "1 ms more scatter changes the width by {scatter}, 1° more margin on each side by {margin}.",
                scatter=changed("width_change_1_ms_rpm"),
                margin=changed("width_change_1_deg_rpm"),
            ),
        )
    )


def _listed(found: tuple[SafeBand, ...]) -> Cell:
    return listed(map(band, found), "\n") if found else "none"


def band(found: SafeBand) -> Sentence:
    """Return a band from speed to speed."""
    low = Value("from_rpm", found.from_rpm, decimals=0, bare=True)
    return say("{low} to {high}", low=low, high=Value("to_rpm", found.to_rpm, decimals=0))
