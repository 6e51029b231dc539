"""Engine: full speed for its kind, cruise and idle as shares of it, mass for its power."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual

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


def engine_mass(examined: Examined) -> Iterator[Remark]:
    """Yield engines that are unusually light or heavy for their power."""
    for name, engine in examined.model.powerplants.items():
        least, most = (share * engine.power_w for share in limits.ENGINE_MASS_OVER_POWER)
        yield from unusual(
            Usual(least, most, limits.PRACTICE, "mass_kg"),
            engine.mass_kg,
            key=f"powerplant.{name}.mass",
            what="the mass",
            cure="That is for its power: check both and their units.",
        )
