"""The order in which the whole display is put together: what is done, and which parts and screws it takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from viz.drawings.items import everything

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
    title, text : str
        What is put together, and how.
    names : tuple of str
        Parts and screws that it takes; those that a display does not have are left out.
    """

    title: str
    text: str
    names: tuple[str, ...]

    def taken(self, assembly: Assembly) -> Iterator[Part | Fastener]:
        """Yield the parts and screws of a display that it takes."""
        for each in everything(assembly):
            if each.name in self.names or (each.name == PIN and self._pinned(each, assembly)):
                yield each

    def _pinned(self, pin: Part | Fastener, assembly: Assembly) -> bool:
        """Return whether a cross pin goes through one of the parts with a hub."""
        return any(
            part.name in self.names
            and part.name.endswith(HUBS)
            and (part.x_m, part.y_m) == (pin.x_m, pin.y_m)
            and part.z_from_m <= (pin.z_from_m + pin.z_to_m) / 2.0 <= part.z_to_m
            for part in assembly.parts
        )


STEPS = (
    Step(
        "Plates and bearings",
        "Deburr every plate. Bore and tap to the tables of holes. Set the bearings into base and rear plate with "
        "retaining compound, flush with the front face, shafts through them until it is hard. Bolt base, mast, front "
        "panel and rear plate together.",
        ("base", "rear plate", "ball bearing", "mast", "front panel", "mast bolt"),
    ),
    Step(
        "Foot and walls",
        "Screw the foot to the mast and the walls to foot, front panel and each other. The backboard stays off.",
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
        "Slide the shafts in from the rear with sleeves, pulleys and belts; drill pulleys and shafts together and "
        "drive the cross pins. Shafts must turn freely with no play to be felt along them.",
        (
            "cam and propeller shaft",
            "cam shaft",
            "propeller shaft",
            "crank shaft",
            "front sleeve",
            "rear sleeve",
            "shaft collar",
            "crank pulley",
            "propeller pulley",
            "crank belt",
            "cam drive pulley",
            "cam pulley",
            "cam belt",
        ),
    ),
    Step(
        "Brake",
        "Screw the disc to its hub. Glue the magnets to the keepers, opposite poles facing, keepers far apart: they "
        "snap together and pinch. Screw keepers and spacers to the rear plate; the disc must not touch a magnet.",
        ("brake hub", "brake disc", "brake keeper", "magnet", "brake spacer", "brake disc screw", "brake screw"),
    ),
    Step(
        "Lead plate",
        "Screw the caps to the base. Lay the thrust washer and the lead plate on its cap, then the keeper. Set stop "
        "bush, friction spring and screw so that the plate stays where it is put and moves by hand.",
        (
            "lead cap",
            "thrust washer",
            "lead keeper",
            "bearing cap",
            "lead plate",
            "stop bush",
            "friction spring",
            "lever post",
            "knob",
            "cap screw",
            "friction screw",
            "lever post screw",
        ),
    ),
    Step(
        "Follower, spring and sensor",
        "Mount the follower on its bushes, free to move with no play to be felt across. Put the spring between block "
        "and seat. Screw on flag, roller and sensor. Set the sensor so that the lamp changes at half lift, with a "
        "feeler gauge below the roller.",
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
            "spring block",
            "light barrier",
            "light barrier block",
            "lamp switch",
            "lamp switch block",
            "guide screw",
            "pivot screw",
            "roller pin",
            "flag screw",
            "spring block screw",
            "light barrier screw",
            "lamp switch screw",
        ),
    ),
    Step(
        "Cam",
        "Pin the hub to the shaft. Turn blade 1 to the bore line (next step), turn the cam until its line 0 points to "
        "where the roller stands when it is down, and screw it to the hub.",
        ("cam hub", "cam", "cam screw"),
    ),
    Step(
        "Propeller",
        "Pin its hub to the shaft; screw the propeller between hub and clamp. Balance it until it stays at any angle.",
        ("propeller hub", "propeller", "propeller clamp", "propeller screw"),
    ),
    Step(
        "Drive by hand or motor, with slip clutch",
        "Put flange, friction discs, driving part and pressure disc on the shaft in the order of the picture. Tighten "
        "the screw of the clutch until it slips at the torque of the test sheet, measured with a spring balance.",
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
    ),
    Step(
        "Target, lamp and rear of the guard",
        "Screw the solid outline of the gun to the backboard and set the lamp into it. Wire as in the diagram. Screw "
        "the backboard to the walls. Clamp the foot to the table, or screw it down.",
        ("gun outline", "lamp", "backboard", "table clamp", "outline screw", "backboard screw"),
    ),
    Step(
        "Cover",
        "Screw frame and cover to the base with screws that need a tool; the knob stands outside. Measure openings and "
        "gaps by the test sheet and sign the checklist before anyone turns the display.",
        ("cover frame", "cover", "cover screw"),
    ),
)
"""Common practice, no source."""


def steps(assembly: Assembly) -> tuple[tuple[Step, tuple[Part | Fastener, ...]], ...]:
    """Return the steps that a display has, each with the parts and screws that it takes."""
    found = ((step, tuple(step.taken(assembly))) for step in STEPS)
    return tuple((step, taken) for step, taken in found if taken)
