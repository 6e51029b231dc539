"""The options that the timing commands share, and the type that reads one speed or a range of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from sim.errors import Fault, InputError
from viz.commands.options import Word, amount

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

HISTORY = "This explains history and times an inert display; it is no guide to building or altering a gun."
MOST_STEPS = 100_000


class Speeds(click.ParamType):
    """Propeller speeds: ``1250``, ``1250 rpm`` or a range with both ends in it, ``900:1500:50``; held in rad/s."""

    name = "speeds"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, ...]:  # noqa: ANN401
        """Return the speeds in rad/s; note what is wrong with them for `Command` to report."""
        from sim.units.parsing import Allowed, read

        key = param.opts[0] if param else ""
        try:
            parts = [
                read(part, Allowed("rad/s", above=0.0, bare="rpm"), key=key).value for part in str(value).split(":")
            ]
            return tuple(_steps(parts, value, key))
        except InputError as error:
            if ctx is None:
                raise
            ctx.meta.setdefault("faults", []).extend(error.faults)
            return (math.nan,)


def _steps(parts: list[float], value: object, key: str) -> list[float]:
    if len(parts) == 1:
        return parts
    count = round((parts[1] - parts[0]) / parts[2], 9) if len(parts) == 3 else -1.0
    if not 0.0 <= count < MOST_STEPS:
        allowed = f"must be one speed or FROM:TO:STEP with TO above FROM and at most {MOST_STEPS} steps"
        raise InputError([Fault(key, f'{allowed}, got "{value}"')])
    return [parts[0] + step * parts[2] for step in range(math.floor(count) + 1)]


def flat(options: dict[str, Any]) -> dict[str, Any]:
    """Return the options with the speeds of all ``--rpm`` in one row."""
    groups = options.get("spin_rad_s") or ()
    return {**options, "spin_rad_s": tuple(speed for group in groups for speed in group)}


def check(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Return the faults of the options of `windows` taken together."""
    from sim.model.timing_faults import option_faults

    return option_faults(flat(options))


def check_rate(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Return the faults of the options of `rate` and `burst`, which need the gun's own rate as well."""
    from sim.model.timing_faults import NEEDED_FOR_RATE, option_faults

    yield from option_faults(flat(options), NEEDED_FOR_RATE)
    for name in ("rounds", "rounds_per_burst", "guns", "seed", "longest"):
        value = options.get(name)
        if isinstance(value, float) and value % 1.0 > 0.0:
            yield Fault(f"--{name.replace('_', '-')}", f'must be a whole number, got "{value:g}"')


def timing_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``[SCENARIO]``, ``--set`` and the options that describe a gun line through a propeller."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


_OPTIONS = (
    click.argument("scenario", required=False),
    click.option(
        "--set",
        "settings",
        multiple=True,
        metavar="TABLE.KEY=VALUE",
        help="Change one value of the scenario; repeatable. Example: --set gun.link_delay='2 ms'",
    ),
    click.option("--powerplant", metavar="NAME", help="One powerplant of the scenario; every one if left out."),
    click.option(
        "--rpm",
        "spin_rad_s",
        type=Speeds(),
        multiple=True,
        metavar="RPM",
        help="Propeller speed, or a range FROM:TO:STEP; repeatable; rpm if bare.",
    ),
    click.option("--blades", type=amount("1", least=1.0, most=12.0), help="Blades of the propeller."),
    click.option(
        "--blocked-deg",
        "blocked_rad",
        type=amount("rad", least=0.0, most=2.0 * math.pi, bare="deg"),
        help="Whole arc that one blade blocks, margin apart; degrees if bare.",
    ),
    click.option(
        "--margin-deg",
        "margin_rad",
        type=amount("rad", least=0.0, most=math.pi, bare="deg"),
        help="Kept clear on each side of the blade; degrees if bare; 0 if left out.",
    ),
    click.option(
        "--delay-ms",
        "delay_s",
        type=amount("s", least=0.0, most=1.0, bare="ms"),
        help="From release to passage through the disc; ms if bare; 0 if left out.",
    ),
    click.option(
        "--gun-rate",
        "natural_rate_per_s",
        type=amount("1/s", above=0.0, bare="1/min"),
        help="The gun's own rate; rounds a minute if bare.",
    ),
    click.option(
        "--action",
        type=Word(["interrupter", "impulse"]),
        help="The cam holds the sear while a blade is due, or releases each round; interrupter if left out.",
    ),
    click.option(
        "--impulses-per-rev",
        type=amount("1", least=1.0, most=12.0),
        help="Impulses or cam windows in a turn of the propeller; as many as blades if left out.",
    ),
)
