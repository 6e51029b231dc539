"""The order in which the whole display is put together: which parts and screws each step takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Fastener, Part

PIN = "cross pin"
HUBS = ("hub", "pulley", "flange", "driver", "collar", "coupling")
"""Last words of the parts that are pinned to a shaft."""


@dataclass(frozen=True, slots=True)
class Step:
    """A step.

    Attributes
    ----------
    title : str
        What is put together.
    names : tuple of str
        Parts and screws that it takes; those that a display does not have are left out.
    bench : tuple of tuple of str
        Those of them that are put together on the bench first, and then go into the display as one.
    """

    title: str
    names: tuple[str, ...]
    bench: tuple[tuple[str, ...], ...] = ()

    def taken(self, assembly: Assembly) -> Iterator[Part | Fastener]:
        """Yield the parts and screws of a display that it takes."""
        for each in assembly.pieces:
            pinned = pinned_part(each, assembly) if each.name == PIN else None
            if each.name in self.names or (pinned and pinned.name in self.names):
                yield each


def pinned_part(pin: Part | Fastener, assembly: Assembly) -> Part | None:
    """Return the part with a hub that a cross pin goes through; None where there is none."""
    middle_m = (pin.z_from_m + pin.z_to_m) / 2.0
    hubs = (part for part in assembly.parts if part.name.endswith(HUBS))
    on_axis = (part for part in hubs if (part.x_m, part.y_m) == (pin.x_m, pin.y_m))
    return next((part for part in on_axis if part.z_from_m <= middle_m <= part.z_to_m), None)


STEPS = (
    Step(
        "Plates and bearings",
        (
            "base",
            "rear plate",
            "ball bearing",
            "mast",
            "front panel",
            "mast bolt",
        ),
    ),
    Step(
        "Foot and walls",
        (
            "footboard",
            "side wall",
            "top wall",
            "mast footboard screw",
            "side wall footboard screw",
            "top wall screw",
            "panel screw",
        ),
    ),
    Step(
        "Shafts and drive",
        (
            "cam and propeller shaft",
            "cam shaft",
            "propeller shaft",
            "crank shaft",
            "front sleeve",
            "rear sleeve",
            "crank pulley",
            "propeller pulley",
            "crank belt",
            "cam drive pulley",
            "cam pulley",
            "cam belt",
            "brake hub",
            "brake disc",
            "brake disc screw",
        ),
        (
            (
                "cam and propeller shaft",
                "cam shaft",
                "propeller shaft",
                "crank shaft",
                "rear sleeve",
                "crank pulley",
                "propeller pulley",
                "cam drive pulley",
                "cam pulley",
                "brake hub",
                "brake disc",
                "brake disc screw",
            ),
        ),
    ),
    Step(
        "Brake",
        (
            "brake keeper",
            "magnet",
            "brake spacer",
            "brake screw",
        ),
        (("brake keeper", "magnet"),),
    ),
    Step(
        "Lead plate",
        (
            "lead cap",
            "thrust washer",
            "lead keeper",
            "bearing cap",
            "shaft collar",
            "lead plate",
            "stop bush",
            "friction spring",
            "lever post",
            "cap screw",
            "friction screw",
            "lever post screw",
            "spring block",
            "spring block screw",
        ),
        (("lead plate", "lever post", "lever post screw", "spring block", "spring block screw"),),
    ),
    Step(
        "Follower, spring and sensor",
        (
            "guide bush",
            "pivot bush",
            "slide",
            "arm",
            "flag",
            "roller",
            "roller spacer",
            "roller shim",
            "spring",
            "spring seat",
            "light barrier",
            "light barrier block",
            "lamp switch",
            "lamp switch block",
            "guide screw",
            "pivot screw",
            "roller pin",
            "flag screw",
            "light barrier screw",
            "lamp switch screw",
        ),
    ),
    Step(
        "Propeller",
        (
            "propeller hub",
            "propeller",
            "propeller clamp",
            "propeller screw",
        ),
    ),
    Step(
        "Cam",
        (
            "cam hub",
            "cam",
            "cam screw",
        ),
    ),
    Step(
        "Drive with slip clutch",
        (
            "clutch flange",
            "friction disc",
            "crank arm",
            "clutch driver",
            "grip",
            "pressure disc",
            "clutch spring",
            "clutch washer",
            "motor coupling",
            "motor housing",
            "motor plate",
            "geared motor",
            "clutch screw",
            "motor screw",
        ),
        (("crank arm", "grip"),),
    ),
    Step(
        "Target, lamp and rear of the guard",
        (
            "gun outline",
            "lamp",
            "backboard",
            "table clamp",
            "outline screw",
            "wiring box",
            "mounting rail",
            "wiring box screw",
            "backboard screw",
        ),
        (("backboard", "gun outline", "lamp", "outline screw", "wiring box", "mounting rail", "wiring box screw"),),
    ),
    Step(
        "Cover",
        (
            "cover frame",
            "cover",
            "cover screw",
            "knob",
        ),
    ),
)
"""Common practice, no source; that it can be done is proven by `sim.display.assembly.sequence`."""


def steps(assembly: Assembly) -> tuple[tuple[Step, tuple[Part | Fastener, ...]], ...]:
    """Return the steps that a display has, each with the parts and screws that it takes."""
    found = ((step, tuple(step.taken(assembly))) for step in STEPS)
    return tuple((step, taken) for step, taken in found if taken)
