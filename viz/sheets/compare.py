"""The sheet of `whirlgate compare`: one column a powerplant, every sign in the pilot's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.commands.flight_options import SIDE
from viz.commands.gun_options import HISTORY
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.compare import Comparison, PowerplantComparison, TurnCouple
    from sim.studies.impulse_response import Disturbance
    from viz.sheets.format import Units
    from viz.sheets.table import Block

INPUTS = {
    "rudder kick": "10° of right rudder for half a second",
    "pull-up": "5° of up elevator for half a second",
}
BEYOND = " In brackets: the limit that keeps the airplane from holding that turn."


def sheet(answer: Comparison, units: Units) -> Iterator[Block]:
    """Print the comparison."""
    names, found = list(answer.powerplants), list(answer.powerplants.values())
    speed, height = (shown.amount(name, getattr(answer, name), units) for name in ("speed_m_s", "altitude_m"))
    yield table(f"{answer.title}: what spins", ["", *names], _spin_rows(found, units))
    turns = zip(*(one.turns for one in found), strict=True)
    yield table(
        f"Level turns at {speed}, {height}: what the spin does to the nose",
        ["Bank", *names],
        ([_bank(same[0], units), *(_couple(turn, units) for turn in same)] for same in turns),
        "Elevator and rudder must hold this. Clockwise spin: a left turn lifts the nose, a right turn lowers it."
        + ("" if all(turn.limit is None for one in found for turn in one.turns) else BEYOND),
    )
    inputs = zip(*(one.disturbances for one in found), strict=True)
    yield table(
        "The same input out of straight flight: what the spin adds within three seconds",
        ["Input", *names],
        ([INPUTS[same[0].input], *(_added(one) for one in same)] for same in inputs),
    )
    timed = bool(found[0].timing)
    if timed:
        yield table(
            "Firing windows through the propeller",
            ["At", *names],
            _timing_rows(found),
            "Angles of the propeller, 0 with blade 1 on the bore line; the first window of a turn and the steady rate.",
        )
    yield "\n".join([*_in_short(answer, units), "", ESTIMATE, *([HISTORY] if timed else [])])


def _in_short(answer: Comparison, units: Units) -> Iterator[str]:
    """Yield a sentence a powerplant: the couple of a 45° turn each way, most spin first."""
    most_first = sorted(answer.powerplants.items(), key=lambda item: -abs(item[1].angular_momentum_kg_m2_s))
    for name, one in most_first:
        left, right = (next(turn for turn in one.turns if turn.bank_deg == bank) for bank in (-45.0, 45.0))
        if "none" not in (left.effect, right.effect):
            sides = " and ".join(
                f"{shown.signed('pitch_n_m', turn.pitch_n_m, units, shown.PITCH)} to the {side}"
                for turn, side in ((left, "left"), (right, "right"))
            )
            yield f"In a 45° turn the spin of the {name} makes {sides}."


def _spin_rows(found: list[PowerplantComparison], units: Units) -> Iterator[list[str]]:
    yield ["Engine", *(one.kind for one in found)]
    yield ["Full speed", *(shown.signed("spin_rad_s", one.spin_rad_s, units, shown.ROTATION) for one in found)]
    for name, label in (("polar_inertia_kg_m2", "Polar inertia"), ("angular_momentum_kg_m2_s", "Spin momentum")):
        yield [label, *(shown.amount(name, abs(getattr(one, name)), units) for one in found)]
    yield ["Times the least", *(shown.significant(one.momentum_ratio) for one in found)]


def _bank(turn: TurnCouple, units: Units) -> str:
    return shown.signed("bank_deg", turn.bank_deg, units, SIDE)


def _couple(turn: TurnCouple, units: Units) -> str:
    beyond = [f"({turn.limit})"] if turn.limit else []
    if turn.effect == "none":
        return "\n".join(["none", *beyond])
    pitch = shown.signed("pitch_n_m", turn.pitch_n_m, units, shown.PITCH)
    yaw = shown.signed("yaw_n_m", turn.yaw_n_m, units, shown.YAW)
    return "\n".join([pitch, yaw, *beyond])


def _added(one: Disturbance) -> str:
    if one.effect == "none":
        return "nothing"
    return f"{_tenths(one.pitch_by_spin_deg, shown.PITCH)}\n{_tenths(one.yaw_by_spin_deg, shown.YAW)}"


def _tenths(angle_deg: float, words: tuple[str, str]) -> str:
    return f"{abs(angle_deg):.1f}° {words[angle_deg < 0.0]}"


def _timing_rows(found: list[PowerplantComparison]) -> Iterator[list[str]]:
    for index, when in enumerate(("idle", "cruise", "full")):
        rows = [one.timing[index] for one in found]
        yield [f"{when}: propeller", *(f"{row.rpm:.0f} rpm" for row in rows)]
        windows = [row.windows_deg[0] if row.windows_deg else None for row in rows]
        yield ["  window", *(f"{w.from_deg:.0f}° to {w.to_deg:.0f}°" if w else "none" for w in windows)]
        yield ["  open for, lead", *(f"{row.open_ms:.1f} ms, {row.lead_deg:.0f}°" for row in rows)]
        yield [
            "  rounds a minute",
            *("none" if not row.rounds_per_min else f"{row.rounds_per_min:.0f}" for row in rows),
        ]
