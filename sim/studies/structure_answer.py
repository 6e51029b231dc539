"""What the structure of a wing carries: load cases, spars, struts and wires with their margins."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from sim.answer import Answer
from sim.structures.wing_cases import WingCase

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureCase(WingCase):
    """A load case, and how the wing bears it at limit load.

    Attributes
    ----------
    alpha_deg : float
        Angle of attack of the x axis. [°]
    wing_lift_n, tail_lift_n : float
        Lift of all planes, and of the tailplane; together the load factor times the weight. [N]
    front_share : float or None
        Of the load of all spars across the wing, weight of the wing taken off, what the front spars bear; None without.
    tip_deflection_m : float
        Greatest deflection of a tip, up positive, from the rigged wing at rest. [m]
    """

    alpha_deg: float
    wing_lift_n: float
    tail_lift_n: float
    front_share: float | None
    tip_deflection_m: float


@dataclass(frozen=True, slots=True)
class StructureMember:
    """A spar, strut or wire with the case that sets it; of both sides the one with the smaller margin.

    Attributes
    ----------
    name, kind : str
        What it is.
    length_m : float
        From pin to pin with pins on the faces of the spars, else from axis to axis; of a spar its whole length. [m]
    size : str
        What it is made of.
    sizes_m : tuple of float
        Outside diameter and wall of a tube, chord and thickness of an oval strut; empty of others. [m]
    force_n : float
        Axial load at limit load, tension positive; of a spar where its margin is least. [N]
    moment_n_m : float
        Bending moment there, up positive; 0 of what is pinned. [N m]
    ultimate_n, ultimate_bending_n_m, ultimate_shear_n : float
        Axial load, bending moment and shear at ultimate load there, of which the margin is. [N, N m, N]
    most_tension_n, most_compression_n : float
        Greatest of all cases at ultimate load, both positive, of a spar anywhere along it; 0 where there is none. [N]
    tension_case, compression_case : str
        Whose they are; empty where there is none.
    case : str
        That leaves the least margin.
    set_by : str
        What fails first in it: ``tension``, ``compression`` or ``pins``; of a spar the ``pressed side`` or the
        ``pulled side`` by bending and axial load together, or ``shear``.
    margin : float
        Of safety at ultimate load: adequate from 0; infinite where nothing bears on it.
    margin_low : float
        Lower end of its 90 % band, by the errors of load and strength.
    least_size : str
        The lightest standard size that bears all cases; ``as fitted`` where a tube that is none is lighter still and
        bears them; empty where there is none.
    rigged_n : float
        Axial load at rest, by the tension of the wires alone. [N]
    ends_m : tuple of two places
        Station, buttline and waterline of its ends on the right side. [m]
    """

    name: str
    kind: str
    length_m: float
    size: str
    sizes_m: tuple[float, ...]
    force_n: float
    moment_n_m: float
    ultimate_n: float
    ultimate_bending_n_m: float
    ultimate_shear_n: float
    most_tension_n: float
    tension_case: str
    most_compression_n: float
    compression_case: str
    case: str
    set_by: str
    margin: float
    margin_low: float
    least_size: str
    rigged_n: float
    ends_m: tuple[Place, Place]


@dataclass(frozen=True, slots=True)
class SparDiagram:
    """A spar of the right side along its length, in its worst case at ultimate load.

    Attributes
    ----------
    name, case : str
        Whose, and which.
    buttlines_m : tuple of float
        Where. [m]
    moments_n_m, shears_n, thrusts_n : tuple of float
        Bending moment and shear up positive, thrust: compression positive. [N m, N, N]
    margins : tuple of float
        Of safety.
    """

    name: str
    case: str
    buttlines_m: tuple[float, ...]
    moments_n_m: tuple[float, ...]
    shears_n: tuple[float, ...]
    thrusts_n: tuple[float, ...]
    margins: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class TakenOver:
    """What a strut, wire or spar carries more because others are left out.

    Attributes
    ----------
    name : str
        Which, with its side.
    whole_n, ultimate_n : float
        Greatest axial load of all cases at ultimate load, tension positive: with nothing left out, and as it is. [N]
    """

    name: str
    whole_n: float
    ultimate_n: float


@dataclass(frozen=True, slots=True)
class StructureAnswer(Answer):
    """The structure of a wing under its load cases.

    Attributes
    ----------
    title, powerplant : str
        Which airplane, and its engine.
    category : str
        ``normal``, ``utility`` or ``acrobatic``.
    pins : str
        Where struts and wires outboard are pinned: on the ``faces`` of the spars, or their ``axes``.
    mass_kg : float
        Of the airplane. [kg]
    wing_mass_kg : float
        Of the planes, which relieves them. [kg]
    frame_mass_kg : float
        Of spars, struts, ribs of the drag truss and wires, both sides, without fittings. [kg]
    manoeuvring_m_s, cruising_m_s, diving_m_s : float
        Design speeds VA, VC and VD. [m/s]
    cases : tuple of StructureCase
        In their order.
    members : tuple of StructureMember
        Spars, then struts and wires.
    spars : tuple of SparDiagram
        In the order of the spars.
    left_out : tuple of str
        Struts, ribs and wires without which the wing is told, as they were asked for.
    taken_over : tuple of TakenOver
        Members whose greatest axial load grows most without these, from that which takes over most; empty where
        nothing is left out, or where the wing with nothing left out does not stand.
    sources : tuple of str
        Materials and sizes used, and where their allowables come from.
    remarks : tuple of str
        What the reader must know.
    """

    main: ClassVar[str] = "members"

    title: str
    powerplant: str
    category: str
    pins: str
    mass_kg: float
    wing_mass_kg: float
    frame_mass_kg: float
    manoeuvring_m_s: float
    cruising_m_s: float
    diving_m_s: float
    cases: tuple[StructureCase, ...]
    members: tuple[StructureMember, ...]
    spars: tuple[SparDiagram, ...]
    left_out: tuple[str, ...]
    taken_over: tuple[TakenOver, ...]
    sources: tuple[str, ...]
    remarks: tuple[str, ...]
