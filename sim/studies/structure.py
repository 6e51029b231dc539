"""The structure of the wing: load cases, the lattice's lift on the spars, the frame, and the margin of every member."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3
from sim.errors import NoAnswerError, refuse
from sim.model.wing_loading import wing_loading
from sim.structures.frame import FrameLoad
from sim.structures.frame_failures import BucklingError, MechanismError
from sim.structures.frame_solution import solve_frame
from sim.structures.load_cases import ULTIMATE
from sim.structures.member_sizes import StrutSize
from sim.structures.removed import no_member
from sim.structures.removed import without as without_members
from sim.structures.spar_loads import frame_load, on_spars
from sim.structures.wing_cases import WingCase, wing_cases
from sim.studies.structure_answer import StructureAnswer, StructureCase, TakenOver
from sim.studies.structure_failures import buckling_words, mechanism_words
from sim.studies.structure_loads import CaseLoads, case_loads
from sim.studies.structure_members import members, rigged, spar_diagrams
from sim.studies.structure_taken_over import greatest_n, taken_over
from sim.units.convert import degrees

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.model.structure import WingStructure
    from sim.structures.frame_forces import FrameForces
    from sim.structures.spar_loads import SparPlaces, StripLoads

    Strips = dict[str, tuple[StripLoads, SparPlaces]]

HALVED_TO = 0.01
"""Of ultimate load, to which the load of buckling is searched for."""
WING_GROUPS = ("wing", "wings")


@dataclass(frozen=True, slots=True, eq=False)
class SolvedCase(CaseLoads):
    """A load case with its loads and forces.

    Attributes
    ----------
    limit, ultimate : FrameForces
        Of the frame, at limit and at ultimate load.
    """

    limit: FrameForces
    ultimate: FrameForces


def structure(model: Model, *, powerplant: str | None = None, without: Sequence[str] = ()) -> StructureAnswer:
    """Return what the structure of the wing carries, and the margin of every member.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables section, layout and structure.
    powerplant : str or None
        Whose mass the airplane has; None for that of the balance table, else the first of the file.
    without : sequence of str
        Struts, ribs and wires left out besides those that the scenario leaves out: ``front flying wire`` of both sides,
        or ``front flying wire, left``.

    Raises
    ------
    InputError
        When a table, a member or a size is missing, a case of the scenario asks for more lift than there is, or no
        member has a name to be left out.
    NoAnswerError
        When a spar does not fit, the frame is a mechanism, or a spar buckles.
    """
    built = _without(model.structure, without)
    try:
        return _structure(model, built, powerplant)
    except NoAnswerError as error:
        if not built.left_out:
            raise
        message = f"without {', '.join(built.left_out)}: {error}"
        raise NoAnswerError(message) from error


def _without(built: WingStructure, names: Sequence[str]) -> WingStructure:
    said = [fault for name in names if (fault := no_member(built.wing, name))]
    if said:
        refuse("without", said[0])
    return replace(built, wing=without_members(built.wing, names), left_out=(*built.left_out, *names))


def _structure(model: Model, built: WingStructure, powerplant: str | None) -> StructureAnswer:
    flying = model.airplane(model.usual_powerplant(powerplant).name)
    wing_mass_kg = _wing_mass_kg(model, built, flying.name)
    loading = wing_loading(built, flying)
    _refuse_stalled(built, flying)
    rest = _at_rest(built)
    cases = (*wing_cases(loading), *built.cases)
    kg_per_m2 = wing_mass_kg / flying.airplane.polar.area_m2
    solved = [_solved(model, built, flying, case, kg_per_m2=kg_per_m2) for case in cases]
    forces = {one.case.name: (one.limit, one.ultimate) for one in solved}
    return StructureAnswer(
        title=model.title,
        powerplant=flying.name,
        category=built.category,
        pins=built.pins,
        mass_kg=flying.airplane.body.mass_kg,
        wing_mass_kg=wing_mass_kg,
        frame_mass_kg=_frame_mass_kg(built),
        manoeuvring_m_s=loading.manoeuvring_m_s,
        cruising_m_s=loading.cruising_m_s,
        diving_m_s=loading.diving_m_s,
        cases=tuple(_case(one, rest) for one in solved),
        members=members(built.wing, forces, rigged(rest)),
        spars=spar_diagrams(built.wing, forces),
        left_out=built.left_out,
        taken_over=_taken_over(built, solved),
        sources=_sources(built),
        remarks=(*model.remark_texts("structure"), *model.remark_texts("layout")),
    )


def _at_rest(built: WingStructure) -> FrameForces:
    try:
        return solve_frame(built.wing.frame, FrameLoad())
    except BucklingError as error:
        message = f"rigged and at rest: {error}"
        raise NoAnswerError(message) from error
    except MechanismError as error:
        raise NoAnswerError(mechanism_words(built.wing, built.whole, error)) from error


def _wing_mass_kg(model: Model, built: WingStructure, powerplant: str) -> float:
    if built.wing_mass_kg is not None:
        return built.wing_mass_kg
    if not model.has_list(powerplant):
        return 0.0
    items = model.mass_state(powerplant).items
    return sum(item.mass_kg for item in items if item.group.lower() in WING_GROUPS)


def _refuse_stalled(built: WingStructure, flying: FlyingAirplane) -> None:
    """Refuse a case of the scenario in which the wing would have to lift more than it can."""
    polar, weight_n = flying.airplane.polar, flying.airplane.body.mass_kg * GRAVITY_M_S2
    for one in built.cases:
        lift = abs(one.load_factor) * weight_n / (0.5 * SEA_LEVEL_KG_M3 * one.speed_m_s**2 * polar.area_m2)
        if lift > polar.lift_max:
            refuse(
                f"structure.case.{one.name.replace(' ', '_')}.speed",
                f"is below the stall at that load factor: it takes a lift coefficient of {lift:.2f}, and the greatest "
                f"is {polar.lift_max:.2f}",
            )


def _solved(
    model: Model, built: WingStructure, flying: FlyingAirplane, case: WingCase, *, kg_per_m2: float
) -> SolvedCase:
    loads = case_loads(model, built, flying, case, kg_per_m2=kg_per_m2)
    try:
        limit, ultimate = (_forces(built, loads.strips, factor) for factor in (1.0, ULTIMATE))
    except BucklingError as error:
        raise NoAnswerError(_buckles(built, loads.strips, case, error)) from error
    except MechanismError as error:
        message = f"{case.name}: {mechanism_words(built.wing, built.whole, error)}"
        raise NoAnswerError(message) from error
    except NoAnswerError as error:
        message = f"{case.name}: {error}"
        raise NoAnswerError(message) from error
    return SolvedCase(case, loads.alpha_rad, loads.wing_lift_n, loads.tail_lift_n, loads.strips, limit, ultimate)


def _forces(built: WingStructure, strips: Strips, factor: float) -> FrameForces:
    return solve_frame(built.wing.frame, frame_load(built.wing, strips, built.spars, factor))


def _taken_over(built: WingStructure, solved: Sequence[SolvedCase]) -> tuple[TakenOver, ...]:
    """Return what takes over the load of what is left out, under the same air loads on the whole wing."""
    if not built.left_out:
        return ()
    whole = replace(built, wing=built.whole)
    try:
        intact = greatest_n(_forces(whole, one.strips, ULTIMATE) for one in solved)
    except NoAnswerError:
        return ()
    return taken_over(intact, greatest_n(one.ultimate for one in solved))


def _buckles(built: WingStructure, strips: Strips, case: WingCase, error: BucklingError) -> str:
    """Return what buckles, and at which part of ultimate load, to a percent below."""
    holds, fails = 0.0, 1.0
    held = _forces(built, strips, holds)
    while fails - holds > HALVED_TO:
        tried = 0.5 * (holds + fails)
        try:
            found = _forces(built, strips, ULTIMATE * tried)
        except BucklingError as closer:
            fails, error = tried, closer
        else:
            holds, held = tried, found
    return f"{case.name}, at {100.0 * holds:.0f} % of ultimate load: {buckling_words(built.wing, error, held)}"


def _case(one: SolvedCase, rest: FrameForces) -> StructureCase:
    tips = [name for name in one.limit.moved_m if " tip, " in name]
    lifted = [float(one.limit.moved_m[name][2] - rest.moved_m[name][2]) for name in tips]
    front, rear = (
        sum(float(np.diff(strips.edges_m) @ on_spars(strips, at)[number][:, 1]) for strips, at in one.strips.values())
        for number in (0, 1)
    )
    whole = front + rear
    weight_n = abs(one.wing_lift_n) + abs(one.tail_lift_n)
    return StructureCase(
        **asdict(one.case),
        alpha_deg=degrees(one.alpha_rad),
        wing_lift_n=one.wing_lift_n,
        tail_lift_n=one.tail_lift_n,
        front_share=front / whole if abs(whole) > 0.05 * weight_n and abs(one.case.load_factor) > 0.1 else None,
        tip_deflection_m=max(lifted, key=abs, default=0.0),
    )


def _frame_mass_kg(built: WingStructure) -> float:
    frame = built.wing.frame
    spars = sum(one.size.kg_per_m * frame.apart_m(one.nodes[0], one.nodes[-1]) for one in built.wing.panels)
    return spars + sum(one.size.kg_per_m * one.length_m for one in built.wing.members)


def _sources(built: WingStructure) -> tuple[str, ...]:
    used = [panel.size.material for panel in built.wing.panels]
    used += [one.size.material for one in built.wing.members if isinstance(one.size, StrutSize)]
    wires = [one.size.size for one in built.wing.members if not isinstance(one.size, StrutSize)]
    lines = [f"{one.name}: {one.source}" for one in used] + [f"{one.family}: {one.source}" for one in wires]
    return tuple(dict.fromkeys(lines))
