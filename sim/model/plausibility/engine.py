"""Engine speeds: full speed for the kind of engine, cruise and idle as shares of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark


def engine_speeds(examined: Examined) -> Iterator[Remark]:
    """Yield full, cruise and idle speeds that are unusual for the kind of engine."""
    for name, engine in examined.model.powerplants.items():
        key, full = f"powerplant.{name}", engine.full_speed_rad_s
        usual = limits.ROTARY_SPEED if engine.kind == "rotary" else limits.FIXED_SPEED
        kind = f"full speed of a {engine.kind} engine"
        yield from unusual(usual, full, key=f"{key}.speed", what=kind, cure="Check the speed and its unit.")
        for word, speed, share in (
            ("cruise", engine.cruise_speed_rad_s, limits.CRUISE_SHARE),
            ("idle", engine.idle_speed_rad_s, limits.IDLE_SHARE),
        ):
            yield from unusual(
                share,
                speed / full,
                key=f"{key}.{word}_speed",
                what=f"{word} speed over full speed",
                cure="Check both; they are speeds of the engine shaft.",
            )
