"""The gun behind the propeller: rounds released through the gear, seen through the disc, and counted."""

from __future__ import annotations

import math
from collections import deque
from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

from sim.live.gun import GunState, advance, delay_s, reached_rounds_per_min, trips_no_cam, wait_rad
from sim.synchronizer.cam import Cam, Opening
from sim.synchronizer.strike_chance import untimed_chance
from sim.synchronizer.timed_gun import fitted
from sim.units.convert import per_s
from viz.stage.dials import Range
from viz.stage.flashes import blur
from viz.stage.gun_states import FAST_PACE, gun_state
from viz.stage.snapshot import BladesView, Caption
from viz.stage.worlds.hold import Hold
from viz.stage.worlds.paces import SLOW_MOTION, Pace
from viz.stage.worlds.slow import AFTER, FLIGHT_S, eased, wanted_pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.gun import Round
    from sim.live.scene_data import Stage
    from sim.synchronizer.timed_gun import TimedGun

KEPT = 360
"""Marks kept on the timing disc: the oldest make room, so that a day does not fill the memory."""
MOST_BLADES = 6
BEFORE = 0.75
"""How far before a blade a round would pass at the start, over the angle that a blade blocks."""
FREE = Cam((Opening(0.0, math.tau),))
"""In the place of a cam where there is no gear: nothing holds the gun."""


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
        self._now_s = 0.0
        self._begin()

    def _begin(self) -> None:
        self._gun = self._stage.armed()
        self._cut, self.gear = self._gun.cam, str(self._gun.line.action)
        self._state = _before_a_blade(self._gun)
        self._random = Random(self._seed)
        self._passed: deque[tuple[float, bool]] = deque(maxlen=KEPT)
        self._last: Round | None = None
        self._again_s: float | None = None
        self._wait_s = 0.0
        self._pace = self._wanted = self.pace.value
        self._hand: bool | None = None  # before a hand has touched the trigger, the gun shows what it does
        self._settings = False
        self._hold = Hold()

    def reset(self) -> None:
        """Start again with an empty timing disc and the cam of the scenario."""
        super().reset()
        self._begin()

    def follow(self, elapsed_s: float) -> None:
        """Bring the dials' values to the gun; another number of blades needs another cam."""
        super().follow(elapsed_s)
        self._now_s += elapsed_s
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
        """Take the gear off, or put that of the scenario back; then a round that met a blade is shown once more."""
        back = self.gear == "none"
        self.gear = str(self._stage.armed().line.action) if back else "none"
        self._put_gear()
        if back and self._last is not None and self._last.struck and self._again_s is None:
            self.replay()

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
        cut = FREE if self.gear == "none" else self._cut
        action = "interrupter" if self.gear == "none" else self._stage.armed().line.action
        self._gun = replace(self._gun, line=replace(self._gun.line, cam=cut, action=action))

    def pull(self, trigger: bool) -> None:
        """Pull the trigger, or let go of it; until a hand has pulled it the gun fires to show what it does."""
        if trigger or self._hand:
            self._hand = trigger

    def toggle_trigger(self) -> None:
        """Pull the trigger for as long as it takes to be told otherwise."""
        self._hand = not self._trigger

    @property
    def _trigger(self) -> bool:
        return self._hand is not False

    def replay(self) -> None:
        """Show the round that passed last once more, slower, or leave off; nothing where none has passed."""
        again = self._again_s is None and self._last is not None
        self._again_s = self._last.release_s if again and self._last else None

    def toggle_settings(self) -> None:
        """Put the dials in the place of trigger and gear, or back."""
        self._settings = not self._settings

    @property
    def shown_pace(self) -> float:
        """The pace that is being aimed at, to two digits: the one on the way there would only flicker."""
        return 1.0 / float(f"{1.0 / self._wanted:.2g}")

    def advance(self, elapsed_s: float) -> None:
        """Let the gun run, in slow motion, and slower where there is more to see."""
        if self._again_s is not None and self._last is not None:
            self._once_more(self._last, elapsed_s)
            elapsed_s = 0.0  # of the gun's own time none goes by, but at the end it obeys the trigger of now
        if self._again_s is None:
            self._go_on(elapsed_s)
        self._hold.take(self._due(), self._now_s)

    def _go_on(self, elapsed_s: float) -> None:
        gun, picked = self._gun, self.pace.value
        if not self._state.time_s:  # a gun that begins with waiting: what is said of that is true for long enough
            self._run(gun, 0.0)
            self._pace = self._wanted_pace(gun)
        self._wanted = self._wanted_pace(gun)
        self._pace = eased(self._pace, self._wanted, elapsed_s) if picked < FAST_PACE else picked
        self._run(gun, elapsed_s * self._pace)

    def _wanted_pace(self, gun: TimedGun) -> float:
        picked, passages_hz = self.pace.value, gun.spin_rad_s * gun.line.blades / math.tau
        if picked >= FAST_PACE:
            return picked
        return wanted_pace(
            picked, self._state, wait_s=self._wait_s, last=self._last, passages_hz=passages_hz, steady=self.steady
        )

    def _run(self, gun: TimedGun, gun_s: float) -> None:
        """Let time of the gun's own pass [s]."""
        waited = self._state.holding
        self._state = advance(self._state, gun, gun_s, self._random, trigger=self._trigger)
        if self._state.holding and not waited:
            self._wait_s = wait_rad(gun, self._state.angle_rad) / gun.spin_rad_s
        for fired in self._state.passed:
            self._passed.append((fired.pass_rad, fired.struck))
            self._last = fired

    def _once_more(self, last: Round, elapsed_s: float) -> None:
        """Go on in the round that is seen again: from muzzle to disc half as fast as the first time."""
        flight_s = last.pass_s - last.muzzle_s
        self._wanted = self._pace = min(self.pace.value, 0.5 * max(flight_s, 1e-4) / FLIGHT_S)
        at_s = self._again_s or last.release_s
        fast = 8.0 if at_s < last.muzzle_s else 1.0 if at_s < last.pass_s else 2.0
        self._again_s = at_s + fast * elapsed_s * self._pace
        if self._again_s > last.pass_s + AFTER * flight_s:
            self._again_s = None

    def step(self) -> None:
        """Let the gun run by one step."""
        self.advance(STEP_S)

    def view(self) -> BladesView:
        """Return the gun as it stands, or as it stood where a round is seen once more."""
        state, gun = self._state, self._gun
        if self._again_s is not None and self._last is not None:
            state = _stood(state, self._last, self._again_s, gun.spin_rad_s)
        return BladesView(
            gun=gun,
            bore_radius_m=self._stage.bore_radius_m,
            disc_radius_m=self._stage.figure.disc_radius_m,
            blade=self._stage.rotary_engine.blade,
            angle_rad=state.angle_rad,
            blur=blur(gun.spin_rad_s * gun.line.blades * self._pace / math.tau),
            flying=state.flying,
            time_s=state.time_s,
            passed=tuple(self._passed),
            last=self._last if self._last is None or self._last.pass_s <= state.time_s else None,
            holding=state.holding,
            arrival_rad=self._arrival_rad(state),
            ready_s=state.ready_s,
            trigger=self._trigger,
            replay=self._again_s is not None,
            settings=self._settings,
            strike_share=self._stage.strike_share,
            untimed_share=untimed_chance(self._stage.armed()),
            reached_rounds_per_min=reached_rounds_per_min(state),
            rounds=state.rounds,
            holds=state.holds,
            strikes=state.strikes,
        )

    def _arrival_rad(self, state: GunState) -> float | None:
        gun = self._gun
        if state.flying:
            return state.angle_rad + gun.spin_rad_s * (state.flying[0].pass_s - state.time_s)
        if trips_no_cam(gun) and not gun.never_shuts:
            return None
        return state.angle_rad + gun.spin_rad_s * delay_s(gun)

    def caption(self) -> Caption:
        """Say what the gun is doing, a sentence at a time."""
        return self._hold.standing or self._due()

    def _due(self) -> Caption:
        if not self._gun.windows_rad:
            return Caption("caption.no_opening")
        if self.gear != "none" and trips_no_cam(self._gun):
            return Caption("caption.never_trips")
        if self._again_s is not None:
            return Caption("caption.replay_struck" if self._last and self._last.struck else "caption.replay")
        if self.pace.value >= FAST_PACE:
            return Caption("caption.blades_fast")
        view = self.view()
        doing = gun_state(view)
        if doing == "fires":
            return Caption("caption.lead_free" if self.gear == "none" else "caption.lead")
        if doing == "waits":
            return Caption("caption.holding")
        return self._between(view)

    def _between(self, view: BladesView) -> Caption:
        """Say how the round that passed last fared, for as long as the gun loads; and then what to do."""
        free = self.gear == "none"
        if view.last is None or gun_state(view) == "rests":
            return Caption("caption.rest_free" if free else "caption.rest")
        if view.last.struck:
            return Caption("caption.struck_free" if free else "caption.struck")
        return Caption("caption.through_free" if free else "caption.through")


def _before_a_blade(gun: TimedGun) -> GunState:
    """Return the start: a round that is released now would pass just before a blade, so that a gear has to wait."""
    if trips_no_cam(gun):
        return GunState()
    return GunState(angle_rad=(-gun.spin_rad_s * delay_s(gun) - BEFORE * gun.line.blocked_rad) % math.tau)


def _stood(state: GunState, last: Round, time_s: float, spin_rad_s: float) -> GunState:
    """Return the gun as it stood at a time of a round that has passed."""
    return replace(
        state,
        time_s=time_s,
        angle_rad=last.pass_rad - spin_rad_s * (last.pass_s - time_s),
        flying=(last,) if time_s < last.pass_s else (),
        holding=False,
    )
