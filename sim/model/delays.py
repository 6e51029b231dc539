"""The delays of a scenario's gun line, stage by stage, and what scatters in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.gun_line import gun_of
from sim.synchronizer.link import DelayStage, link_stages

if TYPE_CHECKING:
    from sim.scenario.tables import GunTable, Scenario
    from sim.scenario.timing import BurstTable, LinkTable


def chain(scenario: Scenario) -> tuple[DelayStage, ...]:
    """Return the stages from cam to disc, in their order, each with mean and scatter.

    The link is told apart where the scenario has the table `link`; scatter is that of its table `burst`.
    """
    gun, burst = gun_of(scenario), scenario.burst
    return (
        *_link(gun, scenario.link, burst.link_scatter_s if burst else 0.0),
        DelayStage("lock and primer", gun.lock_time_s, burst.lock_scatter_s if burst else 0.0),
        DelayStage("barrel", gun.barrel_time_s, burst.barrel_scatter_s if burst else 0.0),
        DelayStage("flight to the disc", gun.muzzle_to_disc_m / gun.muzzle_speed_m_s, _flight(burst)),
    )


def chain_asked(
    loaded: Scenario | None, *, delay_s: float | None, scatter_s: float | None, whole_s: float
) -> tuple[DelayStage, ...]:
    """Return the scenario's chain, or one stage for the whole delay where an option gives the delay or its scatter."""
    if loaded is not None and delay_s is None and scatter_s is None:
        return chain(loaded)
    return (DelayStage("whole delay", whole_s, scatter_s or 0.0),)


def _flight(burst: BurstTable | None) -> float:
    return burst.flight_scatter_s if burst else 0.0


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
