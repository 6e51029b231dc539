"""Drag coefficients of the parts of an airplane that do not lift, each on a stated area, with band and source.

Interference is of a part with what it is fixed to, its fittings included: the factor on the drag of the part alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from sim.numerics.uncertain import Uncertain

Side = Literal["length", "width", "height", "diameter"]
HOERNER = "Hoerner, Fluid-Dynamic Drag (from memory)"
GEAR = "interference: NACA Report 485, fittings and interference are 44 % of the drag of ordinary gears"
STRUT = "interference: NACA TN 365, up to as much as the strut itself"
PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class DragKind:
    """One kind of part.

    Attributes
    ----------
    meaning : str
        What it is.
    part_coefficient : Uncertain
        On the area of one part.
    sides : tuple of str
        Dimensions whose product is that area, times `area_factor`.
    interference : Uncertain
        Drag in place over that of the part alone.
    source : str
        Where the coefficient comes from.
    area_factor : float
        Of a rectangle round the sides.
    """

    meaning: str
    part_coefficient: Uncertain
    sides: tuple[Side, ...]
    interference: Uncertain
    source: str
    area_factor: float = 1.0


_ALONG: tuple[Side, ...] = ("length", "width")
_ACROSS: tuple[Side, ...] = ("width", "height")
_TYRE: tuple[Side, ...] = ("diameter", "width")
_DISC: tuple[Side, ...] = ("diameter",)
_WIRE_ENDS, _STRUT_ENDS = Uncertain(1.1, 0.05), Uncertain(1.3, 0.2)
_ON_A_GEAR, _ALONE = Uncertain(1.8, 0.25), Uncertain(1.0, 0.0)

KINDS: MappingProxyType[str, DragKind] = MappingProxyType(
    {
        "wire": DragKind("round wire or rod", Uncertain(1.1, 0.1), _ALONG, _WIRE_ENDS, HOERNER),
        "cable": DragKind("stranded cable", Uncertain(1.2, 0.12), _ALONG, _WIRE_ENDS, HOERNER),
        "streamline_wire": DragKind(
            "streamline wire, aligned within a few degrees", Uncertain(0.4, 0.12), _ALONG, _WIRE_ENDS, HOERNER
        ),
        "round_strut": DragKind("round strut or tube", Uncertain(1.1, 0.1), _ALONG, _STRUT_ENDS, f"{HOERNER}; {STRUT}"),
        "oval_strut": DragKind(
            "strut rounded to about twice its thickness",
            Uncertain(0.35, 0.1),
            _ALONG,
            _STRUT_ENDS,
            f"{HOERNER}; {STRUT}",
        ),
        "faired_strut": DragKind(
            "streamline strut, three to four times its thickness",
            Uncertain(0.11, 0.03),
            _ALONG,
            _STRUT_ENDS,
            f"{HOERNER}; {STRUT}",
        ),
        "wheel": DragKind(
            "wheel with its sides covered", Uncertain(0.25, 0.07), _TYRE, _ON_A_GEAR, f"{HOERNER}; {GEAR}"
        ),
        "spoked_wheel": DragKind(
            "wheel with open spokes", Uncertain(0.5, 0.15), _TYRE, _ON_A_GEAR, f"{PRACTICE}; {GEAR}"
        ),
        "spatted_wheel": DragKind(
            "wheel in a spat, on the frontal area of the spat", Uncertain(0.15, 0.05), _ACROSS, _ON_A_GEAR, HOERNER
        ),
        "gear_strut": DragKind(
            "streamline leg or axle fairing of a landing gear",
            Uncertain(0.11, 0.03),
            _ALONG,
            _ON_A_GEAR,
            f"{HOERNER}; {GEAR}",
        ),
        "gear_tube": DragKind(
            "round leg or axle of a landing gear", Uncertain(1.1, 0.1), _ALONG, _STRUT_ENDS, f"{HOERNER}; {STRUT}"
        ),
        "skid": DragKind("tail skid or its strut", Uncertain(1.0, 0.2), _ALONG, _ALONE, PRACTICE),
        "open_cowl": DragKind(
            "cowl round an engine, open in front: what it adds to the fuselage behind it",
            Uncertain(0.15, 0.06),
            _DISC,
            _ALONE,
            PRACTICE,
            math.pi / 4.0,
        ),
        "cylinder": DragKind("cylinder in the open", Uncertain(0.8, 0.25), _ALONG, _ALONE, PRACTICE),
        "cooling_inlet": DragKind(
            "inlet of cooling air, momentum lost inside, on its opening", Uncertain(0.7, 0.3), _ACROSS, _ALONE, PRACTICE
        ),
        "radiator": DragKind("radiator in the open, on its face", Uncertain(0.9, 0.2), _ACROSS, _ALONE, PRACTICE),
        "open_cockpit": DragKind(
            "open cockpit behind its windscreen, on the area of the screen",
            Uncertain(0.5, 0.15),
            _ACROSS,
            _ALONE,
            "Raymer, Aircraft Design (from memory)",
        ),
        "canopy": DragKind(
            "closed canopy with a sharp-edged screen, on its frontal area",
            Uncertain(0.15, 0.05),
            _ACROSS,
            _ALONE,
            "Raymer, Aircraft Design (from memory)",
        ),
        "gun": DragKind("gun in the open, on its frontal area", Uncertain(0.9, 0.3), _ACROSS, _ALONE, PRACTICE),
        "hump": DragKind(
            "fairing on the fuselage, blunt in front, on its frontal area",
            Uncertain(0.3, 0.1),
            _ACROSS,
            _ALONE,
            HOERNER,
        ),
        "fairing": DragKind(
            "streamline body or fairing, on its frontal area", Uncertain(0.1, 0.04), _ACROSS, _ALONE, HOERNER
        ),
        "plate": DragKind("flat plate across the stream", Uncertain(1.17, 0.05), _ACROSS, _ALONE, HOERNER),
    }
)
"""Kind -> coefficient, area, interference and source."""
GIVEN = "given"
"""The kind of a part whose drag area is given outright."""
SIDES: tuple[Side, ...] = ("length", "width", "height", "diameter")
