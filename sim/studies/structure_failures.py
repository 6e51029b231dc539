"""In words: what buckles or sways in a wing under a load case, which way, and what it would bear."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.structures.frame_failures import BENT, bays, strained
from sim.structures.member_sizes import WireSet
from sim.structures.member_strength import member_margin
from sim.structures.removed import without_side
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from sim.structures.frame_failures import BucklingError, MechanismError
    from sim.structures.frame_forces import FrameForces
    from sim.structures.wing_frame import WingFrame

SWAYS_BELOW: Final = 0.7
"""Of Euler's load of a bay hinged at both ends: with less thrust the wing sways rather than the bay buckles."""
GIVES_BELOW: Final = 0.9
"""Of the same: with less thrust the ends of a bay that buckles give. Not 1: the load told is one still borne."""
CLAMPS_ABOVE: Final = 1.1
"""Of the same: with more thrust the spar beyond the ends of a bay that buckles holds them."""
SLACK: Final = 1e-6
"""Tension over the greatest axial load, up to which a wire is slack."""
NAMED: Final = 4
"""So many members are named; of more, how many."""
CURE_OF_SWAY: Final = "make these stiffer, or give slack wires more rigging tension"
CURES: Final = (
    "make it deeper, or put its struts closer together",
    "make it wider, or its compression ribs closer together (structure.compression_ribs)",
)
"""For a spar that buckles, by the plane of its bending."""
LIFT_BRACES: Final = frozenset({"flying wire", "landing wire", "lift strut"})
"""Kinds of members that hold a plane up and down outboard of its inner fittings."""
ADD: Final = "add a member that holds it that way, or rigging tension to wires that go slack"
FEW: Final = 2
"""So many spars are named; of more, their planes."""


def buckling_words(wing: WingFrame, error: BucklingError, held: FrameForces) -> str:
    """Return what fails, with its thrust, and what a bay of it would bear or what braces it too little.

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
    way, thrust = BENT[error.plane], in_both("thrust_n", most[bay], digits=4)
    name = without_side(error.beam)
    if most[bay] < SWAYS_BELOW * bay.euler_n:
        return f"the wing sways {way}, and {name} with it under a thrust of {thrust}: {_soft(wing, error, held)}"
    who = f"{name}," if "," in name else name
    length, euler = in_both("strut_length_m", bay.length_m), in_both("thrust_n", bay.euler_n, digits=4)
    alone = f"a bay of {length}, hinged at both ends,"
    if GIVES_BELOW * bay.euler_n <= most[bay] <= CLAMPS_ABOVE * bay.euler_n:
        return f"{who} buckles {way}: {alone} bears a thrust of {euler} that way and no more; {CURES[error.plane]}"
    differs = (
        "more than here, where its ends give" if most[bay] < bay.euler_n else "less than here, where its ends are held"
    )
    return (
        f"{who} buckles {way} under a thrust of {thrust}: {alone} would bear {euler} that way, {differs}; "
        f"{CURES[error.plane]}"
    )


def _soft(wing: WingFrame, error: BucklingError, held: FrameForces) -> str:
    """Return which members that brace against a sway carry more than they bear or are slack, and the cure."""
    by_name = {one.name: one for one in wing.members}
    braces = [by_name[name] for name in error.braces or by_name]
    loads = {one.name: held.bars_n[one.name] for one in braces}
    margins = {one.name: member_margin(one.size, loads[one.name], one.length_m) for one in braces}
    over = [name for name in sorted(margins, key=margins.__getitem__) if margins[name] < 0.0]
    largest = max((abs(load) for load in held.bars_n.values()), default=0.0)
    slack = [one.name for one in braces if isinstance(one.size, WireSet) and loads[one.name] <= SLACK * largest]
    told = {without_side(name) for name in over}
    slack = [name for name in slack if without_side(name) not in told]
    parts = [f"overloaded: {_listed(over, lambda name: _load(loads[name], margins[name]))}"] if over else ["too soft"]
    if slack:
        parts.append(f"slack: {_listed(slack)}")
    if parts == ["too soft"] and error.braces:
        parts.append(f"most strained: {_listed(error.braces)}")
    return f"what braces it that way is {'; '.join([*parts, CURE_OF_SWAY])}"


def _load(load_n: float, margin: float) -> str:
    kind = "tension" if load_n > 0.0 else "compression"
    return f" at {in_both('force_n', abs(load_n), digits=4)} of {kind} (margin {margin:.2f})"


def _listed(names: Iterable[str], say: Callable[[str], str] = lambda _: "") -> str:
    """Return names without their sides, each once, with what is said of the first of it; of many the first."""
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(without_side(name), say(name))
    told = [f"{name}{words}" for name, words in first.items()]
    more = f" and {len(told) - NAMED} more" if len(told) > NAMED else ""
    return f"{', '.join(told[:NAMED])}{more}"


def mechanism_words(wing: WingFrame, whole: WingFrame, error: MechanismError) -> str:
    """Return which part of a wing moves freely, which way, and what would hold it: left out, slack or never there.

    Parameters
    ----------
    wing, whole : WingFrame
        With its frame; with nothing left out.
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
        cure = _loose(wing, whole, error)
    node = without_side(error.node)
    return (
        f"the truss is a mechanism: {who or node} can move {error.way} without stretching or bending anything, most at "
        f"{node}; {cure}"
    )


def _loose(wing: WingFrame, whole: WingFrame, error: MechanismError) -> str:
    """Return which members left out, and which slack wires, would hold what moves freely, and the cure."""
    there = {one.name for one in wing.members}
    holding = strained(whole.frame, error.movement)
    gone = [name for name in holding if name not in there]
    slack = [name for name in holding if name in there]
    parts = [f"{words}: {_listed(names)}" for words, names in (("left out", gone), ("slack", slack)) if names]
    return "; ".join([*parts, ADD])
