"""The command line: finds a command by name and loads only that one."""

from __future__ import annotations

import gc
import io
import os
import signal
import sys
import threading
from contextlib import contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any, NoReturn

import click

from sim import __version__

if TYPE_CHECKING:
    from collections.abc import Iterator

COMMANDS = {
    "compare": "Compare the powerplants: angular momentum, gyroscopic moment, response, firing windows.",
    "couple": "Gyroscopic couple of one rotor in a turn or a pull-up; needs no scenario.",
    "handling": "Control positions in steady turns, steepest banks and modes with each powerplant.",
    "modes": "Roots, damping and flying-qualities level of each mode with each powerplant.",
    "maneuver": "Response to a rudder kick, pull, roll-in, turn, reversal, ignition cut or power change.",
    "derivatives": "Every aerodynamic derivative: value, standard deviation and source.",
    "scale": "Real dimensions from caliper readings off a drawing: errors, and misreadings.",
    "layout": "Wing section, spars, fittings, struts, wires and truss nodes of the fuselage.",
    "drawing": "Three-view with stations and dimensions at true scale: SVG, PDF, DXF.",
    "structure": "Load cases of the wing, and the load and margin of every spar, strut and wire.",
    "balance": "Weights, centre of gravity, loading envelope, weighing, and position of the engine.",
    "wings": "Lift, induced drag, damping and downwash of any number of planes; needs no scenario.",
    "drag": "Zero-lift drag part by part, span efficiency and greatest lift, beside what is stated.",
    "speeds": "Stall, lift-off, climb, cruise and top speed with each powerplant.",
    "stall": "Stalls idle to full power, straight and in turns: first panel, roll, height lost; autorotation.",
    "field": "Take-off and landing runs, rudder as the tail comes up, glide, stance on the wheels.",
    "propeller": "Thrust and power of a propeller by blade elements, alone or on each engine.",
    "derive": "Derivation of an equation step by step, then its value for the scenario.",
    "swing": "Moment of inertia from a swinging test on two or three wires or a pivot, with its error.",
    "windows": "Firing windows between the blades, lead angle and rate of fire at each propeller speed.",
    "rate": "Rate of fire against propeller speed, and its plateaus of rounds to blade intervals.",
    "burst": "Probability that rounds strike a blade, simulated and exact, with all scatter.",
    "safe-range": "Propeller speeds at which every round of a fixed cam passes clear.",
    "link": "Lead of a rod, a shaft and an oil column from cam to gun, and which keeps it over speed.",
    "disc": "Delay, scatter and cam error from the marks of rounds on a test disc, and their causes.",
    "cooling": "Cooling of a gun's receiver in flight, and when its oil stiffens.",
    "mount": "Load cases of the engine mount, and the load on every bolt and tube.",
    "exhibit": "Inert interrupter display: cam, follower, spring, drive and guard, ready to cut.",
    "sweep": "Vary values of a scenario and collect results, or sample its tolerances and rank the inputs.",
    "report": "All answers in one document, HTML or PDF, and a two-page handout for visitors.",
    "view": "Animation: two airplanes flown by one stick, both engines, bullets between the blades.",
    "page": "One file for a visitor's phone: both airplanes, both engines, bullets between the blades.",
    "new": "Write a commented scenario, or a drawing to scale, to start from.",
    "check": "List every fault of scenario and drawing files, with its line, and what is unusual.",
    "handbook": "Open the handbook: first hours, how-to pages, every command and key, the physics.",
    "schema": "Print the JSON Schema of a scenario or drawing file, for an editor.",
}
"""Every command with its line of help: so that ``--help`` need not load a single one of them."""
GARBAGE_AT = 200_000
"""New objects between two searches for garbage: what a command loads stays to its end and need not be searched."""

ONE_THREAD = ("OPENBLAS_NUM_THREADS", "1")
"""Matrices here are small: threads of the linear algebra wait for each other longer than they work."""


@contextmanager
def _ended_by_signals() -> Iterator[None]:
    """Let a signal that ends a program end this one as an exit does: what it opened is closed, its workers go too.

    One that is to be ignored, as after ``nohup``, is, and afterwards everything is as it was.
    """
    usual, before = (signal.SIG_DFL, signal.default_int_handler), {}
    if threading.current_thread() is threading.main_thread():
        known = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]
        before = {which: signal.signal(which, _leave) for which in known if signal.getsignal(which) in usual}
    try:
        yield
    finally:
        for which, handler in before.items():
            signal.signal(which, handler)


def _leave(number: int, frame: object) -> NoReturn:  # noqa: ARG001
    raise SystemExit(128 + number)


def _write_what_can_be() -> None:
    """Let a letter that an output has not, as of a terminal without ≤, come out as a question mark and end nothing."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper) and stream.errors == "strict":
            stream.reconfigure(errors="surrogateescape" if stream.encoding.lower() == "utf-8" else "replace")


class LazyGroup(click.Group):
    """A group that knows its commands by name and imports one only when it is called."""

    def main(self, *args: Any, **extra: Any) -> Any:  # noqa: ANN401
        """Run a command line; where the machine fails, as with a full disk, say so and end with 3."""
        _write_what_can_be()
        try:
            with _ended_by_signals():
                return super().main(*args, **extra)
        except (OSError, MemoryError) as error:
            from viz.commands.told import failed

            failed(error)

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Return the names in the order of a user's work, not of the alphabet."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return the command called `cmd_name`, importing its file, or None."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"viz.commands.{cmd_name.replace('-', '_')}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which known one is near."""
        name = args[0]
        if name not in COMMANDS and not name.startswith("-"):
            from sim.errors import did_you_mean

            message = f"no command called {name!r}{did_you_mean(name, COMMANDS)}"
            raise click.UsageError(message, ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Print the table above without importing any command."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


class Systems(click.Choice):  # type: ignore[type-arg] # generic in newer versions of click alone
    """The two systems of units, refused in the words of every other fault."""

    def get_invalid_choice_message(self, value: object, ctx: click.Context | None) -> str:  # noqa: ARG002
        """Return what is allowed and what came."""
        return f'must be {" or ".join(self.choices)}, got "{value}"'


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--units",
    type=Systems(["us", "si"]),
    default="us",
    show_default=True,
    help="Units of what is printed and drawn; JSON is always SI.",
)
@click.version_option(__version__, prog_name="whirlgate")
@click.pass_context
def main(ctx: click.Context, units: str) -> None:
    """Compare a rotary engine with a fixed one in the same airplane, and time a gun between propeller blades.

    Estimates for a licensed engineer or mechanic to check, never approved data. SCENARIO is a file or the name
    of a bundled airplane: hayrick, millrace, packhorse, tollgate; without it tollgate. A command ends with 0; with 1
    where the question has no answer, 2 where the input is wrong, 3 where the machine fails, as with a full disk,
    128 and its number where a signal ended it, 130 for Ctrl+C.

    Example: whirlgate compare
    """
    gc.set_threshold(GARBAGE_AT)
    os.environ.setdefault(*ONE_THREAD)
    ctx.obj = units
