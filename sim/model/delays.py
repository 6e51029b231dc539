"""The stages of the delay of a scenario's gun, and what scatters from round to round and from burst to burst."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.gun_line import gun_of
from sim.synchronizer.link import DelayStage, link_stages, spread
from sim.synchronizer.ripple import STEADY, Ripple
from sim.synchronizer.timed_gun import NO_SCATTER, Scatter

if TYPE_CHECKING:
    from sim.scenario.gun import GunTable
    from sim.scenario.tables import Scenario
    from sim.scenario.timing import LinkTable


def delay_stages(scenario: Scenario) -> tuple[DelayStage, ...]:
    """Return the stages from cam to disc in their order, each with mean and scatter.

    The link has stages of its own where the scenario has the table `link`; scatter is that of its table `burst`.
    """
    gun, burst = gun_of(scenario), scenario.burst
    link_sd_s, lock_sd_s, barrel_sd_s, flight_sd_s = (
        (burst.link_scatter_s, burst.lock_scatter_s, burst.barrel_scatter_s, burst.flight_scatter_s)
        if burst
        else (0.0, 0.0, 0.0, 0.0)
    )
    return (
        *_link(gun, scenario.link, link_sd_s),
        DelayStage("lock and primer", gun.lock_time_s, lock_sd_s),
        DelayStage("barrel", gun.barrel_time_s, barrel_sd_s),
        DelayStage("flight to the disc", gun.muzzle_to_disc_m / gun.muzzle_speed_m_s, flight_sd_s),
    )


def scatter(scenario: Scenario) -> Scatter:
    """Return what scatters in a scenario; nothing where it has no table `burst`."""
    burst = scenario.burst
    if burst is None:
        return NO_SCATTER
    delay_sd = spread(delay_stages(scenario), 1.0).root_sum_square
    return Scatter(
        delay_sd_s=delay_sd.time_s,
        delay_sd_rad=delay_sd.angle_rad,
        cycle_sd_s=burst.cycle_scatter_s,
        hang_share=burst.hang_share,
        hang_s=burst.hang_time_s,
        speed_sd=burst.speed_scatter,
        drift_per_s=burst.speed_drift_per_s,
    )


def ripple(scenario: Scenario) -> Ripple:
    """Return how the speed of the propeller ripples within a turn; not at all where there is no table `burst`."""
    burst = scenario.burst
    return Ripple(burst.speed_ripple, burst.ripple_per_rev, burst.ripple_peak_rad) if burst else STEADY


def _link(gun: GunTable, link: LinkTable | None, sd_s: float) -> tuple[DelayStage, ...]:
    if link is None:
        return (DelayStage("link", gun.link_delay_s, sd_s),)
    return link_stages(
        link.kind,
        length_m=link.length_m,
        link_s=gun.link_delay_s,
        sd_s=sd_s,
        follower_rise_s=link.follower_rise_s,
        windup_s=link.windup_s,
        wave_m_s=link.wave_speed_m_s,
    )
