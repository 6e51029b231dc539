"""The options that the timing commands share, and the type that reads one speed or a range of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from viz.commands.against import against_in
from viz.commands.options import Word, amount, powerplant_option

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.errors import Fault
    from sim.model.gun_options import GunOptions
    from sim.model.model import Model
    from viz.commands.options import Decorator

MOST_STEPS = 100_000
COUNTS = ("rounds", "rounds_per_burst", "rounds_per_sortie", "guns", "seed", "ripple_per_rev", "longest")
"""Options of `rate` and `burst` that are whole numbers."""


class SpeedList(click.ParamType):  # type: ignore[type-arg] # generic in newer versions of click alone
    """Propeller speeds: ``1250``, ``1250 rpm`` or a range with both ends in it, ``900:1500:50``; held in rad/s."""

    name = "speeds"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, ...]:  # noqa: ANN401
        """Return the speeds in rad/s; note what is wrong with them for `Command` to report."""
        from sim.errors import InputError
        from sim.units.parsing import Allowed, read

        key = param.opts[0] if param else ""
        try:
            parts = [
                read(part, Allowed("rad/s", above=0.0, bare="rpm"), key=key).value for part in str(value).split(":")
            ]
            return tuple(steps(parts, value, key))
        except InputError as error:
            if ctx is None:
                raise
            ctx.meta.setdefault("faults", []).extend(error.faults)
            return (math.nan,)


def steps(parts: list[float], value: object, key: str, *, called: str = "one speed") -> list[float]:
    """Return the numbers that one, or three as FROM:TO:STEP, stand for; `called` says in a fault what a single one is.

    Raises
    ------
    InputError
        When they are neither.
    """
    from sim.errors import Fault, InputError

    if len(parts) == 1:
        return parts
    count = round((parts[1] - parts[0]) / parts[2], 9) if len(parts) == 3 else -1.0
    if not 0.0 <= count < MOST_STEPS:
        allowed = f"must be {called} or FROM:TO:STEP with TO above FROM and at most {MOST_STEPS} steps"
        raise InputError([Fault(key, f'{allowed}, got "{value}"')])
    return [parts[0] + step * parts[2] for step in range(math.floor(count) + 1)]


def spread_out(options: dict[str, Any]) -> dict[str, Any]:
    """Return the options with the speeds of all ``--rpm`` in one row."""
    return {**options, "spin_rad_s": tuple(speed for group in options["spin_rad_s"] for speed in group)}


def asked(options: dict[str, Any]) -> tuple[Model | None, dict[str, Any]]:
    """Return the model that the options name, None for a gun line of options alone, and the other options.

    Without a scenario the bundled airplane stands in, unless the options describe a gun line of their own.
    """
    from sim.model.model import model
    from sim.scenario.reading import DEMO

    rest = spread_out(options)
    scenario, settings, which = rest.pop("scenario"), rest.pop("settings"), rest.pop("which_gun")
    found = with_gun(None if alone(options) else model(scenario or DEMO, settings), which)
    if which and "guns" in rest and rest["guns"] is None:
        rest["guns"] = 1.0
    return found, rest


def with_gun(model: Model | None, which: str | None) -> Model | None:
    """Return a model as one of its guns sees it.

    Raises
    ------
    InputError
        When it is to be the second and there is none.
    """
    from sim.errors import refuse

    if which != "second":
        return model
    second = model and model.second_gun
    if second is None:
        refuse("which_gun", "must be first where there is no second; give the table second_gun in the scenario")
    return second


def alone(options: dict[str, Any]) -> bool:
    """Return whether the options of a timing command describe a gun line by themselves."""
    return not (options["scenario"] or options["settings"]) and _shared(options).describe_a_gun


def _shared(options: dict[str, Any]) -> GunOptions:
    """Return the options that all timing commands share."""
    from dataclasses import fields

    from sim.model.gun_options import GunOptions

    given = spread_out(options)
    return GunOptions(**{field.name: given[field.name] for field in fields(GunOptions) if field.name in given})


def check(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Return the faults of the options of `windows` taken together."""
    return _shared(options).faults(alone=alone(options))


def check_rate(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Return the faults of the options of `rate` and `burst`, which need the gun's own rate as well."""
    from sim.errors import whole_faults

    yield from _shared(options).faults(alone=alone(options), with_rate=True)
    yield from whole_faults({name: options[name] for name in COUNTS if name in options})


def timing_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``[SCENARIO]``, ``--set`` and the options that describe gun lines through propellers at any speeds."""
    asked_for = (
        _powerplant("every one"),
        _rpm("Propeller speed, or a range FROM:TO:STEP; repeatable. A number without a unit is in rpm."),
    )
    return _added(function, (*_SCENARIO, *asked_for, *_GUN, *_CAM))


def one_speed_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add the same for one gun line at one speed."""
    asked_for = (
        _powerplant("the first"),
        _rpm("Propeller speed, a single one. A number without a unit is in rpm. [default: full speed]"),
    )
    return _added(function, (*_SCENARIO, *asked_for, *_GUN, *_CAM))


def gun_scenario_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``[SCENARIO]``, which need not be given, ``--set``, another one to compare with, and ``--which-gun``."""
    return _added(function, _SCENARIO)


def _added(function: Callable[..., Any], options: Sequence[Decorator]) -> Callable[..., Any]:
    for option in reversed(options):
        function = option(function)
    return function


def _powerplant(default: str) -> Decorator:
    said = f"One powerplant of the scenario. [default: {default}]"
    return powerplant_option(said)


def _rpm(said: str) -> Decorator:
    return click.option("--rpm", "spin_rad_s", type=SpeedList(), multiple=True, metavar="RPM", help=said)


_SCENARIO = (
    click.argument("scenario", required=False),
    click.option(
        "--set",
        "settings",
        multiple=True,
        metavar="TABLE.KEY=VALUE",
        help="Change one value of the scenario; repeatable. Example: --set gun.link_delay='2 ms'",
    ),
    against_in(),
    click.option(
        "--which-gun",
        "which_gun",
        type=Word(["first", "second"]),
        help="One of two guns of the scenario. [default: the first; burst: both]",
    ),
)
_GUN = (
    click.option(
        "--blades",
        type=amount("1", least=1.0, most=12.0, example="2"),
        metavar="COUNT",
        help="Number of blades of the propeller.",
    ),
    click.option(
        "--blocked-deg",
        type=amount("deg", least=0.0, most=360.0, bare="deg"),
        metavar="DEG",
        help="Propeller angle blocked by one blade and the bullet's width, without margins.",
    ),
    click.option(
        "--margin-deg",
        type=amount("deg", least=0.0, most=180.0, bare="deg"),
        metavar="DEG",
        help="Propeller angle kept clear on each side of a blade. [default: that of the scenario, or 0]",
    ),
    click.option(
        "--delay-ms",
        "delay_s",
        type=amount("s", least=0.0, most=1.0, bare="ms"),
        metavar="MS",
        help="Mean time from cam to passage through the disc. [default: that of the scenario, or 0]",
    ),
    click.option(
        "--gun-rate",
        "natural_rate_per_s",
        type=amount("1/s", above=0.0, bare="1/min"),
        metavar="PER_MIN",
        help="Rate of fire of the unsynchronized gun, in rounds per minute.",
    ),
    click.option(
        "--action",
        type=Word(["interrupter", "impulse"]),
        help="interrupter: the cam holds the sear while a blade is due; impulse: each impulse of the cam releases one "
        "round. [default: that of the scenario, or interrupter]",
    ),
    click.option(
        "--impulses-per-rev",
        type=amount("1", above=0.0, most=12.0, example="2"),
        metavar="COUNT",
        help="Impulses, or windows of the cam, per turn of the propeller; 1/2 for one in two turns. [default: that of "
        "the scenario, or as many as blades]",
    ),
)
_CAM = (
    click.option(
        "--dwell-deg",
        type=amount("deg", least=0.0, most=360.0, bare="deg"),
        metavar="DEG",
        help="Dwell of a fixed cam: propeller angle for which each window is open, 0 for an impulse. [default: that of "
        "the scenario]",
    ),
    click.option(
        "--opens-deg",
        type=amount("deg", least=-360.0, most=360.0, bare="deg"),
        metavar="DEG",
        help="Propeller angle at which a fixed cam opens, 0 with blade 1 on the bore line. [default: that of the "
        "scenario, or the best one for all speeds of its first powerplant]",
    ),
)


def ideal_option() -> Decorator:
    """Return the option that takes the ideal cam in place of the fixed one."""
    return click.option(
        "--ideal",
        is_flag=True,
        help="Take the ideal cam, fitted to each speed and open for the whole clear arc, in place of the fixed one of "
        "the scenario. A gun line of options alone, without dwell and opening, has it.",
    )
