"""``whirlgate view``: the animated viewer, its kiosk and its recordings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from viz.commands.options import Command, Word, airplane_in, amount, force, units_asked
from viz.commands.seed import seed_option
from viz.commands.written import Written
from viz.stage.size import Size
from viz.words.catalogue import languages

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.errors import Fault
    from sim.live.scene_data import Stage
    from viz.sheets.format import Units
    from viz.stage.show import Setting

MANEUVER = "Flown by both airplanes, in the scene turning; blip: short ignition cuts."
NEEDS = {"length": "record", "rate": "record", "at_s": "snapshot"}
"""Option -> the option without which it does nothing."""
MANEUVERS = ("turn-right", "turn-left", "rudder-kick", "pull", "roll-in", "reversal", "blip")


def _faults(**given: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what is wrong with the options taken together."""
    from sim.errors import Fault

    if given.get("record") and given.get("snapshot"):
        yield Fault("--snapshot", "cannot stand beside --record; take one picture or one film at a time")
    context = click.get_current_context()
    for option, needed in NEEDS.items():
        asked = context.get_parameter_source(option) is ParameterSource.COMMANDLINE
        if asked and not given.get(needed):
            yield Fault(option, f"belongs to --{needed}; give --{needed} FILE as well, or leave it out")
    if given.get("maneuver") and given.get("scene") != "turning":
        yield Fault("maneuver", "is flown in the scene turning; leave out the maneuver, or --scene")
    if not (given.get("record") or given.get("snapshot")):
        yield from _window_faults(given)
    if given.get("kiosk") and (given.get("record") or given.get("snapshot")):
        yield Fault("--kiosk", "needs a window; leave out --record and --snapshot")


def _window_faults(given: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield what is wrong with the options of a window."""
    from sim.errors import Fault
    from viz.stage.layout import LEAST, fits

    if given.get("buttons"):
        yield Fault("buttons", "a window has them; give --snapshot FILE or --record FILE as well, or leave it out")
    size = given["size"]
    if not fits(*size):
        least = "x".join(map(str, LEAST))
        yield Fault("size", f'a window is at least {least} pixels, or as much upright, got "{size[0]}x{size[1]}"')


def _beginning(function: Any) -> Any:  # noqa: ANN401
    """Add the options that say how the show begins."""
    for option in reversed(
        (
            click.option(
                "--scene",
                type=Word(("turning", "engine", "blades")),
                default="turning",
                show_default=True,
                help="Scene shown first.",
            ),
            click.option("--maneuver", type=Word(MANEUVERS), help=MANEUVER),
            click.option(
                "--language",
                type=Word(languages()),
                default="english",
                show_default=True,
                help="Language of the captions.",
            ),
            click.option(
                "--contrast",
                type=Word(("normal", "high")),
                default="normal",
                show_default=True,
                help="Colour contrast.",
            ),
            click.option("--letters", type=Word(("1", "2", "3")), default="1", help="Text size.", show_default=True),
            click.option(
                "--size",
                type=Size(),
                default="1280x720",
                show_default=True,
                help="Width and height in pixels, upright ones too; a window from 960x540, a picture from 640x360.",
            ),
            seed_option("the scatter of the rounds"),
        )
    ):
        function = option(function)
    return function


def _window(function: Any) -> Any:  # noqa: ANN401
    """Add the options of a window."""
    function = click.option(
        "--kiosk",
        is_flag=True,
        help="Exhibition mode: restarts when idle; attendants hold left Ctrl, left Alt and X to leave.",
    )(function)
    function = click.option(
        "--steady", is_flag=True, help="Little motion: the country stands still, what turns is slower."
    )(function)
    function = click.option("--mute", is_flag=True, help="Begin without sound.")(function)
    return click.option("--fullscreen", is_flag=True, help="Fill the screen.")(function)


def _filming(function: Any) -> Any:  # noqa: ANN401
    """Add the options that take films."""
    for option in reversed(
        (
            click.option(
                "--record",
                type=Written(".gif", ".mp4", ".png"),
                metavar="FILE",
                help="Record a film without opening a window: .gif, .mp4 or .png frames.",
            ),
            click.option(
                "--length",
                type=amount("s", above=0.0, most=600.0, example="8 s"),
                default="8 s",
                show_default=True,
                metavar="TIME",
                help="Duration of the film.",
            ),
            click.option(
                "--rate",
                type=amount("1", least=1.0, most=60.0, example="25"),
                default="25",
                show_default=True,
                metavar="PER_S",
                help="Frames per second of the film.",
            ),
        )
    ):
        function = option(function)
    return function


def _picturing(function: Any) -> Any:  # noqa: ANN401
    """Add the options that take pictures."""
    for option in reversed(
        (
            click.option("--buttons", is_flag=True, help="Keep the buttons in the picture or film."),
            click.option(
                "--snapshot",
                type=Written(".png"),
                metavar="FILE",
                help="Write one picture, .png, without opening a window.",
            ),
            click.option(
                "--at",
                "at_s",
                type=amount("s", least=0.0, most=600.0, example="3 s"),
                default="3 s",
                show_default=True,
                metavar="TIME",
                help="Time on the screen at which the picture is taken.",
            ),
        )
    ):
        function = option(function)
    return function


@click.command(cls=Command, check=_faults)
@airplane_in
@_beginning
@_window
@_filming
@_picturing
@force
@click.pass_obj
def command(units: Units, /, *, scenario: str, settings: tuple[str, ...], **options: Any) -> None:  # noqa: ANN401
    """Animation: two airplanes, rotary and fixed engine, flown by one stick; both engines; bullets between the blades.

    Controlled by keyboard, mouse, touch or gamepad; H shows the keys. A window begins with both engines on a bench.

    Example: whirlgate view --scene blades
    """
    from sim.live.scene_data import stage
    from sim.model.model import model
    from viz.stage.sdl_environment import prepare

    prepare()
    from viz.stage.show import Setting
    from viz.stage.snapshot import Looks

    letters, chosen = int(options["letters"]) - 1, units if units_asked() else None
    looks = Looks(options["language"], options["contrast"], letters, chosen, steady=options["steady"])
    setting = Setting(
        looks=looks,
        scene=options["scene"],
        script=options["maneuver"] or "",
        bench=not (options["maneuver"] or options["record"] or options["snapshot"]),
        seed=options["seed"],
        kiosk=options["kiosk"],
        sound=not options["mute"],
        buttons=options["buttons"] or not (options["record"] or options["snapshot"]),
    )
    shown = stage(model(scenario, settings))
    if shown.gun is None and setting.scene == "blades":
        from sim.errors import refuse

        refuse("scene", "must be turning or engine: the scenario has no gun, whose rounds pass between the blades")
    _show(shown, setting, options)


def _show(stage: Stage, setting: Setting, options: Mapping[str, Any]) -> None:
    """Take the picture or the film that was asked for, or open the window."""
    size, force = options["size"], options["force"]
    if options["snapshot"]:
        from viz.stage.recorder import snapshot

        click.echo(snapshot(stage, setting, size, options["snapshot"], at_s=options["at_s"], force=force))
    elif options["record"]:
        from viz.stage.recorder import record

        rate_hz, seconds = int(options["rate"]), options["length"]
        click.echo(record(stage, setting, size, options["record"], seconds=seconds, rate_hz=rate_hz, force=force))
    else:
        import logging

        from viz.stage.app import Window

        logging.basicConfig(level=logging.INFO, format="%(asctime)s %(name)s %(levelname)s: %(message)s")
        Window(stage, setting, size, fullscreen=options["fullscreen"]).run()
