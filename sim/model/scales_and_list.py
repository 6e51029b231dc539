"""The weighing beside the item list, and what one error would explain their difference."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.list_correction import with_errors
from sim.airframe.loading import USEFUL
from sim.airframe.masses import total
from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_findings import percent
from sim.airframe.weighing_slips import other_unit
from sim.airframe.weighing_suspects import suspects
from sim.answer import Answer
from sim.model.plausibility.remark import FORBIDDEN
from sim.model.weighing import height_error_m

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Total
    from sim.airframe.weighing_data import AssumedErrors, Weighed, Weighing
    from sim.airframe.weighing_findings import (
        AboardGuess,
        CauseKinds,
        Elsewhere,
        EngineElsewhere,
        ItemElsewhere,
        ScaleMisread,
        SupportElsewhere,
        Suspects,
        Suspicion,
        UnitSlip,
    )
    from sim.model.model import Model

LISTED_MASS = "a mass in the item list"
LISTED_STATION = "a station in the item list"


@dataclass(frozen=True, slots=True)
class OnScale:
    """What one scale read.

    Attributes
    ----------
    attitude, support : str
        How the airplane stood, and under what.
    scale_kg, tare_kg, net_kg : float
        Mean of its readings, the tare of it, and the difference. [kg]
    """

    attitude: str
    support: str
    scale_kg: float
    tare_kg: float
    net_kg: float


@dataclass(frozen=True, slots=True)
class WeighingAnswer(Answer):
    """The airplane on the scales beside the same items as estimated.

    Attributes
    ----------
    powerplant : str
        The engine that was in it.
    aboard : tuple of str
        Groups aboard besides the empty airplane.
    readings : tuple of OnScale
        Of every scale at every attitude.
    weighed : Weighed
        Weight and centre of gravity by the scales.
    estimate_kg, estimate_error_kg, estimate_cg_station_m, estimate_cg_error_m : float
        Weight and centre of gravity by the item list, and their standard errors, for items without ± those that
        the correction of the list assumes. [kg, kg, m, m]
    estimate_cg_buttline_m : float
        Of the list, right of the plane of symmetry. [m]
    estimate_cg_waterline_m, estimate_cg_waterline_error_m : float
        Its height by the item list, and the standard error. [m]
    over_kg, over_error_kg : float
        Scales less estimate, heavier positive, and the standard error of that. [kg]
    over_cg_m, over_cg_error_m : float
        Scales less estimate, aft positive, and the standard error of that. [m]
    over_cg_buttline_m : float
        Scales less estimate, right positive; items state no ± of their buttline. [m]
    over_cg_waterline_m, over_cg_waterline_error_m : float or None
        Scales less estimate, up positive, and the standard error of that; None where the scales do not determine the
        height. [m]
    mass_z_score, station_z_score, waterline_z_score : float or None
        These differences over their standard errors; None where there is no difference or no error.
    assumed : AssumedErrors
        Standard errors of the weighing that the scenario does not give.
    assumed_waterline_error_m : float or None
        Standard error of the listed height that the scales were read with; None where they determine it. [m]
    items_without_error : int
        Number of items of the empty airplane that state no error of mass or place: one is assumed, see
        `sim.airframe.list_correction`.
    gap_station_m : float or None
        Where the mass too many or too few would sit; None where the masses agree, or beyond all items. [m]
    gap_probability : float
        That errors of list and scales alone make a difference of mass, moment and, where it counts, height at least so
        large.
    cause_kinds : CauseKinds
        How probable each kind of cause is, of all that were tested.
    one_cause_explains : bool
        Whether one of the groups, the engine, an item or a support elsewhere, or a scale can explain the difference:
        what it leaves is not significant.
    suspicions : tuple of Suspicion
        Groups that may be wrong, the most probable first; empty where the difference is not significant.
    aboard_guess : AboardGuess or None
        Pilot or fuel aboard or left out, where that is more probable than any other cause.
    engine_elsewhere : EngineElsewhere or None
        The engine at another station than written; None where the difference is not significant.
    item_elsewhere : ItemElsewhere or None
    unit_slip : UnitSlip or None
        The most probable of the items whose station, or unit of mass, may be wrong; None where the difference is not
        significant.
    supports_elsewhere : tuple of SupportElsewhere
        Supports of an axle at another station than written; empty where the difference is not significant.
    scales_misread : tuple of ScaleMisread
        A scale that reads wrong, the most probable first; empty where the difference is not significant.
    explains_height : SupportElsewhere or None
        The one support that, elsewhere, alone explains mass, station and a height that contradicts the list.
    height_counts : bool
        Whether the heights of scales and list count in the probabilities: the scales determine it, and every item has
        a waterline.
    """

    powerplant: str
    aboard: tuple[str, ...]
    readings: tuple[OnScale, ...]
    weighed: Weighed
    estimate_kg: float
    estimate_error_kg: float
    estimate_cg_station_m: float
    estimate_cg_error_m: float
    estimate_cg_buttline_m: float
    estimate_cg_waterline_m: float
    estimate_cg_waterline_error_m: float
    over_kg: float
    over_error_kg: float
    over_cg_m: float
    over_cg_error_m: float
    over_cg_buttline_m: float
    over_cg_waterline_m: float | None
    over_cg_waterline_error_m: float | None
    mass_z_score: float | None
    station_z_score: float | None
    waterline_z_score: float | None
    assumed: AssumedErrors
    assumed_waterline_error_m: float | None
    items_without_error: int
    gap_station_m: float | None
    gap_probability: float
    cause_kinds: CauseKinds
    one_cause_explains: bool
    suspicions: tuple[Suspicion, ...]
    aboard_guess: AboardGuess | None
    engine_elsewhere: EngineElsewhere | None
    item_elsewhere: ItemElsewhere | None
    unit_slip: UnitSlip | None
    supports_elsewhere: tuple[SupportElsewhere, ...]
    scales_misread: tuple[ScaleMisread, ...]
    explains_height: SupportElsewhere | None
    height_counts: bool

    @property
    def elsewhere(self) -> list[Elsewhere]:
        """What may be wrong beside masses of the list and loads, the most probable first."""
        found = (self.engine_elsewhere, self.item_elsewhere, *self.supports_elsewhere, *self.scales_misread)
        return sorted((one for one in found if one is not None), key=lambda one: -one.probability)


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
    scores = (scales.mass_z_score, scales.station_z_score, scales.waterline_z_score)
    worst = max((abs(score) for score in scores if score is not None), default=0.0)
    guess = scales.aboard_guess
    certain = guess is not None and guess.nearly_certain
    if not certain and worst <= LIMIT:
        return None
    cause = f"The scales suggest: {guess.named}." if guess is not None and certain else _to_check(scales)
    return f"{FORBIDDEN} before the cause is found: scales and item list disagree by {worst:.1f} times their ±. {cause}"


def _to_check(scales: WeighingAnswer) -> str:
    """Return what to look at first where no load is nearly certain."""
    unit = other_unit(scales.weighed.mass_kg, scales.estimate_kg)
    if unit:
        return f"{unit}: check the unit of the readings."
    if scales.explains_height:
        return f"One cause explains weight, CG station and height: {scales.explains_height.named}."
    if not scales.suspicions:
        return (
            "Weight and CG station agree, the height does not: check the attitudes (nose up positive), then waterlines "
            "and radii of the supports."
        )
    kinds = scales.cause_kinds
    causes = [(kinds.listed_mass_probability, LISTED_MASS), (kinds.station_probability, LISTED_STATION)]
    share, name = max([*causes, *((one.probability, one.named) for one in scales.elsewhere)])
    if share <= 0.5 or not scales.one_cause_explains:
        return "No one cause stands out: check stations of the supports, scales, tares and what was aboard first."
    return f"Most probable is: {name} ({percent(share)})."


def weighing(model: Model) -> WeighingAnswer | None:
    """Return the weighing of an airplane beside its item list; None where it was not weighed.

    Parameters
    ----------
    model : Model
        The airplane.

    Raises
    ------
    InputError
        A group aboard that is not in the item list; readings that are missing, do not balance or put the centre of
        gravity outside the wheels.
    """
    readings, weighed = model.weighing, model.weighed
    if readings is None or weighed is None:
        return None
    stated = model.stood_on_scales(readings)
    there = tuple(with_errors(item) for item in stated)
    items = model.weights(readings.powerplant).items
    names = {item.name for item in there}
    absent = [item for item in items if item.name not in names and not item.added]
    return _beside(
        readings,
        weighed,
        total(there),
        suspects(there, absent, USEFUL, weighed, readings=readings),
        without_error=sum(item != given for item, given in zip(there, stated, strict=True)),
    )


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
        assumed=readings.assumed,
        assumed_waterline_error_m=None if height else height_error_m(estimate),
        items_without_error=without_error,
        gap_station_m=found.gap_station_m,
        gap_probability=found.gap_probability,
        cause_kinds=found.kinds,
        one_cause_explains=found.one_cause_explains,
        suspicions=found.suspicions,
        aboard_guess=found.aboard,
        engine_elsewhere=found.engine,
        item_elsewhere=found.item,
        unit_slip=found.unit_slip,
        supports_elsewhere=found.supports,
        scales_misread=found.scales,
        explains_height=found.explains_height,
        height_counts=found.with_height,
    )


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
