"""Pictures and films of the stage without a window: exact frame times, the same frames for the same seed."""

from __future__ import annotations

import io
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import pygame

from sim.errors import refuse
from viz.files.atomic import write_whole
from viz.stage.show import Setting, Show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.live.scene_data import Stage

GIF_RATES = (10, 20, 25, 50)
"""Frames a second that a GIF can keep exactly: it counts hundredths of a second."""
ENDINGS = (".gif", ".mp4", ".png")
STEP_HZ = 100


def frames(
    stage: Stage, setting: Setting, size: tuple[int, int], *, seconds: float, rate_hz: int
) -> Iterator[pygame.Surface]:
    """Yield the frames of a recording, one every 1/`rate_hz` seconds; the surface is drawn over for the next one."""
    show = Show(stage, setting, size)
    surface = pygame.Surface(size, depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))
    for _ in range(max(1, round(seconds * rate_hz))):
        show.paint(surface)
        yield surface
        show.tick(1.0 / rate_hz)


def snapshot(stage: Stage, setting: Setting, size: tuple[int, int], path: str, *, at_s: float, force: bool) -> Path:
    """Write one picture of the moment `at_s` after the start [s].

    Raises
    ------
    InputError
        When the file is not a ``.png``, or is there and `force` is not given.
    """
    if Path(path).suffix.lower() != ".png":
        refuse("--snapshot", f'a picture ends in .png, got "{path}"')
    return write_whole(path, picture(stage, setting, size, at_s=at_s), force=force)


def picture(stage: Stage, setting: Setting, size: tuple[int, int], *, at_s: float) -> bytes:
    """Return one picture of the moment `at_s` after the start [s], as the bytes of a PNG file."""
    show = Show(stage, setting, size)
    for _ in range(round(at_s * STEP_HZ)):
        show.tick(1.0 / STEP_HZ)
    surface = pygame.Surface(size, depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))
    show.paint(surface)
    return _png(surface)


def record(
    stage: Stage, setting: Setting, size: tuple[int, int], path: str, *, seconds: float, rate_hz: int, force: bool
) -> Path:
    """Write a film as GIF or MP4, or as numbered PNG files ``name-0001.png`` beside each other.

    Raises
    ------
    InputError
        When the ending is another one, the rate does not suit it, the file is there, or the extra for MP4 is missing.
    """
    ending = Path(path).suffix.lower()
    if ending not in ENDINGS:
        refuse("--record", f'a recording ends in .gif, .mp4 or .png, got "{path}"')
    if ending == ".gif" and rate_hz not in GIF_RATES:
        refuse("--rate", f'a GIF keeps 10, 20, 25 or 50 frames a second, got "{rate_hz}"')
    taken = frames(stage, setting, size, seconds=seconds, rate_hz=rate_hz)
    if ending == ".png":
        return _record_png(taken, Path(path), force=force)
    if ending == ".gif":
        return write_whole(path, _gif(taken, rate_hz), force=force)
    return _record_mp4(taken, size, path, rate_hz, force=force)


def _png(surface: pygame.Surface) -> bytes:
    stream = io.BytesIO()
    pygame.image.save(surface, stream, "frame.png")
    return stream.getvalue()


def _record_png(taken: Iterator[pygame.Surface], path: Path, *, force: bool) -> Path:
    written = path
    for place, surface in enumerate(taken, start=1):
        written = write_whole(path.with_name(f"{path.stem}-{place:04d}.png"), _png(surface), force=force)
    return written


def _gif(taken: Iterator[pygame.Surface], rate_hz: int) -> bytes:
    """Return the film with one palette for all frames, so that nothing shimmers between them."""
    from PIL import Image

    raw = [Image.frombytes("RGB", frame.get_size(), pygame.image.tobytes(frame, "RGB")) for frame in taken]
    palette = raw[len(raw) // 2].quantize(colors=255, dither=Image.Dither.NONE)
    films = [picture.quantize(palette=palette, dither=Image.Dither.NONE) for picture in raw]
    stream = io.BytesIO()
    films[0].save(
        stream, "GIF", save_all=True, append_images=films[1:], duration=1000 // rate_hz, loop=0, optimize=False
    )
    return stream.getvalue()


def _record_mp4(
    taken: Iterator[pygame.Surface], size: tuple[int, int], path: str, rate_hz: int, *, force: bool
) -> Path:
    try:
        import imageio_ffmpeg
    except ModuleNotFoundError:
        refuse("--record", 'an .mp4 needs the extra "film": pip install "whirlgate[film]"; .gif and .png do not')
    with tempfile.TemporaryDirectory() as folder:
        draft = Path(folder) / "film.mp4"
        writer = imageio_ffmpeg.write_frames(
            str(draft), size, fps=rate_hz, macro_block_size=2, quality=8, output_params=["-bitexact", "-threads", "1"]
        )
        writer.send(None)
        for surface in taken:
            writer.send(pygame.image.tobytes(surface, "RGB"))
        writer.close()
        return write_whole(path, draft.read_bytes(), force=force)
