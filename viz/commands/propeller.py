"""``whirlgate propeller``: thrust, power and efficiency of a propeller by blade elements, alone or on each engine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from viz.commands.against import against_in
from viz.commands.flight_options import altitude_option
from viz.commands.gun_options import steps
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import deliver, picture
from viz.commands.written import Named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from sim.model.model import Model
    from viz.sheets.format import Units


class AdvanceRatios(click.ParamType):  # type: ignore[type-arg] # generic in newer versions of click alone
    """Advance ratios: ``0.4`` or a range with both ends in it, ``0:1.2:0.1``."""

    name = "ratios"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, ...]:  # noqa: ANN401
        """Return the advance ratios; note what is wrong with them for `Command` to report."""
        from sim.errors import InputError
        from sim.units.parsing import Allowed, read

        key = param.opts[0] if param else ""
        try:
            allowed = Allowed("1", least=0.0, most=10.0)
            parts = [read(part, allowed, key=key).value for part in str(value).split(":")]
            return tuple(round(ratio, 9) for ratio in steps(parts, value, key, called="one ratio"))
        except InputError as error:
            if ctx is None:
                raise
            ctx.meta.setdefault("faults", []).extend(error.faults)
            return (math.nan,)


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield the faults of the options that describe a propeller, taken together."""
    from sim.studies.propeller import DESCRIBING, ON_ENGINES, propeller_faults

    described = any(options[name] is not None for name in DESCRIBING)
    given = {name: options[name] or None if name == "speeds_m_s" else options[name] for name in DESCRIBING + ON_ENGINES}
    if described:
        yield from propeller_faults(given, alone=not (options["scenario"] or options["settings"]))


def asked(options: dict[str, Any]) -> tuple[Model | None, dict[str, Any]]:
    """Return the model that the options name, None for a propeller of options alone, and the other options."""
    from sim.model.model import model
    from sim.scenario.reading import DEMO
    from sim.studies.propeller import ADVANCE, DESCRIBING

    rest = {**options, "advance": options["advance"] or ADVANCE}
    scenario, settings = rest.pop("scenario"), rest.pop("settings")
    described = any(rest[name] is not None for name in DESCRIBING)
    return (None if described else model(scenario or DEMO, settings)), rest


@click.command(cls=Command, check=check)
@click.argument("scenario", required=False)
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="TABLE.KEY=VALUE",
    help="Change one value of the scenario; repeatable. Example: --set powerplant.rotary.propeller.pitch='9 ft'",
)
@against_in()
@click.option(
    "--blade",
    type=Named(dir_okay=False),
    metavar="FILE.csv",
    help="The blade as measured: columns radius_share (of the tip radius), chord_share (of the diameter) and "
    "angle_deg (flat face to the plane of the disc).",
)
@click.option(
    "--diameter", "diameter_m", type=amount("m", above=0.0, most=20.0), metavar="LENGTH", help="Tip to tip, or:"
)
@click.option(
    "--pitch", "pitch_m", type=amount("m", above=0.0, most=20.0), metavar="LENGTH", help="Geometric pitch, constant."
)
@click.option(
    "--chord", "chord_m", type=amount("m", least=0.0, most=2.0), metavar="LENGTH", help="Largest chord of a blade."
)
@click.option(
    "--blades",
    type=amount("1", least=1.0, most=12.0, example="2"),
    metavar="COUNT",
    help="Number of blades.  [default: 2]",
)
@click.option(
    "--turn",
    "turn_deg",
    type=amount("deg", least=-60.0, most=60.0, example="5 deg"),
    default="0 °",
    show_default=True,
    metavar="ANGLE",
    help="Turn every blade as a whole, coarser positive.",
)
@click.option(
    "--advance",
    type=AdvanceRatios(),
    metavar="RATIOS",
    help="Advance ratio V/nD, or a range FROM:TO:STEP.  [default: 0:1.2:0.1]",
)
@click.option(
    "--speed",
    "speeds_m_s",
    type=amount("m/s", least=0.0, most=340.0),
    multiple=True,
    metavar="SPEED",
    help="Airspeed on the engines of a scenario; repeatable.  [default: from rest to that of no slip]",
)
@click.option(
    "--design-speed",
    "design_speed_m_s",
    type=amount("m/s", least=0.0, most=340.0),
    metavar="SPEED",
    help="Airspeed at which the propeller of a scenario is to absorb full power.  [default: top speed]",
)
@altitude_option
@json_out
@figure_out
@click.pass_obj
def command(units: Units, /, *, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Find thrust, power and efficiency of a propeller by blade elements with momentum theory.

    For each powerplant of a scenario, at full throttle on its engine: speed, thrust, absorbed power and tip Mach number
    at each airspeed; whether it suits the engine, and which diameter and pitch would. Or for a propeller given by
    options alone: coefficients against advance ratio.

    Example: whirlgate propeller --diameter "74 in" --pitch "50 in" --chord "5 in" --blades 2 --advance 0:0.9:0.1
    """
    from sim.studies.propeller import propeller
    from viz.sheets.propeller import sheet

    model, given = asked(options)
    answer = propeller(model, **given)
    picture(figure, "propeller", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
