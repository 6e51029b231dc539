"""Tables of the forces at stick and pedals, in turns and in straight flight, and their sentences."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sim.aerodynamics.hinge_moments import OPEN_GAP, OPEN_GAP_MEASURED
from sim.flight.force_limits import FORCES as FORCES_HELD
from sim.flight.force_limits import MINUTES, MOMENT
from sim.model.controls import TRAVEL_ERROR, WEIGHT_ERROR
from viz.sheets.bands import band, known, with_band
from viz.sheets.blocks import Column, Table, Value, listed, say
from viz.sheets.modes import modes_table
from viz.sheets.validity import outside, starred

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.forces_answer import LetGo, StickForces, StraightForces
    from sim.studies.handling_answer import Handling, PowerplantHandling, SteadyTurn
    from viz.sheets.blocks import Block, Cell, Sentence

FORCES = (
    ("Stick, fore and aft", "Stick", "stick_force_n"),
    ("Stick, sideways", "Sideways", "stick_side_force_n"),
    ("Pedal", "Pedal", "pedal_force_n"),
)
"""Head of a column, the same where there is little room, and what stands in it."""
BARE: dict[str, Any] = {"bare": True, "signed": True, "brief": True, "decimals": 1}
"""How a force is written under the head of its column."""
USUAL_DEG = 45.0
"""The steepest bank of which a sentence tells."""
DOUBTS = {
    "travel": say("travels in the cockpit to ±{share} %", share=f"{100.0 * TRAVEL_ERROR:.0f}"),
    "friction": say("friction by half to twice"),
    "mass": say("weight of the elevator to ±{share} %", share=f"{100.0 * WEIGHT_ERROR:.0f}"),
    "mass_arm": say("its centre of gravity as much"),
}
"""End of a key that is estimated -> what is not known with it, one standard deviation."""
OPEN = (
    "Open gap at the hinge of {surfaces}: taken to leave {alpha} % of the hinge moment with incidence and {turned} % "
    "of that with deflection of a sealed one, from memory. The one section found measured had {alpha_measured} % and "
    "{turned_measured} % (NACA 0015, heli-air.net, figure 12): not even the sign of the first is sure. Both differ by "
    "about one standard deviation of the slopes."
)
OPEN_SHARES = {
    name: f"{100.0 * share:.0f}"
    for name, share in zip(
        ("alpha", "turned", "alpha_measured", "turned_measured"), (*OPEN_GAP, *OPEN_GAP_MEASURED), strict=True
    )
}
SET_FAR = (
    "The force changes the wrong way with speed all the same: a margin is of incidence at one speed, and a force that "
    "is held far from trim grows with speed. With the tailplane turned as below none is held, and the margins stay."
)
POSITION: dict[str, Any] = {"decimals": 0, "percent": True, "bare": True, "signed": True, "brief": True}
"""How the position of a control is written."""
FLIGHTS = (
    "Flight: level; with the same throttle as level flight at the speed of the turns, slower climbing and faster "
    "sinking; with full and idle throttle. Held for: how long a pilot holds the forces, or what prevents the flight."
)
SIDE: dict[str, Any] = {"signed": True, "brief": True, "decimals": 1}
LET_GO: tuple[tuple[str, str, dict[str, Any]], ...] = (
    ("Speed", "speed_m_s", {"digits": 3}),
    ("Bank", "bank_deg", {"signed": True, "brief": True, "decimals": 0}),
    ("Turn", "turn_rate_deg_s", SIDE),
    ("Sideslip", "sideslip_deg", {"decimals": 1, "change": True}),
    ("Climb", "climb_rate_m_s", {"signed": True, "brief": True, "digits": 2}),
)
"""Head of a column of the controls let go, field, and how it is written."""
LET_GO_MEANS = (
    "Pedals: the hand keeps speed and wings level; all, trimmed: nothing is held but the stick force fore and aft of "
    "level flight, by a spring or a turned tailplane. Sideslip: + with the wind from the right. Friction, which may "
    "hold a control where it is, is left out."
)
NOWHERE = "–: let go little by little, it balances only part of the way, and departs."
FREE = (
    "Elevator and rudder float without friction at the forces of this flight, as with a spring that holds it; the "
    "weight of the elevator pulls as the load factor at the tail says. Of the likeliest airplane."
)
SWINGS = (
    "Its inertia is left out: as a plate, on its own, it would swing at {swing}; modes much slower than that feel "
    "nothing of it."
)
BALANCED = "Its inertia, which its place of mass does not tell, is left out."
MOST: dict[str, Any] = {"decimals": 0}


def forces_table(name: str, found: PowerplantHandling, banks: Sequence[Cell]) -> Table:
    """Return the forces in each turn of one powerplant.

    Parameters
    ----------
    name : str
        Of the powerplant.
    found : PowerplantHandling
        Its turns and forces.
    banks : sequence of Cell
        The bank of each turn as printed.
    """
    title = say("{name}: forces that the pilot holds in these turns", name=name)
    passed = _passed(found.turns, banks)
    below = (*passed, _per_g(found.forces), _margins(found.forces), *_set_far(found.forces), _hands_off(found.forces))
    return Table(title, (Column("Bank", tuple(banks)), *_columns(found.turns)), below)


def force_bands(name: str, found: PowerplantHandling, banks: Sequence[Cell]) -> Table:
    """Return the ends of the 90 % bands of the forces in each turn; arguments as for `forces_table`."""
    title = say("{name}: 90 % band of each force", name=name)
    return Table(title, (Column("Bank", tuple(banks)), *_ends(found.turns)))


def straight_bands(name: str, found: StickForces) -> Table:
    """Return the ends of the 90 % bands of the forces in straight flight, and how many airplanes reverse them."""
    title = say("{name}: 90 % band of each force in straight flight", name=name)
    share = Value("force_reversed_probability", found.force_reversed_probability, decimals=0, percent=True)
    told = say("More pull to fly faster at one throttle: in {share} of the airplanes drawn.", share=share)
    return Table(title, (*_flights(found), *_ends(found.straight)), (told,))


def _ends(rows: Sequence[SteadyTurn] | Sequence[StraightForces]) -> Iterator[Column]:
    for head, short, quantity in FORCES:
        yield Column(head, tuple(band(row, quantity, **BARE) for row in rows), quantity, short)


def _flights(found: StickForces) -> Iterator[Column]:
    speeds = tuple(Value("speed_m_s", row.speed_m_s, digits=3, bare=True) for row in found.straight)
    yield Column("Speed", speeds, "speed_m_s")
    yield Column("Flight", tuple(row.power for row in found.straight))


def straight_table(name: str, found: StickForces) -> Table:
    """Return the forces in straight flight of one powerplant, level over speed and at full and idle throttle."""
    title = say("{name}: forces that the pilot holds in straight flight", name=name)
    shares = tuple(known(row, "elevator_share", **POSITION) for row in found.straight)
    elevator = Column("Elevator [% of travel]", shares, short="Elevator\n[%]")
    first = (*_flights(found), elevator)
    flights = [
        say("{speed} {power}", speed=Value("speed_m_s", row.speed_m_s, digits=3), power=row.power)
        for row in found.straight
    ]
    return Table(title, (*first, *_columns(found.straight)), (*_passed(found.straight, flights), FLIGHTS))


def let_go_table(name: str, found: StickForces) -> Table:
    """Return to which flights the airplane balances with controls let go; `found` must have some."""
    title = say("{name}: controls let go in level flight, at its throttle", name=name)
    columns = [Column("Let go", tuple(starred(one.what, one.beyond) for one in found.let_go))]
    for head, quantity, look in LET_GO:
        cells = tuple(known(one, quantity, bare=True, **look) for one in found.let_go)
        columns.append(Column(head, cells, quantity))
    doubles = (_stays(one) for one in found.let_go)
    columns.append(Column("Leaves it, doubling in", tuple(doubles), short="Doubles\nin"))
    beyond = outside(one.beyond for one in found.let_go)
    lost = any(one.speed_m_s != one.speed_m_s for one in found.let_go)
    return Table(title, tuple(columns), (LET_GO_MEANS, *((NOWHERE,) if lost else ()), *beyond))


def _stays(one: LetGo) -> Cell:
    if one.speed_m_s != one.speed_m_s:
        return "–"
    time = Value("time_to_double_s", one.time_to_double_s, absent="stays")
    return say("{time}\n{mode}", time=time, mode=one.grows) if one.grows else time


def free_modes(name: str, found: PowerplantHandling) -> Iterator[Block]:
    """Yield the modes with stick and pedals free, where there are any; arguments as for `forces_table`."""
    if not found.free_modes:
        yield say(
            "{name}: with stick and pedals free nothing is steady, for elevator or rudder is overbalanced.", name=name
        )
        return
    table = modes_table(say("{name}: the same modes with stick and pedals free", name=name), found.free_modes, (), None)
    swing = found.forces.elevator_swing_rad_s
    shown = Value("elevator_swing_rad_s", swing)
    told = say(SWINGS, swing=shown) if swing == swing else say(BALANCED)
    yield replace(table, notes=(*table.notes, say(FREE), told))


def _columns(rows: Sequence[SteadyTurn | StraightForces]) -> Iterator[Column]:
    for head, short, quantity in FORCES:
        yield Column(head, tuple(known(row, quantity, **BARE) for row in rows), quantity, short)
    lasting = ((row.limit or row.force_held or "–").removesuffix(" travel") for row in rows)
    yield Column("Held for", tuple(lasting))


def _passed(rows: Sequence[SteadyTurn | StraightForces], names: Sequence[Cell]) -> Iterator[Sentence]:
    """Yield which limit of a pilot which of the flights that can be flown pass, for minutes and for a moment."""
    flown = [(row, name) for row, name in zip(rows, names, strict=True) if row.limit is None and row.force_held]
    if not flown:
        return
    told = []
    for field, limits in (("past_minutes", MINUTES), ("past_moment", MOMENT)):
        over = []
        for force, quantity, most in zip(FORCES_HELD, (row[2] for row in FORCES), limits, strict=True):
            where = [name for row, name in flown if force in getattr(row, field)]
            if where:
                told_where = "all of them" if len(where) == len(flown) else listed(where, ", ")
                shown = Value(quantity, most, **MOST)
                over.append(say("{force} ({most}) in {where}", force=force, most=shown, where=told_where))
        told.append(listed(over) if over else "none")
    yield say(
        "Of those that can be flown, past the limit for minutes: {minutes}. For a moment: {moment}.",
        minutes=told[0],
        moment=told[1],
    )


def _per_g(found: StickForces) -> Sentence:
    force = with_band(found, "stick_force_per_g_n", signed=True, decimals=1)
    return say(
        "For one more unit of load factor in a pull-up at one speed, power off: {force}; a turn pitches faster, and "
        "takes more.",
        force=force,
    )


def _margins(found: StickForces) -> Sentence:
    """Return the static margin, stick fixed and free, in percent of the mean chord."""
    fixed = Value("static_margin", found.static_margin, decimals=1, percent=True)
    if found.static_margin_free != found.static_margin_free:
        return say("Static margin {fixed} of the mean chord; the free elevator is overbalanced.", fixed=fixed)
    free = with_band(found, "static_margin_free", decimals=1, percent=True)
    return say(
        "Static margin, power off: {fixed} of the mean chord with the stick held, {free} with it free.",
        fixed=fixed,
        free=free,
    )


def _set_far(found: StickForces) -> Iterator[Sentence]:
    """Yield why the force is reversed although the airplane is stable with the stick free."""
    if found.force_reversed and found.static_margin_free > 0.0:
        yield say(SET_FAR)


def _hands_off(found: StickForces) -> Sentence:
    """Return where the stick needs no hand, and how the tailplane would have to stand for that."""
    level = [row.speed_m_s for row in found.straight if row.power == "level"]
    ends = {"low": Value("speed_m_s", level[0], digits=3), "high": Value("speed_m_s", level[-1], digits=3)}
    turn = Value("tail_turn_deg", found.tail_turn_deg, decimals=1, signed=True)
    at = [Value("hands_off_m_s", speed, digits=3) for speed in found.hands_off_m_s]
    here = say("at the speed of the turns with the leading edge of the tailplane turned {turn}", turn=turn)
    if not at:
        return say("Hands off in level flight: at no speed from {low} to {high}; {here}.", **ends, here=here)
    return say("Hands off in level flight: at {speeds}; {here}.", speeds=listed(at, " and "), here=here)


def force_notes(found: StickForces) -> Iterator[Sentence]:
    """Yield what the columns mean, the limits behind them, and which estimates stand in them."""
    minutes, moment = (
        listed((Value(row[2], limit, **MOST) for row, limit in zip(FORCES, limits, strict=True)), ", ")
        for limits in (MINUTES, MOMENT)
    )
    yield say(
        "Stick: pull or push, sideways; pedal: of the foot that presses. Held for minutes: within {minutes}; for a "
        "moment: within {moment} (14 CFR 23.143(c), 2014). Without friction, below which nothing moves: {stick} at the "
        "grip, {pedal} at a pedal.",
        minutes=minutes,
        moment=moment,
        stick=Value("stick_friction_n", found.stick_friction_n, digits=2),
        pedal=Value("pedal_friction_n", found.pedal_friction_n, digits=2),
    )
    if found.open_gaps:
        yield say(OPEN, surfaces=listed(found.open_gaps, " and "), **OPEN_SHARES)
    doubts = [doubt for end, doubt in DOUBTS.items() if any(key.endswith(end) for key in found.estimated)]
    if doubts:
        keys = ", ".join(found.estimated)
        yield say("Estimates in the place of {keys}: {doubts}.", keys=keys, doubts=listed(doubts, ", "))


def turns_told(answer: Handling) -> Iterator[Sentence]:
    """Yield what the pilot holds to the left and to the right in the steepest pair of usual turns that were asked for.

    Of each powerplant that has both turns.
    """
    for name, found in answer.powerplants.items():
        by_bank = {turn.bank_deg: turn for turn in found.turns if turn.force_held is not None}
        pairs = [bank for bank in by_bank if 0.0 < bank <= USUAL_DEG and -bank in by_bank]
        if pairs:
            left, right = (_held_in(by_bank[side * max(pairs)]) for side in (-1.0, 1.0))
            yield say(
                "With the {name} a {bank} turn takes {left} to the left, {right} to the right.",
                name=name,
                bank=Value("bank_deg", max(pairs), plain=True),
                left=left,
                right=right,
            )


def _held_in(turn: SteadyTurn) -> Sentence:
    stick = known(turn, "stick_force_n", signed=True, digits=2)
    pedal = known(turn, "pedal_force_n", signed=True, digits=2)
    return say("{stick} on the stick and {pedal} rudder", stick=stick, pedal=pedal)
