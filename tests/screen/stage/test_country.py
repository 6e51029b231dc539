"""The country on the picture is the square of fields at the place that the eye looks at; the sky joins itself."""

import math

import numpy as np
import pygame
import pytest

from viz.stage.country.fields import BITS, LEVELS, PIXEL_M, PIXELS, fields
from viz.stage.country.paint import COARSE, paint_country
from viz.stage.country.sky import sky
from viz.stage.scenes.camera import TILT_RAD, chase
from viz.stage.shapes import Country, Rect

VIEW = Rect(0, 0, 600, 400)


def country(**changes):
    camera = chase(VIEW, changes.pop("heading", 0.4), 8.0)
    values = {"north_m": 812.0, "east_m": -333.0, "height_m": 90.0, "shadow": ()} | changes
    heading = math.atan2(camera.basis[0, 1], camera.basis[0, 0])
    return camera, Country(
        VIEW,
        values["north_m"],
        values["east_m"],
        values["height_m"],
        heading,
        TILT_RAD,
        camera.focal_px,
        camera.horizon_y,
        camera.centre,
        values["shadow"],
    )


def painted(shape, contrast="normal"):
    surface = pygame.Surface((600, 400), depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))
    paint_country(surface, shape, contrast)
    return pygame.surfarray.array3d(surface).astype(float)


def test_the_square_joins_itself():
    """Rows at opposite edges differ no more than neighbours inside do: nothing shows where squares meet."""
    square = np.stack([(fields("normal")[0].reshape(PIXELS, PIXELS) >> shift) & 255 for shift in (16, 8, 0)], axis=-1)
    inside = np.abs(np.diff(square.astype(float), axis=0)).mean()
    assert np.abs(square[0].astype(float) - square[-1]).mean() < 1.6 * inside
    assert np.abs(square[:, 0].astype(float) - square[:, -1]).mean() < 1.6 * inside
    assert [len(level) for level in fields("normal")] == [(PIXELS >> number) ** 2 for number in range(LEVELS)]
    assert 1 << BITS == PIXELS


@pytest.mark.parametrize("heading", [0.0, 0.4, 2.5, -1.7])
def test_the_ground_near_the_eye_is_that_of_its_place(heading):
    """Places on the ground through the camera's own projection, looked up in the square, mean of 200, near the eye."""
    camera, shape = country(heading=heading, height_m=40.0)
    picture = painted(shape)
    square = fields("normal")[0].reshape(PIXELS, PIXELS)
    random, off = np.random.default_rng(3), []
    for _ in range(400):
        away, aside = random.uniform(60.0, 110.0), random.uniform(-25.0, 25.0)
        step = np.array([away * math.cos(heading) - aside * math.sin(heading),
                         away * math.sin(heading) + aside * math.cos(heading), 40.0])  # fmt: skip
        x, y = camera.project(camera.seen((camera.eye_m + step)[None]))[0]
        if not (COARSE < x < 597 and COARSE < y < 397):
            continue
        north, east = (
            int((at + by) / PIXEL_M // 1) % PIXELS for at, by in ((shape.north_m, step[0]), (shape.east_m, step[1]))
        )
        ink = int(square[north, east])
        off.append(np.abs(picture[int(x), int(y)] - [(ink >> shift) & 255 for shift in (16, 8, 0)]).mean())
    elsewhere = np.abs(picture[:, 300:].reshape(-1, 3) - picture[:, 300:].reshape(-1, 3)[::-1]).mean()
    assert len(off) > 100
    assert np.median(off) < 0.6 * elsewhere


def test_the_horizon_is_level_with_haze_below_and_sky_above():
    _, shape = country()
    picture = painted(shape)
    horizon = round(shape.horizon_y)
    above, below = picture[:, horizon - 12], picture[:, horizon + 9]
    assert above.mean(axis=0)[2] > below.mean(axis=0)[2]
    assert below.std() < picture[:, 380].std()


def test_a_shadow_darkens_the_ground_where_it_falls():
    _, shape = country()
    dark = painted(shape._replace(shadow=([(280.0, 330.0), (330.0, 330.0), (330.0, 360.0), (280.0, 360.0)],)))
    light = painted(shape)
    assert dark[290:320, 338:352].mean() < 0.75 * light[290:320, 338:352].mean()
    assert np.abs(dark[:250] - light[:250]).max() == 0.0


def test_the_sky_joins_itself_and_high_contrast_is_dark():
    around = sky(2400, 120, "normal")
    colours = pygame.surfarray.array3d(around).astype(float)
    assert np.abs(colours[0] - colours[-1]).mean() < 6.0
    assert painted(country()[1], "high").mean() < 0.45 * painted(country()[1]).mean()
