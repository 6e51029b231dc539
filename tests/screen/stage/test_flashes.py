"""No more than three flashes a second, measured on rendered frames: at every pace, and while visitors hammer."""

import random

import pygame
import pytest

from viz.stage.actions import KEYS
from viz.stage.flashes import BLUR_FADE, EXCHANGE_S, FULL_TRAVEL_S, Ration, blur, eased
from viz.stage.show import Setting, Show
from viz.stage.snapshot import Looks

SIZE = (960, 540)
RATE_HZ = 60
LENGTH_S = 2.0
CASES = [
    ("turning", 2),
    ("turning", 3),
    ("engine", 3),
    ("engine", 4),
    ("engine", 9),
    ("blades", 3),
    ("blades", 5),
    ("blades", 9),
]


def measured(meter, show, frames, before_each=lambda: None):
    surface = pygame.Surface(SIZE, depth=32)
    for _ in range(frames):
        before_each()
        show.frame(surface, 1.0 / RATE_HZ)
        meter.take(pygame.surfarray.pixels3d(surface)[::4, ::4])
    return meter


@pytest.mark.parametrize(("lamp_hz", "counted"), [(3, False), (4, True)])
def test_the_meter_counts_a_lamp_at_four_a_second_and_passes_one_at_three(flash_meter, counted_area, lamp_hz, counted):
    surface = pygame.Surface((64, 64), depth=32)
    for frame in range(2 * RATE_HZ):
        lit = (frame * 2 * lamp_hz // RATE_HZ) % 2
        surface.fill((255, 255, 255) if lit else (0, 0, 0))
        flash_meter.take(pygame.surfarray.array3d(surface))
    assert (flash_meter.worst > counted_area) is counted


@pytest.mark.slow
@pytest.mark.parametrize("contrast", ["normal", "high"])
@pytest.mark.parametrize(("scene", "pace"), CASES)
def test_no_scene_flashes_at_any_pace(stage, flash_meter, counted_area, scene, pace, contrast):
    script = "turn-right" if scene == "turning" else ""
    show = Show(stage, Setting(Looks(contrast=contrast), scene, script, buttons=True), SIZE)
    show.session.world.pace.place = pace
    assert measured(flash_meter, show, round(LENGTH_S * RATE_HZ)).worst < counted_area


@pytest.mark.slow
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_storm_of_keys_and_fingers_does_not_make_it_flash(stage, flash_meter, counted_area, seed):
    show = Show(stage, Setting(kiosk=True, seed=seed), SIZE)
    chance = random.Random(seed)

    def hammer():
        for _ in range(4):
            name = chance.choice(KEYS).name
            show.hands.press(name)
            show.hands.release(name)
            show.hands.touch(chance.randrange(20), chance.uniform(0, SIZE[0]), chance.uniform(0, SIZE[1]))
            show.hands.drag(chance.randrange(20), chance.uniform(0, SIZE[0]), chance.uniform(0, SIZE[1]))
            show.hands.lift(chance.randrange(20))

    assert measured(flash_meter, show, round(3 * LENGTH_S * RATE_HZ), hammer).worst < counted_area
    assert show.failures == 0


def test_a_ration_lets_under_three_exchanges_a_second_through():
    ration = Ration()
    granted = sum(ration.grant(step / 1000.0) for step in range(10_000))
    assert granted <= 10.0 / EXCHANGE_S + 1
    assert granted / 10.0 / 2.0 < 3.0


def test_an_eased_value_takes_half_a_second_for_its_range():
    share, steps = 0.0, 0
    while share < 1.0:
        share, steps = eased(share, 1.0, 0.01), steps + 1
    assert steps * 0.01 == pytest.approx(FULL_TRAVEL_S, abs=0.02)


def test_slow_parts_are_drawn_in_full_and_fast_ones_as_a_blur():
    assert blur(0.0) == blur(2.0) == 0.0
    assert blur(3.0) == blur(-40.0) == BLUR_FADE
