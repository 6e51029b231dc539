"""Take-off and landing of a tail-wheel airplane with each powerplant: runs, tail raising and swing, glide, stance."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer
from sim.errors import NoAnswerError, refuse
from sim.flight.landing_run import Blip
from sim.flight.take_off_law import RAISING_S
from sim.studies.bands import drawn_flying
from sim.studies.carried_mass import BandedMass, carried_masses
from sim.studies.field_of import field_of
from sim.studies.field_place import FRICTION, FieldPlace, tail_friction
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.model.model import Model
    from sim.model.powerplant import EngineKind
    from sim.studies.field_of import FieldOf
    from sim.studies.field_place import Surface

BLIP_ON_S, BLIP_EVERY_S = 0.5, 3.0
"""Ignition on, and from one such time to the next: common practice, no source."""


@dataclasses.dataclass(frozen=True, slots=True)
class FieldAnswer(Answer):
    """Ground and field with each powerplant.

    Attributes
    ----------
    title : str
        Name of the airplane.
    surface : str
        Of the ground.
    friction, tail_friction : float
        Rolling friction of the main wheels over their load, and that of the tail, taken for a skid.
    headwind_m_s, altitude_m, raising_s : float
        Wind against the run, altitude of the field, time in which the tail comes up. [m/s, m, s]
    blip_on_s, blip_every_s : float
        Time with the ignition on, and from one such time to the next, of a rotary kept running. [s]
    powerplants : dict of FieldOf
        With each powerplant that lifts off.
    too_weak : dict of str
        For each of the others, why it does not.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    """

    main: ClassVar[str] = "powerplants"
    headline: ClassVar[tuple[str, ...]] = ("ground_run_m", "to_50_ft_m", "landing_run_m")

    title: str
    surface: Surface
    friction: float
    tail_friction: float
    headwind_m_s: float
    altitude_m: float
    raising_s: float
    blip_on_s: float
    blip_every_s: float
    powerplants: dict[str, FieldOf]
    too_weak: dict[str, str]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    engine_kinds: dict[str, EngineKind] = dataclasses.field(metadata=ASIDE)


def field(
    model: Model,
    *,
    surface: Surface = "short grass",
    headwind_m_s: float = 0.0,
    altitude_m: float | None = None,
    raising_s: float = RAISING_S,
    blip_on_s: float = BLIP_ON_S,
    blip_every_s: float = BLIP_EVERY_S,
    bands: bool = False,
    seed: int = 1,
) -> FieldAnswer:
    """Return runs, swing, glide and stance with each powerplant.

    Parameters
    ----------
    model : Model
        The airplane, with a weighing whose supports say how it stands, and waterlines of its items.
    surface : str
        ``concrete``, ``short grass``, ``long grass``, ``soft ground``.
    headwind_m_s : float
        Against the run, at least 0. [m/s]
    altitude_m : float or None
        Of the field; None for that of the scenario. [m]
    raising_s : float
        Time in which the tail comes up, above 0. [s]
    blip_on_s, blip_every_s : float
        Of a rotary kept running on the landing run: time with the ignition on, above 0, and from one such time to the
        next, more. [s]
    bands : bool
        Draw many airplanes from what is not known of this one, and of its wheels, and give 90 % bands.
    seed : int
        Of the draws.

    Raises
    ------
    InputError
        Where the scenario does not say how the airplane stands on main wheels and a tail wheel or skid, or the ignition
        would be on all the time.
    NoAnswerError
        Where no powerplant lifts off.

    Notes
    -----
    Full throttle; tail down until full down elevator lifts it, up in `raising_s`, then level to 1.1 times the stalling
    speed. Forces are those of the equations of motion, slipstream in them; near the ground the induced drag is less.
    Over the obstacle at 1.2 times the stall, by energy. Landing: approach at 1.3, touchdown at 1.05 times the stall, on
    all wheels, ignition cut, without brakes and with them, and kept running. Winds across: those that full rudder or
    ailerons hold. Ground runs of such estimates are good to a fifth (common practice, no source).
    """
    stands = model.stance()
    if stands is None or not stands.tail_wheel:
        refuse("weighing.support", "must place two main wheels and a tail wheel or skid behind them, to stand on")
    if not 0.0 < blip_on_s < blip_every_s:
        came, most = brief("blip_on_s", blip_on_s), brief("blip_every_s", blip_every_s)
        refuse("blip_on_s", f'must be above 0 s and below `blip_every_s`, {most}, got "{came}"')
    found, too_weak = {}, {}
    height_m = model.altitude_m if altitude_m is None else altitude_m
    for name in model.powerplants:
        flying = model.airplane(name, altitude_m=height_m)
        place = FieldPlace(model, flying, stands, surface=surface, headwind_m_s=headwind_m_s)
        drawn = None
        if bands:
            many = drawn_flying(model, flying, seed)
            drawn = FieldPlace(model, many, stands, surface=surface, headwind_m_s=headwind_m_s, seed=seed)
        clear, blip = model.propeller_clearance(name), Blip(blip_on_s, blip_every_s)
        try:
            found[name] = field_of(place, drawn, clear, raising_s=raising_s, blip=blip)
        except NoAnswerError as error:
            too_weak[name] = str(error)
    if not found:
        raise NoAnswerError("\n".join(too_weak.values()))
    return FieldAnswer(
        title=model.title,
        surface=surface,
        friction=FRICTION[surface],
        tail_friction=tail_friction(surface),
        headwind_m_s=headwind_m_s,
        altitude_m=height_m,
        raising_s=raising_s,
        blip_on_s=blip_on_s,
        blip_every_s=blip_every_s,
        powerplants=found,
        too_weak=too_weak,
        masses=carried_masses(model, bands=bands),
        remarks=model.remark_texts("handling"),
        engine_kinds=model.engine_kinds,
    )
