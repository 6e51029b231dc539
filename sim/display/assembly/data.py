"""What an assembly is made of: slabs, parts, fasteners and the groups that move together.

Axes: x right and y up as a visitor sees the display, z toward the visitor; the origin is where the axis of the cam
meets the front face of the base. Everything stands as with the propeller at 0, the lead plate at no lead and the
follower down.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from sim.answer import ASIDE

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray
    from sim.display.shapes import Hole, Scribe, Slot

GroupName = Literal["fixed", "propeller", "cam", "crank", "lead plate", "follower"]
Process = Literal["plate", "turned", "printed", "wood", "sheet", "bought"]


@dataclass(frozen=True, slots=True)
class Slab:
    """A prism along z: part of the space that a part fills.

    Attributes
    ----------
    outline_m : array
        Corners of its closed outline, rows of x and y from the origin of its part. [m]
    z_from_m, z_to_m : float
        Ends along the shaft, in the axes of the assembly. [m]
    openings_m : tuple of array
        Corners of its closed openings, as for the outline. [m]
    """

    outline_m: FloatArray
    z_from_m: float
    z_to_m: float
    openings_m: tuple[FloatArray, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A part, made or bought, in its place.

    Attributes
    ----------
    name : str
        Its name; parts that are alike share it.
    material : str
        Material.
    mass_kg : float
        Mass. [kg]
    x_m, y_m : float
        Place of its origin. [m]
    z_from_m, z_to_m : float
        Ends along the shaft. [m]
    fit : str
        ISO 286 classes by function, empty where none matters.
    made : bool
        Whether it is made, not bought.
    standard : str
        Standard designation of a bought part; stock of a made one.
    process : str
        How it is made: ``plate``, ``turned``, ``printed``, ``wood``, ``sheet``; or ``bought``. Not in JSON.
    group : str
        What it moves with. Not in JSON.
    slabs : tuple of Slab
        The space that it fills, before it is turned. Not in JSON.
    placed_rad : float
        Turn of the part about its origin from where it is drawn to its place, anticlockwise. Not in JSON. [rad]
    holes : tuple of Hole
        Round holes of a flat part, from its origin. Not in JSON.
    slots : tuple of Slot
        Slots of a flat part, from its origin; a bent one is bent round the origin. Not in JSON.
    scribes : tuple of Scribe
        Lines to engrave. Not in JSON.
    outline_m : array or None
        Outline to cut of a flat part, from its origin. Not in JSON. [m]
    cutouts_m : tuple of array
        Closed cut-outs of a flat part that are neither holes nor slots. Not in JSON. [m]
    upright_holes : tuple of Hole
        Holes drilled along y, whose y is the place along the shaft. Not in JSON.
    """

    name: str
    material: str
    mass_kg: float
    x_m: float
    y_m: float
    z_from_m: float
    z_to_m: float
    fit: str
    made: bool
    standard: str
    process: Process = field(metadata=ASIDE)
    group: GroupName = field(metadata=ASIDE)
    slabs: tuple[Slab, ...] = field(metadata=ASIDE)
    placed_rad: float = field(default=0.0, metadata=ASIDE)
    holes: tuple[Hole, ...] = field(default=(), metadata=ASIDE)
    slots: tuple[Slot, ...] = field(default=(), metadata=ASIDE)
    scribes: tuple[Scribe, ...] = field(default=(), metadata=ASIDE)
    outline_m: FloatArray | None = field(default=None, metadata=ASIDE)
    cutouts_m: tuple[FloatArray, ...] = field(default=(), metadata=ASIDE)
    upright_holes: tuple[Hole, ...] = field(default=(), metadata=ASIDE)

    @property
    def thickness_m(self) -> float:
        """Extent along the shaft. [m]."""
        return self.z_to_m - self.z_from_m


@dataclass(frozen=True, slots=True)
class Fastener:
    """A screw in its place, with what stands on it.

    Attributes
    ----------
    name : str
        What it holds.
    standard : str
        Standard designation.
    thread : str
        Size of the thread: ``M4``, ``#8-32``.
    length_m : float
        Length below the head, of a countersunk one with it. [m]
    washers : tuple of str
        Standard designations of its washers, from the head on.
    nut : str
        Standard designation of its nut, or where its thread is tapped.
    joins : tuple of str
        Names of the parts that it goes through.
    x_m, y_m : float
        Its axis. [m]
    z_from_m, z_to_m : float
        Ends along the shaft, head and nut included. [m]
    mass_kg : float
        Mass with washers and nut. [kg]
    head : str
        ``socket``, ``sunk``, ``hex`` or ``pan``. Not in JSON.
    front : bool
        Whether the head is at its front end. Not in JSON.
    group : str
        What it moves with. Not in JSON.
    slabs : tuple of Slab
        The space that it fills, from its axis. Not in JSON.
    head_m : float
        Diameter over the corners of its head. Not in JSON. [m]
    upright : bool
        Whether it stands along y instead of along the shaft. Not in JSON.
    """

    name: str
    standard: str
    thread: str
    length_m: float
    washers: tuple[str, ...]
    nut: str
    joins: tuple[str, ...]
    x_m: float
    y_m: float
    z_from_m: float
    z_to_m: float
    mass_kg: float
    head: Literal["socket", "sunk", "hex", "pan"] = field(metadata=ASIDE)
    front: bool = field(metadata=ASIDE)
    group: GroupName = field(metadata=ASIDE)
    slabs: tuple[Slab, ...] = field(metadata=ASIDE)
    head_m: float = field(metadata=ASIDE)
    upright: bool = field(default=False, metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class Group:
    """Parts that move as one.

    Attributes
    ----------
    name : str
        Its name.
    axis_m : tuple of float
        Axis that it turns about, x and y. [m]
    ratio : float
        Its turn for a turn of what drives it: of the propeller, of the lead for the lead plate (negative: against the
        cam), anticlockwise positive; 0 for what does not turn.
    """

    name: GroupName
    axis_m: tuple[float, float]
    ratio: float


@dataclass(frozen=True, slots=True)
class Assembly:
    """The whole display.

    Attributes
    ----------
    parts : tuple of Part
        In the order in which they are put together.
    fasteners : tuple of Fastener
        Screws, in the same order.
    groups : tuple of Group
        What moves, and about which axis.
    hardware : str
        ``metric`` or ``inch``: the system of every standard part.
    handle_m : tuple of float or None
        Circle of the grip: x and y of its axis, radius; None with a motor. [m]
    foot_m : float
        Underside of the foot, y. [m]
    """

    parts: tuple[Part, ...]
    fasteners: tuple[Fastener, ...]
    groups: tuple[Group, ...]
    hardware: Literal["metric", "inch"]
    handle_m: tuple[float, float, float] | None
    foot_m: float

    @property
    def pieces(self) -> tuple[Part | Fastener, ...]:
        """Parts, then screws."""
        return *self.parts, *self.fasteners

    @property
    def mass_kg(self) -> float:
        """Mass of everything. [kg]."""
        return sum(each.mass_kg for each in self.pieces)

    def part(self, name: str) -> Part:
        """Return the first part of a name.

        Raises
        ------
        StopIteration
            When there is none.
        """
        return next(part for part in self.parts if part.name == name)

    def group(self, name: GroupName) -> Group:
        """Return the group of a name."""
        return next(group for group in self.groups if group.name == name)
