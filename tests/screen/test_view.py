"""``whirlgate view``: options in, a picture or a film out; every wrong option in one go."""

import os

import pytest
from airplanes import BIPLANE
from click.testing import CliRunner

from viz.cli import main

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")


def run(*words):
    return CliRunner().invoke(main, ["view", str(BIPLANE), *words])


def test_a_picture_of_a_scene(tmp_path):
    path = tmp_path / "blades.png"
    shown = run("--scene", "blades", "--at", "500 ms", "--size", "960x540", "--snapshot", str(path))
    assert shown.exit_code == 0, shown.output
    assert path.read_bytes().startswith(b"\x89PNG")
    assert shown.output.strip() == str(path)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--length", "5 s", "--snapshot", "x.png"), "--length: belongs to --record; give --record FILE as well"),
        (("--rate", "10", "--snapshot", "x.png"), "--rate: belongs to --record; give --record FILE as well"),
        (("--at", "5 s", "--record", "x.gif"), "--at: belongs to --snapshot; give --snapshot FILE as well"),
    ],
)
def test_an_option_that_would_do_nothing_is_refused(words, told):
    shown = run(*words)
    assert (shown.exit_code, shown.output) == (2, f"{told}, or leave it out\n")


def test_a_maneuver_is_flown_in_its_scene():
    shown = run("--scene", "blades", "--maneuver", "pull", "--snapshot", "x.png")
    told = "--maneuver: is flown in the scene turning; leave out the maneuver, or --scene\n"
    assert (shown.exit_code, shown.output) == (2, told)


def test_every_wrong_option_at_once():
    shown = run("--size", "100x50", "--letters", "7", "--at", "3", "--scene", "blade", "--snapshot", "x.png")
    assert shown.exit_code == 2
    assert shown.output.splitlines() == [
        '--size: must be 640x360 to 7680x4320 pixels, or upright 360x640 to 4320x7680, got "100x50"',
        '--letters: must be 1 or 2 or 3, got "7"',
        '--at: must have a unit, as in "3 s", got "3"',
        '--scene: must be turning or engine or blades, got "blade"; did you mean blades?',
    ]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("--record", "a.gif", "--snapshot", "b.png"),
            "--snapshot: cannot stand beside --record; take one picture or one film at a time",
        ),
        (("--kiosk", "--record", "a.gif"), "--kiosk: needs a window; leave out --record and --snapshot"),
        (
            ("--buttons",),
            "--buttons: a window has them; give --snapshot FILE or --record FILE as well, or leave it out",
        ),
        (
            ("--size", "720x500"),
            '--size: a window is at least 960x540 pixels, or as much upright, got "720x500"',
        ),
        (("--snapshot", "a.jpg"), '--snapshot: must end in .png, got "a.jpg"'),
    ],
)
def test_what_does_not_go_together_is_said(words, told):
    shown = run(*words)
    assert shown.exit_code == 2
    assert shown.output.strip() == told


def test_without_a_fixed_engine_there_is_nothing_to_set_beside(tmp_path):
    from sim.live.scene_data import stage
    from sim.model.model import Model
    from sim.scenario.reading import load

    scenario = load(BIPLANE)
    alone = scenario.model_copy(update={"powerplant": {"rotary": scenario.powerplant["rotary"]}})
    with pytest.raises(Exception, match="none of kind fixed") as told:
        stage(Model(alone))
    assert str(told.value) == (
        "powerplant: the viewer sets a rotary beside a fixed engine; there is none of kind fixed here"
    )


def test_too_slow_to_fly_is_said_and_not_shown():
    shown = run("--set", "flight.speed=12 mph", "--snapshot", "never.png")
    assert shown.exit_code == 1
    assert shown.output.startswith("rotary: no controls hold 0° of bank at 5.36 m/s")


def test_without_a_screen_a_sentence_says_what_needs_none(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER"):
        monkeypatch.delenv(name, raising=False)
    shown = run()
    assert shown.exit_code == 1
    assert shown.output.strip().splitlines()[-1] == (
        "there is no screen to open a window on; run it on a desktop, or take a picture with --snapshot or a film "
        "with --record, which need none"
    )
