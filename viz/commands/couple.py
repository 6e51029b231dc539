"""``whirlgate couple``: what one rotor does in a turn or at given rates."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, figure_out, json_out
from viz.commands.options import amount as quantity
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.errors import Fault
    from sim.studies.couple import Couple
    from viz.sheets.format import Units
    from viz.sheets.table import Block


def check(**options: object) -> Iterable[Fault]:
    """Return the faults of the options taken together."""
    from sim.studies.couple import combination_faults

    return combination_faults(options)


@click.command(cls=Command, check=check)
@click.option(
    "--inertia", "polar_inertia_kg_m2", type=quantity("kg m^2", above=0.0), help="Polar inertia of the rotor."
)
@click.option("--mass", "mass_kg", type=quantity("kg", above=0.0), help="Its mass, with --gyration-radius.")
@click.option("--gyration-radius", "gyration_radius_m", type=quantity("m", above=0.0), help="Its radius of gyration.")
@click.option("--rpm", "spin_rad_s", type=quantity("rad/s", above=0.0, bare="rpm"), help="Its speed; rpm if bare.")
@click.option(
    "--rotation",
    type=Word(["clockwise", "anticlockwise"]),
    default="clockwise",
    show_default=True,
    help="Its sense, seen from the cockpit looking forward.",
)
@click.option("--blades", type=quantity("1", least=1.0), help="Of the propeller; one or two double the peak couple.")
@click.option("--speed", "speed_m_s", type=quantity("m/s", above=0.0), help="Airspeed in a turn.")
@click.option("--radius", "radius_m", type=quantity("m", above=0.0), help="Radius of the turn.")
@click.option("--turn", type=Word(["left", "right"]), help="Which way.")
@click.option("--yaw-rate", "yaw_rate_rad_s", type=quantity("rad/s"), help="Instead of a turn: nose right positive.")
@click.option("--pitch-rate", "pitch_rate_rad_s", type=quantity("rad/s"), help="Nose up positive.")
@json_out
@figure_out
@click.pass_obj
def command(units: Units, *, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Compute the gyroscopic couple of one rotor.

    Give the rotor by its polar inertia or by mass and radius of gyration, and the swing of its shaft by a turn or
    by rates.

    Example: whirlgate couple --mass "381 lb" --gyration-radius "13 in" --rpm 1250 --speed "80 mph" --radius "300 ft"
    --turn right --blades 2
    """
    from sim.studies.couple import over_a_turn, quick_couple

    answer = quick_couple(**options)
    if figure:
        picture(figure, "couple", over_a_turn(answer, options["blades"]), units, force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: Couple, units: Units) -> Iterator[Block]:
    """Print the couple as a small table, with the pilot's words."""
    rows = [
        ("spin momentum", shown.signed(*_of(answer, "angular_momentum_kg_m2_s"), units, shown.ROTATION)),
        ("shaft swung round at", shown.amount("precession_rad_s", answer.precession_rad_s, units)),
        ("couple, mean", shown.amount(*_of(answer, "couple_n_m"), units)),
        ("couple, peak within a turn", shown.amount(*_of(answer, "peak_couple_n_m"), units)),
        ("pitching moment", shown.signed(*_of(answer, "pitch_n_m"), units, shown.PITCH)),
        ("yawing moment", shown.signed(*_of(answer, "yaw_n_m"), units, shown.YAW)),
    ]
    effect = "No couple: the shaft is not swung round."
    if answer.effect != "none":
        effect = f"The couple moves the {answer.effect}."
    yield table("Gyroscopic couple on the airframe", ["Quantity", "Value"], rows, f"{effect}\n{ESTIMATE}")


def _of(answer: Couple, name: str) -> tuple[str, float]:
    return name, getattr(answer, name)
