"""The main question: what does another engine change? Every powerplant of an airplane side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.errors import NoAnswerError
from sim.flight.control_forces import control_forces
from sim.flight.validity import passed_in_turns
from sim.studies.burst import timed_strikes_per_1000, untimed_strikes_per_1000
from sim.studies.cam_answer import CamUsed, cams_used
from sim.studies.carried_mass import BandedMass, carried_masses
from sim.studies.impulse_response import Disturbance, impulse_response
from sim.studies.turns import flown_limits, gyroscopic_couple, of_each, turns
from sim.studies.windows import window_rows

if TYPE_CHECKING:
    from sim.flight.turn_limits import Limit
    from sim.frames import Effect
    from sim.model.airplane import FlyingAirplane
    from sim.model.gun import WhichGun
    from sim.model.model import Model
    from sim.model.powerplant import Powerplant
    from sim.studies.rotor_effect import RotorEffect
    from sim.studies.windows_answer import WindowsRow

BANKS_DEG = (-60.0, -45.0, -30.0, 30.0, 45.0, 60.0)


@dataclass(frozen=True, slots=True)
class TurnCouple:
    """Gyroscopic moment on the airframe in one level, ball-centred turn.

    Attributes
    ----------
    bank_deg, turn_rate_deg_s : float
        Left negative. [°, °/s]
    pitch_n_m, yaw_n_m : float
        Moment on the airframe, nose up and nose right positive. [N m]
    couple_n_m, peak_couple_n_m : float
        Size, mean over a turn of the propeller and greatest within it. [N m]
    stick_force_n, pedal_force_n : float
        That the pilot holds at the grip, back positive, and with the right foot positive; without friction. [N]
    effect : str
        The larger of the two moments in words, ``nose up``; ``none`` where there is no such turn.
    limit : str or None
        The limit that keeps the airplane from holding it.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes.
    pitch_low_n_m, pitch_high_n_m, yaw_low_n_m, yaw_high_n_m : float or None
        Ends of the 90 % bands; None where no bands were asked for. [N m]
    stick_force_low_n, stick_force_high_n, pedal_force_low_n, pedal_force_high_n : float or None
        Likewise. [N]
    """

    bank_deg: float
    turn_rate_deg_s: float
    pitch_n_m: float
    yaw_n_m: float
    couple_n_m: float
    peak_couple_n_m: float
    stick_force_n: float
    pedal_force_n: float
    effect: Effect
    limit: Limit | None
    beyond: tuple[str, ...]
    pitch_low_n_m: float | None = None
    pitch_high_n_m: float | None = None
    yaw_low_n_m: float | None = None
    yaw_high_n_m: float | None = None
    stick_force_low_n: float | None = None
    stick_force_high_n: float | None = None
    pedal_force_low_n: float | None = None
    pedal_force_high_n: float | None = None


@dataclass(frozen=True, slots=True)
class PowerplantComparison:
    """One powerplant in the airplane.

    Attributes
    ----------
    kind : str
        ``rotary`` or ``fixed``.
    polar_inertia_kg_m2 : float
        Angular momentum per rad/s of the engine shaft; negative where a gear turns the propeller against it. [kg m²]
    spin_rad_s, angular_momentum_kg_m2_s : float
        At full speed, clockwise positive. [rad/s, kg m²/s]
    momentum_ratio : float
        Size of that angular momentum over the smallest among the powerplants.
    turns : tuple of TurnCouple
        At the scenario's airspeed and altitude, at the shaft speed of level flight.
    disturbances : tuple of Disturbance
        Responses to the same two inputs, by the equations of motion.
    timing : tuple of WindowsRow
        Firing windows of the first gun at idle, cruise and full speed; none where the scenario has no gun.
    timed_strikes_per_1000 : float or None
        Rounds in a thousand that strike one with the gear at full speed, of all guns together, exact; None where that
        was not asked for or there is no exact answer, see `sim.studies.burst.timed_strikes_per_1000`.
    untimed_strikes_per_1000 : float or None
        Rounds in a thousand that would strike a blade without the gear, at any speed, of all guns together; None where
        there is no gun.
    timed_strikes_of_each_gun, untimed_strikes_of_each_gun : tuple of float or None
        The same two numbers for each gun, the first first.
    polar_inertia_low_kg_m2, polar_inertia_high_kg_m2 : float or None
        Ends of the 90 % bands; None where no bands were asked for. [kg m²]
    angular_momentum_low_kg_m2_s, angular_momentum_high_kg_m2_s : float or None
        Likewise. [kg m²/s]
    momentum_ratio_low, momentum_ratio_high : float or None
        Likewise.
    """

    kind: str
    polar_inertia_kg_m2: float
    spin_rad_s: float
    angular_momentum_kg_m2_s: float
    momentum_ratio: float
    turns: tuple[TurnCouple, ...]
    disturbances: tuple[Disturbance, ...]
    timing: tuple[WindowsRow, ...]
    timed_strikes_per_1000: float | None
    untimed_strikes_per_1000: float | None
    timed_strikes_of_each_gun: tuple[float, ...] | None
    untimed_strikes_of_each_gun: tuple[float, ...] | None
    polar_inertia_low_kg_m2: float | None = None
    polar_inertia_high_kg_m2: float | None = None
    angular_momentum_low_kg_m2_s: float | None = None
    angular_momentum_high_kg_m2_s: float | None = None
    momentum_ratio_low: float | None = None
    momentum_ratio_high: float | None = None


@dataclass(frozen=True, slots=True)
class Comparison(Answer):
    """The answer of `whirlgate compare`.

    Attributes
    ----------
    title : str
        Name of the airplane.
    speed_m_s, altitude_m : float
        Flight condition. [m/s, m]
    powerplants : dict of str to PowerplantComparison
        By name, in the order of the scenario.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    cam : CamUsed or None
        The cam whose windows they are, with the first powerplant; None where the scenario has no gun.
    cams : dict of CamUsed
        The same with each, by its name.
    rotor_effect : RotorEffect or None
        Control travel for the rotor with its bands; None without bands, and where there is no level turn.
    gun : str
        ``first`` where windows and cams are those of the first of two guns; empty where there is but one.
    """

    main: ClassVar[str] = "powerplants.turns"

    title: str
    speed_m_s: float
    altitude_m: float
    powerplants: dict[str, PowerplantComparison]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    cam: CamUsed | None = None
    cams: dict[str, CamUsed] = field(default_factory=dict)
    rotor_effect: RotorEffect | None = None
    gun: WhichGun = ""


def compare(
    model: Model, *, ideal: bool = False, strikes: bool = False, bands: bool = False, seed: int = 1
) -> Comparison:
    """Return the effect of each powerplant in the same airplane.

    Parameters
    ----------
    model : Model
        The airplane.
    ideal : bool
        Whether the firing windows are those of the ideal cam, fitted to each speed, in place of the scenario's.
    strikes : bool
        Add how many rounds strike a blade with the gear, with all that scatters: some seconds an engine.
    bands : bool
        Draw many airplanes from what is not known of this one: give 90 % bands, and add control travel for the rotor.
    seed : int
        Of the draws.

    Raises
    ------
    NoAnswerError
        When the airplane cannot fly straight at the airspeed of the scenario: a line for each powerplant that cannot.

    Examples
    --------
    >>> from sim.model.model import model
    >>> answer = compare(model("tollgate"))
    >>> [round(one.momentum_ratio, 1) for one in answer.powerplants.values()][1]
    1.0
    """
    least = min(abs(_full_momentum(one)) for one in model.powerplants.values())
    flying = model.airplanes()
    compared = of_each(flying, lambda one: _compared(model, one, least, ideal=ideal, strikes=strikes))
    found = {one.name: own for one, own in zip(flying, compared, strict=True)}
    if bands:
        from sim.studies.compare_bands import banded

        found = banded(model, flying, found, seed=seed)
    unusual = model.remark_texts("compare")
    effect = _rotor_effect(model, seed) if bands else None
    cams = cams_used(model.gun_line(name, ideal=ideal) for name in model.powerplants) if model.has_gun else {}
    return Comparison(
        title=model.title,
        speed_m_s=model.speed_m_s,
        altitude_m=model.altitude_m,
        powerplants=found,
        masses=carried_masses(model, bands=bands),
        remarks=unusual,
        cam=next(iter(cams.values())) if cams else None,
        cams=cams,
        rotor_effect=effect,
        gun=model.which_gun,
    )


def _rotor_effect(model: Model, seed: int) -> RotorEffect | None:
    from sim.studies.rotor_effect import rotor_effect

    try:
        return rotor_effect(model, bands=True, seed=seed)
    except NoAnswerError:
        return None


def _compared(
    model: Model, flying: FlyingAirplane, least_kg_m2_s: float, *, ideal: bool, strikes: bool
) -> PowerplantComparison:
    powerplant, momentum = flying.powerplant, _full_momentum(flying.powerplant)
    timed = timed_strikes_per_1000(model, flying.name, ideal=ideal) if strikes and model.has_gun else None
    untimed = untimed_strikes_per_1000(model, flying.name) if model.has_gun else None
    return PowerplantComparison(
        kind=powerplant.kind,
        polar_inertia_kg_m2=powerplant.polar_inertia_kg_m2,
        spin_rad_s=powerplant.sense * powerplant.full_speed_rad_s,
        angular_momentum_kg_m2_s=momentum,
        momentum_ratio=abs(momentum) / least_kg_m2_s if least_kg_m2_s else math.nan,
        turns=_turn_couples(flying),
        disturbances=impulse_response(flying),
        timing=tuple(window_rows(model.gun_line(flying.name, ideal=ideal))) if model.has_gun else (),
        timed_strikes_per_1000=math.fsum(timed) / len(timed) if timed else None,
        untimed_strikes_per_1000=math.fsum(untimed) / len(untimed) if untimed else None,
        timed_strikes_of_each_gun=timed,
        untimed_strikes_of_each_gun=untimed,
    )


def _full_momentum(powerplant: Powerplant) -> float:
    return powerplant.momentum_kg_m2_s(powerplant.full_speed_rad_s)


def _turn_couples(flying: FlyingAirplane) -> tuple[TurnCouple, ...]:
    found = turns(flying, [math.radians(bank) for bank in BANKS_DEG])
    limits, found = flown_limits(flying, found), found.only_found()
    beyond = passed_in_turns(flying.airplane, found)
    forces = control_forces(flying.airplane, flying.controls, found)
    rows = []
    for index, bank_deg in enumerate(BANKS_DEG):
        made = gyroscopic_couple(flying, found, index)
        spin = abs(float(found.spin_rad_s[index]))
        pulsing = flying.powerplant.pulsing_momentum_kg_m2_s(spin)
        rows.append(
            TurnCouple(
                bank_deg=bank_deg,
                turn_rate_deg_s=math.degrees(found.turn_rate_rad_s[index]),
                pitch_n_m=made.pitch_n_m,
                yaw_n_m=made.yaw_n_m,
                couple_n_m=made.couple_n_m,
                peak_couple_n_m=made.couple_n_m + abs(pulsing) * made.precession_rad_s,
                stick_force_n=float(forces.stick_n[index]),
                pedal_force_n=float(forces.pedal_n[index]),
                effect=made.effect,
                limit=limits[index] or None,
                beyond=beyond[index],
            )
        )
    return tuple(rows)
