"""Timed guns made from plain values in one row, for the benches and the tests of bursts."""

from dataclasses import replace

from sim.synchronizer.cam import even
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.timed_gun import Scatter, TimedGun

SCATTER = Scatter.__slots__


def timed_gun(*, spin_rad_s, opens_rad, dwell_rad, cycle_s, **values):
    """Return the gun with these values, its cycle in the place of its rate, its windows even."""
    scatter = Scatter(**{name: values.pop(name) for name in SCATTER if name in values})
    line = GunLine((spin_rad_s,), natural_rate_per_s=1.0 / cycle_s, **values)
    count, turns = line.openings.as_integer_ratio()
    return TimedGun(replace(line, cam=even(opens_rad, dwell_rad, count, turns=turns)), spin_rad_s, scatter)


def changed(gun, **values):
    """Return the gun with some of its values changed."""
    line = {
        name: getattr(gun.line, name) for name in ("blades", "impulses_per_rev", "blocked_rad", "margin_rad", "delay_s")
    }
    scatter = {name: getattr(gun.scatter, name) for name in SCATTER}
    whole = {"spin_rad_s": gun.spin_rad_s, "opens_rad": gun.opens_rad, "dwell_rad": gun.cam.windows[0].dwell_rad}
    return timed_gun(**{**line, **scatter, **whole, "cycle_s": gun.line.cycle_s, **values})
