"""``whirlgate handling``: the same airplane with each engine, left against right."""

from __future__ import annotations

from math import isnan
from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import AILERON, ELEVATOR, RUDDER, SIDE, asks_about_turns, degrees
from viz.commands.options import Command
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.handling import MODE_HEADS, mode_rows, sentences, share, wrapped
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.scenario.tables import Scenario
    from sim.studies.handling import Handling, PowerplantHandling, Turn
    from viz.sheets.format import Units
    from viz.sheets.table import Block


@click.command(cls=Command)
@asks_about_turns
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    banks_rad: tuple[float, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Compare steady turns, their limits and the modes of the airplane with each of its engines.

    Every turn is ball-centred; controls are given as angles and as shares of their travel.

    Example: whirlgate handling --speed "70 mph" --bank "-45 deg" --bank "45 deg" --figure handling.svg
    """
    from sim.scenario.reading import load
    from sim.studies.handling import BANKS_DEG, study

    opened = load(scenario, settings)
    answer = study(opened, banks_deg=degrees(banks_rad) or BANKS_DEG, **options)
    if figure:
        from sim.studies.handling import SWEEP_DEG

        picture(figure, "handling", study(opened, banks_deg=SWEEP_DEG, **options), force=force)
    level = {name: value for name, value in options.items() if name != "power"}
    say(answer, _sheets(answer, opened, level, units), as_json=as_json)


def _sheets(answer: Handling, scenario: Scenario, options: dict[str, Any], units: Units) -> Iterator[Block]:
    """Print a sheet a powerplant, then what a designer quotes of level flight."""
    from sim.errors import NoAnswerError
    from sim.studies.rotor_effect import study as summarised

    for name, powerplant in answer.powerplants.items():
        yield from sheet(name, powerplant, answer, units)
    try:
        quoted = sentences(summarised(scenario, **options), units)
    except NoAnswerError as error:
        quoted = (str(error),)
    yield "\n".join(map(wrapped, quoted))
    yield f"\n{ESTIMATE}"


def sheet(name: str, powerplant: PowerplantHandling, answer: Handling, units: Units) -> Iterator[Block]:
    """Print the turns and the modes with one powerplant."""
    spin = shown.signed("spin_rad_s", powerplant.spin_rad_s, units, shown.ROTATION)
    momentum = shown.amount("angular_momentum_kg_m2_s", abs(powerplant.angular_momentum_kg_m2_s), units)
    speed = shown.amount("speed_m_s", answer.speed_m_s, units)
    steepest = " and ".join(
        shown.signed("bank_deg", bank, units, SIDE)
        for bank in (powerplant.steepest_left_deg, powerplant.steepest_right_deg)
    )
    unit = shown.shown("gyro_pitch_n_m", units)[0]
    heads = ["Bank", "Elev", "Ail", "Rudder", "Pitch", "Yaw", "Limit"]
    rows = [list(_turn(turn, units)) for turn in powerplant.turns]
    title = f"{name}: {speed}, {spin}, spin momentum {momentum}"
    told = "Elevator, aileron, rudder: shares of travel. Pitch, yaw: what the spin does to the nose"
    note = f"{told}, {unit}. Steepest banks that hold: {steepest}."
    yield table(title, heads, rows, note)
    yield table(f"{name}: modes in straight flight, roots in 1/s", MODE_HEADS, mode_rows(powerplant.modes))


def _turn(turn: Turn, units: Units) -> Iterator[str]:
    yield f"{abs(turn.bank_deg):g}° {SIDE[turn.bank_deg < 0.0]}" if turn.bank_deg else "level"
    yield share(turn.elevator_share, ELEVATOR)
    yield share(turn.aileron_share, AILERON)
    yield share(turn.rudder_share, RUDDER)
    for name, words in (("gyro_pitch_n_m", shown.PITCH), ("gyro_yaw_n_m", shown.YAW)):
        yield _couple(getattr(turn, name) * shown.shown(name, units)[1], words)
    yield (turn.limit or "–").removesuffix(" travel")


def _couple(value: float, words: tuple[str, str]) -> str:
    if value == 0.0 or isnan(value):
        return "0" if value == 0.0 else "–"
    return f"{shown.significant(abs(value))} {words[value < 0.0].removeprefix('nose ')}"
