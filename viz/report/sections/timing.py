"""When the gun may fire: windows, rate, the cam's safe speeds, bursts, and why guns were kept warm."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Picture, Points, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rate import Staircase
    from viz.report.findings import Findings
    from viz.sheets.blocks import Block

WIDEST = 6


def windows(found: Findings) -> Iterator[Block]:
    """Yield the window clock and its table."""
    from viz.commands.windows import sheet
    from viz.figures.windows import draw

    answer = found.windows
    last = answer.rows[-1]
    alt = say(
        "One clock an engine: a turn of the propeller, the arcs its blades block, and the windows of release at idle, "
        f"cruise and full speed. The lead grows with speed, to {last.lead_deg:.0f}° at {last.rpm:.0f} rpm of the "
        f"{last.powerplant}."
    )
    yield Picture(draw(answer), "Firing windows", alt)
    yield from tables(sheet(answer))


def rate(found: Findings) -> Iterator[Block]:
    """Yield the staircase and its widest plateaus."""
    from viz.figures.rate import draw

    answer = found.rate
    alt = say(
        "Rounds a minute against propeller speed: a staircase of plateaus, each labelled rounds to blades, below the "
        f"gun's own {answer.staircases[0].gun_rounds_per_min:.0f} a minute."
    )
    yield Picture(draw(answer), "Rate of fire against propeller speed", alt)
    heads = ("Engine", "rounds : blades", "from rpm", "to rpm", "rounds a minute")
    lines = [line for staircase in answer.staircases for line in _widest(staircase)]
    yield rows("The widest plateaus", heads, lines, "Within a plateau the rate rises with the speed.")


def _widest(staircase: Staircase) -> list[tuple[str, ...]]:
    widest = sorted(staircase.plateaus, key=lambda step: step.from_rpm - step.to_rpm)[:WIDEST]
    return [
        (
            staircase.powerplant,
            f"{step.rounds_per_pattern} : {step.intervals_per_pattern}",
            f"{step.from_rpm:.0f}",
            f"{step.to_rpm:.0f}",
            f"{step.from_rounds_per_min:.0f} to {step.to_rounds_per_min:.0f}",
        )
        for step in sorted(widest, key=lambda step: step.from_rpm)
    ]


def band(found: Findings) -> Iterator[Block]:
    """Yield the speeds that one cam serves."""
    from viz.commands.safe_range import sheet
    from viz.figures.safe_range import draw

    answer = found.band
    served = [
        f"{one.powerplant} {safe.from_rpm:.0f} to {safe.to_rpm:.0f} rpm"
        for one in answer.propellers
        for safe in one.bands
    ]
    alt = say(
        "Where rounds pass, as a strip that leans with the propeller speed, between hatched strips that the blades "
        f"block. Safe speeds: {'; '.join(served) or 'none'}."
    )
    yield Picture(draw(answer), "A cam cut once, and the speeds it serves", alt)
    yield from tables(sheet(answer))
    yield Points(tuple(f"{one.powerplant}: {speed.says}" for one in answer.propellers for speed in one.speeds))


def burst(found: Findings) -> Iterator[Block]:
    """Yield many bursts with all that scatters."""
    from viz.commands.burst import sheet
    from viz.figures.burst import draw

    answer = found.burst
    alt = say(
        f"The propeller disc with the places where {answer.rounds:,} rounds passed; "
        f"{answer.strikes_per_1000:.3g} in a thousand met a blade."
    )
    yield Picture(draw(answer), "Where the rounds of many bursts passed", alt)
    yield from tables(sheet(answer))


def warmth(found: Findings) -> Iterator[Block]:
    """Yield how a gun cools in the wind, which is why guns were kept warm."""
    from viz.commands.cooling import sheet
    from viz.figures.cooling import draw

    alt = say("Temperature of the gun's metal over time, bare in the wind and under a cowling, silent and firing.")
    yield Picture(draw(found.warmth, found.units), "The gun in the cold airstream", alt)
    yield from tables(sheet(found.warmth, found.units))
