"""What may be wrong with a weighing or its list, all of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.airframe.weighing_attitudes import AttitudeElsewhere
    from sim.airframe.weighing_findings import (
        AboardGuess,
        CauseKinds,
        EngineElsewhere,
        ItemElsewhere,
        ScaleMisread,
        SupportElsewhere,
        Suspicion,
        UnitSlip,
    )


@dataclass(frozen=True, slots=True)
class Doubts:
    """What a gap adds to the errors of scales and of the item list, for nobody knows for certain which is wrong.

    Attributes
    ----------
    of_scales, of_list : tuple of tuple of float
        Covariances of mass, station and height. [kg, m, m]
    """

    of_scales: tuple[tuple[float, ...], ...]
    of_list: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Suspects:
    """What may be wrong.

    Attributes
    ----------
    gap_station_m : float or None
        Where the mass too many or too few would sit; None where the masses agree, or beyond all items. [m]
    chi_square : float
        Gap of mass, moment and, where it counts, height in standard errors, squared; as many degrees of freedom.
    gap_probability : float
        That the stated errors alone make a gap at least so large.
    kinds : CauseKinds
        Of all causes that were tested, significant or not.
    one_cause_explains : bool
        Whether a group, the engine, an item or a support elsewhere, or a scale, leaves a gap that is not significant.
    suspicions : tuple of Suspicion
        Groups, the most probable first; empty where the gap is not significant.
    aboard : AboardGuess or None
        Where it is significant, and that is more probable than any other cause.
    engine : EngineElsewhere or None
        Where it is significant and something moves with the engine.
    item : ItemElsewhere or None
        The most probable of the items whose station may be wrong, where the gap is significant.
    unit_slip : UnitSlip or None
        The most probable of the items whose mass may be of the other unit, where the gap is significant.
    supports : tuple of SupportElsewhere
    scales : tuple of ScaleMisread
        Where it is significant and the readings were given, the most probable first.
    explains_height : SupportElsewhere or None
        The support that, elsewhere, alone explains mass, station and a height that contradicts the list.
    attitudes : tuple of AttitudeElsewhere
        Which pitch, or which exchange of readings, would make a height that contradicts the list agree with it.
    with_height : bool
        Whether the height counts.
    buttline_z_score : float
        Moment across the airplane by the scales less that of the list over the standard error of both, right positive.
    doubts : Doubts
        What the causes add to the errors of both; of no gap that is significant, 0.
    """

    gap_station_m: float | None
    chi_square: float
    gap_probability: float
    kinds: CauseKinds
    one_cause_explains: bool
    suspicions: tuple[Suspicion, ...]
    aboard: AboardGuess | None
    engine: EngineElsewhere | None
    item: ItemElsewhere | None
    unit_slip: UnitSlip | None
    supports: tuple[SupportElsewhere, ...]
    scales: tuple[ScaleMisread, ...]
    explains_height: SupportElsewhere | None
    attitudes: tuple[AttitudeElsewhere, ...]
    with_height: bool
    buttline_z_score: float
    doubts: Doubts
