"""``whirlgate disc``: a test disc read backwards."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import gun_scenario_options
from viz.commands.options import Command, amount, figure_out, json_out, powerplant_option
from viz.commands.output import deliver, picture
from viz.commands.written import Written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from sim.studies.disc_answer import DiscAnswer
    from sim.studies.disc_exercise import DiscExercise
    from viz.sheets.format import Units


class MarkText(click.ParamType):  # type: ignore[type-arg] # generic in newer versions of click alone
    """A mark: ``600 rpm, 41 °``; held in rad/s and rad."""

    name = "mark"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, float]:  # noqa: ANN401
        """Return the pair; note what is wrong with it for `Command` to report."""
        from sim.errors import InputError
        from sim.scenario.disc_marks import read_mark

        try:
            return read_mark(str(value), param.opts[0] if param else "")
        except InputError as error:
            if ctx is None:
                raise
            ctx.meta.setdefault("faults", []).extend(error.faults)
            return 1.0, 0.0


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what is missing, and what has no use beside what else was given."""
    from sim.errors import Fault, whole_faults

    exercise, given = options["exercise"], bool(options["mark"] or options["marks"])
    if exercise is None and not given:
        yield Fault("mark", 'is missing; give each mark, as in --mark "600 rpm, 41 °", or `marks` or `exercise`')
    for name in ("solution", "write_marks"):
        if options[name] and exercise is None:
            yield Fault(name, "is of an exercise; give `exercise` with a number as well")
    for name in ("powerplant", "which_gun"):
        if options[name] and not (options["scenario"] or options["settings"]):
            yield Fault(name, "is of a scenario; name that as well, as in whirlgate disc tollgate")
    if exercise is not None:
        yield from whole_faults({"exercise": exercise})
        alone = ("mark", "marks", "scenario", "settings", "stated_opens_deg", "stated_delay_s")
        for name in (name for name in alone if options[name] not in (None, ())):
            yield Fault(name, "has no use with `exercise`, which brings marks, cam and delay of its own")


@click.command(cls=Command, check=check)
@gun_scenario_options
@click.option(
    "--mark",
    type=MarkText(),
    multiple=True,
    metavar="'RPM, ANGLE'",
    help="One mark: propeller speed, and angle on the disc from the line of blade 1 against the direction of rotation; "
    "repeatable.",
)
@click.option(
    "--marks",
    metavar="FILE.csv",
    help="A file of marks: columns rpm and angle_deg.",
)
@powerplant_option("One powerplant of the scenario. [default: the first]")
@click.option(
    "--openings",
    type=amount("1", least=1.0, most=12.0, example="2"),
    metavar="COUNT",
    help="Openings of the cam in a turn, where any may have let a round go. [default: that of the scenario, or 1]",
)
@click.option(
    "--stated-opens-deg",
    type=amount("deg", least=-360.0, most=360.0, bare="deg"),
    metavar="DEG",
    help="Stated propeller angle at which the cam opens, 0 with blade 1 on the bore line. [default: that of the "
    "scenario]",
)
@click.option(
    "--stated-delay-ms",
    "stated_delay_s",
    type=amount("s", toleranced=True, least=0.0, most=1.0, bare="ms"),
    metavar="MS",
    help="Stated delay from cam to passage; it may have a tolerance, one standard deviation: '8 ms ± 0.2 ms'. "
    "[default: that of the scenario]",
)
@click.option(
    "--reading-deg",
    type=amount("deg", least=0.0, most=30.0, bare="deg"),
    default="0.5",
    show_default=True,
    metavar="DEG",
    help="Standard deviation of reading an angle off the disc.",
)
@click.option(
    "--longest-delay-ms",
    "longest_delay_s",
    type=amount("s", above=0.0, most=2.0, bare="ms"),
    default="30",
    show_default=True,
    metavar="MS",
    help="Longest delay that is tried; more for marks set by eye, as of a lamp.",
)
@click.option(
    "--exercise",
    type=amount("1", least=0.0, most=1e9, example="7"),
    metavar="SEED",
    help="Make a disc with a hidden cause, in place of marks given.",
)
@click.option("--solution", is_flag=True, help="With --exercise: read the disc, and say what was hidden.")
@click.option(
    "--write-marks",
    type=Written(".csv"),
    metavar="FILE.csv",
    help="With --exercise: write its marks into a file, as --marks reads it.",
)
@json_out
@figure_out
@click.pass_obj
def command(units: Units, /, *, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Read a test disc backwards: delay, scatter and cam error from the marks of single rounds, and what caused them.

    A plain disc turns with the propeller, and single rounds are fired through it at several speeds. The faster it
    turns, the later the mark: angle = opening of the cam + speed times delay. Angles are read on the disc from the line
    of blade 1 against the direction of rotation, whole turns left out. Each ± is half a 95 % interval.

    The inert display does it with paper on its disc and its lamp in place of a round. The lamp is on while the window
    is open: at several hand speeds mark the paper at the pointer as the lamp lights, and give --longest-delay-ms 1000.
    The cam error is then that of the display's cam, the delay that of lamp, eye and hand.

    Example: whirlgate disc --mark "600 rpm, 41 °" --mark "600, 43" --mark "900, 52" --mark "900, 51" --mark "1200, 66"
    --mark "1200, 63" --figure disc.svg
    """
    from importlib import import_module

    exercise, solution, file = (options.pop(name) for name in ("exercise", "solution", "write_marks"))
    answer = _read(**options) if exercise is None else _set(exercise, file, solution=solution, force=force)
    name = "disc" if exercise is None or solution else "disc_exercise"
    picture(figure, name, answer, units, force=force)
    deliver(answer, import_module(f"viz.sheets.{name}").sheet(answer), units, as_json=as_json)


def _read(
    *,
    scenario: str | None,
    settings: tuple[str, ...],
    mark: tuple[tuple[float, float], ...],
    marks: str | None,
    which_gun: str | None,
    **options: Any,  # noqa: ANN401
) -> DiscAnswer:
    """Return what the marks given tell, beside the scenario where one is named."""
    from sim.errors import InputError
    from sim.model.model import model
    from sim.scenario.disc_marks import read_marks
    from sim.scenario.reading import DEMO
    from sim.studies.disc import disc
    from viz.commands.gun_options import with_gun

    every = (*mark, *(read_marks(marks) if marks else ()))
    beside = with_gun(model(scenario or DEMO, settings) if scenario or settings else None, which_gun)
    spins, angles = [spin for spin, _ in every], [round(math.degrees(angle), 9) for _, angle in every]
    try:
        return disc(beside, spin_rad_s=spins, angle_deg=angles, **options)
    except InputError as error:
        typed = {} if marks else {"marks": "mark"}
        raise InputError([replace(one, where=typed.get(one.where, one.where)) for one in error.faults]) from None


def _set(seed: float, file: str | None, *, solution: bool, force: bool) -> DiscAnswer | DiscExercise:
    """Return an exercise, its marks written into a file where one is named, or its solution."""
    from sim.studies.disc_exercise import disc_exercise, solved
    from viz.files.disc_marks import write_marks

    exercise = disc_exercise(seed)
    if file:
        write_marks(file, exercise.marks, force=force)
    return solved(exercise) if solution else exercise
