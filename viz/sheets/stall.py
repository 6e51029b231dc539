"""The sheet of `whirlgate stall`: a table for each powerplant, and autorotation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.stall_bands import FLOWN
from sim.units.registry import ratio
from viz.sheets.bands import NEARLY_ALL, has_band, with_band
from viz.sheets.blocks import Run, Value, listed, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.masses import flown_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.autorotation import Arrangement, AutorotationAnswer, AutorotationOf, DrivenRange
    from sim.studies.stall import StallAnswer, StallOf
    from sim.studies.stall_entry import StallEntry
    from viz.sheets.blocks import Block, Cell, Sentence

KNOT_M_S2 = float(ratio("knot", "m/s"))
"""One knot a second."""
HEADS = ("Power", "Bank", "Stall", "at incidence", "load factor", "Losing", "Warned")
AFTER = ("Power", "Bank", "First to let go", "Roll", "Steepest bank", "Lowest nose", "Height lost")
CONDITIONS = (
    "From 1.25 times the stall the stick comes back from trim to its stop in {pull}, throttle left alone, ailerons and "
    "rudder holding bank and ball. Stall: where the lift of the wing breaks. Load factor: there; below 1 the airplane "
    "is falling already, and stalls slower. Losing: airspeed, in the last second before it, {least} to {most} here. "
    "Certification flies one knot a second, {knot} (CS 23.201, from memory); more is an accelerated entry, and rolls "
    "further. A longer pull comes nearer to it: --pull '60 s'. Warned: how "
    "much faster it flies when the flow first leaves the wing."
)
GAINING = "Losing or Warned below 0: it gains speed into the stall, so that no loss of speed warns of it."
FOLLOWED = (
    "First to let go: where the flow first leaves the wing. Roll: bank gained in the {reaction} before the pilot "
    "reacts. Steepest bank: from the stall until he has stopped the roll; beyond 180° it has rolled over. Height: "
    "until a recovery with full throttle, unloaded, wings levelled, stops the descent; none where the airplane climbs "
    "through it. A turn stalls faster and with the nose lower than straight flight, so that the controls have speed to "
    "work with: it may lose less height for as much roll."
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
DRAWN = (
    "Bands of 90 %, of speed, roll, bank and height: {flown} airplanes drawn from the errors of derivatives, drag, "
    "greatest lift, mass, centre of gravity, inertia, rotor, power, propeller and slipstream together. Where bands of "
    "two rows lie over each other, the rows do not differ for certain."
)


def sheet(answer: StallAnswer) -> Iterator[Block]:
    """Yield the stalls with each powerplant, what sets engines apart, and autorotation."""
    last = [*answer.powerplants][-1]
    for name, own in answer.powerplants.items():
        title = say(
            "{title}, {name}: stalls at {altitude}",
            title=answer.title,
            name=name,
            altitude=Value("altitude_m", answer.altitude_m),
        )
        yield rows(title, HEADS, (_row(entry) for entry in own.entries), *_level(own))
        follows = say("{name}: what follows, pilot reacts after {reaction}", name=name, reaction=_reaction(answer))
        notes: tuple[Cell, ...] = (*_worst(answer), *_conditions(answer), *_drawn(answer)) if name == last else ()
        yield rows(follows, AFTER, (_after(entry) for entry in own.entries if entry.stall_m_s is not None), *notes)
    yield rows("Autorotation, power off", ("", *answer.powerplants), _autorotation(answer.autorotation), BEGUN, LIMITED)
    yield from _rearranged(answer.autorotation)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        "the time histories, by adding --csv FILE or --figure FILE to this command",
        say("crossed controls into a spin, with {run}", run=Run("maneuver spin-entry")),
    )


def _reaction(answer: StallAnswer) -> Value:
    return Value("reaction_s", answer.reaction_s, plain=True)


def _level(own: StallOf) -> Iterator[Sentence]:
    """Yield the stalling speed of steady flight beside that of the first stall without power."""
    first = next((one for one in own.entries if one.power == "idle" and one.stall_m_s and not one.bank_deg), None)
    if first is None or first.stall_m_s is None or not first.load_factor:
        return
    yield say(
        "{run}: {steady} in steady flight, at load factor 1. Idle and level it is {here} at load factor {load}, which "
        "is {reduced} at 1; the rest is slipstream and the rotation of the pull.",
        run=Run("speeds"),
        steady=Value("stall_m_s", own.stall_m_s),
        here=Value("stall_m_s", first.stall_m_s),
        load=Value("load_factor", first.load_factor, decimals=2),
        reduced=Value("stall_m_s", first.stall_m_s / first.load_factor**0.5),
    )


def _conditions(answer: StallAnswer) -> Iterator[Sentence | str]:
    """Yield how the stalls are flown and what the columns mean."""
    entries = [one for own in answer.powerplants.values() for one in own.entries]
    lost = [one.slowing_m_s2 for one in entries if one.slowing_m_s2 is not None]
    yield say(
        CONDITIONS,
        pull=Value("pull_s", answer.pull_s, plain=True),
        least=Value("slowing_m_s2", min(lost, default=None), decimals=1),
        most=Value("slowing_m_s2", max(lost, default=None), decimals=1),
        knot=Value("slowing_m_s2", KNOT_M_S2, decimals=1),
    )
    if any((value or 0.0) < 0.0 for one in entries for value in (one.slowing_m_s2, one.warning_m_s)):
        yield GAINING
    yield say(FOLLOWED, reaction=_reaction(answer))


def _drawn(answer: StallAnswer) -> Iterator[Sentence]:
    """Yield how the bands came about, and which airplanes drawn do not stall so."""
    if not any(has_band(one, "stall_m_s") for own in answer.powerplants.values() for one in own.entries):
        return
    yield say(DRAWN, flown=str(FLOWN))
    for name, own in answer.powerplants.items():
        shares = [one.stalled_probability for one in own.entries if one.stalled_probability is not None]
        if shares and min(shares) < NEARLY_ALL:
            yield say(
                "{name}: in each row at least {share} of them stall and do not diverge; the bands are of these.",
                name=name,
                share=Value("stalled_probability", min(shares), decimals=0, percent=True),
            )


def _bank(entry: StallEntry) -> Cell:
    return Value("bank_deg", entry.bank_deg, decimals=0, signed=True) if entry.bank_deg else "level"


def _row(entry: StallEntry) -> list[Cell]:
    if entry.stall_m_s is None:
        return [entry.power, _bank(entry), "none, stick at its stop", "", "", "", ""]
    return [
        entry.power,
        _bank(entry),
        with_band(entry, "stall_m_s", gap="\n"),
        Value("alpha_deg", entry.alpha_deg, decimals=1),
        Value("load_factor", entry.load_factor, decimals=2),
        Value("slowing_m_s2", entry.slowing_m_s2, decimals=1),
        Value("warning_m_s", entry.warning_m_s, decimals=1),
    ]


def _after(entry: StallEntry) -> list[Cell]:
    return [
        entry.power,
        _bank(entry),
        entry.first_panel,
        with_band(entry, "roll_deg", gap="\n", decimals=0, signed=True),
        with_band(entry, "most_bank_deg", gap="\n", decimals=0, signed=True),
        Value("pitch_deg", entry.pitch_deg, decimals=0, signed=True),
        with_band(entry, "height_lost_m", gap="\n", decimals=0, absent="goes on"),
    ]


def _worst(answer: StallAnswer) -> Iterator[Sentence]:
    """Yield the stall with the largest roll of each powerplant."""
    for name, own in answer.powerplants.items():
        entries = [entry for entry in own.entries if entry.roll_deg is not None]
        if entries:
            worst = max(entries, key=lambda entry: abs(entry.roll_deg or 0.0))
            yield say(
                "{name} rolls most at {power} power{bank}: {roll} in {reaction}, to a bank of {most} before it is "
                "stopped, {pitch}; {height} lost.",
                name=name,
                power=worst.power,
                bank=say(" with {bank}", bank=_bank(worst)) if worst.bank_deg else "",
                roll=Value("roll_deg", worst.roll_deg, decimals=0, signed=True),
                reaction=_reaction(answer),
                most=Value("most_bank_deg", worst.most_bank_deg, decimals=0, signed=True),
                pitch=Value("pitch_deg", worst.pitch_deg, decimals=0, signed=True),
                height=Value("height_lost_m", worst.height_lost_m, decimals=0, absent="height still"),
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
