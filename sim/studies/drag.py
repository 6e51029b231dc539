"""Drag and greatest lift of the airplane built up from its parts, beside what the scenario states."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.aerodynamics.drag_parts import PartDrag
from sim.answer import Answer
from sim.atmosphere import GRAVITY_M_S2, air

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.aerodynamics.drag_lift_max import LiftMax
    from sim.aerodynamics.drag_polar import SpanEfficiency
    from sim.aerodynamics.drag_section import SectionPolar
    from sim.aerodynamics.polar import PolarBands
    from sim.model.drag import DragEstimate
    from sim.model.model import Model
    from sim.numerics.uncertain import Uncertain


@dataclass(frozen=True, slots=True)
class PartShare(PartDrag):
    """Drag of one part in the whole.

    Attributes
    ----------
    drag_share : float
        Of the drag of all parts, the interference of the whole left aside.
    variance_share : float
        Of the variance of the zero-lift drag coefficient.
    """

    drag_share: float
    variance_share: float


@dataclass(frozen=True, slots=True)
class BuiltUp:
    """One coefficient built up, and as stated.

    Attributes
    ----------
    value, band : float
        Built up, with one standard deviation.
    stated, stated_band : float or None
        As the scenario states it, which then serves; None where it does not.
    apart : float or None
        Stated less built up.
    """

    value: float
    band: float
    stated: float | None
    stated_band: float | None
    apart: float | None


@dataclass(frozen=True, slots=True)
class DragAnswer(Answer):
    """Drag and greatest lift of an airplane, built up from its parts.

    Attributes
    ----------
    title, powerplant : str
        Name of the airplane; powerplant with which it is weighed.
    mass_kg : float
        With that powerplant. [kg]
    speed_m_s, altitude_m : float
        For the Reynolds numbers of drag. [m/s, m]
    reynolds, stall_reynolds : float
        On the mean chord, there and at the stall at sea level.
    area_m2, aspect_ratio : float
        Of the wing, that coefficients are on; of the equivalent monoplane, which the span efficiency is of. [m², –]
    coefficients : dict of BuiltUp
        Zero-lift drag, span efficiency and greatest lift, by the names of the fields of the polar.
    parts : tuple of PartShare
        Wing, fuselage, tail, then the rest.
    whole_interference : Uncertain
        Factor on the drag of all parts together.
    interference_variance_share : float
        Of it in the variance of the zero-lift drag.
    dominant : str
        The part, or ``interference``, that has the largest share in that variance.
    section : SectionPolar
        Of the top plane, at the Reynolds number of drag.
    lift : LiftMax
        Greatest lift, from the section to the airplane in trim.
    efficiency : SpanEfficiency
        Drag that grows with lift.
    lift_drag_max : float
        Greatest lift-to-drag ratio of the polar that serves.
    stall_m_s, stall_band_m_s : float
        Stalling speed at sea level with the greatest lift that serves, and one standard deviation. [m/s]
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    """

    main: ClassVar[str] = "parts"

    title: str
    powerplant: str
    mass_kg: float
    speed_m_s: float
    altitude_m: float
    reynolds: float
    stall_reynolds: float
    area_m2: float
    aspect_ratio: float
    coefficients: dict[str, BuiltUp]
    parts: tuple[PartShare, ...]
    whole_interference: Uncertain
    interference_variance_share: float
    dominant: str
    section: SectionPolar
    lift: LiftMax
    efficiency: SpanEfficiency
    lift_drag_max: float
    stall_m_s: float
    stall_band_m_s: float
    remarks: tuple[str, ...]


def drag(model: Model, *, powerplant: str | None = None) -> DragAnswer:
    """Return drag and greatest lift built up from the parts of an airplane.

    Parameters
    ----------
    model : Model
        The airplane, with its section.
    powerplant : str or None
        Name of the powerplant with whose mass it flies; None as for `balance`.

    Raises
    ------
    InputError
        Without a section, and when no powerplant has that name.

    Notes
    -----
    What the scenario states goes before what is built up, in every other study.
    """
    name = model.usual_powerplant(powerplant).name
    found, polar, bands = model.drag_estimate(name), model.polar_with(name), model.polar_bands(name)
    mass_kg = model.flown_mass(name).body.mass_kg
    parts = tuple(_shares(found))
    interference_share = found.zero_lift.variance_shares()[-1]
    stall = polar.stall_m_s(mass_kg * GRAVITY_M_S2, air(0.0).density_kg_m3)
    return DragAnswer(
        title=model.title,
        powerplant=name,
        mass_kg=mass_kg,
        speed_m_s=model.speed_m_s,
        altitude_m=model.altitude_m,
        reynolds=found.reynolds,
        stall_reynolds=found.stall_reynolds,
        area_m2=polar.area_m2,
        aspect_ratio=polar.aspect_ratio,
        coefficients=_coefficients(found, model.drag_stated, bands),
        parts=parts,
        whole_interference=found.zero_lift.whole_interference,
        interference_variance_share=interference_share,
        dominant=_dominant(parts, interference_share),
        section=found.sections[0],
        lift=found.lift,
        efficiency=found.efficiency,
        lift_drag_max=polar.lift_drag_max,
        stall_m_s=stall,
        stall_band_m_s=0.5 * stall * bands.lift_max_band / polar.lift_max,
        remarks=model.remark_texts("drag"),
    )


def _shares(found: DragEstimate) -> Iterator[PartShare]:
    parts = found.zero_lift.parts
    whole = sum(part.drag_area_m2 for part in parts)
    for part, share in zip(parts, found.zero_lift.variance_shares(), strict=False):
        yield PartShare(**asdict(part), drag_share=part.drag_area_m2 / whole, variance_share=share)


def _dominant(parts: tuple[PartShare, ...], interference_share: float) -> str:
    widest = max(parts, key=lambda part: part.variance_share)
    return widest.name if widest.variance_share >= interference_share else "interference"


def _coefficients(found: DragEstimate, stated: Mapping[str, float | None], bands: PolarBands) -> dict[str, BuiltUp]:
    built = {
        "drag_zero_lift": found.zero_lift.drag_zero_lift,
        "span_efficiency": found.efficiency.span_efficiency,
        "lift_max": found.lift.lift_max,
    }
    return {name: _beside(one, stated[name], getattr(bands, f"{name}_band")) for name, one in built.items()}


def _beside(built: Uncertain, stated: float | None, band: float) -> BuiltUp:
    if stated is None:
        return BuiltUp(built.value, built.band, None, None, None)
    return BuiltUp(built.value, built.band, stated, band, stated - built.value)
