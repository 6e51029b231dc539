"""``whirlgate couple``: the gyroscopic couple of one rotor in a turn or at given rates."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, amount, figure_out, json_out
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units


def check(**options: object) -> Iterator[Fault]:
    """Yield the faults of the options taken together."""
    from dataclasses import replace

    from sim.studies.couple import couple_faults

    for fault in couple_faults(options):
        example = ", as in --rpm 1250" if fault.where == "spin_rad_s" else ""
        yield replace(fault, what=fault.what + example)


@click.command(cls=Command, check=check)
@click.option(
    "--inertia",
    "polar_inertia_kg_m2",
    type=amount("kg m^2", above=0.0),
    metavar="INERTIA",
    help="Polar moment of inertia of the rotor.",
)
@click.option(
    "--mass",
    "mass_kg",
    type=amount("kg", above=0.0),
    metavar="MASS",
    help="Mass of the rotor; needs --gyration-radius.",
)
@click.option(
    "--gyration-radius",
    "gyration_radius_m",
    type=amount("m", above=0.0),
    metavar="LENGTH",
    help="Radius of gyration of the rotor; needs --mass.",
)
@click.option(
    "--rpm",
    "spin_rad_s",
    type=amount("rad/s", above=0.0, bare="rpm"),
    metavar="RPM",
    help="Speed of the rotor. A number without a unit is in rpm.",
)
@click.option(
    "--rotation",
    type=Word(["clockwise", "anticlockwise"]),
    default="clockwise",
    show_default=True,
    help="Sense of rotation as seen from the cockpit, looking forward.",
)
@click.option(
    "--blades",
    type=amount("1", least=1.0, most=12.0),
    metavar="COUNT",
    help="Number of blades of the propeller; with one or two the couple varies between zero and twice its mean.  "
    "[default: a steady couple]",
)
@click.option(
    "--speed",
    "speed_m_s",
    type=amount("m/s", above=0.0),
    metavar="SPEED",
    help="Airspeed in a flat turn, without bank; needs --radius and --turn.",
)
@click.option("--radius", "radius_m", type=amount("m", above=0.0), metavar="LENGTH", help="Radius of the flat turn.")
@click.option("--turn", type=Word(["left", "right"]), help="Direction of the flat turn.")
@click.option(
    "--yaw-rate",
    "yaw_rate_rad_s",
    type=amount("rad/s", example="20 deg/s"),
    metavar="RATE",
    help="Yaw rate in body axes, nose right positive, as in '20 deg/s'; in place of a turn.",
)
@click.option(
    "--pitch-rate",
    "pitch_rate_rad_s",
    type=amount("rad/s", example="20 deg/s"),
    metavar="RATE",
    help="Pitch rate in body axes, nose up positive, as in '10 deg/s'; in place of a turn.",
)
@json_out
@figure_out
@click.pass_obj
def command(units: Units, /, *, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Compute the gyroscopic couple of one rotor.

    Give the rotor by its polar inertia or by mass and radius of gyration, and the motion of its shaft by a flat turn
    or by rates. A turn with bank is both a yaw and a pitch rate.

    Example: whirlgate couple --mass "381 lb" --gyration-radius "13 in" --rpm 1250 --speed "80 mph" --radius "300 ft"
    --turn right --blades 2
    """
    from sim.studies.couple import couple, over_a_turn
    from viz.sheets.couple import sheet

    answer = couple(**options)
    if figure:
        picture(figure, "couple", over_a_turn(answer, options["blades"]), units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
