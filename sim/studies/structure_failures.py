"""In words: what buckles or sways in a wing under a load case, which way, and what it would bear."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.structures.frame_failures import BENT, bays
from sim.structures.removed import without_side
from sim.units.text import in_both

if TYPE_CHECKING:
    from sim.structures.frame_failures import BucklingError, MechanismError
    from sim.structures.frame_forces import FrameForces
    from sim.structures.wing_frame import WingFrame

SWAYS_BELOW: Final = 0.7
"""Of Euler's load of a bay hinged at both ends: with less thrust the wing sways rather than the bay buckles."""
CURES: Final = (
    "make it deeper, or put its struts closer together",
    "make it wider, or its compression ribs closer together (structure.compression_ribs)",
)
"""For a spar that buckles, by the plane of its bending."""
LIFT_BRACES: Final = frozenset({"flying wire", "landing wire", "lift strut"})
"""Kinds of members that hold a plane up and down outboard of its inner fittings."""
FEW: Final = 2
"""So many spars are named; of more, their planes."""


def buckling_words(wing: WingFrame, error: BucklingError, held: FrameForces) -> str:
    """Return what fails, with its thrust and what a span of it would bear.

    Parameters
    ----------
    wing : WingFrame
        With its frame.
    error : BucklingError
        Of a load that it does not bear.
    held : FrameForces
        Of the largest load found that it bears.
    """
    thrusts = [one.thrust_n for one in held.spans]
    own = [one for one in bays(wing.frame, error.plane) if one.beam == error.beam]
    most = {one: max(thrusts[at] for at in one.spans) for one in own}
    bay = max(own, key=lambda one: most[one] / one.euler_n)
    way, thrust, euler = BENT[error.plane], in_both("thrust_n", most[bay]), in_both("thrust_n", bay.euler_n)
    alone = f"a bay of {in_both('strut_length_m', bay.length_m)}, hinged at both ends, would bear {euler} that way"
    name = without_side(error.beam)
    who = f"{name}," if "," in name else name
    if most[bay] < SWAYS_BELOW * bay.euler_n:
        return f"{who} sways {way} under a thrust of {thrust}, and the wing with it: {alone}; brace it"
    return f"{who} buckles {way} under a thrust of {thrust}: {alone}; {CURES[error.plane]}"


def mechanism_words(wing: WingFrame, error: MechanismError) -> str:
    """Return which part of a wing moves freely, which way, and what would hold it.

    Parameters
    ----------
    wing : WingFrame
        With its frame.
    error : MechanismError
        Of a load.
    """
    spars = list(dict.fromkeys(without_side(name) for name in error.beams))
    planes = list(dict.fromkeys(panel.plane for panel in wing.panels if panel.name in error.beams))
    who = " and ".join(spars if len(spars) <= FEW else [f"the {name} plane" for name in planes])
    if error.way == "up and down" and not LIFT_BRACES & {one.kind for one in wing.members}:
        kind = "lift_struts" if len({panel.plane for panel in wing.panels}) == 1 else "wires"
        cure = f'nothing braces it outboard: set layout.bracing to "{kind}"'
    else:
        cure = "add a member that holds it that way, or rigging tension to the wires that go slack"
    node = without_side(error.node)
    return (
        f"the truss is a mechanism: {who or node} can move {error.way} without stretching or bending anything, most at "
        f"{node}; {cure}"
    )
