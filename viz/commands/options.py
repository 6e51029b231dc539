"""The options that commands share, and the types that read a quantity with its unit.

=============  ==========================================================
airplane_in    ``[SCENARIO]`` and ``--set table.key=value``
scenario_in    the same, and another one to ask the same of: ``--against``, ``--against-set``
json_out       ``--json``
figure_out     ``--figure FILE`` and ``--force``
=============  ==========================================================
"""

from __future__ import annotations

import math
import re
from functools import cached_property
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from viz.commands.against import against_in, is_against, settled
from viz.commands.told import broken, failed, how_to_give, no_option, refused, unanswered
from viz.commands.written import FIGURE, output_faults

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from sim.errors import Fault
    from sim.units.parsing import Allowed, Measured

    Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]


WORDS = "viz.commands.options.words"
"""Key of a context's ``meta``: the words behind the command, as they were given."""


class Amount(click.ParamType):  # type: ignore[type-arg] # generic in newer versions of click alone
    """An option value with a unit, turned into SI.

    A wrong value is noted and the reading goes on, so that `Command` can report every wrong option at once.
    """

    name = "amount"

    def __init__(self, allowed: Callable[[], Allowed], *, toleranced: bool = False, degrees: bool = False) -> None:
        self.allowed = allowed
        self.toleranced = toleranced
        self.degrees = degrees

    def convert(
        self,
        value: Any,  # noqa: ANN401
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> float | Measured:
        """Return the value in SI, or with its tolerance; note what is wrong with it for `Command` to report."""
        from sim.errors import InputError
        from sim.units.parsing import read

        try:
            found = read(value, self.allowed(), key=param.opts[0] if param else "")
            if self.degrees:
                return round(math.degrees(found.value), 9)  # without the rounding error of the conversion
            return found if self.toleranced else found.value
        except InputError as error:
            if ctx is None:
                raise
            ctx.meta.setdefault("faults", []).extend(error.faults)
            return float("nan")


def amount(unit: str, *, toleranced: bool = False, **limits: Any) -> Amount:  # noqa: ANN401
    """Return the option type for a quantity held in the SI unit `unit`; `limits` are those of `Allowed`.

    With ``deg`` for the unit, an angle whose limits and value are in degrees.

    Where `toleranced`, the option's value is a `Measured`, with what stood after ``±``.

    ``amount("kg", above=0)``; a bare number is taken where ``bare="rpm"`` names its unit. pint and the quantity
    module load when the first value is read, so that ``--help`` stays quick.
    """
    degrees = unit == "deg"

    def allowed() -> Allowed:
        from sim.units.parsing import Allowed

        if not degrees:
            return Allowed(unit, **limits)
        turned: dict[str, Any] = {name: at if isinstance(at, str) else math.radians(at) for name, at in limits.items()}
        return Allowed("rad", **turned)

    return Amount(allowed, toleranced=toleranced, degrees=degrees)


class Word(click.Choice):  # type: ignore[type-arg] # generic in newer versions of click alone
    """One of a few words; a wrong one is noted for `Command`, with the nearest right one."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:  # noqa: ANN401
        """Return the word as it is; note what is wrong with it for `Command` to report."""
        if ctx is None or value in self.choices:
            return str(super().convert(value, param, ctx))
        from sim.errors import Fault, did_you_mean

        what = f'must be {" or ".join(self.choices)}, got "{value}"{did_you_mean(str(value), self.choices)}'
        ctx.meta.setdefault("faults", []).append(Fault(param.opts[0] if param else "", what))
        return str(value)


def powerplant_option(help_text: str) -> Callable[..., Any]:
    """Return what adds ``--powerplant``."""
    return click.option("--powerplant", metavar="NAME", help=help_text)


class Command(click.Command):
    """A command that refuses all its wrong options in one go.

    `check` takes the options by name and returns the faults of their combination.
    """

    def __init__(
        self,
        *args: Any,  # noqa: ANN401
        check: Callable[..., Iterable[Fault]] | None = None,
        **kwargs: Any,  # noqa: ANN401
    ) -> None:
        super().__init__(*args, **kwargs)
        self.check = check

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the options; of one that belongs to the whole program say where it stands, of a missing argument how."""
        ctx.meta[WORDS] = tuple(args)
        try:
            rest = super().parse_args(ctx, args)
            settled(ctx)
            return rest
        except click.NoSuchOption as error:
            if error.option_name == "--units":
                message = f"--units stands before the command: whirlgate --units si {ctx.info_name}"
                raise click.UsageError(message, ctx) from None
            taken = [param.opts[0] for param in self.params if isinstance(param, click.Option)]
            raise click.UsageError(no_option(error.option_name, taken, ctx.info_name or ""), ctx) from None
        except click.MissingParameter as error:
            name = error.param.make_metavar(ctx) if error.param else ""
            raise click.MissingParameter(how_to_give(name, self.help or ""), ctx, error.param) from None

    def invoke(self, ctx: click.Context) -> object:
        """Run, and end with 1 where the question has no answer, 2 where the input is wrong, 3 where the machine fails.

        Where `sim` names parameters, options are named.
        """
        from sim.errors import InputError, MachineError, NoAnswerError

        try:
            if faults := self.faults(ctx):
                raise InputError(faults)
            if is_against(ctx):
                from viz.commands.other_airplane import ask_the_other

                ask_the_other(self, ctx, self._by_option)
            return super().invoke(ctx)
        except InputError as error:
            refused(InputError(map(self._by_option, self._in_file(error.faults, ctx))), ctx)
        except NoAnswerError as error:
            unanswered(error, ctx)
        except MachineError as error:
            broken(error, ctx)
        except BrokenPipeError as error:  # else click ends with 1, which here means that there is no answer
            failed(error)

    def faults(self, ctx: click.Context) -> list[Fault]:
        """Return what is wrong with the options one by one and taken together."""
        noted: list[Fault] = ctx.meta.get("faults", [])
        return [*noted, *output_faults(ctx), *(self.check(**ctx.params) if self.check else ())]

    def _by_option(self, fault: Fault) -> Fault:
        """Return the fault at the option that gives the parameter it names; one in a file stays as it is.

        What follows the parameter after a space stays: ``collect speeds.x`` is ``--collect speeds.x``. So is a
        parameter that the sentence names in backquotes.
        """
        from dataclasses import replace

        if fault.file:
            return fault
        parameter, space, rest = fault.where.partition(" ")
        where = f"{self._options[parameter]}{space}{rest}" if parameter in self._options else fault.where
        return replace(fault, where=where, what=re.sub(r"`(\w+)`", self._named, fault.what))

    def _in_file(self, faults: Iterable[Fault], context: click.Context) -> Iterator[Fault]:
        """Yield faults of what a scenario's file says with file and line; a bundled one has none that can be mended."""
        from pathlib import Path

        file, settings = context.params.get("scenario"), context.params.get("settings", ())
        if not isinstance(file, str) or not Path(file).is_file():
            yield from faults
            return
        from sim.errors import InputError
        from sim.scenario.bundled import fetch
        from sim.scenario.fault_lines import at_lines
        from sim.scenario.toml_text import parse

        try:
            source = parse(fetch(file).text, file)
        except InputError:  # no text: that is the fault
            yield from faults
            return
        for fault in faults:
            yield from (fault,) if fault.where in self._options else at_lines((fault,), source, file, settings)

    def _named(self, parameter: re.Match[str]) -> str:
        """Return the option that gives a parameter; other words in backquotes stay as they are."""
        return self._options.get(parameter[1], parameter[0])

    @cached_property
    def _options(self) -> dict[str, str]:
        """The parameter of the study -> the option that gives it."""
        given = [param for param in self.params if isinstance(param, click.Option)]
        stems = {param.opts[0].lstrip("-").replace("-", "_"): param.opts[0] for param in given}
        arguments = [param for param in self.params if isinstance(param, click.Argument)]
        places = {param.name: param.name.upper() for param in arguments if param.name and not param.metavar}
        return places | stems | {param.name: param.opts[0] for param in given if param.name}


def units_asked() -> bool:
    """Return whether the units are those that the reader asked for, not the default."""
    return click.get_current_context().find_root().get_parameter_source("units") is not ParameterSource.DEFAULT


def scenario_in(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``[SCENARIO]``, ``--set table.key=value``, and ``--against`` and ``--against-set`` for another one."""
    return airplane_in(against_in()(function))


def airplane_in(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``[SCENARIO]`` and the repeatable ``--set table.key=value``."""
    return click.argument("scenario", required=False, default="tollgate")(set_option(function))


def set_option(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add the repeatable ``--set table.key=value``."""
    return click.option(
        "--set",
        "settings",
        multiple=True,
        metavar="TABLE.KEY=VALUE",
        help="Change one value of the scenario; repeatable. Example: --set wing.span='27 ft 6 in'",
    )(function)


def json_out(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--json``."""
    return click.option("--json", "as_json", is_flag=True, help="Print one JSON object, in SI units.")(function)


def figure_out(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--figure FILE`` and ``--force``."""
    figure = click.option(
        "--figure",
        type=FIGURE,
        metavar="FILE",
        help="Draw the answer into FILE (svg, png or pdf).",
    )
    return figure(force(function))


def force(function: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--force``."""
    return click.option("--force", is_flag=True, help="Replace a file that is already there.")(function)
