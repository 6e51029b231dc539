"""What the builder of a display specifies before the cam is sought; no gun part is among it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from sim.display.cam_profile import Follower
    from sim.display.contact import MaterialName
    from sim.display.drive import DisplayPropeller, Handle
    from sim.display.guard import Place, Shape
    from sim.display.rise_laws import LawName
    from sim.display.spring import SpringRequirements

Supply = Literal["ac", "dc"]
Hardware = Literal["metric", "inch"]
Output = Literal["lamp switch", "light beam"]
ARM_SPRING = 0.5
"""Place of the spring on an arm: from the pivot, over the length of the arm."""


@dataclass(frozen=True, slots=True)
class DisplayWindow:
    """When the lamp is lit, in propeller angle, 0 with blade 1 on the bore line, the lead plate at no lead.

    Attributes
    ----------
    from_rad, to_rad : float
        Ends of the first arc of a turn in which the rounds that the cam releases pass the disc. [rad]
    lead_rad : float
        Lead of the release at flying speed, which the lead plate shows. [rad]
    blades : int
        Blades of the propeller.
    openings : int
        Windows of the cam in a turn.
    closed_rad : float
        Arc about one blade in which no round may pass, both margins included. [rad]
    """

    from_rad: float
    to_rad: float
    lead_rad: float
    blades: int
    openings: int
    closed_rad: float


@dataclass(frozen=True, slots=True)
class CamRequirements:
    """What is specified of the cam; a law, rise or base circle that is None is sought.

    Attributes
    ----------
    lobes : int
        1 to 4.
    lift_m : float
        Full lift of the roller along its path. [m]
    face_width_m : float
        Width over which roller and cam touch. [m]
    material : str
        Material of the cam.
    shaft_radius_m, cutter_radius_m : float
        Of the bore of the cam, and of the milling cutter. [m]
    space_m : float
        Largest circle the cam may sweep. [m]
    setting_error_m : float
        Setting error of the lamp switch, along the lift. [m]
    law : str or None
        A law of motion.
    rise_rad, base_radius_m : float or None
        Cam angle of a rise; radius where the follower is down. [rad], [m]
    """

    lobes: int
    lift_m: float
    face_width_m: float
    material: MaterialName
    shaft_radius_m: float
    cutter_radius_m: float
    space_m: float
    setting_error_m: float
    law: LawName | None = None
    rise_rad: float | None = None
    base_radius_m: float | None = None


@dataclass(frozen=True, slots=True)
class Enclosure:
    """The guard round what turns.

    Attributes
    ----------
    place : str
        ``public`` or ``workshop``.
    shape : str
        ``slot``, ``square`` or ``round``.
    opening_m, distance_m : float
        Size of its openings, and from there to the nearest moving part. [m]
    blade_gap_m : float
        Between the blade tips and anything that stands still. [m]
    stops_on_opening : bool
        Whether opening or touching the guard stops the display at once.
    """

    place: Place
    shape: Shape
    opening_m: float
    distance_m: float
    blade_gap_m: float
    stops_on_opening: bool


@dataclass(frozen=True, slots=True)
class Lamp:
    """The lamp and the placard.

    Attributes
    ----------
    lamp_v : float
        Voltage. [V]
    supply : str
        ``ac`` or ``dc``.
    ink, paper : str
        Colours of the placard, ``#rrggbb``.
    """

    lamp_v: float
    supply: Supply
    ink: str
    paper: str


@dataclass(frozen=True, slots=True)
class Display:
    """Everything the builder specifies.

    Attributes
    ----------
    window : DisplayWindow
        What the lamp shows.
    cam : CamRequirements
        What is specified of the cam.
    follower : Follower
        Slide or arm with its roller.
    follower_kg : float
        Moving mass at the roller, a third of the spring included; not-a-number before the follower is laid out. [kg]
    spring : SpringRequirements
        What is required of the spring.
    propeller : DisplayPropeller
        Scaled propeller.
    handle : Handle
        Crank or motor.
    enclosure : Enclosure
        The guard.
    lamp : Lamp
        The lamp and its placard.
    hardware : str
        ``metric`` or ``inch``: the system of standard parts and stock.
    output : str
        ``light beam`` or ``lamp switch``: what the follower works.
    """

    window: DisplayWindow
    cam: CamRequirements
    follower: Follower
    follower_kg: float
    spring: SpringRequirements
    propeller: DisplayPropeller
    handle: Handle
    enclosure: Enclosure
    lamp: Lamp
    hardware: Hardware = "metric"
    output: Output = "light beam"

    @property
    def cam_ratio(self) -> float:
        """Turns of the cam per turn of the propeller."""
        return self.window.openings / self.cam.lobes

    @property
    def spring_ratio(self) -> float:
        """Distance of the spring from the pivot of an arm over that of the roller; 1 for a slide."""
        return 1.0 if self.follower.kind == "translating" else ARM_SPRING

    @property
    def window_rad(self) -> float:
        """Cam angle while the lamp is lit. [rad]."""
        return (self.window.to_rad - self.window.from_rad) * self.cam_ratio

    @property
    def start_rad(self) -> float:
        """Cam angle at which the lamp comes on at hand speed. [rad]."""
        return self.window.from_rad * self.cam_ratio

    @property
    def cam_top_speed_rad_s(self) -> float:
        """Highest speed of the cam. [rad/s]."""
        return self.propeller.top_speed_rad_s * self.cam_ratio
