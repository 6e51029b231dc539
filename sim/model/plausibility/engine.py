"""Engine: full speed for its kind, cruise and idle as shares of it, mass for its power."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Remark, Usual, amount, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined


def engine_speeds(examined: Examined) -> Iterator[Remark]:
    """Yield full, cruise and idle speeds that are unusual for the kind of engine."""
    for name, engine in examined.model.powerplants.items():
        key, full = f"powerplant.{name}", engine.full_speed_rad_s
        usual = limits.ROTARY_SPEED if engine.kind == "rotary" else limits.FIXED_SPEED
        kind = "full speed of a rotary engine" if engine.kind == "rotary" else "full speed of a fixed engine"
        yield from unusual(usual, full, key=f"{key}.speed", what=kind, cure="Check the speed and its unit.")
        for word, what, speed, share in (
            ("cruise", "cruise speed over full speed", engine.cruise_speed_rad_s, limits.CRUISE_SHARE),
            ("idle", "idle speed over full speed", engine.idle_speed_rad_s, limits.IDLE_SHARE),
        ):
            yield from unusual(
                share,
                speed / full,
                key=f"{key}.{word}_speed",
                what=what,
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


def behind_its_propeller(examined: Examined) -> Iterator[Remark]:
    """Yield engines ahead of the propeller that they turn, where that lies ahead of the firewall."""
    mount = examined.scenario.mount
    firewall_m = None if mount is None else mount.firewall_m
    for name, engine in examined.model.powerplants.items():
        disc_m = engine.propeller.station_m
        if disc_m is None or engine.station_m is None or firewall_m is None or disc_m > firewall_m:
            continue
        if engine.station_m < disc_m:
            key = f"powerplant.{name}.station"
            yield Remark(
                key,
                told(
                    "{key}: the engine lies {far} ahead of its propeller; usual is behind it. Check the station and "
                    "{other}; aft of the datum is positive.",
                    key=key,
                    far=amount("ahead_m", disc_m - engine.station_m),
                    other=f"powerplant.{name}.propeller.station",
                ),
            )
