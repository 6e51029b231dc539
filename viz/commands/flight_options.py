"""The options that questions about steady flight share, and their words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Word, amount, figure_out, json_out, scenario_in

if TYPE_CHECKING:
    from collections.abc import Callable

ELEVATOR, AILERON, RUDDER = ("stick forward", "stick back"), ("stick left", "stick right"), ("left", "right")
"""What a positive and a negative control deflection are to the pilot, for `viz.sheets.format.signed`."""
SIDE = ("right", "left")


def flight_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--speed`` and ``--altitude``."""
    altitude = click.option(
        "--altitude",
        "altitude_m",
        type=amount("m", least=-1000.0, most=11000.0),
        help="Above sea level; the scenario's if not given.",
    )
    return click.option(
        "--speed",
        "speed_m_s",
        type=amount("m/s", above=0.0, most=340.0),
        help="True airspeed; the scenario's if not given.",
    )(altitude(function))


def turn_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--bank``, ``--power`` and ``--category``."""
    bank = click.option(
        "--bank",
        "banks_rad",
        multiple=True,
        type=amount("rad", above=-1.5707963267948966, below=1.5707963267948966),
        help='Bank of a turn, left negative, as in "-45 deg"; repeatable.',
    )
    power = click.option(
        "--power",
        type=Word(["idle", "cruise", "full"]),
        help="Climb or sink at this power; without it every flight is level.",
    )
    category = click.option(
        "--category",
        type=Word(["A", "B", "C"]),
        default="B",
        show_default=True,
        help="Flight phase of the grading: A rapid manoeuvring, B climb and cruise, C take-off and landing.",
    )
    return bank(power(category(function)))


def asks_about_turns(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add everything that a question about steady turns takes: scenario, conditions, turns, JSON and figure."""
    for add in (figure_out, json_out, turn_options, flight_options, scenario_in):
        function = add(function)
    return function


def degrees(banks_rad: tuple[float, ...]) -> tuple[float, ...]:
    """Return angles in degrees, without the dust of the conversion."""
    import math

    return tuple(round(math.degrees(bank), 9) for bank in banks_rad)
