"""What there is to see at one moment: frozen, made by the session, read by the scenes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from viz.words.say import own_units

if TYPE_CHECKING:
    from sim.live.course import Ring
    from sim.live.effort import Effort
    from sim.live.engine import EnginePicture, EngineSetup
    from sim.live.gun import Round
    from sim.propulsion.blade_geometry import Blade
    from sim.synchronizer.timed_gun import TimedGun
    from viz.sheets.format import Units
    from viz.stage.layout import Front
    from viz.stage.palette import Contrast

SceneName = Literal["turning", "engine", "blades"]
SCENES: tuple[SceneName, ...] = ("turning", "engine", "blades")
EngineName = Literal["rotary", "fixed"]
FONT_SCALES = (1.0, 1.25, 1.5)
Quaternion = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Looks:
    """How a visitor wants to see it: language, contrast, size of letters, and units if they were chosen.

    `steady` asks for little motion: the country stands still, what turns is slower, nothing spreads or flies apart.
    """

    language: str = "english"
    contrast: Contrast = "normal"
    font: int = 0
    chosen_units: Units | None = None
    steady: bool = False

    @property
    def units(self) -> Units:
        """Units of readings: those chosen, or those of the language."""
        return self.chosen_units or own_units(self.language)

    @property
    def font_scale(self) -> float:
        """Size of letters, 1 for the smallest."""
        return FONT_SCALES[self.font]


@dataclass(frozen=True, slots=True)
class Caption:
    """What is happening, as a caption key with the values and caption keys to be filled in."""

    key: str
    values: dict[str, str] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SliderView:
    """A slider: its caption key, the share 0..1 asked for, and the value in use, in SI under the quantity's name."""

    name: str
    share: float
    value: float


@dataclass(frozen=True, slots=True)
class AirplaneView:
    """One airplane of the pair, between two physics steps.

    Attributes
    ----------
    attitude : tuple of float
        Unit quaternion, body to earth.
    north_m, east_m, height_m, heading_rad, speed_m_s : float
        Over the ground and above it [m]; from north, right positive [rad]; true airspeed [m/s].
    pitch_n_m, yaw_n_m : float
        Couple of what spins, nose up and nose right positive. [N m]
    elevator_share, aileron_share, rudder_share : float
        Share of the travel in use, trim included: nose up, right roll and nose right positive, −1..1.
    feet_share : float
        How far the feet hold the rudder from where it stands in level flight, as a share of the travel: right foot
        positive.
    spin_rad_s, throttle : float
        Speed of the shaft [rad/s]; 0 is the ignition cut, 1 full throttle.
    beyond : bool
        Whether the flight is outside the range of validity of its model.
    """

    attitude: Quaternion
    north_m: float
    east_m: float
    height_m: float
    heading_rad: float
    speed_m_s: float
    pitch_n_m: float
    yaw_n_m: float
    elevator_share: float
    aileron_share: float
    rudder_share: float
    feet_share: float
    spin_rad_s: float
    throttle: float
    beyond: bool = False


@dataclass(frozen=True, slots=True)
class TurningView:
    """Both airplanes, the stick they share, and the heading from which both are seen.

    Attributes
    ----------
    roll, pitch : float
        Where the visitor holds the stick, right and pulled positive, −1..1; the pilots take roll for a bank.
    script, hand : str
        Maneuver that is flown, or empty; who flies: script, pilot, nobody, visitor or recovery.
    full : bool
        Whether the visitor has stick, pedals and throttle, or would have them but for a recovery.
    told_rad : float
        Bank told to the pilots, right wing down positive. [rad]
    apart_m : tuple of float
        North, east and down from the rotary's airplane to the other, what is long ago forgotten. [m]
    pushed : str
        Where the rotary pushes its nose on the picture: nose_up, nose_down, nose_left, nose_right, none.
    parting : bool
        Whether no pilot brings the noses together: the gap between them then tells what the spin does.
    """

    rotary: AirplaneView
    fixed: AirplaneView
    roll: float
    pitch: float
    script: str
    hand: str
    full: bool
    told_rad: float
    apart_m: tuple[float, float, float]
    pushed: str
    parting: bool
    camera_heading_rad: float
    couple_scale_n_m: float


@dataclass(frozen=True, slots=True)
class Run:
    """A flight through the rings that is over: with which engine, what it took, and how many rings of how many."""

    who: EngineName
    effort: Effort
    through: int
    rings: int


@dataclass(frozen=True, slots=True)
class RingsView:
    """The airplane whose turn it is; `passed` tells of each ring that is behind whether it was flown through.

    `roll` is what the visitor asks for, −1..1, `told_rad` the bank told to the pilot, right positive; `runs` are over.
    `couple_scale_n_m` is the couple of a full arrow.
    """

    who: EngineName
    plane: AirplaneView
    rings: tuple[Ring, ...]
    passed: tuple[bool, ...]
    roll: float
    told_rad: float
    camera_heading_rad: float
    couple_scale_n_m: float
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class BenchEngineView:
    """One engine on the bench: where its nose points and how it moves, up and right positive, seen from behind.

    Attributes
    ----------
    setup : EngineSetup
        The engine.
    shaft_rad : float
        Angle at which what turns is drawn, clockwise positive. [rad]
    angular_momentum_kg_m2_s : float
        Of the rotor, 0 where it is stopped. [kg m²/s]
    up_rad, right_rad : float
        Direction of the nose, from the middle. [rad]
    up_rate, right_rate : float
        Its rate, over that of the rotary's answer to a full push.
    """

    setup: EngineSetup
    shaft_rad: float
    angular_momentum_kg_m2_s: float
    up_rad: float
    right_rad: float
    up_rate: float
    right_rate: float


@dataclass(frozen=True, slots=True)
class BenchView:
    """Both engines on the bench, the push on each, and the one asked for: up and right positive, −1..1."""

    rotary: BenchEngineView
    fixed: BenchEngineView
    push_up: float
    push_right: float
    asked_up: float
    asked_right: float


@dataclass(frozen=True, slots=True)
class EngineView:
    """Both engines seen from the cockpit; `blur` is how faint what moves is drawn."""

    rotary: EnginePicture
    fixed: EnginePicture
    rotary_blur: float
    fixed_blur: float


@dataclass(frozen=True, slots=True)
class BladesView:
    """The disc, the gear and a gun, with the rounds under way and those that have passed.

    Attributes
    ----------
    blade : Blade
        Outline and twist of a blade.
    angle_rad : float
        Of the propeller, 0 with blade 1 on the bore line. [rad]
    arrival_rad : float or None
        Where the propeller stands when the round that is on its way gets there, or one that is released now would;
        None where no cam releases any. [rad]
    ready_s : float
        When the gun is, or will be, ready. [s]
    passed : tuple of (float, bool)
        Of both guns, by the first: angle of the propeller from the bore line met, and whether a blade was. [rad]
    trigger, replay, settings : bool
        Whether it is pulled, whether a round is seen once more, and whether the dials are on the front.
    strike_share, untimed_share : float
        Share of rounds that meet a blade with and without the gear of the scenario at cruise speed.
    rounds, through, holds, strikes : int
        Counted so far: released, gone through between the blades, made to wait, and through a blade.
    second : BladesView or None
        The same of a second gun behind the same propeller, whose angle there is from its own bore line.
    """

    gun: TimedGun
    bore_radius_m: float
    disc_radius_m: float
    blade: Blade
    angle_rad: float
    blur: float
    flying: tuple[Round, ...]
    time_s: float
    passed: tuple[tuple[float, bool], ...]
    last: Round | None
    holding: bool
    arrival_rad: float | None
    ready_s: float
    trigger: bool
    replay: bool
    settings: bool
    strike_share: float
    untimed_share: float
    reached_rounds_per_min: float
    rounds: int
    through: int
    holds: int
    strikes: int
    second: BladesView | None = None


@dataclass(frozen=True, slots=True)
class Snapshot:
    """Everything the scenes need for one frame, `now_s` after the start.

    `view` belongs to `scene`, which is on, of the `scenes` there are.
    """

    scene: SceneName
    scenes: tuple[SceneName, ...]
    overlay: Literal["", "devices", "help", "caution", "menu"]
    paused: bool
    front: Front
    kiosk: bool
    sound: bool
    now_s: float
    pace: float
    looks: Looks
    caption: Caption
    sliders: tuple[SliderView, ...]
    maneuver: str
    gear: str
    focus: int
    view: TurningView | RingsView | BenchView | EngineView | BladesView
