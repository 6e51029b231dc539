"""The sheet of `whirlgate compare`: a column for each powerplant."""

from __future__ import annotations

from math import isnan
from typing import TYPE_CHECKING

from viz.sheets.bands import DRAWN, with_band
from viz.sheets.blocks import Run, Value, listed, next_steps, rows, say
from viz.sheets.cams import cam_says
from viz.sheets.from_sim import remarks
from viz.sheets.masses import flown_at
from viz.sheets.momentum import momentum
from viz.sheets.validity import outside, starred
from viz.sheets.window_cells import NEAR, STRIKES, arcs, clearances

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.gun import WhichGun
    from sim.studies.compare import Comparison, PowerplantComparison, TurnCouple
    from sim.studies.impulse_response import Disturbance
    from viz.sheets.blocks import Block, Cell, Sentence, Table

    Row = list[Cell]

INPUTS = {
    "rudder kick": "10° of right rudder for half a second",
    "pull-up": "5° of up elevator for half a second",
}
"""Input -> what the pilot does."""
CLOCKWISE = "At full speed; clockwise as seen from the cockpit, looking forward."
DIFFERENCE = (
    "Difference from the same flight without the angular momentum of the rotor; the figure draws the whole response."
)
BALANCED = (
    "At the shaft speed that each level turn requires. Elevator and rudder must balance these moments. The moment of a "
    "clockwise rotor pitches the nose up in a left turn, down in a right turn, and yaws it right in both."
)
SCATTER = "Firing windows are those of the likeliest delay; burst and safe-range count its scatter."
FORCES = (
    "Pull or push at the grip, and the foot that presses; without friction. For how long they can be held: handling."
)
BEYOND = "In brackets: the limit that prevents the turn."
WINDOW = "Window: propeller angles between which the cam lets the gun go"
IMPULSE = "Impulse: propeller angle at which the cam lets a round go"
ANGLES = (
    "{what}; 0° with blade 1 on the bore line; of those alike the first. Clear of blade and margin, without scatter; "
    '"{near}": within the margin, "{strikes}": a blade. Lead: how far the propeller turns from then until the round '
    "passes. Steady rate of fire."
)

GUNS = ("first", "second")
FIRING = {
    "": "Firing windows through the propeller",
    "first": "Firing windows through the propeller, first gun",
    "second": "Firing windows through the propeller, second gun",
}
GEAR = {
    "": "full, gear: strikes of 1000",
    "first": "full, gear, first gun: strikes of 1000",
    "second": "full, gear, second gun: strikes of 1000",
}
NO_GEAR = {
    "": "no gear: strikes of 1000",
    "first": "no gear, first gun: strikes of 1000",
    "second": "no gear, second gun: strikes of 1000",
}
WORSE = {
    "": "At full speed this cam strikes more blades of the {names} than no gear would.",
    "first": "At full speed the cam of the first gun strikes more blades of the {names} than no gear would.",
    "second": "At full speed the cam of the second gun strikes more blades of the {names} than no gear would.",
}
"""Gun, empty where both are alike -> a title, a label, a sentence."""
WHEN = ("idle: propeller", "cruise: propeller", "full: propeller")
SECOND = "Windows of the second gun, and whether they are clear: whirlgate windows with --which-gun second."


def sheet(answer: Comparison) -> Iterator[Block]:
    """Yield rotors, turns, responses and firing windows, then the turns of 45° in a sentence each."""
    names, found = list(answer.powerplants), list(answer.powerplants.values())
    yield rows(say("{title}: rotating parts", title=answer.title), ["", *names], _rotors(found), CLOCKWISE)
    turns = zip(*(one.turns for one in found), strict=True)
    held = all(turn.limit is None for one in found for turn in one.turns)
    yield rows(
        say(
            "Level turns at {speed} and {altitude}: gyroscopic moment on the airframe",
            speed=Value("speed_m_s", answer.speed_m_s),
            altitude=Value("altitude_m", answer.altitude_m),
        ),
        ["Bank", *names],
        ([Value("bank_deg", same[0].bank_deg, signed=True), *map(_moments, same)] for same in turns),
        BALANCED if held else say("{balanced} {beyond}", balanced=BALANCED, beyond=BEYOND),
        *outside(turn.beyond for one in found for turn in one.turns),
    )
    yield _held(names, found)
    responses = zip(*(one.disturbances for one in found), strict=True)
    yield rows(
        "Same control input in straight flight: largest change of attitude due to the rotor within three seconds",
        ["Input", *names],
        ([INPUTS[same[0].input], *map(_contribution, same)] for same in responses),
        DIFFERENCE,
        *outside(one.beyond for each in found for one in each.disturbances),
    )
    if answer.cams:
        yield _firing(answer, names)
    yield from _turns_of_45(answer)
    if answer.rotor_effect:
        from viz.sheets.rotor_effect import control_travel, sureness

        yield control_travel(answer.rotor_effect)
        yield from sureness(answer.rotor_effect)
    if any(one.polar_inertia_low_kg_m2 is not None for one in found):
        yield say("{drawn} {scatter}", drawn=DRAWN, scatter=SCATTER) if found[0].timing else say(DRAWN)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("control positions in these turns, and the modes, with {run}", run=Run("handling")))


def _rotors(found: list[PowerplantComparison]) -> Iterator[Row]:
    yield ["Kind of engine", *(one.kind for one in found)]
    yield ["Full speed", *(Value("spin_rad_s", one.spin_rad_s, signed=True) for one in found)]
    yield ["Polar inertia", *(with_band(one, "polar_inertia_kg_m2", size=True, gap="\n") for one in found)]
    yield ["Angular momentum", *(momentum(one, "\n") for one in found)]
    yield ["Ratio to the smallest", *(with_band(one, "momentum_ratio", gap="\n") for one in found)]


def _moments(turn: TurnCouple) -> Cell:
    limit = say("\n({limit})", limit=turn.limit) if turn.limit else ""
    if turn.effect == "none":
        return starred(say("none{limit}", limit=limit), turn.beyond)
    told = say(
        "{pitch}\n{yaw}{limit}",
        pitch=with_band(turn, "pitch_n_m", signed=True, gap="\n"),
        yaw=with_band(turn, "yaw_n_m", signed=True, gap="\n"),
        limit=limit,
    )
    return starred(told, turn.beyond)


def _held(names: list[str], found: list[PowerplantComparison]) -> Table:
    turns = zip(*(one.turns for one in found), strict=True)
    lines = ([Value("bank_deg", same[0].bank_deg, signed=True), *map(_forces, same)] for same in turns)
    return rows("The same turns: what the pilot holds at stick and pedals", ["Bank", *names], lines, FORCES)


def _forces(turn: TurnCouple) -> Cell:
    if isnan(turn.stick_force_n):
        return "none"
    told = say(
        "stick {stick}\npedal {pedal}",
        stick=with_band(turn, "stick_force_n", signed=True, decimals=1),
        pedal=with_band(turn, "pedal_force_n", signed=True, decimals=1),
    )
    return starred(told, turn.beyond)


def _contribution(one: Disturbance) -> Cell:
    if one.effect == "none":
        return "none"
    told = say(
        "{pitch}\n{yaw}",
        pitch=with_band(one, "pitch_by_spin_deg", decimals=1, signed=True, gap="\n"),
        yaw=with_band(one, "yaw_by_spin_deg", decimals=1, signed=True, gap="\n"),
    )
    return starred(told, one.beyond)


def _impulses(found: list[PowerplantComparison]) -> bool:
    """Return whether single impulses let the rounds go, for which no time is open."""
    windows = [window for one in found for row in one.timing for window in row.windows_deg]
    return bool(windows) and all(window.from_deg == window.to_deg for window in windows)


def _firing(answer: Comparison, names: list[str]) -> Table:
    return rows(
        FIRING[answer.gun or ""],
        ["Engine speed", *names],
        _timing(answer),
        cam_says(answer.cams, answer.gun),
        *_worse(answer),
        *([SECOND] if answer.gun else ()),
        say(
            ANGLES,
            what=IMPULSE if _impulses(list(answer.powerplants.values())) else WINDOW,
            near=NEAR,
            strikes=STRIKES,
        ),
    )


def _timing(answer: Comparison) -> Iterator[Row]:
    found, turns = list(answer.powerplants.values()), [each.period_turns for each in answer.cams.values()]
    impulses = _impulses(found)
    kind = "  impulse" if impulses else "  window"
    for index, when in enumerate(WHEN):
        at = [one.timing[index] for one in found]
        yield [when, *(Value("rpm", row.rpm, decimals=0) for row in at)]
        yield [kind, *(arcs(*each, 0, bare=False) for each in zip(at, turns, strict=True))]
        yield ["  clear by", *(clearances(*each, 0, bare=False) for each in zip(at, turns, strict=True))]
        if not impulses:
            yield ["  open time", *(Value("open_ms", row.open_ms, decimals=1) for row in at)]
        yield ["  lead angle", *(Value("lead_deg", row.lead_deg, decimals=0) for row in at)]
        rates = (row.rounds_per_min or None for row in at)
        yield [
            "  rounds per minute",
            *(Value("rounds_per_min", r, decimals=0, bare=True, absent="none") for r in rates),
        ]
    yield from _strikes(found, answer.gun)


def _strikes(found: list[PowerplantComparison], gun: WhichGun) -> Iterator[Row]:
    """Yield rounds of a thousand that strike with the gear and without it; of two unlike guns in a row for each."""
    for number, name in enumerate(GUNS if gun else ("",)):
        timed, untimed = ([of(one, number) for one in found] for of in (_timed, _untimed))
        if any(share is not None for share in timed):
            cells = (
                Value("timed_strikes_per_1000", share, digits=2, bare=True, absent="no exact answer") for share in timed
            )
            yield [GEAR[name], *cells]
        bare = (Value("untimed_strikes_per_1000", share, decimals=0, bare=True) for share in untimed)
        yield [NO_GEAR[name], *bare]


def _timed(one: PowerplantComparison, number: int) -> float | None:
    return one.timed_strikes_of_each_gun[number] if one.timed_strikes_of_each_gun else None


def _untimed(one: PowerplantComparison, number: int) -> float | None:
    return one.untimed_strikes_of_each_gun[number] if one.untimed_strikes_of_each_gun else None


def _worse(answer: Comparison) -> Iterator[Cell]:
    """Yield which engine's propeller is struck more often with the gear than without, where that was asked."""
    for number, gun in enumerate(GUNS if answer.gun else ("",)):
        names = [
            name
            for name, one in answer.powerplants.items()
            if (_timed(one, number) or 0.0) > (_untimed(one, number) or 0.0)
        ]
        if names:
            yield say(WORSE[gun], names=listed(names, " and "))


def _turns_of_45(answer: Comparison) -> Iterator[Sentence]:
    """Yield a sentence for each powerplant, the largest angular momentum first."""
    largest_first = sorted(answer.powerplants.items(), key=lambda item: -abs(item[1].angular_momentum_kg_m2_s))
    for name, one in largest_first:
        left, right = (next(turn for turn in one.turns if turn.bank_deg == bank) for bank in (-45.0, 45.0))
        if "none" not in (left.effect, right.effect):
            yield say(
                "Gyroscopic pitching moment with the {name} in level 45° turns: {left} in the left turn, {right} in "
                "the right turn.",
                name=name,
                left=with_band(left, "pitch_n_m", signed=True),
                right=with_band(right, "pitch_n_m", signed=True),
            )
