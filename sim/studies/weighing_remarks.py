"""Remarks of a weighing: what scales and item list say against each other, a sentence for each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_findings import EngineElsewhere, ItemElsewhere, ScaleMisread, SupportElsewhere, percent
from sim.model.plausibility.remark import amount as both
from sim.told import together, told
from sim.units.convert import INCH_M
from sim.units.text import amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.weighing_findings import AboardGuess, CauseKinds, Elsewhere, Suspicion, UnitSlip
    from sim.model.weighing_answer import WeighingAnswer

OFF_CENTRE_M = INCH_M
"""Buttline of a centre of gravity beyond which it is told: common practice, no source."""


def of_scales(scales: WeighingAnswer) -> Iterator[str]:
    """Yield what scales and list say against each other, a sentence each.

    Parameters
    ----------
    scales : WeighingAnswer
        A weighing beside its item list.
    """
    if scales.aboard_guess:
        yield _aboard(scales.aboard_guess)
    elif scales.suspicions and not scales.one_cause_explains:
        yield (
            "Scales and item list disagree by more than their errors, and no single cause explains it: check stations "
            "of the supports, attitudes, readings and tares, then several groups."
        )
    elif scales.suspicions:
        yield _first(scales)
    across = scales.buttline_z_score
    if abs(across) > LIMIT:
        yield told(
            "Across the airplane scales and list differ by {times} times the ± of both, the scales to the {side}: a "
            "mass in the middle does not explain that. Check the scales of both sides, their tares, and buttlines of "
            "supports and items.",
            times=f"{abs(across):.1f}",
            side=_side(across),
        )
    if abs(scales.weighed.cg_buttline_m) > max(OFF_CENTRE_M, LIMIT * scales.weighed.cg_buttline_error_m):
        yield told(
            "By the scales the CG lies {off} {side} of the plane of symmetry: check buttlines of the supports and the "
            "readings of both sides.",
            off=both("buttline_m", abs(scales.weighed.cg_buttline_m)),
            side=_side(scales.weighed.cg_buttline_m),
        )
    apart = scales.waterline_z_score
    if apart is not None and abs(apart) > LIMIT:
        yield told(
            "The height by the scales is {times} times the ± of the difference above that of the list: errors alone do "
            "not explain it. Weight and CG station go by the scales, the height by the list, and the ± of both are "
            "wider. {cure}"
            if apart > 0.0
            else "The height by the scales is {times} times the ± of the difference below that of the list: errors "
            "alone do not explain it. Weight and CG station go by the scales, the height by the list, and the ± of "
            "both are wider. {cure}",
            times=f"{abs(apart):.1f}",
            cure=_of_height(scales),
        )


def _side(number: float) -> str:
    return "right" if number > 0.0 else "left"


def _way(number: float) -> str:
    return "aft" if number > 0.0 else "forward"


def _of_height(scales: WeighingAnswer) -> str:
    """Return what to look at where the heights contradict each other."""
    support = scales.explains_height
    if scales.attitudes_elsewhere:
        return told(
            "They agree with {causes}: measure the attitudes again, then waterlines and radii of the supports, and "
            "waterlines of the items.",
            causes=together([one.named for one in scales.attitudes_elsewhere], " or "),
        )
    if support is None:
        return "Check attitudes (nose up positive), waterlines and radii of the supports, and waterlines of the items."
    return told(
        "One cause explains weight, CG station and height together: {supports} stood {far} {way} of where written: "
        "measure the station first.",
        supports=together(support.supports, " and "),
        far=_about("support_move_m", support.support_move_m),
        way=_way(support.support_move_m),
    )


def _about(name: str, size: float) -> str:
    """Return the size of a correction to two digits, for a shop of either system."""
    si, us = (amount(name, abs(size), system, 2) for system in ("si", "us"))
    return f"{si} ({us})"


def _first(scales: WeighingAnswer) -> str:
    """Return what the most probable single cause is: a group, the engine's place, a support or a scale."""
    group, others, slip = scales.suspicions[0], scales.elsewhere, scales.unit_slip
    most = max(one.probability for one in (group, *others[:1], *((slip,) if slip else ())))
    if slip and slip.probability == most:
        return _unit(slip)
    return _suspected(group, scales.cause_kinds) if group.probability == most else _elsewhere(others[0])


def _elsewhere(found: Elsewhere) -> str:
    """Return what is elsewhere, or misread, and what to do."""
    match found:
        case EngineElsewhere():
            return _engine(found)
        case ItemElsewhere():
            return _item(found)
        case SupportElsewhere():
            return _support(found)
        case ScaleMisread():
            return _misread(found)


def _unit(found: UnitSlip) -> str:
    return told(
        "The weighing suggests that {item}, listed with {listed}, weighs {true}, as if its number were {written} "
        "(probability {share}): check its unit.",
        item=found.item,
        listed=both("mass_kg", found.estimate_kg),
        true=both("mass_kg", found.mass_kg),
        written=found.written,
        share=percent(found.probability),
    )


def _item(found: ItemElsewhere) -> str:
    return told(
        "The weighing suggests that {item}, at station {place} in the list, is {far} {way} of there (probability "
        "{share}): check its station.",
        item=found.item,
        place=both("station_m", found.station_m),
        far=_about("item_move_m", found.item_move_m),
        way=_way(found.item_move_m),
        share=percent(found.probability),
    )


def _support(found: SupportElsewhere) -> str:
    return told(
        "The weighing suggests that the support of {supports} stood {far} {way} of where it is written (probability "
        "{share}): measure its station.",
        supports=together(found.supports, " and "),
        far=_about("support_move_m", found.support_move_m),
        way=_way(found.support_move_m),
        share=percent(found.probability),
    )


def _misread(found: ScaleMisread) -> str:
    return told(
        "The weighing suggests that the scale under {support} reads {much} too high (probability {share}): check it "
        "and its tare."
        if found.misread_kg > 0.0
        else "The weighing suggests that the scale under {support} reads {much} too low (probability {share}): check "
        "it and its tare.",
        support=found.support,
        much=_about("misread_kg", found.misread_kg),
        share=percent(found.probability),
    )


def _engine(found: EngineElsewhere) -> str:
    return told(
        "The weighing suggests that the engine stood {far} {way} of where it is written (probability {share}): measure "
        "its station, and write weighing.engine_move if it was moved.",
        far=_about("engine_move_m", found.move_m),
        way=_way(found.move_m),
        share=percent(found.probability),
    )


def _suspected(first: Suspicion, kinds: CauseKinds) -> str:
    return told(
        "The weighing suggests that a mass in the item list is wrong (probability {share}); if so, first that the "
        "group {group} is {way} than listed ({own}): check it first.",
        share=percent(kinds.listed_mass_probability),
        group=first.group,
        way="heavier" if first.correction_kg > 0.0 else "lighter",
        own=percent(kinds.given_listed_mass(first.probability)),
    )


def _aboard(guess: AboardGuess) -> str:
    name, where = guess.group if guess.whole else guess.items[0], "left out" if guess.left_out else "aboard"
    if not guess.nearly_certain:
        return told(
            "The weighing does not say for certain that the {name} was {where} (probability {share}): check stations "
            "of the supports, scales and tares first.",
            name=name,
            where=where,
            share=percent(guess.probability),
        )
    return told(
        "The weighing suggests that the {name} was {where}: if so, every number here is wrong; see weighing.aboard.",
        name=name,
        where=where,
    )
