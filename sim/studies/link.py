"""The link from cam to gun: the lead that a rod, a shaft and an oil column take at each speed, and which keeps it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, get_args

from sim.answer import Answer
from sim.errors import refuse
from sim.synchronizer.leaky_range import turning_point
from sim.synchronizer.link import LinkKind, link_leak, link_stages, spread
from sim.units.convert import ms, rpm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.model.model import Model
    from sim.synchronizer.leak import Leak
    from sim.synchronizer.link import DelayStage, Link

KINDS: tuple[LinkKind, ...] = get_args(LinkKind)
AIR = (0.0, 0.002, 0.005, 0.01, 0.02)
"""Shares of air at atmospheric pressure for which the oil column is told."""


@dataclass(frozen=True, slots=True)
class LinkLead:
    """The lead of a link at one speed.

    Attributes
    ----------
    rpm : float
        Speed of the propeller.
    lead_deg, lead_sd_deg : float
        How far the propeller turns from the cam to the release, and the standard deviation from round to round. [°]
    leak_deg : float
        Part of that turn that a leak of the oil takes, more the slower the propeller. [°]
    """

    rpm: float
    lead_deg: float
    lead_sd_deg: float
    leak_deg: float


@dataclass(frozen=True, slots=True)
class LinkRow:
    """One kind of link in the place of the other.

    Attributes
    ----------
    kind : str
        ``rod``, ``shaft`` or ``oil``.
    fitted : bool
        Whether it is that of the scenario.
    wave_m_s : float
        Speed of its wave. [m/s]
    time_part_ms, time_sd_ms : float
        Part of its delay that is a time, and the standard deviation. [ms]
    angle_part_deg, angle_sd_deg : float
        Part that is a turn of the propeller, the same at every speed, and the standard deviation. [°]
    leak : Leak
        What leaks of an oil column: the third part.
    leads : tuple of LinkLead
        At each speed.
    lead_change_deg : float
        Greatest less least lead of all speeds from the lowest to the highest: its growth where nothing leaks. [°]
    """

    kind: str
    fitted: bool
    wave_m_s: float
    time_part_ms: float
    time_sd_ms: float
    angle_part_deg: float
    angle_sd_deg: float
    leak: Leak
    leads: tuple[LinkLead, ...]
    lead_change_deg: float


@dataclass(frozen=True, slots=True)
class OilRow:
    """The oil column with some air in it.

    Attributes
    ----------
    air : float
        Volume of the bubbles at atmospheric pressure over that of the oil.
    wave_m_s, time_part_ms, lead_change_deg : float
        As in `LinkRow`. [m/s, ms, °]
    """

    air: float
    wave_m_s: float
    time_part_ms: float
    lead_change_deg: float


@dataclass(frozen=True, slots=True)
class LinkStage:
    """One stage of the delay of the link fitted.

    Attributes
    ----------
    name : str
    time_part_ms, angle_part_deg : float
        Its mean, a time or a turn of the propeller. [ms, °]
    """

    name: str
    time_part_ms: float
    angle_part_deg: float


@dataclass(frozen=True, slots=True)
class LinkAnswer(Answer):
    """The answer of `whirlgate link`.

    Attributes
    ----------
    title, powerplant : str
        Of the airplane, and whose propeller is meant.
    length_m : float
        From cam to gun. [m]
    links : tuple of LinkRow
        A rod, a shaft and an oil column of that length, all else as the scenario has it.
    stages : tuple of LinkStage
        Of the link fitted; that of a leak takes neither a time nor an angle that is the same at every speed.
    oil : tuple of OilRow
        The oil column with more and more air, its leak the same.
    rest_ms, rest_change_deg : float
        Time of lock, barrel and flight, the same behind every link, and the growth of their lead. [ms, °]
    computed_ms, measured_ms : float or None
        Time from cam to lock at cruise behind the first powerplant, by the table of the link and as measured; None
        where it was not. [ms]
    of_first_gun : bool
        Whether there is a second gun, of which that is not measured.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    """

    main: ClassVar[str] = "links"
    headline: ClassVar[tuple[str, ...]] = ("lead_change_deg",)

    title: str
    powerplant: str
    length_m: float
    links: tuple[LinkRow, ...]
    stages: tuple[LinkStage, ...]
    oil: tuple[OilRow, ...]
    rest_ms: float
    rest_change_deg: float
    computed_ms: float | None
    measured_ms: float | None
    of_first_gun: bool
    remarks: tuple[str, ...]

    @property
    def fitted(self) -> LinkRow:
        """The link of the scenario."""
        return next(one for one in self.links if one.fitted)

    @property
    def steadiest(self) -> LinkRow:
        """The link whose lead changes least."""
        return min(self.links, key=lambda one: one.lead_change_deg)


def link(model: Model, *, powerplant: str | None = None) -> LinkAnswer:
    """Return the lead of each kind of link behind the propeller of a powerplant at idle, cruise and full speed.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables gun and link.
    powerplant : str or None
        Whose propeller; None for the first of the file.

    Raises
    ------
    InputError
        When there is no table gun or link, or no powerplant of that name.
    NoAnswerError
        When the oil column leaks so much that it never trips at one of these speeds.

    Notes
    -----
    The three links have the same length, the same mass ratio and the same angles and trigger: what differs is the wave
    that runs along them, and the leak of an oil column. Viscosity and damping of the column are left out.

    Examples
    --------
    >>> from sim.model.model import model
    >>> [one.kind for one in sorted(link(model("tollgate")).links, key=lambda one: one.lead_change_deg)]
    ['rod', 'shaft', 'oil']
    """
    line, made = model.gun_line(powerplant, ideal=True), model.link
    if made is None:
        refuse("link", "is missing; give the table link with kind and length, as in the bundled scenario tollgate")
    spins = tuple(sorted(line.spin_rad_s))
    own = link_stages(made)
    rest = model.delay_stages[len(own) :]
    measured = model.link_delays
    return LinkAnswer(
        title=model.title,
        powerplant=line.powerplant,
        length_m=made.length_m,
        links=tuple(_row(model.link_of_kind(kind), made, spins) for kind in KINDS),
        stages=tuple(LinkStage(one.name, ms(one.mean_s), math.degrees(one.mean_rad)) for one in own),
        oil=tuple(_oil(air, model.link_of_kind("oil", air), spins) for air in AIR),
        rest_ms=ms(sum(one.mean_s for one in rest)),
        rest_change_deg=_change_deg(rest, spins),
        computed_ms=ms(measured.computed_s) if measured else None,
        measured_ms=ms(measured.measured_s) if measured and measured.measured_s else None,
        of_first_gun=model.second_gun is not None,
        remarks=model.remark_texts("link"),
    )


def _row(one: Link, fitted: Link, spins_rad_s: Sequence[float]) -> LinkRow:
    stages = link_stages(one)
    off, leak = spread(stages, 1.0).root_sum_square, link_leak(one)
    leads = [
        LinkLead(
            rpm=rpm(spin),
            lead_deg=math.degrees(sum(stage.lead_rad(spin) for stage in stages)),
            lead_sd_deg=math.degrees(math.hypot(off.turn_rad, spin * off.time_s)),
            leak_deg=math.degrees(leak.extra_rad(spin)),
        )
        for spin in spins_rad_s
    ]
    return LinkRow(
        kind=one.kind,
        fitted=one.kind == fitted.kind,
        wave_m_s=one.wave_m_s,
        time_part_ms=ms(sum(stage.mean_s for stage in stages)),
        time_sd_ms=ms(off.time_s),
        angle_part_deg=math.degrees(sum(stage.mean_rad for stage in stages)),
        angle_sd_deg=math.degrees(off.turn_rad),
        leak=leak,
        leads=tuple(leads),
        lead_change_deg=_change_deg(stages, spins_rad_s),
    )


def _oil(air: float, column: Link, spins_rad_s: Sequence[float]) -> OilRow:
    stages = link_stages(column)
    return OilRow(
        air=air,
        wave_m_s=column.wave_m_s,
        time_part_ms=ms(sum(stage.mean_s for stage in stages)),
        lead_change_deg=_change_deg(stages, spins_rad_s),
    )


def _change_deg(stages: Sequence[DelayStage], spins_rad_s: Sequence[float]) -> float:
    """Return how much the turn of the propeller in these stages changes from the lowest to the highest speed [°]."""

    def lead_rad(spin_rad_s: float) -> float:
        return sum(stage.lead_rad(spin_rad_s) for stage in stages)

    def slope_s(spin_rad_s: float) -> float:
        return sum(stage.mean_s + stage.leak.slope_s(spin_rad_s) for stage in stages)

    low, high = spins_rad_s[0], spins_rad_s[-1]
    least_at = turning_point(slope_s, low, high)
    return math.degrees(max(lead_rad(low), lead_rad(high)) - lead_rad(least_at))
