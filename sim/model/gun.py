"""The gun of an airplane: its line of fire through each propeller, delays, scatter, cam and receiver."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING, Literal

from sim.errors import refuse
from sim.model import cam, delays
from sim.model.delays import gun_of
from sim.model.gun_line import blade_at_bore
from sim.model.gun_line import gun_line as build_gun_line
from sim.model.second_gun import second_scenario
from sim.synchronizer.link import spread

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.model.cam import CamKeys
    from sim.model.delays import LinkDelays
    from sim.model.gun_line import BladeAtBore
    from sim.model.model import Model
    from sim.model.powerplant import Powerplant
    from sim.scenario.tables import Scenario
    from sim.scenario.timing import WarmthTable
    from sim.synchronizer.cooling import Receiver
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.link import DelayDeviation, DelayStage, Link, LinkKind
    from sim.synchronizer.ripple import Ripple
    from sim.synchronizer.timed_gun import Scatter

WhichGun = Literal["", "first", "second"]
"""Which of two guns; empty where there is but one."""


class GunModel:
    """What of a model is timed; `sim.model.model.Model` is one."""

    _scenario: Scenario
    _as_second_gun: bool
    _gun_lines: dict[str, GunLine]

    def powerplant(self, name: str | None = None) -> Powerplant:
        """Return the powerplant of that name, or the first of the file."""
        raise NotImplementedError

    @property
    def has_gun(self) -> bool:
        """Whether there is a gun to be timed."""
        return self._scenario.gun is not None

    def gun_line(self, powerplant: str | None = None, *, ideal: bool = False) -> GunLine:
        """Return the gun line through the propeller of a powerplant, at its idle, cruise and full speed, with the cam.

        Parameters
        ----------
        powerplant : str or None
            Name of the powerplant; None for the first of the file.
        ideal : bool
            Whether it has the ideal cam, fitted to each speed, in place of that of the scenario; where the scenario has
            none, it has.

        Raises
        ------
        InputError
            When there is no gun, or no powerplant of that name.
        """
        name = self.powerplant(powerplant).name
        if name not in self._gun_lines:
            self._gun_lines[name] = build_gun_line(self._scenario, name)
        bare = self._gun_lines[name]
        if ideal or self.cam_keys is None:
            return bare
        (timed,) = cam.with_cam((bare,), self.gun_line(ideal=True), self.cam_keys, self.delay_sd)
        return timed

    def display_line(self, *, ideal: bool = False) -> GunLine:
        """Return the gun line that the inert display shows, at one speed, see `sim.model.display.display_line`."""
        from sim.model.display import display_line

        return display_line(self._scenario, partial(self.gun_line, ideal=ideal))

    def display(self, *, ideal: bool = False) -> Display:
        """Return what the builder of the inert display specifies, with the firing windows that it shows.

        Parameters
        ----------
        ideal : bool
            Whether they are those of the ideal cam, fitted to full speed, in place of the scenario's.
        """
        from sim.model.display import display_of

        return display_of(self._scenario, self.display_line(ideal=ideal))

    @cached_property
    def second_gun(self) -> Model | None:
        """The same airplane with its second gun in the place of its first; None where it has none."""
        from sim.model.model import Model

        changed = second_scenario(self._scenario)
        return None if changed is None else Model(changed, remarked=False, as_second_gun=True)

    @property
    def which_gun(self) -> WhichGun:
        """Which of two guns stands in the place of the gun, ``first`` or ``second``; empty where there is but one."""
        if self._as_second_gun:
            return "second"
        return "" if self._scenario.second_gun is None else "first"

    def blade_at_bore(self, powerplant: str) -> BladeAtBore:
        """Return the blade of a powerplant's propeller where the bore line crosses the disc."""
        return blade_at_bore(self._scenario, powerplant)

    @property
    def bore_radius_m(self) -> float:
        """Distance of the bore from the shaft axis. [m]."""
        return gun_of(self._scenario).bore_radius_m

    @cached_property
    def delay_stages(self) -> tuple[DelayStage, ...]:
        """The stages of the delay from cam to disc."""
        return delays.delay_stages(self._scenario)

    @cached_property
    def link(self) -> Link | None:
        """The link from cam to gun; None where the scenario has no table of it."""
        return delays.link(self._scenario)

    def link_of_kind(self, kind: LinkKind, air: float | None = None) -> Link:
        """Return a link of another kind in the place of that of the scenario, see `sim.model.delays.link_of_kind`."""
        return delays.link_of_kind(self._scenario, kind, air)

    @cached_property
    def link_delays(self) -> LinkDelays | None:
        """The time from cam to lock at cruise, computed and measured; None without the table of the link."""
        return delays.link_delays(self._scenario, self.gun_line(ideal=True).spin_rad_s[1])

    @cached_property
    def delay_sd(self) -> DelayDeviation:
        """Standard deviation of the delay, its stages independent."""
        return spread(self.delay_stages, 1.0).root_sum_square

    @cached_property
    def scatter(self) -> Scatter:
        """What scatters from round to round and from burst to burst."""
        return delays.scatter(self._scenario)

    @cached_property
    def cam_keys(self) -> CamKeys | None:
        """What is said of the cam that is cut once; None where there is none."""
        return cam.cam_keys(self._scenario)

    @cached_property
    def ripple(self) -> Ripple:
        """How the speed of the propeller ripples within a turn."""
        return delays.ripple(self._scenario)

    @property
    def guns(self) -> int | None:
        """Number of synchronized guns; None where it is not given."""
        if self._scenario.second_gun is not None:
            return 2
        return self._scenario.burst.guns if self._scenario.burst else None

    @property
    def rounds_per_burst(self) -> int | None:
        """Rounds of one gun in a burst; None where they are not given."""
        return self._scenario.burst.rounds_per_burst if self._scenario.burst else None

    @property
    def rounds_per_sortie(self) -> int | None:
        """Rounds of one gun in a sortie; None where they are not given."""
        return self._scenario.burst.rounds_per_sortie if self._scenario.burst else None

    @cached_property
    def receiver(self) -> Receiver:
        """The gun's receiver, for how it cools in flight."""
        from sim.model.receiver import receiver

        return receiver(self._warmth)

    @property
    def _warmth(self) -> WarmthTable:
        if self._scenario.warmth is None:
            refuse("warmth", "is missing; the table of the receiver, as in the bundled scenario tollgate")
        return self._scenario.warmth

    @property
    def receiver_altitude_m(self) -> float:
        """Altitude at which the receiver cools. [m]."""
        return self._warmth.altitude_m

    @property
    def receiver_speed_m_s(self) -> float:
        """True airspeed at which the receiver cools. [m/s]."""
        return self._warmth.speed_m_s

    @property
    def heat_per_round_j(self) -> float:
        """Heat that a round leaves in the receiver. [J]."""
        return self._warmth.heat_per_round_j

    @property
    def mean_rate_per_s(self) -> float:
        """Mean rate of fire over the flight, for the heat it brings. [1/s]."""
        return self._warmth.fire_rate_per_s
