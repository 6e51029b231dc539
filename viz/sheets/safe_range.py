"""The sheet of `whirlgate safe-range`: cam, safe speeds and delay; its stages and the sensitivity if asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, listed, next_steps, say
from viz.sheets.chance import one_in

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.safe_range_answer import EdgeSensitivity, SafeBand, SafeRangeAnswer, SpeedRow
    from viz.sheets.blocks import Block, Cell, Sentence

WORDS = (
    "Propeller angle: how far blade 1 has turned past the bore line (the line of fire). Dwell: angle of the open cam.",
    "Lead: how far the propeller turns from release until the round passes.",
    "Independent: the stages of the delay scatter apart from each other. Worst case: all the same way at once.",
)
NEXT = next_steps(say("{run}, strikes with scatter beyond these limits", run=Run("burst")))


def sheet(answer: SafeRangeAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield the safe speeds behind each propeller, then the delay; with the sensitivity and its stages if asked for."""
    yield _cam(answer)
    yield _bands(answer)
    yield _speeds(answer)
    yield _delay(answer, every=every)
    if every:
        yield _stages(answer)
        for propeller in answer.propellers:
            failing = tuple(speed.says for speed in propeller.speeds if speed.clearance_deg < 0.0)
            if failing:
                yield Points(tuple(f"{propeller.powerplant}: {why}".removeprefix(": ") for why in failing))
            if propeller.sensitivity:
                yield _sensitivity(propeller.powerplant, propeller.sensitivity)
    yield Points(WORDS)
    yield NEXT


def _cam(answer: SafeRangeAnswer) -> Sentence:
    return say(
        "{cam} It is cut for {cut_for}. At a safe speed every round clears blade "
        "and margin whose delay is within {sigmas} standard deviations.{beyond}",
        cut_for=answer.cut_for,
        cam=answer.cam.says,
        sigmas=Value("sigmas", answer.sigmas, plain=True),
        beyond=_beyond(answer),
    )


def _beyond(answer: SafeRangeAnswer) -> str:
    """Return what becomes of the rounds that scatter further or hang fire, behind the propeller where it is worst."""
    near = max((one.edge_margin_share or 0.0 for one in answer.propellers), default=0.0)
    struck = max((one.edge_strike_share or 0.0 for one in answer.propellers), default=0.0)
    if near <= 0.0:
        return ""
    within = f"{one_in(near)} passes within the margin, " if near > struck else ""
    return (
        f" At its limits, released at the worst instant, {within}{one_in(struck)} strikes: by more scatter or hanging "
        "fire."
    )


def _bands(answer: SafeRangeAnswer) -> Table:
    named = any(one.powerplant for one in answer.propellers)
    engines = (Column("Engine", tuple(one.powerplant for one in answer.propellers)),) if named else ()
    return Table(
        "Safe propeller speeds",
        (
            *engines,
            Column("Independent scatter", tuple(_listed(one.bands) for one in answer.propellers)),
            Column("Worst case", tuple(_listed(one.worst_case_bands) for one in answer.propellers)),
        ),
    )


def _speeds(answer: SafeRangeAnswer) -> Table:
    lines = [(one.powerplant, speed) for one in answer.propellers for speed in one.speeds]
    engines = (Column("Engine", tuple(engine for engine, _ in lines)),) if any(engine for engine, _ in lines) else ()
    return Table(
        "At the speeds asked for",
        (
            *engines,
            Column("Propeller speed", tuple(Value("rpm", speed.rpm, plain=True) for _, speed in lines)),
            Column("Lead", tuple(Value("lead_deg", speed.lead_deg, decimals=0) for _, speed in lines)),
            Column("Clearance", tuple(_clearance(speed) for _, speed in lines)),
        ),
        ("Clearance: angle from the nearest round to the blade and its margin, independent scatter.",),
    )


def _clearance(speed: SpeedRow) -> Cell:
    return (
        Value("clearance_deg", speed.clearance_deg, decimals=1)
        if speed.clearance_deg >= 0.0
        else "meets blade or margin"
    )


def _delay(answer: SafeRangeAnswer, *, every: bool) -> Sentence:
    return say(
        "Delay from cam to disc at {highest}: {delay} ± {likely} (independent) or {worst} (worst case).{more}",
        highest=_highest(answer),
        delay=Value("delay_ms", answer.delay_ms, decimals=2, bare=True),
        worst=Value("worst_case_ms", answer.worst_case_ms, decimals=2),
        likely=Value("root_sum_square_ms", answer.root_sum_square_ms, decimals=2),
        more="" if every else " --all gives its stages, and what moves the limits.",
    )


def _highest(answer: SafeRangeAnswer) -> Value:
    return Value("delay_rpm", answer.delay_rpm, plain=True)


def _stages(answer: SafeRangeAnswer) -> Table:
    stages, highest = answer.stages, _highest(answer)

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


def _sensitivity(engine: str, found: EdgeSensitivity) -> Points:
    named = f"{engine}: " if engine else ""

    def changed(name: str) -> Value:
        return Value(name, getattr(found, name), decimals=0)

    return Points(
        (
            say(
                "{named}1 ms more delay changes the lower limit by {low}, the upper limit by {high}.",
                named=named,
                low=changed("from_shift_1_ms_rpm"),
                high=changed("to_shift_1_ms_rpm"),
            ),
            say(
                "{named}A cam that opens 1° later changes the lower limit by {low}, the upper limit by {high}.",
                named=named,
                low=changed("from_shift_1_deg_rpm"),
                high=changed("to_shift_1_deg_rpm"),
            ),
            say(
                "{named}1 ms more scatter changes the width by {scatter}, 1° more margin on each side by {margin}.",
                named=named,
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
