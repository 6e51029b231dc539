"""The options that commands about flight share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Word, amount, figure_out, json_out, scenario_in
from viz.commands.seed import seed_option

if TYPE_CHECKING:
    from collections.abc import Callable


def altitude_option(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--altitude``."""
    return click.option(
        "--altitude",
        "altitude_m",
        metavar="LENGTH",
        type=amount("m", least=-1000.0, most=11000.0, example="914.4 m (3000 ft)"),
        help="Altitude above sea level, as in '3000 ft'.  [default: that of the scenario]",
    )(function)


def flight_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--speed`` and ``--altitude``."""
    return click.option(
        "--speed",
        "speed_m_s",
        metavar="SPEED",
        type=amount("m/s", above=0.0, most=340.0, example="35.8 m/s (80 mph)"),
        help="True airspeed, as in '70 mph'.  [default: that of the scenario]",
    )(altitude_option(function))


def turn_options(banks: str) -> Callable[..., Any]:
    """Return what adds ``--bank``, ``--power`` and ``--category``; `banks` are those of no option, in words."""
    bank = click.option(
        "--bank",
        "banks_deg",
        metavar="ANGLE",
        multiple=True,
        type=amount("deg", above=-90.0, below=90.0, example="45 deg"),
        help=f"Bank angle of a turn, left negative, as in '-45 deg'; repeatable.  [default: {banks}]",
    )
    power = click.option(
        "--power",
        type=Word(["idle", "cruise", "full"]),
        help="Climb or descend at this power.  [default: the power for level flight]",
    )
    category = click.option(
        "--category",
        type=Word(["A", "B", "C"]),
        default="B",
        show_default=True,
        help="Flight phase category of MIL-F-8785C: A rapid manoeuvring, B climb and cruise, C take-off and landing.",
    )
    return lambda function: bank(power(category(function)))


def bands_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--bands`` and ``--seed``."""
    bands = click.option(
        "--bands",
        is_flag=True,
        is_eager=True,
        help="Add 90 % bands, from many airplanes drawn from the errors of derivatives, drag, mass, CG and rotor.",
    )
    seed = seed_option("the draws of --bands", callback=_belongs_to_bands)
    found: Callable[..., Any] = bands(seed(function))
    return found


def _belongs_to_bands(ctx: click.Context, param: click.Parameter, seed: int) -> int:
    """Return the seed; note where nothing is drawn with it."""
    from click.core import ParameterSource

    if not ctx.params.get("bands") and ctx.get_parameter_source(param.name or "") is ParameterSource.COMMANDLINE:
        from sim.errors import Fault

        fault = Fault("--seed", "belongs to --bands; give --bands as well, or leave it out")
        ctx.meta.setdefault("faults", []).append(fault)
    return seed


def asks_about_turns(banks: str) -> Callable[..., Any]:
    """Return what adds all options of a question about steady turns: scenario, condition, turns, JSON and figure."""

    def add_all(function: Callable[..., Any]) -> Callable[..., Any]:
        for add in (figure_out, json_out, turn_options(banks), flight_options, scenario_in):
            function = add(function)
        return function

    return add_all
