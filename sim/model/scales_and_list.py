"""The weighing beside the item list, and what one error would explain their difference."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING, Any

from sim.airframe.list_correction import with_errors
from sim.airframe.loading import USEFUL
from sim.airframe.masses import total
from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_findings import percent
from sim.airframe.weighing_slips import other_unit
from sim.airframe.weighing_suspects import suspects
from sim.model.plausibility.remark import FORBIDDEN
from sim.model.weighing import height_error_m
from sim.model.weighing_answer import OnScale, WeighingAnswer
from sim.told import together, told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Total
    from sim.airframe.weighing_data import Weighed, Weighing
    from sim.airframe.weighing_suspected import Doubts, Suspects
    from sim.model.mass import MassModel

LISTED_MASS = "a mass in the item list"
LISTED_STATION = "a station in the item list"


def contradiction(scales: WeighingAnswer) -> str | None:
    """Return the sentences that forbid the use of an airplane whose scales and list contradict each other.

    Parameters
    ----------
    scales : WeighingAnswer
        A weighing beside its item list.

    Returns
    -------
    str or None
        None where they differ in nothing by more than `sim.airframe.weighing_data.LIMIT` times the standard error, and
        no load was aboard or left out with near certainty.

    Notes
    -----
    A cause is named where it alone is more probable than all others together; a load only where it is nearly certain,
    for who corrects it wrongly has a wrong airplane that agrees with its scales.
    """
    scores = (scales.mass_z_score, scales.station_z_score, scales.waterline_z_score, scales.buttline_z_score)
    worst = max((abs(score) for score in scores if score is not None), default=0.0)
    guess = scales.aboard_guess
    certain = guess is not None and guess.nearly_certain
    if not certain and worst <= LIMIT:
        return None
    cause = told("The scales suggest: {named}.", named=guess.named) if guess and certain else _to_check(scales)
    return told(
        "{forbidden} before the cause is found: scales and item list disagree by {times} times their ±. {cause}",
        forbidden=FORBIDDEN,
        times=f"{worst:.1f}",
        cause=cause,
    )


def _to_check(scales: WeighingAnswer) -> str:
    """Return what to look at first where no load is nearly certain."""
    unit = other_unit(scales.weighed.mass_kg, scales.estimate_kg)
    if unit:
        return told("{unit}: check the unit of the readings.", unit=unit)
    explains = [one.named for one in scales.attitudes_elsewhere]
    explains += [scales.explains_height.named] if scales.explains_height else []
    explains += ["waterlines and radii of the supports"] if scales.attitudes_elsewhere else []
    if explains:
        named = together(explains, " or ")
        return told("One cause would explain weight, CG station and height: {causes}.", causes=named)
    if not scales.suspicions:
        return (
            "Weight and CG station agree, the height does not: check the attitudes (nose up positive), then waterlines "
            "and radii of the supports."
        )
    kinds = scales.cause_kinds
    causes = [(kinds.listed_mass_probability, LISTED_MASS), (kinds.station_probability, LISTED_STATION)]
    share, name = max([*causes, *((one.probability, one.named) for one in scales.elsewhere)])
    across = abs(scales.buttline_z_score) > LIMIT and not name.startswith("scale")
    if across:
        return (
            "Across the airplane they disagree: check the scales of both sides, their tares, and buttlines of the "
            "supports."
        )
    if share <= 0.5 or not scales.one_cause_explains:
        return "No one cause stands out: check stations of the supports, scales, tares and what was aboard first."
    return told("Most probable is: {name} ({share}).", name=name, share=percent(share))


@dataclass(frozen=True, slots=True)
class Compared:
    """Scales and list compared, once for an airplane.

    Attributes
    ----------
    answer : WeighingAnswer
        Both side by side.
    doubts : Doubts or None
        What is added to the errors of both where they contradict each other; None where not. Else the ± of a forbidden
        answer would be that of the scales, which are in question.
    """

    answer: WeighingAnswer
    doubts: Doubts | None


def compared(model: MassModel) -> Compared | None:
    """Return scales and list compared; None where the airplane was not weighed. Asked of `MassModel.compared`."""
    readings, weighed = model.weighing, model.weighed
    if readings is None or weighed is None:
        return None
    stated = model.stood_on_scales(readings)
    there = tuple(with_errors(item) for item in stated)
    items = model.weights(readings.powerplant).items
    names = {item.name for item in there}
    absent = [item for item in items if item.name not in names and not item.added]
    found = suspects(there, absent, USEFUL, weighed, readings=readings)
    without_error = sum(item != given for item, given in zip(there, stated, strict=True))
    answer = _beside(readings, weighed, total(there), found, without_error=without_error)
    return Compared(answer, found.doubts if contradiction(answer) else None)


def weighing(model: MassModel) -> WeighingAnswer | None:
    """Return the weighing of an airplane beside its item list; None where it was not weighed.

    Parameters
    ----------
    model : MassModel
        The airplane.

    Raises
    ------
    InputError
        A group aboard that is not in the item list; readings that are missing, do not balance or put the centre of
        gravity outside the wheels.
    """
    return model.compared.answer if model.compared else None


def _beside(
    readings: Weighing,
    weighed: Weighed,
    estimate: Total,
    found: Suspects,
    *,
    without_error: int,
) -> WeighingAnswer:
    """Return scales and list side by side."""
    mass = _over(weighed.mass_kg, weighed.mass_error_kg, estimate.mass_kg, estimate.mass_error_kg)
    station = _over(weighed.cg_station_m, weighed.cg_error_m, estimate.cg_station_m, estimate.cg_error_m)
    height = _height_over(weighed, estimate)
    return WeighingAnswer(
        powerplant=readings.powerplant,
        aboard=readings.aboard,
        readings=tuple(_on_scales(readings)),
        weighed=weighed,
        estimate_kg=estimate.mass_kg,
        estimate_error_kg=estimate.mass_error_kg,
        estimate_cg_station_m=estimate.cg_station_m,
        estimate_cg_error_m=estimate.cg_error_m,
        estimate_cg_buttline_m=estimate.cg_buttline_m,
        estimate_cg_waterline_m=estimate.cg_waterline_m,
        estimate_cg_waterline_error_m=estimate.cg_waterline_error_m,
        over_kg=mass.value,
        over_error_kg=mass.error,
        mass_z_score=mass.z_score,
        over_cg_m=station.value,
        over_cg_error_m=station.error,
        station_z_score=station.z_score,
        over_cg_buttline_m=weighed.cg_buttline_m - estimate.cg_buttline_m,
        over_cg_waterline_m=height.value if height else None,
        over_cg_waterline_error_m=height.error if height else None,
        waterline_z_score=height.z_score if height else None,
        buttline_z_score=found.buttline_z_score,
        assumed=readings.assumed,
        assumed_waterline_error_m=None if height else height_error_m(estimate),
        items_without_error=without_error,
        **_causes(found),
    )


def _causes(found: Suspects) -> dict[str, Any]:
    """Return what may be wrong, by the fields of the answer."""
    return {
        "gap_station_m": found.gap_station_m,
        "gap_probability": found.gap_probability,
        "cause_kinds": found.kinds,
        "one_cause_explains": found.one_cause_explains,
        "suspicions": found.suspicions,
        "aboard_guess": found.aboard,
        "engine_elsewhere": found.engine,
        "item_elsewhere": found.item,
        "unit_slip": found.unit_slip,
        "supports_elsewhere": found.supports,
        "scales_misread": found.scales,
        "explains_height": found.explains_height,
        "attitudes_elsewhere": found.attitudes,
        "height_counts": found.with_height,
    }


def _on_scales(readings: Weighing) -> Iterator[OnScale]:
    for attitude in readings.attitudes:
        for support, read in attitude.readings.items():
            yield OnScale(attitude.name, support, read.mass_kg, read.tare_kg, read.net_kg)


@dataclass(frozen=True, slots=True)
class _Over:
    """Scales less list, its standard error, and their ratio; None without an error."""

    value: float
    error: float
    z_score: float | None


def _over(scales: float, scales_error: float, listed: float, listed_error: float) -> _Over:
    over, error = scales - listed, hypot(scales_error, listed_error)
    return _Over(over, error, over / error if error > 0.0 else None)


def _height_over(weighed: Weighed, estimate: Total) -> _Over | None:
    height_m, error_m = weighed.cg_waterline_m, weighed.cg_waterline_error_m
    if height_m is None or error_m is None:
        return None
    return _over(height_m, error_m, estimate.cg_waterline_m, estimate.cg_waterline_error_m)
