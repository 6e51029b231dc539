"""The stages of the delay of a scenario's gun, and what scatters from round to round and from burst to burst."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import refuse
from sim.synchronizer.link import DelayStage, Link, link_stages, spread
from sim.synchronizer.link_wave import MATERIALS, OilColumn, oil_wave_m_s, solid_wave_m_s
from sim.synchronizer.ripple import STEADY, Ripple
from sim.synchronizer.timed_gun import NO_SCATTER, Scatter

if TYPE_CHECKING:
    from sim.scenario.gun import GunTable
    from sim.scenario.link import LinkTable
    from sim.scenario.tables import Scenario
    from sim.synchronizer.link import LinkKind


def gun_of(scenario: Scenario) -> GunTable:
    """Return the table of the gun.

    Raises
    ------
    InputError
        When the scenario has none.
    """
    if scenario.gun is None:
        refuse("gun", "is missing; give the table gun with the line of fire, as in the bundled scenario tollgate")
    return scenario.gun


def delay_stages(scenario: Scenario) -> tuple[DelayStage, ...]:
    """Return the stages from cam to disc in their order, each with mean and scatter.

    The table `link`, where the scenario has it, goes before a measured `gun.link_delay`; `sim.model.plausibility.gun`
    compares the two. Scatter is that of the table `burst`, and that of the link's play.
    """
    gun, burst = gun_of(scenario), scenario.burst
    link_sd_s, lock_sd_s, barrel_sd_s, flight_sd_s = (
        (burst.link_scatter_s, burst.lock_scatter_s, burst.barrel_scatter_s, burst.flight_scatter_s)
        if burst
        else (0.0, 0.0, 0.0, 0.0)
    )
    return (
        *_link_stages(scenario, gun, link_sd_s),
        DelayStage("lock and primer", gun.lock_time_s, lock_sd_s),
        DelayStage("barrel", gun.barrel_time_s, barrel_sd_s),
        DelayStage("flight to the disc", gun.muzzle_to_disc_m / gun.muzzle_speed_m_s, flight_sd_s),
    )


@dataclass(frozen=True, slots=True)
class LinkDelays:
    """The time from cam to lock at cruise behind the first powerplant.

    Attributes
    ----------
    computed_s : float
        From the table `link`. [s]
    measured_s : float or None
        That of the table `gun`; None where it was not measured. [s]
    """

    computed_s: float
    measured_s: float | None


def link_delays(scenario: Scenario, cruise_rad_s: float) -> LinkDelays | None:
    """Return both times from cam to lock at a propeller speed, in rad/s; None without the table `link`."""
    made = link(scenario)
    if made is None:
        return None
    lead_rad = sum(stage.lead_rad(cruise_rad_s) for stage in link_stages(made))
    return LinkDelays(lead_rad / cruise_rad_s, gun_of(scenario).link_delay_s)


def scatter(scenario: Scenario) -> Scatter:
    """Return what scatters in a scenario; nothing where it has no table `burst`."""
    burst = scenario.burst
    if burst is None:
        return NO_SCATTER
    delay_sd = spread(delay_stages(scenario), 1.0).root_sum_square
    return Scatter(
        delay_sd_s=delay_sd.time_s,
        delay_sd_rad=delay_sd.turn_rad,
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


def link(scenario: Scenario) -> Link | None:
    """Return the link from cam to gun; None where the scenario has no table `link`."""
    return None if scenario.link is None else _link(scenario, scenario.link)


def link_of_kind(scenario: Scenario, kind: LinkKind, air: float | None = None) -> Link:
    """Return the link of another kind in the place of that of the scenario, all else alike.

    Parameters
    ----------
    scenario : Scenario
    kind : str
        ``rod``, ``shaft`` or ``oil``; a measured wave speed is of the scenario's own kind alone.
    air : float or None
        Of an oil column, in place of the scenario's, see `sim.synchronizer.link_wave.OilColumn`.

    Raises
    ------
    InputError
        When the scenario has no table `link`.
    """
    table = scenario.link
    if table is None:
        refuse("link", "is missing; give the table link with kind and length, as in the bundled scenario tollgate")
    own = kind == table.kind and air is None
    change = {"kind": kind, "wave_speed_m_s": table.wave_speed_m_s if own else None}
    return _link(scenario, table.model_copy(update=change if air is None else change | {"air": air}))


def _link(scenario: Scenario, table: LinkTable) -> Link:
    return Link(
        kind=table.kind,
        length_m=table.length_m,
        wave_m_s=table.wave_speed_m_s or _wave_m_s(table),
        mass_ratio=table.mass_ratio,
        follower_rad=table.follower_rise_rad,
        play_rad=table.play_rad,
        windup_rad=table.windup_rad,
        trigger_s=table.trigger_time_s,
        trigger_sd_s=scenario.burst.link_scatter_s if scenario.burst else 0.0,
        leak_speed_rad_s=(table.leak_speed_rad_s or 0.0) if table.kind == "oil" else 0.0,
    )


def _wave_m_s(table: LinkTable) -> float:
    material = MATERIALS[table.material]
    if table.kind != "oil":
        return solid_wave_m_s(table.kind, material)
    given = {
        "modulus_pa": table.oil_modulus_pa,
        "density_kg_m3": table.oil_density_kg_m3,
        "pressure_pa": table.oil_pressure_pa,
        "air": table.air,
        "pipe_ratio": table.pipe_ratio,
    }
    return oil_wave_m_s(OilColumn(**{name: value for name, value in given.items() if value is not None}), material)


def _link_stages(scenario: Scenario, gun: GunTable, sd_s: float) -> tuple[DelayStage, ...]:
    made = link(scenario)
    return link_stages(made) if made else (DelayStage("link", gun.link_delay_s or 0.0, sd_s),)
