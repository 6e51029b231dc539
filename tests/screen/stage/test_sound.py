"""What is heard has the pitch of the engine's shots, no steps between pieces, and one thump a round."""

import math

import numpy as np
import pygame
import pytest

from viz.stage.hearing import Loudspeaker, heard
from viz.stage.sound import PIECE, RATE_HZ, SILENCE, Heard, Voice, firing_hz
from viz.words.catalogue import languages
from viz.words.say import say

ENGINE = Heard(1237.0 * math.tau / 60.0, 9)


def made(voice, what, pieces):
    return np.concatenate([voice.piece(what) for _ in range(pieces)]).astype(float)


def loud(samples):
    return float(np.sqrt(np.mean(samples**2)))


def pitch_hz(samples):
    """Return where the spectrum of samples is highest."""
    power = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    return np.fft.rfftfreq(len(samples), 1.0 / RATE_HZ)[power.argmax()]


@pytest.mark.parametrize(("rpm", "cylinders"), [(1237.0, 9), (2350.0, 4), (731.0, 7), (-1237.0, 9)])
def test_the_pitch_is_that_of_the_shots_of_a_four_stroke(rpm, cylinders):
    what = Heard(rpm * math.tau / 60.0, cylinders)
    samples = made(Voice(), what, 60)[10 * PIECE :]
    assert pitch_hz(samples) == pytest.approx(abs(rpm) / 60.0 * cylinders / 2.0, abs=2.0 * RATE_HZ / len(samples))


def test_cylinders_differ_so_a_cycle_beats():
    """Beside the shots there is a tone that repeats with two turns of the shaft."""
    samples = made(Voice(), ENGINE, 120)[10 * PIECE :]
    power = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    tones = np.fft.rfftfreq(len(samples), 1.0 / RATE_HZ)
    cycle_hz = firing_hz(ENGINE.spin_rad_s, 9) / 9
    near = [power[np.abs(tones - place * cycle_hz).argmin()] for place in (1.0, 1.5)]
    assert near[0] > 10.0 * near[1]


def test_there_is_no_step_between_pieces_while_the_engine_changes_its_speed():
    voice = Voice()
    samples = np.concatenate([made(voice, Heard(rpm * math.tau / 60.0, 9), 1) for rpm in np.linspace(0.0, 1237.0, 40)])
    joints = np.abs(np.diff(samples))[PIECE - 1 :: PIECE]
    assert joints.max() <= np.abs(np.diff(samples)).max()
    assert np.median(joints) < 4.0 * np.median(np.abs(np.diff(samples)))


def test_an_ignition_cut_is_heard_and_over_at_once():
    voice = Voice()
    running = loud(made(voice, ENGINE, 20)[5 * PIECE :])
    cut = Heard(ENGINE.spin_rad_s, 9, fires=False)
    made(voice, cut, 12)
    assert loud(made(voice, cut, 4)) < 0.01 * running
    made(voice, ENGINE, 8)
    assert loud(made(voice, ENGINE, 8)) > 0.9 * running


def test_the_pressure_of_the_wind_goes_with_the_square_of_the_airspeed():
    slow, fast = (loud(made(Voice(), Heard(0.0, 9, False, speed), 60)[20 * PIECE :]) for speed in (20.0, 40.0))
    assert fast / slow == pytest.approx(4.0, rel=0.02)


def test_each_round_is_one_thump_that_dies_away():
    voice = Voice()
    assert loud(made(voice, Heard(0.0, 9, False, 0.0, 0), 4)) < 1.0
    shot = made(voice, Heard(0.0, 9, False, 0.0, 1), 30)
    assert loud(shot[: 2 * PIECE]) > 2000.0
    assert loud(shot[-4 * PIECE :]) < 1.0
    assert loud(made(voice, Heard(0.0, 9, False, 0.0, 1), 4)) < 1.0
    assert loud(made(voice, Heard(0.0, 9, False, 0.0, 2), 2)) > 2000.0
    made(voice, SILENCE, 40)
    assert loud(made(voice, Heard(0.0, 9, False, 0.0, 2), 2)) < 1.0


def test_silence_is_silent_and_nothing_is_louder_than_the_scale():
    assert np.abs(made(Voice(), SILENCE, 20)).max() == 0.0
    everything = made(Voice(), Heard(150.0, 9, True, 60.0), 40)
    assert 5000.0 < np.abs(everything).max() < 32767.0


def test_what_is_heard_is_what_the_scene_does(session, stage):
    flown = heard(session.snapshot(), stage)
    assert flown.spin_rad_s == stage.rotary.start[13]
    assert flown.cylinders == stage.rotary_engine.cylinders
    assert flown.airspeed_m_s == pytest.approx(session.snapshot().view.rotary.speed_m_s)
    session.show("blades")
    for _ in range(400):
        session.tick(1.0 / 60.0)
    assert heard(session.snapshot(), stage).rounds == session.snapshot().view.rounds > 0
    session.show("engine")
    assert heard(session.snapshot(), stage).airspeed_m_s == 0.0


def test_the_ignition_cut_of_the_maneuver_is_heard(session, stage):
    session.turning.perform("blip")
    fired = []
    for _ in range(6 * 60):
        session.tick(1.0 / 60.0)
        fired.append(heard(session.snapshot(), stage).fires)
    assert fired[0]
    assert fired[-1]
    assert 0.5 < fired.count(False) / 60.0 < 1.5


@pytest.mark.parametrize("hush", [{"sound": False}, {"paused": True}, {"overlay": "menu"}, {"attract": True}])
def test_nothing_is_heard_when_nothing_should_be(session, stage, hush):
    for name, value in hush.items():
        setattr(session, name, value)
    assert heard(session.snapshot(), stage) == SILENCE


def test_a_visitor_mutes_it_and_the_next_one_hears_it_again(session):
    from viz.stage.actions import Action

    session.act(Action.SOUND)
    assert not session.snapshot().sound
    session.restart()
    assert session.snapshot().sound
    for language in languages():
        assert say(language, "button.sound_on") != say(language, "button.sound_off")


def test_without_a_device_it_is_off_and_with_one_two_pieces_are_ready(monkeypatch):
    pygame.mixer.quit()
    monkeypatch.setenv("SDL_AUDIODRIVER", "nothing-of-that-name")
    off = Loudspeaker()
    off.tell(lambda: ENGINE)
    off.close()
    monkeypatch.setenv("SDL_AUDIODRIVER", "dummy")
    on = Loudspeaker()
    on.tell(lambda: ENGINE)
    assert pygame.mixer.Channel(0).get_busy()
    assert pygame.mixer.Channel(0).get_queue() is not None
    on.close()
    assert pygame.mixer.get_init() is None
