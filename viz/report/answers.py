"""The answer first: five sentences for the designer, five for the educator, five for the builder of a display."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.inert import CHECKLIST
from sim.errors import InputError, NoAnswerError
from viz.report.blocks import ReaderAnswer
from viz.report.printed import cell_in_print
from viz.report.reason import reason
from viz.report.shop_answers import engine_place, mount_load
from viz.sheets.blocks import Value, listed, say

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.studies.rotor_effect import RotorShare
    from sim.studies.windows_answer import WindowsRow
    from viz.report.findings import Findings
    from viz.sheets.blocks import Cell, Sentence


def answers(found: Findings) -> Iterator[ReaderAnswer]:
    """Yield the answer for each reader."""
    for reader, question, sentences in READERS:
        yield ReaderAnswer(reader, question, tuple(_said(sentence, found) for sentence in sentences))


def _said(sentence: Callable[[Findings], Cell], found: Findings) -> Cell:
    """Return the sentence, or what keeps it from being said."""
    try:
        return cell_in_print(sentence(found))
    except (InputError, NoAnswerError) as error:
        return cell_in_print(say("No answer here: {reason}", reason=reason(error)))


def resistance(found: Findings) -> Sentence:
    """Say how much more strongly one engine resists turning than the other, in words for visitors."""
    (most, first), (least, _) = found.most_spin, found.least_spin
    if most == least:
        return say("At full speed the {most} resists every change of its direction.", most=most)
    return say(
        "At full speed the {most} resists every change of its direction {ratio} times as strongly as the {least}.",
        most=most,
        ratio=Value("momentum_ratio", first.momentum_ratio, digits=2),
        least=least,
    )


def taken(found: Findings) -> Sentence:
    """Say what the rotor takes of the controls, left and right."""
    first, second = found.summary.first, found.summary.second
    slots: dict[str, Cell] = {"first": first.powerplant, "one": _shares(first)}
    if first.powerplant == second.powerplant:
        return say("In a level 45° turn the rotor of the {first} takes {one}, left and right.", **slots)
    return say(
        "In a level 45° turn the rotor of the {first} takes {one}, left and right; that of the {second} takes {other}.",
        **slots,
        second=second.powerplant,
        other=_shares(second),
    )


def _shares(one: RotorShare) -> Sentence:
    return say(
        "{rudder} of the rudder and {elevator} of the elevator",
        rudder=_sides("rudder_share", one.left_rudder_share, one.right_rudder_share),
        elevator=_sides("elevator_share", one.left_elevator_share, one.right_elevator_share),
    )


def _sides(name: str, left: float, right: float) -> Sentence:
    """Return two shares of a travel without their direction; one where both print alike."""
    both = {f"{abs(share):.0%}": Value(name, abs(share), percent=True, decimals=0) for share in (left, right)}
    return listed(both.values(), " and ")


def graded(found: Findings) -> Sentence:
    """Say which mode changes its level."""
    from viz.sheets.rotor_effect import changed_levels

    return changed_levels(found.summary)


def sensitive(found: Findings) -> Cell:
    """Say which value of the drawing or the scales each answer depends on most."""
    from viz.sheets.sensitivity import first, spread

    parts = [
        say("{name} ({spread}): {key}", name=name, spread=spread(one), key=first(one))
        for name, one in found.sensitivity.items()
        if one.inputs
    ]
    if not parts:
        return "None of the ± of the scenario changes these answers."
    return say("Most influential inputs: {parts}.", parts=listed(parts))


def turning(found: Findings) -> Sentence:
    """Say which moment the rotor makes in a turn to each side."""
    name, one = found.most_spin
    left, right = (
        Value("pitch_n_m", next(turn for turn in one.turns if turn.bank_deg == bank).pitch_n_m, signed=True)
        for bank in (-45.0, 45.0)
    )
    return say(
        "In a turn the gyroscopic moment of the {name} acts at right angles to it: with 45° of bank at {speed} it is "
        "{left} to the left and {right} to the right, and the pilot must balance it with the elevator.",
        name=name,
        speed=Value("speed_m_s", found.comparison.speed_m_s),
        left=left,
        right=right,
    )


def pulling(found: Findings) -> Sentence:
    """Say how the nose swings when it is pulled up."""
    parts = (
        say("{yaw} with the {name}", name=name, yaw=Value("yaw_deg", one.yaw_by_spin_deg, signed=True))
        for name, own in found.comparison.powerplants.items()
        for one in own.disturbances
        if one.input == "pull-up"
    )
    told = "A pull on the stick also turns the nose to the side: within three seconds the rotor adds {parts}."
    return say(told, parts=listed(parts, " and "))


def between_blades(found: Findings) -> Sentence:
    """Say how long a gun has between two blades, and how early it must be released."""
    name = found.most_spin[0]
    row = _at_full(found, name)
    at: dict[str, Cell] = {"rpm": Value("rpm", row.rpm, decimals=0), "name": name}
    if not row.windows_deg:
        return say("At {rpm} of the {name} there is no window between the blades: {note}", **at, note=row.note)
    told = (
        "With the {name} at {rpm} a blade passes every {interval}, the gear lets the gun go for {open} between blades, "
        "and the propeller turns {lead} from the release of a round to its passage."
        if row.open_ms > 0.0
        else "With the {name} at {rpm} a blade passes every {interval}, an impulse of the gear lets a round go between "
        "blades, and the propeller turns {lead} from the release of a round to its passage."
    )
    return say(
        told,
        **at,
        interval=Value("blade_interval_ms", row.blade_interval_ms, decimals=0),
        open=Value("open_ms", row.open_ms, decimals=0),
        lead=Value("lead_deg", row.lead_deg, decimals=0),
    )


def without_gear(found: Findings) -> Sentence:
    """Say how often a blade is struck with the gear, and how often without it."""
    from viz.sheets.chance import chance_words

    return say(
        "Without the gear {without} of 1000 rounds would strike a blade; with it: {words}.",
        without=Value("untimed_strikes_per_1000", found.burst.untimed_strikes_per_1000, decimals=0),
        words=chance_words(found.burst.chance),
    )


def firing_rate(found: Findings) -> Sentence:
    """Say how fast the gun can fire through each propeller."""
    rows = {name: _at_full(found, name) for name in found.comparison.powerplants}
    parts = (
        say(
            "{rate} with the {name} at {rpm}{into}",
            rate=Value("rounds_per_min", row.rounds_per_min or None, decimals=0, bare=True, absent="none"),
            name=name,
            rpm=Value("rpm", row.rpm, decimals=0),
            into=" (into a blade: the cam does not serve it)" if _strikes(row) else "",
        )
        for name, row in rows.items()
    )
    alone = found.rate.staircases[0].gun_rounds_per_min
    return say(
        "The gun alone fires {alone} rounds per minute; synchronized it fires {parts}.",
        alone=Value("gun_rounds_per_min", alone, decimals=0, bare=True),
        parts=listed(parts, ", "),
    )


def _strikes(row: WindowsRow) -> bool:
    from sim.studies.windows import strikes

    return any(strikes(window, row.margin_deg) for window in row.windows_deg)


def _at_full(found: Findings, name: str) -> WindowsRow:
    """Return the firing windows at full speed; the question is refused where the scenario has no gun."""
    return [row for row in found.windows.rows if row.powerplant == name][-1]


def why_warm(found: Findings) -> Sentence:
    """Say how soon a gun's oil stiffens in the wind."""
    bare = next(case for case in found.cooling.cases if not (case.cowled or case.firing))
    height = Value("altitude_m", found.cooling.altitude_m, digits=4)
    if bare.stays_fluid:
        return say("At {height} the oil of a gun exposed to the airstream stays fluid.", height=height)
    if bare.stiff_after_s is None:
        minutes = Value("duration_s", found.cooling.time_s[-1], decimals=0, bare=True)
        within = "At {height} the oil of a silent gun exposed to the airstream still flows after {minutes} minutes."
        return say(within, height=height, minutes=minutes)
    if bare.stiff_after_s == 0.0:
        stiff = "At {height} the oil of a silent gun exposed to the airstream is stiff from the start."
        return say(stiff, height=height)
    return say(
        "Why guns were kept warm: at {height} the oil of a silent gun exposed to the airstream stiffens in about "
        "{minutes} minutes.",
        height=height,
        minutes=Value("stiff_after_s", bare.stiff_after_s, decimals=0, bare=True),
    )


def shown_window(found: Findings) -> Sentence:
    """Say what the display shows."""
    window = found.exhibit.display.window
    return say(
        "The display lights a lamp for {open} of propeller rotation {times} times a turn, as {cam} has it; its plate "
        "swings by {lead}, the lead at full speed of the engine.",
        times=str(window.openings),
        cam="an ideal cam" if found.exhibit.shown.cam.ideal else "the scenario's cam",
        open=Value("open_rad", window.to_rad - window.from_rad, decimals=0),
        lead=Value("lead_rad", window.lead_rad, decimals=0),
    )


def cam(found: Findings) -> Sentence:
    """Say which cam to cut."""
    cut = found.exhibit.cam
    return say(
        "Cam: {lobes} lobes, law of motion {law}, base circle diameter {across}, lift {lift}, pressure angle at most "
        "{angle}.",
        lobes=str(cut.lobes),
        law=cut.law,
        across=Value("cam_diameter_m", 2.0 * cut.base_radius_m, decimals=0),
        lift=Value("lift_m", cut.lift_m, nominal=True),
        angle=Value("pressure_angle_deg", cut.pressure_angle_deg, decimals=0),
    )


def wound(found: Findings) -> Sentence:
    """Say which spring to wind and what the hand gives."""
    spring, drive = found.exhibit.spring, found.exhibit.drive
    return say(
        "Spring rate {rate}, wire diameter {wire}; force at the {handle} at most {force}, speed of the blade tips "
        "{tip}.",
        rate=Value("rate_n_per_m", spring.rate_n_per_m),
        wire=Value("wire_m", spring.wire_m, nominal=True),
        handle=found.exhibit.display.handle.kind,
        force=Value("grip_force_n", drive.crank_force_n, decimals=1),
        tip=Value("display_tip_speed_m_s", drive.tip_speed_m_s),
    )


def checked(found: Findings) -> Cell:
    """Say whether it passes."""
    answer = found.exhibit
    if not answer.failures:
        count = str(len(answer.checks))
        return say("All {count} checks pass, among them guard, gaps, flashes and spring.", count=count)
    return say(
        "{count} of {all} checks fail: {failed}.",
        count=str(len(answer.failures)),
        all=str(len(answer.checks)),
        failed=listed(say("{name} ({cure})", name=check.name, cure=check.cure) for check in answer.failures),
    )


def inert(_found: Findings) -> Cell:
    """Say that it cannot fire."""
    return say(
        "It cannot fire: there is no gun in it, and its builder signs a checklist of {lines} lines. Ask the local "
        "authority about rules on replica firearms first.",
        lines=str(len(CHECKLIST)),
    )


READERS = (
    (
        "For the designer",
        "How does the airplane handle with each engine, and which loads must the mount carry?",
        (taken, graded, engine_place, mount_load, sensitive),
    ),
    (
        "For the educator",
        "Why did a rotary engine turn the nose, and how could guns fire between the blades?",
        (turning, pulling, between_blades, firing_rate, why_warm),
    ),
    (
        "For the builder of a display",
        "Which parts are made, and is the display safe for children?",
        (shown_window, cam, wound, checked, inert),
    ),
)
"""Reader, question, and the five sentences."""
