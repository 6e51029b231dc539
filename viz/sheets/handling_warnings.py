"""What a designer must know first of the handling with each powerplant: what is unstable, and what tires the pilot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.flight.force_limits import MINUTES, MOMENT
from sim.flight.quality import WORST
from viz.sheets.blocks import Points, Value, listed, say
from viz.sheets.from_sim import in_either_system

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.forces_answer import StraightForces
    from sim.studies.handling_answer import Handling, PowerplantHandling
    from sim.studies.modes import GradedMode
    from viz.sheets.blocks import Cell, Sentence

SOON_S = 20.0
"""Time within which a mode that doubles is told first: level 1 of a spiral in cruise asks for more [s]."""
FORCES = (
    ("stick_force_n", "on the stick", MINUTES.stick_n, MOMENT.stick_n),
    ("stick_side_force_n", "sideways on the stick", MINUTES.stick_side_n, MOMENT.stick_side_n),
    ("pedal_force_n", "rudder", MINUTES.pedal_n, MOMENT.pedal_n),
)
"""Force, what is behind it in words, and what a pilot holds of it for minutes and for a moment [N]."""
BEHIND = (
    "the CG is {behind} of the mean chord behind the neutral point with the stick held",
    "the CG is {behind} of the mean chord behind the neutral point with the stick free",
)
MOVES = (
    "the stick moves the wrong way with speed, which nothing then brings back: {before} at {slow}, {after} at {fast} "
    "at one throttle{sure}"
)
CHANGES = (
    "the stick force changes the wrong way with speed, which nothing then brings back: {before} at {slow}, {after} at "
    "{fast} at one throttle{sure}"
)
FREE = "with stick and pedals free {grown}"
TOO_LONG = "level flight takes up to {held} {where} ({speed}), more than a pilot holds for minutes ({most})"
TOO_MUCH = "level flight takes up to {held} {where} ({speed}), more than a pilot holds for a moment ({most})"
WELL = (
    "{name}: nothing unstable: flying faster takes less pull and the stick farther forward, no mode grows to twice its "
    "size within {soon}, and a pilot holds level flight for minutes."
)


def warnings(answer: Handling) -> Points:
    """Return a line for each powerplant, its worst news, or that there is none."""
    return Points(tuple(_line(name, found) for name, found in answer.powerplants.items()))


def _line(name: str, found: PowerplantHandling) -> Sentence:
    held = [say("{why}", why=in_either_system(found.modes_not_held))] if found.modes_not_held else []
    told = [*held, *_margins(found), *_gradients(found), *_growing(found), *_tiring(found)]
    if not told:
        return say(WELL, name=name, soon=Value("time_to_double_s", SOON_S, plain=True))
    return say("{told}." if held else "{name}: {told}.", name=name, told=listed(told))


def _margins(found: PowerplantHandling) -> Iterator[Sentence]:
    for share, said in zip((found.forces.static_margin, found.forces.static_margin_free), BEHIND, strict=True):
        if share < 0.0:
            behind = Value("static_margin", -share, decimals=1, percent=True)
            yield say(said, behind=behind)
    if not found.free_modes:
        yield say("elevator or rudder is overbalanced and does not centre")


def _gradients(found: PowerplantHandling) -> Iterator[Sentence]:
    """Yield what is the wrong way round with speed, both of it at the throttle of level flight."""
    sure = found.forces.force_reversed_probability
    slower, faster = (row for row in found.forces.straight if row.power == "same")
    for wrong, said, quantity in (
        (found.forces.position_reversed, MOVES, "elevator_share"),
        (found.forces.force_reversed, CHANGES, "stick_force_n"),
    ):
        if wrong:
            yield say(
                said,
                sure=_sure(sure) if quantity == "stick_force_n" else "",
                before=_told(slower, quantity),
                after=_told(faster, quantity),
                slow=Value("speed_m_s", slower.speed_m_s, digits=3),
                fast=Value("speed_m_s", faster.speed_m_s, digits=3),
            )


def _sure(share: float | None) -> Cell:
    """Return in how many of the airplanes drawn it is so; nothing without bands."""
    shown = Value("force_reversed_probability", share, decimals=0, percent=True)
    return "" if share is None else say(", in {share} of the airplanes drawn", share=shown)


def _told(row: StraightForces, quantity: str) -> Value:
    share = quantity.endswith("share")
    return Value(quantity, getattr(row, quantity), signed=True, percent=share, decimals=1)


def _growing(found: PowerplantHandling) -> Iterator[Sentence]:
    for modes, said in ((found.modes, "with controls held {grown}"), (found.free_modes, FREE)):
        grown = [_doubles(mode) for mode in modes if _soon(mode)]
        if grown:
            yield say(said, grown=listed(grown, " and "))


def _soon(mode: GradedMode) -> bool:
    return mode.time_to_double_s is not None and (mode.time_to_double_s < SOON_S or (mode.level or 1) >= WORST)


def _doubles(mode: GradedMode) -> Sentence:
    """Return that a mode grows, and how: a spiral is called so, a single root of the phugoid by what it does."""
    alone = mode.name == "phugoid" and not mode.imag_rad_s
    return say(
        "{it} doubles in {time}",
        it="a departure in speed (a phugoid without oscillation)" if alone else say("the {mode}", mode=mode.name),
        time=Value("time_to_double_s", mode.time_to_double_s),
    )


def _tiring(found: PowerplantHandling) -> Iterator[Sentence]:
    """Yield what of level flight a pilot cannot hold for minutes."""
    level: Sequence[StraightForces] = [row for row in found.forces.straight if row.power == "level"]
    tiring = [row for row in level if row.force_held not in {None, "minutes"} and row.limit is None]
    if not tiring:
        return
    worst = max(tiring, key=lambda row: max(abs(getattr(row, force)) / most for force, _, most, _ in FORCES))
    force, words, minutes_n, moment_n = max(FORCES, key=lambda one: abs(getattr(worst, one[0])) / one[2])
    ever = worst.force_held != "no"
    most: Cell = Value(force, minutes_n if ever else moment_n, decimals=0)
    yield say(
        TOO_LONG if ever else TOO_MUCH,
        where=words,
        held=Value(force, getattr(worst, force), signed=True, decimals=1),
        speed=Value("speed_m_s", worst.speed_m_s, digits=3),
        most=most,
    )
