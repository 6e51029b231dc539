"""The tables of a scenario that describe the airplane without its engine."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, key_of, told
from sim.units.text import brief

INERTIA = {"above": 0.0, "smallest": "0.1 kg m^2", "most": 1e6, "example": "900 kg m^2"}
RIGHT_ANGLE = 1.5707963267948966
TRAVEL = {"above": 0.0, "smallest": "0.5 °", "below": RIGHT_ANGLE, "example": "25 °"}
TILT = {"above": -RIGHT_ANGLE, "below": RIGHT_ANGLE, "example": "2 °"}
LENGTH = {"above": 0.0, "smallest": "1 cm", "most": 100.0}
SHARE = {"above": 0.0, "smallest": "0.01", "below": 1.0, "example": "0.3"}


class AirplaneTable(ScenarioTable):
    """Mass and inertia at gross weight; the roll inertia without what rotates with the engine shaft."""

    mass_kg: Annotated[float, Given("kg", "gross mass", above=0.0, smallest="1 kg", most=1e5, example="1400 lb")]
    inertia_roll_kg_m2: Annotated[
        float, Given("kg m^2", "moment of inertia about the x axis, forward through the CG", **INERTIA)
    ]
    inertia_pitch_kg_m2: Annotated[
        float, Given("kg m^2", "moment of inertia about the y axis, to the right through the CG", **INERTIA)
    ]
    inertia_yaw_kg_m2: Annotated[
        float, Given("kg m^2", "moment of inertia about the z axis, down through the CG", **INERTIA)
    ]
    inertia_product_kg_m2: Annotated[
        float,
        Given(
            "kg m^2",
            "product of inertia Ixz, positive with mass low ahead and high aft",
            least=-1e6,
            most=1e6,
            example="0 kg m^2",
        ),
    ] = 0.0

    @field_validator("inertia_yaw_kg_m2")
    @classmethod
    def _a_body(cls, yaw: float, info: ValidationInfo) -> float:
        roll, pitch = info.data.get("inertia_roll_kg_m2"), info.data.get("inertia_pitch_kg_m2")
        if roll is not None and pitch is not None and 2.0 * max(roll, pitch, yaw) > roll + pitch + yaw:
            said = f"roll {roll:.4g}, pitch {pitch:.4g} and yaw {brief('inertia_kg_m2', yaw)} cannot be those of a body"
            told(("", f"{said}: each must be at most the sum of the other two"))
        return yaw

    @field_validator("inertia_product_kg_m2")
    @classmethod
    def _a_small_product(cls, product: float, info: ValidationInfo) -> float:
        roll, yaw = info.data.get("inertia_roll_kg_m2"), info.data.get("inertia_yaw_kg_m2")
        if roll is not None and yaw is not None and product**2 >= roll * yaw:
            most, came = (brief("inertia_kg_m2", inertia) for inertia in ((roll * yaw) ** 0.5, product))
            told(("", f'must be smaller than {most}, the root of roll times yaw, got "{came}"'))
        return product


class PlaneTable(ScenarioTable):
    """Overrides for one plane of the wing."""

    span_m: Annotated[float | None, Given("m", "span, tip to tip", **LENGTH, example="24 ft")] = None
    chord_m: Annotated[float | None, Given("m", "mean chord", **LENGTH, example="3 ft 9 in")] = None
    dihedral_rad: Annotated[float | None, Given("rad", "tips up positive", **TILT)] = None
    incidence_rad: Annotated[float | None, Given("rad", "chord to the x axis, leading edge up positive", **TILT)] = None
    sweep_rad: Annotated[float | None, Given("rad", "of the quarter chord, tips aft positive", **TILT)] = None
    taper: Annotated[float | None, Given("1", "tip chord over root chord", above=0.0, most=1.0, example="1")] = None


MOST_PLANES = 20


def plane_names(planes: int) -> tuple[str, ...]:
    """Return what the planes of a wing are called, from the top one down; of four or more by number between the ends.

    Examples
    --------
    >>> plane_names(3), plane_names(5)
    (('upper', 'middle', 'lower'), ('upper', '2', '3', '4', 'lower'))
    """
    between = ("middle",) if planes == 3 else tuple(str(number) for number in range(2, planes))
    return ("upper", *between, *(("lower",) if planes > 1 else ()))


class WingTable(ScenarioTable):
    """The planes of the wing, all alike except for the overrides of the table plane."""

    span_m: Annotated[float, Given("m", "from tip to tip", **LENGTH)]
    chord_m: Annotated[float, Given("m", "mean chord of one plane", **LENGTH, under="span_m", example="4 ft 6 in")]
    planes: Annotated[int, Count("1 monoplane, 2 biplane, 3 triplane, and so on", most=MOST_PLANES)] = 2
    gap_m: Annotated[
        float | None,
        Given("m", "gap between planes, required for two or more", **LENGTH, under="span_m", example="4 ft 8 in"),
        Field(validate_default=True),
    ] = None
    stagger_m: Annotated[
        float,
        Given("m", "stagger: distance of each plane ahead of the one below", least=-10.0, most=10.0, example="18 in"),
    ] = 0.0
    arm_m: Annotated[
        float,
        Given(
            "m",
            "quarter of the mean chord aft of the CG, where no list of items tells it",
            least=-10.0,
            most=10.0,
            example="-2 in",
        ),
    ] = 0.0
    height_m: Annotated[
        float | None,
        Given(
            "m", "CG up to the middle between the planes; else as usual for it", least=-10.0, most=10.0, example="8 in"
        ),
    ] = None
    dihedral_rad: Annotated[float, Given("rad", "tips up positive", **TILT)] = 0.0
    incidence_rad: Annotated[float, Given("rad", "chord to the x axis, leading edge up positive", **TILT)] = 0.0
    sweep_rad: Annotated[float, Given("rad", "of the quarter chord, tips aft positive", **TILT)] = 0.0
    taper: Annotated[float, Given("1", "tip chord over root chord", above=0.0, most=1.0, example="1")] = 1.0
    section_lift_slope: Annotated[
        float, Given("1", "lift slope of the section, per radian", above=0.0, most=10.0, example="5.73")
    ] = 5.73
    section_moment: Annotated[
        float,
        Given(
            "1",
            "pitching moment of the section about its quarter chord, nose up positive",
            least=-1.0,
            most=1.0,
            example="-0.05",
        ),
    ] = -0.05

    plane: Annotated[
        dict[str, PlaneTable],
        Field(
            default_factory=dict,
            description="Overrides by plane: upper, middle, lower; of more than three upper, 2, 3 … lower.",
        ),
    ]

    @field_validator("plane")
    @classmethod
    def _planes_that_there_are(cls, plane: dict[str, PlaneTable], info: ValidationInfo) -> dict[str, PlaneTable]:
        if "planes" not in info.data:
            return plane
        known = plane_names(info.data["planes"])
        if wrong := [name for name in plane if name not in known]:
            told(*((name, f"is no plane of this wing, which has {', '.join(known)}") for name in wrong))
        return plane

    @field_validator("gap_m")
    @classmethod
    def _a_gap_between_planes(cls, gap: float | None, info: ValidationInfo) -> float | None:
        if gap is None and info.data.get("planes", 1) > 1:
            told(("", f'is missing: {info.data["planes"]} planes need the gap between them, as in "4 ft 8 in"'))
        return gap


class TailplaneTable(ScenarioTable):
    """Tailplane and elevator together."""

    span_m: Annotated[float, Given("m", "from tip to tip", **LENGTH, example="9 ft")]
    chord_m: Annotated[float, Given("m", "mean chord with the elevator", **LENGTH, example="3 ft 9 in")]
    arm_m: Annotated[
        float, Given("m", "from the CG to its quarter chord, aft positive", least=-50.0, most=50.0, example="13 ft")
    ]
    incidence_rad: Annotated[float, Given("rad", "to the x axis, leading edge up positive", **TILT)] = 0.0
    height_m: Annotated[
        float | None,
        Given("m", "CG up to it; without it at the foot of the fin", least=-10.0, most=10.0, example="4 in"),
    ] = None


class HingedTable(ScenarioTable):
    """What the forces at the controls need of a control surface beside its size."""

    balance_share: Annotated[
        float,
        Given(
            "1",
            "area ahead of the hinge over that behind it: of the horn, or of the set-back hinge of a whole surface",
            least=0.0,
            most=1.0,
            example="0.08",
        ),
    ] = 0.0
    gap: Annotated[
        Literal["open", "sealed"], ShortText("whether air passes through the gap at the hinge", ("open", "sealed"))
    ] = "open"

    @field_validator("chord_share", check_fields=False)
    @classmethod
    def _a_horn_within_the_span(cls, chord: float, info: ValidationInfo) -> float:
        balance = info.data.get("balance_share")
        if balance is not None and chord < 1.0 and balance * chord > 1.0 - chord:
            most = f"must be at most {1.0 / (1.0 + balance):.3g}, or 1, with the balance_share {balance:g}"
            told(("", f"{most}: else the horn is wider than the surface"))
        return chord


class ElevatorTable(HingedTable):
    """The movable part of the tailplane."""

    chord_share: Annotated[float, Given("1", "elevator chord over total chord", **SHARE)]
    up_travel_rad: Annotated[float, Given("rad", "largest angle, trailing edge up, stick back", **TRAVEL)]
    down_travel_rad: Annotated[float, Given("rad", "largest angle, trailing edge down, stick forward", **TRAVEL)]
    mass_kg: Annotated[
        float | None,
        Given("kg", "mass of the elevator, all of it; else by its area", least=0.0, most=1000.0, example="8 lb"),
    ] = None
    mass_arm_m: Annotated[
        float | None,
        Given(
            "m",
            "CG of the elevator behind its hinge, 0 where balanced by weights; else by its chord",
            least=-5.0,
            most=5.0,
            example="8 in",
        ),
    ] = None


class FinTable(ScenarioTable):
    """Fin and rudder together."""

    height_m: Annotated[float, Given("m", "from foot to top", **LENGTH, example="3 ft 6 in")]
    chord_m: Annotated[float, Given("m", "mean chord with the rudder", **LENGTH, example="3 ft")]
    arm_m: Annotated[
        float, Given("m", "from the CG to its quarter chord, aft positive", least=-50.0, most=50.0, example="14 ft")
    ]
    centre_height_m: Annotated[
        float, Given("m", "CG up to its centre of area", least=-10.0, most=10.0, example="18 in")
    ] = 0.0


class RudderTable(HingedTable):
    """The movable part of the fin."""

    chord_share: Annotated[
        float, Given("1", "its chord over the whole chord, 1 without a fin", above=0.0, most=1.0, example="0.6")
    ]
    travel_rad: Annotated[float, Given("rad", "greatest angle to each side", **TRAVEL)]


class AileronTable(HingedTable):
    """Ailerons, alike on both sides."""

    span_share_inner: Annotated[float, Given("1", "inner end over the semi-span", least=0.0, below=1.0, example="0.55")]
    span_share_outer: Annotated[float, Given("1", "outer end over the semi-span", above=0.0, most=1.0, example="0.97")]
    chord_share: Annotated[float, Given("1", "its chord over the wing's", **SHARE)]
    travel_rad: Annotated[float, Given("rad", "greatest angle each way, mean of up and down", **TRAVEL)]
    planes: Annotated[int, Count("planes that carry ailerons", most=MOST_PLANES)] = 1

    @field_validator("span_share_outer")
    @classmethod
    def _outside_its_inner_end(cls, outer: float, info: ValidationInfo) -> float:
        inner = info.data.get("span_share_inner")
        if inner is not None and outer <= inner:
            told(("", f'must be above the {key_of("span_share_inner")} {inner:g}, got "{outer:g}"'))
        return outer


class FuselageTable(ScenarioTable):
    """The fuselage, by its largest dimensions."""

    length_m: Annotated[float, Given("m", "nose to stern post", **LENGTH, example="18 ft 6 in")]
    width_m: Annotated[float, Given("m", "widest", **LENGTH, under="length_m", example="2 ft 8 in")]
    depth_m: Annotated[float, Given("m", "deepest", **LENGTH, under="length_m", example="3 ft 4 in")]
