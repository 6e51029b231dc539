"""The guns behind the propeller: rounds released through the gear, seen through the disc, and counted."""

from __future__ import annotations

import math
from collections import deque
from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

from sim.live.gun import GunState, delay_s, reached_rounds_per_min, trips_no_cam
from sim.synchronizer.strike_chance import untimed_chance
from sim.units.convert import per_s
from viz.stage.dials import Range
from viz.stage.flashes import blur
from viz.stage.gun_states import FAST_PACE, doing, latest
from viz.stage.snapshot import BladesView, Caption
from viz.stage.worlds.barrel import Barrel
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
    """One gun or two in slow motion. The cams stay as cut until a visitor cuts them anew or changes the blades."""

    def __init__(self, stage: Stage, seed: int) -> None:
        super().__init__(_ranges(stage.armed()), Pace(SLOW_MOTION, 0.02))
        self._stage, self._seed = stage, seed
        self._now_s = 0.0
        self._begin()

    def _begin(self) -> None:
        first, second = self._stage.armed(), self._stage.second
        self.gear = str(first.line.action)
        self._random = Random(self._seed)
        begin_rad = _before_a_blade(first)
        self._barrels = [Barrel(first, self._stage.bore_radius_m, begin_rad, self._random)]
        if second:
            there_rad = begin_rad + first.line.bore_turn_rad - second.gun.line.bore_turn_rad
            self._barrels.append(Barrel(second.gun, second.bore_radius_m, there_rad, self._random))
        self._passed: deque[tuple[float, bool]] = deque(maxlen=KEPT)
        self._last: Barrel | None = None
        self._again_s: float | None = None
        self._pace = self._wanted = self.pace.value
        self._hand: bool | None = None  # before a hand has touched the trigger, the gun shows what it does
        self._settings = False
        self._hold = Hold()

    @property
    def _gun(self) -> TimedGun:
        return self._barrels[0].gun

    def reset(self) -> None:
        """Start again with an empty timing disc and the cams of the scenario."""
        super().reset()
        self._begin()

    def follow(self, elapsed_s: float) -> None:
        """Bring the dials' values to the guns; another number of blades needs other cams."""
        super().follow(elapsed_s)
        self._now_s += elapsed_s
        value = {name: dial.value for name, dial in self.dials.items()}
        own, blades = self._stage.armed(), int(value["blades"])
        for barrel in self._barrels:
            both = own.delay_sd_s > 0.0 and barrel.own.delay_sd_s > 0.0
            barrel.follow(
                spin_rad_s=value["spin_rad_s"],
                rate_per_s=per_s(value["gun_rounds_per_min"]),
                delay_times=value["delay_s"] / own.line.whole_delay_s(own.spin_rad_s),
                delay_sd_s=value["delay_sd_s"] * (barrel.own.delay_sd_s / own.delay_sd_s if both else 1.0),
            )
        if blades != self._gun.line.blades:
            for barrel in self._barrels:
                barrel.put_blades(blades)
            self.recut()

    def change_gear(self) -> None:
        """Take the gear off, or put that of the scenario back; then a round that met a blade is shown once more."""
        back = self.gear == "none"
        self.gear = str(self._stage.armed().line.action) if back else "none"
        for barrel in self._barrels:
            barrel.put_gear(geared=back)
        shown = self._last.last if self._last else None
        if back and shown and shown.struck and self._again_s is None:
            self.replay()

    def recut(self) -> None:
        """Cut the cams for the settings of this moment and put in a clean timing disc; none if a gun never trips."""
        for barrel in self._barrels:
            if barrel.recut(geared=self.gear != "none"):
                self._passed.clear()

    def pull(self, trigger: bool) -> None:
        """Pull the trigger, or let go of it; until a hand has pulled it the guns fire to show what they do."""
        if trigger or self._hand:
            self._hand = trigger

    def toggle_trigger(self) -> None:
        """Pull the trigger for as long as it takes to be told otherwise."""
        self._hand = not self._trigger

    @property
    def _trigger(self) -> bool:
        return self._hand is not False

    @property
    def _seen_again(self) -> tuple[Barrel, Round] | None:
        """The gun whose round passed last, and that round."""
        return (self._last, self._last.last) if self._last and self._last.last else None

    def replay(self) -> None:
        """Show the round that passed last once more, slower, or leave off; nothing where none has passed."""
        again = self._seen_again if self._again_s is None else None
        self._again_s = again[1].release_s if again else None

    def toggle_settings(self) -> None:
        """Put the dials in the place of trigger and gear, or back."""
        self._settings = not self._settings

    @property
    def shown_pace(self) -> float:
        """The pace that is being aimed at, to two digits: the one on the way there would only flicker."""
        return 1.0 / float(f"{1.0 / self._wanted:.2g}")

    def advance(self, elapsed_s: float) -> None:
        """Let the guns run, in slow motion, and slower where there is more to see."""
        if self._again_s is not None and self._seen_again:
            self._once_more(self._seen_again[1], elapsed_s)
            elapsed_s = 0.0  # of the guns' own time none goes by, but at the end they obey the trigger of now
        if self._again_s is None:
            self._go_on(elapsed_s)
        self._hold.take(self._due(), self._now_s)

    def _go_on(self, elapsed_s: float) -> None:
        picked = self.pace.value
        if not self._barrels[0].state.time_s:  # guns that begin with waiting: what is said of that is true long enough
            self._run(0.0)
            self._pace = self._wanted_pace()
        self._wanted = self._wanted_pace()
        self._pace = eased(self._pace, self._wanted, elapsed_s) if picked < FAST_PACE else picked
        self._run(elapsed_s * self._pace)

    def _wanted_pace(self) -> float:
        """Return the pace of the gun of which most is to be seen just now."""
        picked, passages_hz = self.pace.value, self._gun.spin_rad_s * self._gun.line.blades / math.tau
        if picked >= FAST_PACE:
            return picked
        return min(
            wanted_pace(
                picked, each.state, wait_s=each.wait_s, last=each.last, passages_hz=passages_hz, steady=self.steady
            )
            for each in self._barrels
        )

    def _run(self, gun_s: float) -> None:
        """Let time of the guns' own pass [s]."""
        passed = [(fired, each) for each in self._barrels for fired in each.run(gun_s, trigger=self._trigger)]
        for fired, barrel in sorted(passed, key=lambda one: one[0].pass_s):
            self._passed.append((fired.pass_rad, fired.struck))
            self._last = barrel

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
        """Let the guns run by one step."""
        self.advance(STEP_S)

    def view(self) -> BladesView:
        """Return the guns as they stand, or as they stood where a round is seen once more."""
        views = [self._view(barrel) for barrel in self._barrels]
        views[0] = replace(views[0], passed=tuple(self._passed), second=views[1] if len(views) > 1 else None)
        return views[0]

    def _view(self, barrel: Barrel) -> BladesView:
        state, gun = self._shown(barrel), barrel.gun
        return BladesView(
            gun=gun,
            bore_radius_m=barrel.bore_radius_m,
            disc_radius_m=self._stage.figure.disc_radius_m,
            blade=self._stage.rotary_engine.blade,
            angle_rad=state.angle_rad,
            blur=blur(gun.spin_rad_s * gun.line.blades * self._pace / math.tau),
            flying=state.flying,
            time_s=state.time_s,
            passed=(),
            last=barrel.last_before(state.time_s),
            holding=state.holding,
            arrival_rad=barrel.arrival_rad(state),
            ready_s=state.ready_s,
            trigger=self._trigger,
            replay=self._again_s is not None,
            settings=self._settings,
            strike_share=self._stage.strike_share,
            untimed_share=untimed_chance(self._stage.armed()),
            reached_rounds_per_min=reached_rounds_per_min(state),
            rounds=state.rounds,
            through=state.rounds - len(barrel.state.flying) - state.strikes,
            holds=state.holds,
            strikes=state.strikes,
        )

    def _shown(self, barrel: Barrel) -> GunState:
        """Return a gun as it stands, or as it stood where a round of it or of the other is seen once more."""
        if self._again_s is None or not self._seen_again:
            return barrel.state
        of, last = self._seen_again
        angle_rad = last.pass_rad - barrel.gun.spin_rad_s * (last.pass_s - self._again_s)
        return barrel.stood(self._again_s, angle_rad + of.gun.line.bore_turn_rad - barrel.gun.line.bore_turn_rad)

    def caption(self) -> Caption:
        """Say what the guns are doing, a sentence at a time."""
        return self._hold.standing or self._due()

    def _due(self) -> Caption:
        if not any(each.gun.windows_rad for each in self._barrels):
            return Caption("caption.no_opening")
        if self.gear != "none" and all(trips_no_cam(each.gun) for each in self._barrels):
            return Caption("caption.never_trips")
        if self._again_s is not None and self._seen_again:
            return Caption("caption.replay_struck" if self._seen_again[1].struck else "caption.replay")
        if self.pace.value >= FAST_PACE:
            return Caption("caption.blades_fast")
        view = self.view()
        done = doing(view)
        if done == "fires":
            return Caption("caption.lead_free" if self.gear == "none" else "caption.lead")
        if done == "waits":
            return Caption("caption.holding")
        return self._between(view)

    def _between(self, view: BladesView) -> Caption:
        """Say how the round that passed last fared, for as long as the guns load; and then what to do."""
        free, last = self.gear == "none", latest(view)
        if last is None or doing(view) == "rests":
            return Caption("caption.rest_free" if free else "caption.rest")
        if last.struck:
            return Caption("caption.struck_free" if free else "caption.struck")
        return Caption("caption.through_free" if free else "caption.through")


def _before_a_blade(gun: TimedGun) -> float:
    """Return the start: a round that is released now would pass just before a blade, so that a gear has to wait."""
    if trips_no_cam(gun):
        return 0.0
    return -gun.spin_rad_s * delay_s(gun) - BEFORE * gun.line.blocked_rad
