"""Scales beside the item list, and what one error would explain their difference."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.list_correction import UNSURE_SHARE, UNSURE_STATION_M, UNSURE_WATERLINE_M
from sim.airframe.weighing_findings import EngineElsewhere, ItemElsewhere, ScaleMisread, SupportElsewhere
from sim.model.scales_and_list import LISTED_MASS, LISTED_STATION
from viz.sheets.blocks import Value, listed, rows, say
from viz.sheets.stations import moved, station

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.weighing_data import Weighed
    from sim.airframe.weighing_findings import AboardGuess, Suspicion
    from sim.model.weighing_answer import WeighingAnswer
    from viz.sheets.blocks import Block, Cell, Sentence, Table

LEAST_SHOWN = 0.01
"""Probability below which a suspect is not listed."""
LEAST_SLIP = 0.05
"""The same for a mass in the wrong unit, which is one of many slips."""


def weighing(answer: WeighingAnswer) -> Iterator[Block]:
    """Yield the weighing and what it makes suspect."""
    yield _on_scales(answer)
    yield _beside(answer)
    yield from _suspicions(answer)


def _on_scales(answer: WeighingAnswer) -> Table:
    """Return what each scale read: a slip in tare or unit is seen here before anywhere else."""
    lines = [
        (
            one.attitude,
            one.support,
            Value("scale_kg", one.scale_kg, decimals=1),
            Value("tare_kg", one.tare_kg, decimals=1),
            Value("net_kg", one.net_kg, decimals=1),
        )
        for one in answer.readings
    ]
    return rows("On the scales", ["Attitude", "Support", "Scale", "Tare", "Net"], lines)


def _beside(answer: WeighingAnswer) -> Table:
    title = say(
        "Weighed with {engine}, {aboard} aboard",
        engine=answer.powerplant,
        aboard=listed(answer.aboard, ", ") if answer.aboard else "nothing",
    )
    heads = ["", "Weight", "CG station", "CG waterline", "CG buttline"]
    return rows(title, heads, _weighed_rows(answer), *_assumed(answer))


def _weighed_rows(answer: WeighingAnswer) -> Iterator[tuple[Cell, ...]]:
    yield from _scale_rows(answer.weighed)
    yield (
        "item list",
        Value("estimate_kg", answer.estimate_kg, decimals=1),
        station("estimate_cg_station_m", answer.estimate_cg_station_m),
        station("estimate_cg_waterline_m", answer.estimate_cg_waterline_m),
        moved("estimate_cg_buttline_m", answer.estimate_cg_buttline_m),
    )
    yield (
        "± of the list",
        *_errors(answer.estimate_error_kg, answer.estimate_cg_error_m, answer.estimate_cg_waterline_error_m),
        "",
    )
    yield (
        "scales less list",
        Value("over_kg", answer.over_kg, decimals=1, signed=True),
        moved("over_cg_m", answer.over_cg_m),
        moved("over_cg_waterline_m", answer.over_cg_waterline_m),
        moved("over_cg_buttline_m", answer.over_cg_buttline_m),
    )
    yield (
        "± of the difference",
        *_errors(answer.over_error_kg, answer.over_cg_error_m, answer.over_cg_waterline_error_m),
        "",
    )
    scores = ("mass_z_score", "station_z_score", "waterline_z_score")
    yield "difference / ±", *(Value(name, getattr(answer, name), decimals=1) for name in scores), ""


def _scale_rows(scales: Weighed) -> Iterator[tuple[Cell, ...]]:
    yield (
        "scales",
        Value("mass_kg", scales.mass_kg, decimals=1),
        station("cg_station_m", scales.cg_station_m),
        station("cg_waterline_m", scales.cg_waterline_m),
        moved("cg_buttline_m", scales.cg_buttline_m),
    )
    yield (
        "± of the scales",
        *_errors(scales.mass_error_kg, scales.cg_error_m, scales.cg_waterline_error_m),
        Value("cg_buttline_error_m", scales.cg_buttline_error_m, digits=2),
    )


def _errors(mass_kg: float, station_m: float, waterline_m: float | None) -> tuple[Cell, Cell, Cell]:
    return (
        Value("mass_error_kg", mass_kg, digits=2),
        Value("cg_error_m", station_m, digits=2),
        Value("cg_waterline_error_m", waterline_m, digits=2),
    )


def _assumed(answer: WeighingAnswer) -> Iterator[Cell]:
    """Yield the errors that the scenario does not give, and from which height the scales were read."""
    kinds = (
        ("scale readings {error}", "scale_error_kg", answer.assumed.scale_error_kg),
        (
            "stations, waterlines and buttlines of supports {error}",
            "support_error_m",
            answer.assumed.support_error_m,
        ),
        ("attitudes {error}", "pitch_error_deg", answer.assumed.pitch_error_deg),
    )
    taken = [say(text, error=Value(name, error, digits=2)) for text, name, error in kinds if error is not None]
    if taken:
        yield say("Standard errors assumed where the scenario gives no ±: {errors}.", errors=listed(taken, ", "))
    if answer.items_without_error:
        yield say(
            "Items without ± count with {share} of their mass, {station} of station and {height} of waterline; those "
            "of pilot and fuel as exact.",
            share=Value("mass_kg", UNSURE_SHARE, percent=True, digits=1),
            station=Value("station_m", UNSURE_STATION_M, digits=2),
            height=Value("waterline_m", UNSURE_WATERLINE_M, digits=2),
        )
    yield (
        "The scales decide what the items on them weigh together and where: another mass or station of such an item "
        "is taken as a correction of the list, and changes no sum. What changed since the weighing has keys of its "
        "own: move of an item or powerplant, added = true of an item that was not on the scales."
    )
    if answer.assumed_waterline_error_m is not None:
        yield say(
            "One attitude does not determine the height: that of the item list, ± {error}, is used.",
            error=Value("assumed_waterline_error_m", answer.assumed_waterline_error_m, digits=2),
        )


def _suspicions(answer: WeighingAnswer) -> Iterator[Block]:
    if not answer.suspicions:
        yield say(
            "In {what} the scales agree with the list within the errors of both: with a probability of {share} errors "
            "alone make a difference at least so large. No group is suspect.",
            what=_compared(answer),
            share=_share("gap_probability", answer.gap_probability),
        )
        return
    ranked = sorted(_causes(answer), key=lambda row: -row[0])
    lines = [(*cells, _share("probability", share)) for share, cells in ranked if share >= LEAST_SHOWN]
    heads = ["What may be wrong", "Correction", "±", "Probability"]
    yield rows("What explains the difference, each by itself", heads, lines, *_hints(answer))
    yield _groups(answer)


def _groups(answer: WeighingAnswer) -> Table:
    """Return the groups in the order in which to look at them, each as if a mass in the list is what is wrong."""
    shares = [(answer.cause_kinds.given_listed_mass(one.probability), one) for one in answer.suspicions]
    lines = [_group(one, share) for share, one in shares if share >= LEAST_SHOWN]
    lines += [*_slip(answer)]
    note = (
        "Weight, CG and height tell where a mass is too many or too few, not whose it is: groups at about the same "
        "place share the probability, and only weighing one of them alone tells them apart."
    )
    heads = ["Group", "Listed", "±", "Correction", "±", "Probability"]
    return rows("Where to look if a mass in the item list is wrong", heads, lines, note)


def _group(one: Suspicion, share: float) -> tuple[Cell, ...]:
    return (
        one.group,
        Value("estimate_kg", one.estimate_kg),
        Value("estimate_error_kg", one.estimate_error_kg or None, digits=2, absent=""),
        Value("correction_kg", one.correction_kg, digits=2, signed=True),
        Value("correction_error_kg", one.correction_error_kg, digits=2),
        _share("probability", share),
    )


def _slip(answer: WeighingAnswer) -> Iterator[tuple[Cell, ...]]:
    """Yield the mass that may be in the wrong unit."""
    slip = answer.unit_slip
    share = answer.cause_kinds.given_listed_mass(slip.probability) if slip else 0.0
    if slip and share >= LEAST_SLIP:
        over = Value("correction_kg", slip.mass_kg - slip.estimate_kg, digits=2, signed=True)
        name = f"{slip.item}: {slip.written}"
        yield name, Value("estimate_kg", slip.estimate_kg), "", over, "", _share("probability", share)


def _causes(answer: WeighingAnswer) -> Iterator[tuple[float, tuple[Cell, ...]]]:
    """Yield each cause with its probability, the groups as one: what it is, the correction and its error."""
    kinds, guess = answer.cause_kinds, answer.aboard_guess
    yield kinds.listed_mass_probability, (LISTED_MASS, "", "")
    yield kinds.errors_alone_probability, ("nothing, errors alone", "", "")
    if guess:
        yield guess.probability, (guess.named, Value("mass_kg", guess.mass_kg), "")
    else:
        yield kinds.load_probability, ("pilot or fuel aboard or left out", "", "")
    yield kinds.station_probability, (LISTED_STATION, "", "")
    for one in answer.elsewhere:
        if not isinstance(one, ItemElsewhere):
            yield one.probability, (one.named, *_correction(one))


def _correction(one: EngineElsewhere | SupportElsewhere | ScaleMisread) -> tuple[Cell, Cell]:
    """Return how far something is elsewhere, or how much a scale misreads, and its error."""
    match one:
        case ScaleMisread():
            more = Value("misread_kg", abs(one.misread_kg), digits=2)
            return more, Value("misread_error_kg", one.misread_error_kg, digits=2)
        case EngineElsewhere():
            return moved("move_m", one.move_m), Value("move_error_m", one.move_error_m, digits=2)
        case SupportElsewhere():
            error = Value("support_move_error_m", one.support_move_error_m, digits=2)
            return moved("support_move_m", one.support_move_m), error


def _share(name: str, share: float) -> Cell:
    if share < LEAST_SHOWN:
        return say("below {share}", share=Value(name, LEAST_SHOWN, percent=True, decimals=0))
    return Value(name, min(share, 1.0 - LEAST_SHOWN), percent=True, decimals=0)


def _hints(answer: WeighingAnswer) -> Iterator[Cell]:
    if answer.aboard_guess:
        yield _aboard(answer, answer.aboard_guess)
    elif not answer.one_cause_explains:
        yield "No single cause explains the difference: more than one thing is wrong."
    elif answer.gap_station_m is not None:
        yield say(
            "The scales read {mass} more than the list, as if it sat at station {place}: is an item missing from the "
            "list there?"
            if answer.over_kg > 0.0
            else "The scales read {mass} less than the list, as if it sat at station {place}: is an item in the list "
            "and not in the airplane there?",
            mass=Value("over_kg", abs(answer.over_kg)),
            place=station("gap_station_m", answer.gap_station_m, 1),
        )
    yield say(
        "By {what}; left and right scale by the buttline too. Before the weighing every group, the engine at another "
        "station (weighing.engine_move), the supports of an axle at another station, the scales of an axle, "
        "pilot or fuel aboard or left out, and errors alone count as equally probable, a slip in the stations or units "
        "of the list as half so. A hint where to look, not a finding.",
        what=_compared(answer),
    )


def _compared(answer: WeighingAnswer) -> str:
    return "weight, CG station and height" if answer.height_counts else "weight and CG station"


def _aboard(answer: WeighingAnswer, guess: AboardGuess) -> Sentence:
    """Return the question who or what was aboard, and the key to correct."""
    at = answer.gap_station_m
    groups = [group for group in (*answer.aboard, guess.group) if group != guess.group or not guess.left_out]
    listed_now = ", ".join(f'"{group}"' for group in groups)
    cure: Cell
    if not guess.nearly_certain:
        cure = "Check stations of the supports, scales and tares before you change weighing.aboard"
    elif guess.whole:
        cure = say("If so, write weighing.aboard = [{groups}]", groups=listed_now)
    else:
        cure = "If so, weigh again with it" if guess.left_out else "If so, weigh again without it"
    return say(
        "The scales read {mass} more{place} than the list: was the {cause} (probability {share})? {cure}."
        if answer.over_kg > 0.0
        else "The scales read {mass} less{place} than the list: was the {cause} (probability {share})? {cure}.",
        mass=Value("over_kg", abs(answer.over_kg)),
        place="" if at is None else say(" at station {place}", place=station("gap_station_m", at, 1)),
        cause=guess.named,
        share=_share("probability", guess.probability),
        cure=cure,
    )
