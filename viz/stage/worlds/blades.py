"""The gun behind the propeller: rounds released through the gear, seen through the disc, and counted."""

from __future__ import annotations

import math
from collections import deque
from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

from sim.live.gun import GunState, advance, reached_rounds_per_min, trips_no_cam
from sim.synchronizer.cam import Cam, Opening
from sim.synchronizer.timed_gun import fitted
from sim.units.convert import per_s
from sim.units.text import fixed
from viz.stage.dials import Range
from viz.stage.flashes import Ration, blur
from viz.stage.snapshot import BladesView, Caption
from viz.stage.worlds.paces import SLOW_MOTION, Pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.gun import Round
    from sim.live.scene_data import Stage
    from sim.synchronizer.timed_gun import TimedGun

KEPT = 360
"""Marks kept on the timing disc: the oldest make room, so that a day does not fill the memory."""
MOST_BLADES = 6
GEARS = ("interrupter", "impulse", "none")
FREE = Cam((Opening(0.0, math.tau),))
"""In the place of a cam where there is no gear: nothing holds the gun."""
LAMP_S = 0.12


def _ranges(gun: TimedGun) -> tuple[Range, ...]:
    line = gun.line
    whole_s = line.whole_delay_s(gun.spin_rad_s)
    return (
        Range("spin_rad_s", 0.25 * gun.spin_rad_s, 1.75 * gun.spin_rad_s, gun.spin_rad_s),
        Range("blades", 2, max(4, min(line.blades, MOST_BLADES)), line.blades, whole=True),
        Range("gun_rounds_per_min", 200.0, 1200.0, line.gun_rounds_per_min),
        Range("delay_s", line.flight_s, 2.0 * whole_s, whole_s),
        Range("delay_sd_s", 0.0, 0.004, gun.delay_sd_s),
    )


class BladesWorld(World):
    """The gun in slow motion. The cam stays as cut until a visitor cuts it anew or changes the number of blades."""

    def __init__(self, stage: Stage, seed: int) -> None:
        super().__init__(_ranges(stage.armed()), Pace(SLOW_MOTION, 0.02))
        self._stage, self._seed = stage, seed
        self._lamp_ration = Ration()
        self._now_s = 0.0
        self._begin()

    def _begin(self) -> None:
        self._gun = self._stage.armed()
        self._cut, self._gear = self._gun.cam, GEARS.index(self._gun.line.action)
        self._state = GunState()
        self._random = Random(self._seed)
        self._passed: deque[tuple[float, bool]] = deque(maxlen=KEPT)
        self._last: Round | None = None
        self._lamp_until_s = 0.0

    def reset(self) -> None:
        """Start again with an empty timing disc and the cam of the scenario."""
        super().reset()
        self._begin()

    def follow(self, elapsed_s: float) -> None:
        """Bring the dials' values to the gun; another number of blades needs another cam."""
        super().follow(elapsed_s)
        value = {name: dial.value for name, dial in self.dials.items()}
        line, blades = self._gun.line, int(value["blades"])
        gun = self._delayed(value["delay_s"], value["delay_sd_s"])
        line = replace(gun.line, natural_rate_per_s=per_s(value["gun_rounds_per_min"]))
        self._gun = replace(gun, line=line, spin_rad_s=value["spin_rad_s"])
        if blades != line.blades:
            self._gun = replace(self._gun, line=replace(line, blades=blades, impulses_per_rev=0))
            self.recut()

    def _delayed(self, delay_s: float, sd_s: float) -> TimedGun:
        """Return the gun with another delay at the scenario's speed, and another scatter of it.

        The parts of them that are a turn of the propeller grow with those that are a time: a link as much slower.
        """
        gun, own = self._gun, self._stage.armed()
        times = delay_s / own.line.whole_delay_s(own.spin_rad_s)
        line = replace(
            gun.line,
            delay_s=times * own.line.delay_s,
            delay_rad=times * own.line.delay_rad,
            leak=own.line.leak.times(times),
        )
        if own.delay_sd_s == 0.0:
            return replace(gun, line=line, scatter=replace(gun.scatter, delay_sd_s=sd_s))
        times = sd_s / own.delay_sd_s
        scatter = replace(
            gun.scatter, delay_sd_s=times * own.scatter.delay_sd_s, delay_sd_rad=times * own.scatter.delay_sd_rad
        )
        return replace(gun, line=line, scatter=scatter)

    def change_gear(self) -> None:
        """Go on from holding the gun back to giving it impulses, to no gear at all, and back."""
        self._gear = (self._gear + 1) % len(GEARS)
        if self.gear == "interrupter" and self._cut.dwell_rad == 0.0:  # that of an impulse holds a gun for good
            self.recut()
        self._put_gear()

    @property
    def gear(self) -> str:
        """How the gun is driven just now: ``interrupter``, ``impulse``, or ``none``."""
        return GEARS[self._gear]

    def recut(self) -> None:
        """Cut the cam for the settings of this moment and put in a clean timing disc; none if the gun never trips."""
        if trips_no_cam(self._gun):
            return
        line = replace(self._gun.line, action="interrupter")  # an impulse comes in the middle of the window
        self._cut = fitted(line, self._gun.spin_rad_s, self._gun.scatter).cam
        self._put_gear()
        self._passed.clear()

    def _put_gear(self) -> None:
        """Put the gear that is chosen between propeller and gun."""
        line = replace(self._gun.line, cam=self._cut, action="interrupter")
        if self.gear == "impulse":
            line = replace(line, action="impulse")
        elif self.gear == "none":
            line = replace(line, cam=FREE)
        self._gun = replace(self._gun, line=line)

    def advance(self, elapsed_s: float) -> None:
        """Let the gun run, in slow motion."""
        self._now_s += elapsed_s
        self._state = advance(self._state, self._gun, elapsed_s * self.pace.value, self._random)
        for fired in self._state.passed:
            self._passed.append((fired.pass_rad, fired.struck))
            self._last = fired
            if self._lamp_ration.grant(self._now_s):
                self._lamp_until_s = self._now_s + LAMP_S

    def step(self) -> None:
        """Let the gun run by one step."""
        self.advance(STEP_S)

    def view(self) -> BladesView:
        """Return the gun as it stands."""
        state = self._state
        return BladesView(
            gun=self._gun,
            bore_radius_m=self._stage.bore_radius_m,
            disc_radius_m=self._stage.figure.disc_radius_m,
            angle_rad=state.angle_rad,
            blur=blur(self._gun.spin_rad_s * self._gun.line.blades * self.pace.value / math.tau),
            flying=state.flying,
            time_s=state.time_s,
            passed=tuple(self._passed),
            last=self._last,
            holding=state.holding,
            lamp=self._now_s < self._lamp_until_s,
            reached_rounds_per_min=reached_rounds_per_min(state),
            rounds=state.rounds,
            holds=state.holds,
            strikes=state.strikes,
        )

    def caption(self) -> Caption:
        """Say what the gun is doing."""
        if not self._gun.windows_rad:
            return Caption("caption.no_opening")
        if self.gear != "none" and trips_no_cam(self._gun):
            return Caption("caption.never_trips")
        if self._last is not None and self._last.struck:
            return Caption("caption.struck_free" if self.gear == "none" else "caption.struck")
        if self.gear == "none":
            return Caption("caption.no_gear")
        if self.pace.value >= 0.1:
            return Caption("caption.blades_fast")
        if self._state.holding:
            return Caption("caption.holding")
        if self._state.flying:
            fired = self._state.flying[-1]
            lead_rad = self._gun.spin_rad_s * (fired.pass_s - fired.release_s)
            return Caption("caption.lead", {"lead": fixed("lead_rad", lead_rad, "si", 0)})
        return Caption("caption.cycling")
