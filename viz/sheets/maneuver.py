"""The sheet of `whirlgate maneuver`: a column for each flight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.maneuver import ManeuverAnswer, ManeuverFlight
    from viz.sheets.blocks import Block, Cell

LARGEST = (
    ("nose up", "nose_up_deg"),
    ("nose down", "nose_down_deg"),
    ("nose right", "nose_right_deg"),
    ("nose left", "nose_left_deg"),
    ("bank right", "bank_right_deg"),
    ("bank left", "bank_left_deg"),
    ("height lost", "height_lost_m"),
    ("height gained", "height_gained_m"),
    ("sideslip", "peak_sideslip_deg"),
)
"""Label of a row -> field of a flight."""


def sheet(answer: ManeuverAnswer) -> Iterator[Block]:
    """Yield the largest values of each flight, then the limits that it reached."""
    title = say(
        "{name} at {speed}: {meaning}",
        name=answer.maneuver,
        speed=Value("speed_m_s", answer.speed_m_s),
        meaning=answer.meaning,
    )
    yield rows(title, ["Largest", *map(called, answer.flights)], _rows(answer.flights))
    for flight in answer.flights:
        if flight.limits:
            yield say("{flight}: {limits}.", flight=called(flight), limits="; ".join(flight.limits))
    yield say("Next: the histories as a table with --csv FILE; the modes behind them with whirlgate modes.")


def called(flight: ManeuverFlight) -> str:
    """Return powerplant and side of a flight, ``rotary left``."""
    return f"{flight.powerplant} {flight.side}".strip()


def _rows(flights: tuple[ManeuverFlight, ...]) -> Iterator[list[Cell]]:
    for label, name in LARGEST:
        yield [label, *(Value(name, getattr(flight, name), decimals=1) for flight in flights)]
    yield ["turned 90° in", *(Value("time_to_90_s", one.time_to_90_s, absent="not reached") for one in flights)]
    yield ["load factor, farthest from 1", *(Value("peak_load_factor", one.peak_load_factor) for one in flights)]
    for control in ("elevator", "aileron", "rudder"):
        name = f"peak_{control}_share"
        shares = (getattr(flight, name) for flight in flights)
        yield [f"{control}, of its travel", *(Value(name, share, decimals=0, percent=True) for share in shares)]
