"""A weighing beside the item list: what was read, what was listed, and what may be wrong."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.airframe.weighing_attitudes import AttitudeElsewhere
    from sim.airframe.weighing_data import AssumedErrors, Weighed
    from sim.airframe.weighing_findings import (
        AboardGuess,
        CauseKinds,
        Elsewhere,
        EngineElsewhere,
        ItemElsewhere,
        ScaleMisread,
        SupportElsewhere,
        Suspicion,
        UnitSlip,
    )


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
    buttline_z_score : float
        That of the moments across the airplane; an item counts with a quarter of an inch, for none states an error.
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
    attitudes_elsewhere : tuple of AttitudeElsewhere
        Which pitch, or which exchange of readings, would make a height that contradicts the list agree with it.
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
    buttline_z_score: float
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
    attitudes_elsewhere: tuple[AttitudeElsewhere, ...]
    height_counts: bool

    @property
    def elsewhere(self) -> list[Elsewhere]:
        """What may be wrong beside masses of the list and loads, the most probable first."""
        found = (self.engine_elsewhere, self.item_elsewhere, *self.supports_elsewhere, *self.scales_misread)
        return sorted((one for one in found if one is not None), key=lambda one: -one.probability)
