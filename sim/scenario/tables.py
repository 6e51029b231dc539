"""Everything a scenario file may hold: one class a table, one attribute a key."""

import math
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import Annotated

from pydantic import Field, PrivateAttr, ValidationInfo, field_validator

from sim.errors import one_of
from sim.scenario.airframe import (
    AileronTable,
    AirplaneTable,
    ElevatorTable,
    FinTable,
    FuselageTable,
    RudderTable,
    TailplaneTable,
    WingTable,
)
from sim.scenario.controls import ControlsTable
from sim.scenario.derivatives import DerivativesTable
from sim.scenario.display_file import is_display
from sim.scenario.drag import DragTable, LiftTable
from sim.scenario.exhibit import ExhibitTable
from sim.scenario.fields import ScenarioTable, ShortText, told
from sim.scenario.flight import FlightTable
from sim.scenario.gun import GunTable, SecondGunTable
from sim.scenario.item_file import or_a_file_of_items
from sim.scenario.layout import LayoutTable
from sim.scenario.link import LinkTable
from sim.scenario.mount import MountTable
from sim.scenario.powerplant import AnyPowerplant
from sim.scenario.section import WingSectionTable
from sim.scenario.shop import BalanceTable, ItemTable, PastTable
from sim.scenario.structure import StructureTable
from sim.scenario.timing import BurstTable, CamTable, WarmthTable
from sim.scenario.weighing import WeighingTable
from sim.units.text import in_both

SECTION = "or the table section"
"""Said where a coefficient can be estimated from the section."""


@dataclass(frozen=True, slots=True)
class ScenarioSource:
    """Where a scenario comes from.

    Attributes
    ----------
    text : str
        Of the scenario.
    called : str
        What the file is called.
    settings : tuple of str
        ``table.key=value`` each, that changed it.
    files : tuple of (str, str)
        Name and text of each file of items that it names.
    drawn : tuple of str
        The like of `settings`, which stand for what the file says within its ±: nobody asked for them.
    """

    text: str
    called: str
    settings: tuple[str, ...] = ()
    files: tuple[tuple[str, str], ...] = ()
    drawn: tuple[str, ...] = ()


class Scenario(ScenarioTable):
    """A whirlgate scenario: one airplane, the engines to compare in it, and at most one line of fire."""

    title: Annotated[str, ShortText("name of the airplane, for headings", example="Tollgate single-seater", most=80)]
    note: Annotated[str, ShortText("remark", example="swung at full fuel", most=1000)] = ""
    airplane: AirplaneTable
    wing: WingTable
    tailplane: TailplaneTable
    elevator: ElevatorTable
    fin: FinTable
    rudder: RudderTable
    aileron: AileronTable
    fuselage: FuselageTable
    controls: Annotated[ControlsTable, Field(default_factory=ControlsTable)]
    section: WingSectionTable | None = None
    derivatives: Annotated[DerivativesTable, Field(default_factory=DerivativesTable)]
    powerplant: Annotated[dict[str, AnyPowerplant], Field(min_length=1, description="Engines, by a name of your own.")]
    drag: Annotated[DragTable, Field(default_factory=DragTable, validate_default=True)]
    lift: Annotated[LiftTable, Field(default_factory=LiftTable, validate_default=True)]
    gun: GunTable | None = None
    second_gun: SecondGunTable | None = None
    cam: CamTable | None = None
    link: Annotated[LinkTable | None, Field(validate_default=True)] = None
    burst: BurstTable | None = None
    warmth: WarmthTable | None = None
    flight: FlightTable
    exhibit: ExhibitTable | None = None
    mount: MountTable | None = None
    layout: LayoutTable | None = None
    structure: StructureTable | None = None
    item: Annotated[
        list[ItemTable],
        Field(
            default_factory=list,
            description="Items with mass, without the engines.",
            json_schema_extra=or_a_file_of_items,
        ),
    ]
    past: Annotated[list[PastTable], Field(default_factory=list, description="Finished airplanes of similar kind.")]
    balance: BalanceTable | None = None
    weighing: WeighingTable | None = None
    _tolerances: Mapping[str, float] = PrivateAttr(default_factory=dict)
    _source: ScenarioSource = PrivateAttr(default=ScenarioSource("", ""))

    @classmethod
    def foreign(cls, keys: Collection[str]) -> str | None:
        """Return that a file is a drawing to be scaled, or a display alone, by its tables."""
        if is_display(keys):
            return "holds a display alone, for exhibit and check; the rest needs an airplane: whirlgate new writes one"
        drawing = {"known", "reading"} & set(keys) and not {"airplane", "powerplant"} & set(keys)
        return "is a drawing to be scaled, not a scenario, which has the tables airplane and wing" if drawing else None

    @property
    def tolerances(self) -> Mapping[str, float]:
        """One standard deviation in SI of every key that has one, by its place: ``wing.span``."""
        return self._tolerances

    @property
    def source(self) -> ScenarioSource:
        """The text it was read from, with the files that it names, and the settings that changed it."""
        return self._source

    def keep(self, tolerances: Mapping[str, float], source: ScenarioSource) -> None:
        """Take the tolerances and the source that the reader found; for the reader alone."""
        self._tolerances = MappingProxyType(dict(tolerances))
        self._source = source

    @field_validator("gun")
    @classmethod
    def _planform_outwards(cls, gun: GunTable | None) -> GunTable | None:
        radii = [station.radius_m for station in gun.planform] if gun else []
        if any(high <= low for low, high in pairwise(radii)):
            told(("planform", "must go outwards: each radius above the one before"))
        return gun

    @field_validator("link")
    @classmethod
    def _delay_from_somewhere(cls, link: LinkTable | None, info: ValidationInfo) -> LinkTable | None:
        gun = info.data.get("gun")
        if link is None and gun is not None and gun.link_delay_s is None:
            told(("", "is missing, and so is gun.link_delay; give the table link, or the time from cam to lock"))
        return link

    @field_validator("aileron")
    @classmethod
    def _ailerons_on_planes(cls, aileron: AileronTable, info: ValidationInfo) -> AileronTable:
        wing = info.data.get("wing")
        if wing is not None and aileron.planes > wing.planes:
            told(("planes", f'must be at most the planes of the wing, {wing.planes}, got "{aileron.planes}"'))
        return aileron

    @field_validator("drag")
    @classmethod
    def _drag_from_somewhere(cls, drag: DragTable, info: ValidationInfo) -> DragTable:
        if "section" in info.data and not _describes(info.data["section"]):
            wanted = {"zero_lift": ("CD0 on the wing area", "0.042"), "span_efficiency": ("e", "0.7")}
            missing = [(key, words) for key, words in wanted.items() if getattr(drag, key) is None]
            if missing:
                told(*((key, f'is missing: {what}, as in "{how}", {SECTION}') for key, (what, how) in missing))
        return drag

    @field_validator("drag")
    @classmethod
    def _parts_with_an_engine_that_is_here(cls, drag: DragTable, info: ValidationInfo) -> DragTable:
        engines = info.data.get("powerplant")
        fitted = {name: part.powerplant for name, part in drag.part.items() if part.powerplant is not None}
        wrong = {name: engine for name, engine in fitted.items() if engines is not None and engine not in engines}
        if wrong and engines is not None:
            told(*((("part", name, "powerplant"), one_of(engines, engine)) for name, engine in wrong.items()))
        return drag

    @field_validator("lift")
    @classmethod
    def _lift_from_somewhere(cls, lift: LiftTable, info: ValidationInfo) -> LiftTable:
        if "section" in info.data and not _describes(info.data["section"]):
            wanted = {"max": ("CL at the stall", "1.45"), "zero": ("CL with the x axis along the flow", "0.3")}
            missing = [(key, words) for key, words in wanted.items() if getattr(lift, key) is None]
            if missing:
                told(*((key, f'is missing: {what}, as in "{how}", {SECTION}') for key, (what, how) in missing))
        return lift

    @field_validator("item")
    @classmethod
    def _items_of_their_own_name(cls, items: list[ItemTable], info: ValidationInfo) -> list[ItemTable]:
        engines, seen = info.data.get("powerplant"), set[str]()
        wrong = list[tuple[tuple[str | int, ...], str]]()
        for number, item in enumerate(items):
            if item.name in seen:
                wrong.append(((number, "name"), f'must not be the name of another item, got "{item.name}"'))
            if item.powerplant is not None and engines is not None and item.powerplant not in engines:
                wrong.append(((number, "powerplant"), one_of(engines, item.powerplant)))
            seen.add(item.name)
        if wrong:
            told(*wrong)
        return items

    @field_validator("balance", "weighing")
    @classmethod
    def _with_an_engine_that_is_here(
        cls, table: BalanceTable | WeighingTable | None, info: ValidationInfo
    ) -> BalanceTable | WeighingTable | None:
        engines = info.data.get("powerplant")
        if (
            table is not None
            and table.powerplant is not None
            and engines is not None
            and table.powerplant not in engines
        ):
            told(("powerplant", one_of(engines, table.powerplant)))
        return table

    @field_validator("layout")
    @classmethod
    def _fittings_within_the_span(cls, layout: LayoutTable | None, info: ValidationInfo) -> LayoutTable | None:
        wing: WingTable | None = info.data.get("wing")
        if layout is None or wing is None:
            return layout
        tip = max([wing.span_m, *(plane.span_m or 0.0 for plane in wing.plane.values())]) / 2.0
        places = {key: getattr(layout, f"{key}_m") for key in ("root_buttline", "cabane_buttline", "strut_buttline")}
        beyond = {key: place for key, place in places.items() if place > tip}
        if beyond:
            told(*((key, f"must be at most half the span, {_m(tip)}, got {_m(came)}") for key, came in beyond.items()))
        return layout

    @field_validator("mount")
    @classmethod
    def _hung_by_an_engine_that_is_here(cls, mount: MountTable | None, info: ValidationInfo) -> MountTable | None:
        engines = info.data.get("powerplant", {})
        wrong = [name for name in (mount.hung if mount else {}) if engines and name not in engines]
        if wrong:
            told(*((("hung", name), one_of(engines, name)) for name in wrong))
        return mount

    @field_validator("powerplant")
    @classmethod
    def _plain_names(cls, powerplants: dict[str, AnyPowerplant]) -> dict[str, AnyPowerplant]:
        wrong = [name for name in powerplants if not re.fullmatch(r"[A-Za-z0-9_-]{1,40}", name)]
        if wrong:
            told(*((name, "must be named with 1 to 40 letters, digits, - and _") for name in wrong))
        return powerplants

    @field_validator("second_gun")
    @classmethod
    def _second_beside_a_first(cls, second: SecondGunTable | None, info: ValidationInfo) -> SecondGunTable | None:
        if second is None:
            return second
        if "gun" in info.data and info.data["gun"] is None:
            told(("", "stands beside the table gun, which is missing; give that of the first gun"))
        bore = second.bore_radius_m
        tips = {name: one.propeller.diameter_m / 2.0 for name, one in info.data.get("powerplant", {}).items()}
        beyond = [(name, tip) for name, tip in tips.items() if bore is not None and bore >= tip]
        if bore is not None and beyond:
            name, tip = beyond[0]
            told(("bore_radius", f"must be below the {_m(tip)} of {name}'s blades, got {_m(bore)}"))
        return second

    @field_validator("gun")
    @classmethod
    def _line_through_the_disc(cls, gun: GunTable | None, info: ValidationInfo) -> GunTable | None:
        if gun is None:
            return gun
        bore, found = gun.bore_radius_m, list[tuple[str, str]]()
        for name, powerplant in info.data.get("powerplant", {}).items():
            propeller = powerplant.propeller
            tip, chord = propeller.diameter_m / 2.0, propeller.blade_chord_m or gun.blade_chord_m
            if bore >= tip:
                found.append(("bore_radius", f"must be below the {_m(tip)} of {name}'s blades, got {_m(bore)}"))
            elif propeller.blades * chord >= 2.0 * math.pi * bore:
                room = f"{_m(2.0 * math.pi * bore / propeller.blades)} between {name}'s {propeller.blades} blades"
                found.append(("blade_chord", f"must be below the {room} at the bore line, got {_m(chord)}"))
        if found:
            told(*found)
        return gun


def _describes(section: WingSectionTable | None) -> bool:
    """Return whether a table says what the section looks like."""
    return section is not None and (section.naca is not None or section.points is not None)


def _m(length_m: float) -> str:
    return in_both("bore_radius_m", length_m)
