"""The sheet of `whirlgate stall`: a table for each powerplant, and autorotation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.bands import has_band, with_band
from viz.sheets.blocks import Run, Value, listed, next_steps, remarks, rows, say
from viz.sheets.masses import flown_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.autorotation import Arrangement, AutorotationAnswer, AutorotationOf, DrivenRange
    from sim.studies.stall import StallAnswer, StallOf
    from sim.studies.stall_entry import StallEntry
    from viz.sheets.blocks import Block, Cell, Sentence

HEADS = ("Power", "Bank", "Stall", "at incidence", "First to let go", "Warned", "Roll", "Height lost")
POWERS = {"idle": "idle", "cruise": "cruise", "full": "full"}
CONDITIONS = (
    "From 1.25 times the stall the stick comes back to its stop in 25 s, throttle left alone, ailerons and rudder "
    "holding bank and ball: an accelerated entry; slower than that the wing lets go more gently. First to let go: "
    "where the flow first leaves the wing; warned: how much faster it flies then. Roll: bank gained before the pilot "
    "reacts. Height: until a recovery with full throttle, unloaded, wings levelled, stops the descent; none where the "
    "airplane climbs through it."
)
LIMITED = (
    "Strips with section curves say how engines differ, and left from right. They know no delay of the stall of a "
    "rotating wing, no scatter from airplane to airplane, no gusts; they certify no speed and no recovery. "
    "Stalling speeds of whirlgate speeds are those of the greatest lift in steady flight: slower or faster here by how "
    "the stall is entered."
)
ARRANGED = ("Gap", "Stagger, upper ahead", "Damping of a roll reversed", "Fastest roll that goes on", "")
BEGUN = (
    "Below the range in which every roll grows, a slow roll dies out and one begun fast, by a gust or a dropped wing, "
    "goes on."
)
UNSHIELDED = (
    "Same sections and incidences. What one plane shields of another past the stall is not computed, and tunnels found "
    "that above 30° it decides: an unstaggered biplane tends to spin flat, a monoplane does not (NACA TR 273, 1927)."
)
DRAWN = "Bands of 90 %: greatest lift and mass. The other columns have none: they are good for a comparison."


def sheet(answer: StallAnswer) -> Iterator[Block]:
    """Yield the stalls with each powerplant, what sets engines apart, and autorotation."""
    last = [*answer.powerplants][-1]
    for name, own in answer.powerplants.items():
        title = say(
            "{title}, {name}: stalls at {altitude}, pilot reacts after {reaction}",
            title=answer.title,
            name=name,
            altitude=Value("altitude_m", answer.altitude_m),
            reaction=Value("reaction_s", answer.reaction_s),
        )
        notes: tuple[Cell, ...] = (*_worst(answer), CONDITIONS, _slowed(answer), *_drawn(own)) if name == last else ()
        yield rows(title, HEADS, (_row(entry) for entry in own.entries), *notes)
    yield rows("Autorotation, power off", ("", *answer.powerplants), _autorotation(answer.autorotation), BEGUN, LIMITED)
    yield from _rearranged(answer.autorotation)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("crossed controls into a spin, with {run}", run=Run("maneuver spin-entry")))


def _slowed(answer: StallAnswer) -> Sentence:
    """Return how quickly speed is lost at the stalls."""
    lost = [one.slowing_m_s2 for own in answer.powerplants.values() for one in own.entries if one.slowing_m_s2]
    least, most = (Value("slowing_m_s2", end) for end in (min(lost, default=None), max(lost, default=None)))
    return say(
        "At the stalls {least} to {most} of speed are lost, so that incidences differ a little from that of steady "
        "trim, of {field}.",
        least=least,
        most=most,
        field=Run("field"),
    )


def _drawn(own: StallOf) -> tuple[str, ...]:
    return (DRAWN,) if any(has_band(entry, "stall_m_s") for entry in own.entries) else ()


def _row(entry: StallEntry) -> list[Cell]:
    bank: Cell = Value("bank_deg", entry.bank_deg, decimals=0, signed=True) if entry.bank_deg else "level"
    if entry.stall_m_s is None:
        return [POWERS[entry.power], bank, "none", "", "stick at its stop", "", "", ""]
    return [
        POWERS[entry.power],
        bank,
        with_band(entry, "stall_m_s", gap="\n"),
        Value("alpha_deg", entry.alpha_deg),
        entry.first_panel,
        Value("warning_m_s", entry.warning_m_s),
        Value("roll_deg", entry.roll_deg, decimals=0, signed=True),
        Value("height_lost_m", entry.height_lost_m, decimals=0),
    ]


def _worst(answer: StallAnswer) -> Iterator[Sentence]:
    """Yield the stall with the largest roll of each powerplant."""
    for name, own in answer.powerplants.items():
        entries = [entry for entry in own.entries if entry.roll_deg is not None]
        if entries:
            worst = max(entries, key=lambda entry: abs(entry.roll_deg or 0.0))
            yield say(
                "{name} rolls most at {power} power{bank}: {roll} in {reaction}, {most} before it is stopped, {pitch}; "
                "{height} lost.",
                name=name,
                power=POWERS[worst.power],
                bank=say(" with {bank}", bank=Value("bank_deg", worst.bank_deg, decimals=0, signed=True))
                if worst.bank_deg
                else "",
                roll=Value("roll_deg", worst.roll_deg, decimals=0, signed=True),
                reaction=Value("reaction_s", answer.reaction_s),
                most=Value("most_roll_deg", worst.most_roll_deg, decimals=0, signed=True),
                pitch=Value("pitch_deg", worst.pitch_deg, decimals=0, signed=True),
                height=Value("height_lost_m", worst.height_lost_m, decimals=0),
            )


def _autorotation(found: AutorotationAnswer) -> Iterator[list[Cell]]:
    owns = found.powerplants.values()
    yield ["every roll grows: damping reversed", *(_reversed(own) for own in owns)]
    yield ["a fast roll goes on by itself", *(_goes_on(own) for own in owns)]
    yield ["fastest roll that goes on", *(_fastest(own) for own in owns)]


def _rearranged(found: AutorotationAnswer) -> Iterator[Block]:
    """Yield the table of gaps and staggers; none of a monoplane."""
    if not found.arrangements:
        return
    title = say("Autorotation of the planes at other distances, with {name}, in mean chords", name=found.powerplant)
    yield rows(title, ARRANGED, (_arranged(one) for one in found.arrangements), UNSHIELDED)


def _arranged(one: Arrangement) -> list[Cell]:
    return [
        Value("gap_chords", one.gap_chords, decimals=2),
        Value("stagger_chords", one.stagger_chords, decimals=2),
        _reversed(one.rolls),
        _fastest(one.rolls),
        "as drawn" if one.as_drawn else "",
    ]


def _reversed(own: AutorotationOf) -> Cell:
    if not own.ranges:
        return "nowhere: a roll dies out"
    return say("{ranges}\nof incidence", ranges=listed([_between(one, "driven") for one in own.ranges], "\nand "))


def _goes_on(own: AutorotationOf) -> Cell:
    return "nowhere" if own.goes_on_from_deg is None else say("{range}", range=_between(own, "goes_on"))


def _between(one: AutorotationOf | DrivenRange, name: str) -> Sentence:
    first, last = (Value(f"{name}_{end}_deg", getattr(one, f"{name}_{end}_deg")) for end in ("from", "to"))
    return say("{first} to {last}", first=first, last=last)


def _fastest(own: AutorotationOf) -> Cell:
    if own.steady_rate is None:
        return "none"
    rate, at = Value("steady_rate", own.steady_rate), Value("steady_alpha_deg", own.steady_alpha_deg)
    return say("p b/2V = {rate}\nat {at}", rate=rate, at=at)
