"""The answer first: five sentences for the designer, five for the educator, five for the builder of a display."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import InputError, NoAnswerError
from viz.report.blocks import Answer
from viz.sheets.format import PITCH, YAW, amount, fixed, signed, significant

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.studies.windows import WindowsRow
    from viz.report.findings import Findings


def answers(found: Findings) -> Iterator[Answer]:
    """Yield the answer for each reader."""
    for reader, question, sentences in READERS:
        yield Answer(reader, question, tuple(_said(sentence, found) for sentence in sentences))


def _said(sentence: Callable[[Findings], str], found: Findings) -> str:
    """Return the sentence, or what keeps it from being said."""
    try:
        return sentence(found)
    except (InputError, NoAnswerError) as error:
        return f"No answer here: {error}".rstrip(".") + "."


def momentum(found: Findings) -> str:
    """Say how much more one engine spins than the other."""
    (most, first), (least, second) = found.most_spin, found.least_spin
    held = amount("angular_momentum_kg_m2_s", abs(first.angular_momentum_kg_m2_s), found.units)
    if most == least:
        return f"At full speed the {most} holds a spin momentum of {held}."
    other = amount("angular_momentum_kg_m2_s", abs(second.angular_momentum_kg_m2_s), found.units)
    return (
        f"At full speed the {most} holds a spin momentum of {held}, {significant(first.momentum_ratio, 2)} times the "
        f"{other} of the {least}."
    )


def taken(found: Findings) -> str:
    """Say what the spin takes of the controls, left and right."""
    answer = found.summary
    first, second = (
        f"{_share(one.left_rudder_share, one.right_rudder_share)} of the rudder and "
        f"{_share(one.left_elevator_share, one.right_elevator_share)} of the elevator"
        for one in (answer.first, answer.second)
    )
    told = f"In a level 45° turn the spin of the {answer.first.powerplant} takes {first}, left and right"
    if answer.first.powerplant == answer.second.powerplant:
        return f"{told}."
    return f"{told}; that of the {answer.second.powerplant} takes {second}."


def _share(left: float, right: float) -> str:
    """Return two shares of a travel without their ways, in short."""
    both = [f"{abs(share):.0%}" for share in (left, right)]
    return " and ".join(dict.fromkeys(both))


def graded(found: Findings) -> str:
    """Say which mode changes its level."""
    from viz.sheets.handling import sentences

    return sentences(found.summary, found.units)[2]


def engine_place(found: Findings) -> str:
    """Say how long the mount must be: where the engine stands to balance."""
    from viz.sheets.balance import serving, ways

    answer = found.balance
    move = ways("engine_move_m", answer.engine_move_m, found.units)
    target = fixed("target_station_m", answer.engine_station_m + answer.engine_move_m, found.units)
    return (
        f"The {answer.powerplant} brings the loaded airplane on balance when it moves {move}, to station {target}; "
        f"{serving(answer, found.units)}."
    )


def mount_load(found: Findings) -> str:
    """Say what the mount sees at most."""
    answer = found.mount
    worst = max(answer.cases, key=lambda case: max(map(abs, case.limit_moment_n_m)))
    most = amount("moment_n_m", max(map(abs, worst.limit_moment_n_m)), found.units)
    bolts = sorted(answer.worst_bolts, key=lambda row: row.stress_pa)
    bolt = (
        f", and the most on one bolt is {amount('axial_n', bolts[-1].axial_n, found.units)} of tension with "
        f"{amount('shear_n', bolts[-1].shear_n, found.units)} of shear"
        if bolts
        else ""
    )
    return f"The mount's worst case is the {worst.powerplant}'s, {worst.name}: {most} at limit load{bolt}."


def hanging(found: Findings) -> str:
    """Say which value of the drawing or the scales each answer hangs on."""
    from viz.sheets.sensitivity import spread_of, strongest

    parts = [
        f"{name} ({spread_of(one, found.units)}) on {strongest(one)[0].column.key}"
        for name, one in found.leverage.items()
        if one.levers
    ]
    if not parts:
        return "None of the ± of the scenario moves these answers."
    return f"What hangs most on what: the {', the '.join(parts)}."


def turning(found: Findings) -> str:
    """Say what the spin does to the nose in a turn to each side."""
    name, one = found.most_spin
    left, right = (next(turn for turn in one.turns if turn.bank_deg == bank) for bank in (-45.0, 45.0))
    sides = [signed("pitch_n_m", turn.pitch_n_m, found.units, PITCH) for turn in (left, right)]
    return (
        f"Turn, and the {name} pushes at right angles: in a 45° turn its spin makes {sides[0]} to the left and "
        f"{sides[1]} to the right, which the pilot must hold with the controls."
    )


def pulling(found: Findings) -> str:
    """Say how the nose swings when it is pulled up."""
    parts = [
        f"with the {name} {signed('yaw_deg', one.yaw_by_spin_deg, found.units, YAW)}"
        for name, own in found.comparison.powerplants.items()
        for one in own.disturbances
        if one.input == "pull-up"
    ]
    return f"Pull the nose up and it swings to the side: the spin adds {' and '.join(parts)} within three seconds."


def between_blades(found: Findings) -> str:
    """Say how long a gun has between two blades, and how early it must be released."""
    name = found.most_spin[0]
    row = _at_full(found, name)
    if not row.windows_deg:
        return f"At {row.rpm:.0f} rpm of the {name} the blades leave no window: {row.note}"
    return (
        f"At {row.rpm:.0f} rpm of the {name} a blade comes by every {row.blade_interval_ms:.0f} ms, leaves the way "
        f"open for {row.open_ms:.0f} ms, and the propeller turns {row.lead_deg:.0f}° while a round is on its way to it."
    )


def firing_rate(found: Findings) -> str:
    """Say how fast the gun can fire through each propeller."""
    parts = []
    for name in found.comparison.powerplants:
        row = _at_full(found, name)
        rate = "none" if not row.rounds_per_min else f"{row.rounds_per_min:.0f}"
        parts.append(f"{rate} rounds a minute behind the {name} at {row.rpm:.0f} rpm")
    alone = found.rate.staircases[0].gun_rounds_per_min
    return f"Left to itself the gun fires {alone:.0f} rounds a minute; through the blades it fires {', '.join(parts)}."


def _at_full(found: Findings, name: str) -> WindowsRow:
    """Return the firing windows at full speed; the question is refused where the scenario has no gun."""
    return [row for row in found.windows.rows if row.powerplant == name][-1]


def why_warm(found: Findings) -> str:
    """Say how soon a gun's oil stiffens in the wind."""
    bare = next(case for case in found.warmth.cases if not (case.cowled or case.firing))
    height = amount("altitude_m", found.warmth.altitude_m, found.units, 4)
    if bare.stiff_after_s is None:
        return f"At {height} a gun bare in the wind keeps its oil fluid."
    minutes = f"{bare.stiff_after_s / 60.0:.0f} minutes"
    return f"Guns were kept warm for a reason: at {height}, bare in the wind, the oil stiffens in about {minutes}."


def shown_window(found: Findings) -> str:
    """Say what the display shows."""
    window = found.exhibit.display.window
    open_deg, lead_deg = (57.29577951308232 * angle for angle in (window.to_rad - window.from_rad, window.lead_rad))
    return (
        f"The display lights a lamp for {open_deg:.0f}° of the turn behind each blade, and its plate swings by the "
        f"{lead_deg:.0f}° of lead that flying speed asks for."
    )


def cam(found: Findings) -> str:
    """Say which cam to cut."""
    cut, law = found.exhibit.sheet.cam, found.exhibit.sheet.cam.law.replace("_", " ")
    return (
        f"Cut a cam of {cut.lobes} lobes after the {law} law: {2.0 * cut.base_radius_mm:.0f} mm across where the "
        f"follower is down, {cut.lift_mm:g} mm of lift, pressure angle {cut.pressure_angle_deg:.0f}° at most."
    )


def wound(found: Findings) -> str:
    """Say which spring to wind and what the hand gives."""
    spring, drive = found.exhibit.sheet.spring, found.exhibit.sheet.drive
    return (
        f"The spring is {significant(spring.rate_n_mm)} N/mm of {spring.wire_mm:g} mm wire; the "
        f"{found.exhibit.display.handle.kind} asks {drive.crank_force_n:.1f} N at most, and the blade tips pass at "
        f"{amount('tip_speed_m_s', drive.tip_speed_m_s, found.units)}."
    )


def checked(found: Findings) -> str:
    """Say whether it passes."""
    answer = found.exhibit
    if not answer.failures:
        return f"All {len(answer.checks)} checks pass, guard, gaps, flashes and spring among them."
    failed = "; ".join(f"{check.name} ({check.cure})" for check in answer.failures)
    return f"{len(answer.failures)} of {len(answer.checks)} checks fail: {failed}."


def inert(found: Findings) -> str:
    """Say that it cannot fire."""
    lines = len(found.exhibit.checklist)
    return (
        f"It cannot fire anything: there is no gun in it, and its builder signs a checklist of {lines} lines; ask the "
        "local authority about rules on replica firearms first."
    )


READERS = (
    (
        "For the designer",
        "How does it handle with the rotary and with the fixed engine, and what must the mount carry?",
        (taken, graded, engine_place, mount_load, hanging),
    ),
    (
        "For the educator",
        "Why did a spinning engine pull the nose about, and how could guns fire between the blades?",
        (turning, pulling, between_blades, firing_rate, why_warm),
    ),
    (
        "For the builder of a display",
        "What is cut, and can a child stand next to it?",
        (shown_window, cam, wound, checked, inert),
    ),
)
"""Reader, question, and the five sentences."""
