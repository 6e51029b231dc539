"""Margins of safety of spars, struts, wires and their pins at ultimate load, and the least standard size that holds."""

from __future__ import annotations

from dataclasses import replace
from math import exp, hypot, inf, pi, sqrt
from typing import TYPE_CHECKING, Final

from sim.structures.column import column_strength_n, margin
from sim.structures.cross_section import tube
from sim.structures.materials import bolt_steel, materials
from sim.structures.member_sizes import StrutSize
from sim.structures.sizes import tube_sizes, wire_sizes

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.structures.cross_section import CrossSection
    from sim.structures.member_sizes import MemberSize, SparSize, WireSet

FITTING_FACTOR: Final = 1.15
"""On the load of pins and fittings (14 CFR 23.625, 2014 text, from memory)."""
LOAD_ERROR: Final = 0.1
"""Standard deviation of a load over its mean (common practice, no source)."""
MOST_SLENDER: Final = 300.0
"""Length over radius of gyration of a tube that is advised."""
ALIKE: Final = 1e-9
"""Relative difference of areas that are the same."""
NINETY_PERCENT: Final = 1.645
"""Standard deviations to either end of a band that holds 90 %."""


def member_margin(size: MemberSize, axial_n: float, length_m: float) -> float:
    """Return the least margin of safety of a strut or wire and of its pins.

    Parameters
    ----------
    size : StrutSize or WireSet
        What it is made of.
    axial_n : float
        At ultimate load, tension positive. [N]
    length_m : float
        From pin to pin. [m]
    """
    return min(member_margins(size, axial_n, length_m).values())


def member_margins(size: MemberSize, axial_n: float, length_m: float) -> dict[str, float]:
    """Return the margins of safety of a strut or wire by what fails: ``tension`` or ``compression``, and ``pins``.

    Parameters
    ----------
    size, axial_n, length_m
        As for `member_margin`.
    """
    compressed = axial_n < 0.0
    own = margin(_strength_n(size, length_m, compressed=compressed), abs(axial_n))
    return {"compression" if compressed else "tension": own, "pins": pin_margin(size, axial_n)}


def _strength_n(size: MemberSize, length_m: float, *, compressed: bool) -> float:
    if not isinstance(size, StrutSize):
        return size.count * size.size.strength_n
    if not compressed:
        return size.section.area_m2 * size.material.tension_pa
    return column_strength_n(
        size.section, size.material, length_m, fixity=size.fixity, eccentricity_m=size.eccentricity_m
    )


def margin_low(found: float, scatter: float) -> float:
    """Return the lower end of the 90 % band of a margin, by the errors of load and strength together.

    Parameters
    ----------
    found : float
        The margin.
    scatter : float
        Standard deviation of the strength over its mean.

    Notes
    -----
    Strength over load is taken as lognormal.

    Examples
    --------
    >>> round(margin_low(0.5, 0.0), 3)
    0.272
    """
    return (1.0 + found) * exp(-NINETY_PERCENT * hypot(scatter, LOAD_ERROR)) - 1.0


def pin_margin(size: MemberSize, axial_n: float) -> float:
    """Return the margin of the pins at the ends: double shear, and bearing of the plates; infinite where none is given.

    Parameters
    ----------
    size : StrutSize or WireSet
        With pin and plate; the plates of a wire are of 4130, as the fittings of a strut are.
    axial_n : float
        At ultimate load. [N]

    Notes
    -----
    Shear 2 (π/4) d² τ and bearing d t σ, with the fitting factor 1.15 on the load. Tear-out past the pin and bending of
    the pin are not covered.
    """
    if size.pin_m is None:
        return inf
    shear_n = 2.0 * 0.25 * pi * size.pin_m**2 * bolt_steel().shear_pa
    bearing_n = inf if size.plate_m is None else size.pin_m * size.plate_m * materials()["4130 normalised"].bearing_pa
    return margin(min(shear_n, bearing_n), FITTING_FACTOR * abs(axial_n))


def spar_margin(size: SparSize, *, thrust_n: float, moment_n_m: float, side_moment_n_m: float, shear_n: float) -> float:
    """Return the margin of a section of a spar: thrust and bending together, or shear.

    Parameters
    ----------
    size, thrust_n, moment_n_m, side_moment_n_m, shear_n
        As for `spar_margins`.
    """
    own = spar_margins(size, thrust_n=thrust_n, moment_n_m=moment_n_m, side_moment_n_m=side_moment_n_m, shear_n=shear_n)
    return min(own.values())


def spar_margins(
    size: SparSize, *, thrust_n: float, moment_n_m: float, side_moment_n_m: float, shear_n: float
) -> dict[str, float]:
    """Return the margins of a section of a spar by what fails: the ``pressed side``, the ``pulled side``, or ``shear``.

    Parameters
    ----------
    size : SparSize
        Section and material.
    thrust_n : float
        At ultimate load, compression positive. [N]
    moment_n_m, side_moment_n_m : float
        Of bending up or down, and fore or aft, the effect of the thrust included. [N m]
    shear_n : float
        Up or down. [N]

    Notes
    -----
    Elastic stresses at the outermost fibre in parts of what the material bears in compression and in bending on one
    side, in tension on the other, added up: conservative for wood, whose allowable in bending and thrust together lies
    on a curve above that line. A built-up wooden section bears no more than the crushing strength in bending. Lateral
    buckling between ribs, local buckling of webs, walls and flanges, glue lines and bolt holes are not covered.

    References
    ----------
    ANC-18, section 2.4, for the form of the rule (from memory).
    """
    section, material = size.section, size.material
    bent = abs(moment_n_m) * section.fibre_m / section.inertia_m4
    bent += abs(side_moment_n_m) * section.side_fibre_m / section.side_inertia_m4
    pressed = thrust_n / section.area_m2
    bears = material.yield_pa if section.built_up else material.bending_pa
    compressed = bent / bears + max(pressed, 0.0) / material.yield_pa
    pulled = (bent - min(pressed, 0.0)) / material.tension_pa
    sheared = abs(shear_n) / section.shear_area_m2 / material.shear_pa
    return {"pressed side": margin(1.0, compressed), "pulled side": margin(1.0, pulled), "shear": margin(1.0, sheared)}


def least_size(size: MemberSize, axial_n: Sequence[float], length_m: float) -> str | None:
    """Return the lightest standard size of its kind that bears every load; None where none does or none is standard.

    Of a tube that is lighter than any standard one that serves, and serves, ``as fitted``.

    Parameters
    ----------
    size : StrutSize or WireSet
        Whose family, material, fixity and pins are kept.
    axial_n : sequence of float
        At ultimate load, with the stiffness of the size given. [N]
    length_m : float
        From pin to pin. [m]

    Notes
    -----
    A tube is no longer than 300 radii of gyration, the greatest slenderness that is advised for members in tension.

    References
    ----------
    ANSI/AISC 360, section D1, user note (from memory).
    """

    def holds(other: MemberSize) -> bool:
        bare = replace(other, pin_m=None)
        return all(member_margin(bare, n, length_m) >= 0.0 for n in axial_n)

    if not isinstance(size, StrutSize):
        return _least_wire(size, holds)
    if not size.tube:
        return None
    fitted = size.section
    for one in tube_sizes():
        section = tube(one.diameter_m, one.wall_m)
        if section.area_m2 > fitted.area_m2 * (1.0 + ALIKE) and _stout(fitted, length_m) and holds(size):
            return "as fitted"
        if _stout(section, length_m) and holds(replace(size, section=section)):
            return one.name
    return None


def _stout(section: CrossSection, length_m: float) -> bool:
    return length_m <= MOST_SLENDER * sqrt(section.least_inertia_m4 / section.area_m2)


def _least_wire(size: WireSet, holds: Callable[[MemberSize], bool]) -> str | None:
    for one in wire_sizes().values():
        tried = replace(size, size=one)
        if one.family == size.size.family and holds(tried):
            return tried.label
    return None
