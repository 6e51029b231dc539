"""Pictures and films: exact times, the same bytes for the same seed, and plain words for what cannot be written."""

import io

import pygame
import pytest
from PIL import Image

from sim.errors import InputError
from viz.stage.recorder import frames, record, snapshot
from viz.stage.show import Setting

SIZE = (960, 540)
SETTING = Setting(scene="blades", seed=3, buttons=True)


def test_the_same_seed_is_the_same_frames(stage):
    runs = [
        [pygame.image.tobytes(frame, "RGB") for frame in frames(stage, SETTING, SIZE, seconds=0.4, rate_hz=10)]
        for _ in range(2)
    ]
    assert runs[0] == runs[1]
    assert len(set(runs[0])) == 4


def test_a_gif_keeps_every_frame_for_its_time(stage, tmp_path):
    path = record(stage, SETTING, SIZE, str(tmp_path / "film.gif"), seconds=0.6, rate_hz=10, force=False)
    with Image.open(path) as film:
        durations = []
        for place in range(film.n_frames):
            film.seek(place)
            durations.append(film.info["duration"])
    assert durations == [100] * 6


def test_a_gif_is_the_same_bytes_twice(stage, tmp_path):
    films = [
        record(stage, SETTING, SIZE, str(tmp_path / name), seconds=0.2, rate_hz=10, force=False).read_bytes()
        for name in ("one.gif", "two.gif")
    ]
    assert films[0] == films[1]


def test_frames_are_numbered_from_one(stage, tmp_path):
    record(stage, SETTING, SIZE, str(tmp_path / "frame.png"), seconds=0.3, rate_hz=10, force=False)
    assert sorted(path.name for path in tmp_path.iterdir()) == [f"frame-000{number}.png" for number in (1, 2, 3)]
    with Image.open(tmp_path / "frame-0001.png") as picture:
        assert picture.size == SIZE


def test_a_picture_of_a_moment_is_the_stage_at_that_moment(stage, tmp_path):
    path = snapshot(stage, SETTING, SIZE, str(tmp_path / "moment.png"), at_s=0.3, force=False)
    same = list(frames(stage, SETTING, SIZE, seconds=0.31, rate_hz=100))[-1]
    drawn = pygame.image.load(io.BytesIO(path.read_bytes()))
    assert pygame.image.tobytes(drawn, "RGB") == pygame.image.tobytes(same, "RGB")


@pytest.mark.parametrize(
    ("name", "rate_hz", "words"),
    [
        ("film.avi", 25, '--record: a recording ends in .gif, .mp4 or .png, got "{path}"'),
        ("film.gif", 30, '--rate: a GIF keeps 10, 20, 25 or 50 frames a second, got "30"'),
    ],
)
def test_what_cannot_be_recorded_is_said(stage, tmp_path, name, rate_hz, words):
    path = str(tmp_path / name)
    with pytest.raises(InputError) as told:
        record(stage, SETTING, SIZE, path, seconds=0.1, rate_hz=rate_hz, force=False)
    assert str(told.value) == words.format(path=path)


def test_a_film_that_is_there_is_kept(stage, tmp_path):
    path = tmp_path / "film.gif"
    path.write_bytes(b"mine")
    with pytest.raises(InputError) as told:
        record(stage, SETTING, SIZE, str(path), seconds=0.1, rate_hz=10, force=False)
    assert str(told.value) == f"{path}: is already there; give --force to replace it"
    assert path.read_bytes() == b"mine"


def test_an_mp4_is_a_film_or_a_word_about_the_extra(stage, tmp_path):
    path = str(tmp_path / "film.mp4")
    try:
        import imageio_ffmpeg
    except ModuleNotFoundError:
        with pytest.raises(InputError) as told:
            record(stage, SETTING, SIZE, path, seconds=0.2, rate_hz=10, force=False)
        assert str(told.value) == (
            '--record: an .mp4 needs the extra "film": pip install "whirlgate[film]"; .gif and .png do not'
        )
        return
    record(stage, SETTING, SIZE, path, seconds=0.5, rate_hz=10, force=False)
    count, seconds = imageio_ffmpeg.count_frames_and_secs(path)
    assert (count, seconds) == (5, pytest.approx(0.5, abs=0.02))
