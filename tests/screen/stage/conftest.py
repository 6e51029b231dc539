"""The bundled scenario on the stage, built once; and a meter that counts flashes as WCAG 2.3.1 defines them."""

import os
from collections import deque

import numpy as np
import pytest
from airplanes import BIPLANE

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")

STEP = 0.10
"""Change of relative luminance that counts, where the darker of the two is below `DARK`."""
DARK = 0.80
AREA_SHARE = 0.25 * 341 * 256 / (1024 * 768)
"""Share of the picture that must flash to count: a quarter of ten degrees of the visual field."""


def relative_luminance(rgb):
    """Return the relative luminance, 0..1, of colours in the last axis, 0..255."""
    share = np.asarray(rgb, dtype=np.float32) / 255.0
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)


TABLE = relative_luminance(np.repeat(np.arange(256)[:, None], 3, axis=1))


class FlashMeter:
    """Takes frames one after another; `worst` is the largest share of the picture with more than three flashes."""

    def __init__(self, rate_hz):
        self._window = deque(maxlen=rate_hz)
        self._low = self._high = None
        self.worst = 0.0
        self.most_flashes = 0

    def take(self, rgb):
        """Look at one frame, an array (width, height, 3) of 0..255."""
        weights = np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)
        light = TABLE[rgb] @ weights
        if self._low is None:
            self._low, self._high = light.copy(), light.copy()
            self._rising = np.zeros(light.shape, dtype=bool)
            self._falling = np.zeros(light.shape, dtype=bool)
            self._count = np.zeros(light.shape, dtype=np.int16)
            return
        self._low, self._high = np.minimum(self._low, light), np.maximum(self._high, light)
        up = (light - self._low >= STEP) & (self._low < DARK)
        down = (self._high - light >= STEP) & (light < DARK)
        turned = (up & ~self._rising) | (down & ~self._falling)
        self._rising = np.where(up, True, np.where(down, False, self._rising))
        self._falling = np.where(down, True, np.where(up, False, self._falling))
        self._high = np.where(up | down, light, self._high)
        self._low = np.where(up | down, light, self._low)
        if len(self._window) == self._window.maxlen:
            self._count -= self._window[0]
        self._window.append(turned)
        self._count += turned
        flashes = self._count // 2
        self.most_flashes = max(self.most_flashes, int(flashes.max()))
        self.worst = max(self.worst, float(np.mean(self._count > 6)))


@pytest.fixture(scope="session")
def stage():
    from sim.live.scene_data import stage
    from sim.model.model import model

    return stage(model(BIPLANE))


@pytest.fixture
def session(stage):
    """Return a session in its first scene."""
    from viz.stage.session import Session

    return Session(stage)


@pytest.fixture
def gun(session):
    """Return the world of the gun scene, which is on."""
    session.show("blades")
    return session.blades


@pytest.fixture
def flash_meter():
    """Return a meter for frames at 60 a second."""
    return FlashMeter(60)


@pytest.fixture
def counted_area():
    """Return the share of the picture that must flash to count."""
    return AREA_SHARE
