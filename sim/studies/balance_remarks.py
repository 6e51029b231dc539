"""Remarks of a balance: where scenario, item list and scales contradict each other."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_findings import EngineElsewhere, ItemElsewhere, ScaleMisread, SupportElsewhere, percent
from sim.model.flown_mass import LEAST_APART, inertia_apart, mass_apart
from sim.model.plausibility.inertia import unlike_an_airplane
from sim.model.plausibility.remark import amount as both
from sim.units.convert import INCH_M
from sim.units.text import amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Inertia, Total
    from sim.airframe.weighing_findings import AboardGuess, CauseKinds, Elsewhere, Suspicion, UnitSlip
    from sim.model.model import Model
    from sim.model.weighing_answer import WeighingAnswer

OFF_CENTRE_M = INCH_M
"""Buttline of a centre of gravity beyond which it is told: common practice, no source."""


def remarks(model: Model, powerplant: str, scales: WeighingAnswer | None) -> Iterator[str]:
    """Yield what the reader of a balance must know, a sentence each.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str
        Engine that it is balanced with.
    scales : WeighingAnswer or None
        Its weighing.
    """
    whole = model.mass_state(powerplant).whole()
    apart = [*_mass(model, whole), *_inertia(model, whole), *_wing_arm(model, whole)]
    if apart:
        yield (
            f"Keys of the scenario disagree with the item list: {', '.join(apart)} than the items give. Flights take "
            "mass and CG of the list; moments of inertia so far apart they take from the keys, as if swung. Correct "
            "the items, or write the keys from the balance."
        )
    yield from _points(model, powerplant, whole)
    yield from _exact(model, powerplant) if scales is None else of_scales(scales)
    yield from _set_on_scales(model)
    if model.weights(powerplant).from_past:
        yield "Masses marked (past builds) are estimated from the group's share of empty weight: weigh the parts."


def of_scales(scales: WeighingAnswer) -> Iterator[str]:
    """Yield what scales and list say against each other, a sentence each.

    Parameters
    ----------
    scales : WeighingAnswer
        A weighing beside its item list.
    """
    if scales.aboard_guess:
        yield _aboard(scales.aboard_guess)
    elif scales.suspicions and not scales.one_cause_explains:
        yield (
            "Scales and item list disagree by more than their errors, and no single cause explains it: check stations "
            "of the supports, attitudes, readings and tares, then several groups."
        )
    elif scales.suspicions:
        yield _first(scales)
    across = scales.buttline_z_score
    if abs(across) > LIMIT:
        yield (
            f"Across the airplane scales and list differ by {abs(across):.1f} times the ± of both, the scales to the "
            f"{'right' if across > 0.0 else 'left'}: a mass in the middle does not explain that. Check the scales of "
            "both sides, their tares, and buttlines of supports and items."
        )
    if abs(scales.weighed.cg_buttline_m) > max(OFF_CENTRE_M, LIMIT * scales.weighed.cg_buttline_error_m):
        off = both("buttline_m", abs(scales.weighed.cg_buttline_m))
        yield (
            f"By the scales the CG lies {off} {'right' if scales.weighed.cg_buttline_m > 0.0 else 'left'} of the "
            "plane of symmetry: check buttlines of the supports and the readings of both sides."
        )
    apart = scales.waterline_z_score
    if apart is not None and abs(apart) > LIMIT:
        yield (
            f"The height by the scales is {abs(apart):.1f} times the ± of the difference "
            f"{'above' if apart > 0.0 else 'below'} that of the list: errors alone do not explain it. Weight and "
            "CG station go by the scales, the height by the list, and the ± of both are wider. "
            f"{_of_height(scales)}"
        )


def _of_height(scales: WeighingAnswer) -> str:
    """Return what to look at where the heights contradict each other."""
    support = scales.explains_height
    if scales.attitudes_elsewhere:
        agreeing = " or ".join(one.named for one in scales.attitudes_elsewhere)
        return (
            f"They agree with {agreeing}: measure the attitudes again, then waterlines and radii of the supports, and "
            "waterlines of the items."
        )
    if support is None:
        return "Check attitudes (nose up positive), waterlines and radii of the supports, and waterlines of the items."
    far = _about("support_move_m", support.support_move_m)
    return (
        f"One cause explains weight, CG station and height together: {' and '.join(support.supports)} stood {far} "
        f"{'aft' if support.support_move_m > 0.0 else 'forward'} of where written: measure the station first."
    )


def _about(name: str, size: float) -> str:
    """Return the size of a correction to two digits, for a shop of either system."""
    si, us = (amount(name, abs(size), system, 2) for system in ("si", "us"))
    return f"{si} ({us})"


def _first(scales: WeighingAnswer) -> str:
    """Return what the most probable single cause is: a group, the engine's place, a support or a scale."""
    group, others, slip = scales.suspicions[0], scales.elsewhere, scales.unit_slip
    most = max(one.probability for one in (group, *others[:1], *((slip,) if slip else ())))
    if slip and slip.probability == most:
        return _unit(slip)
    return _suspected(group, scales.cause_kinds) if group.probability == most else _elsewhere(others[0])


def _elsewhere(found: Elsewhere) -> str:
    """Return what is elsewhere, or misread, and what to do."""
    match found:
        case EngineElsewhere():
            return _engine(found)
        case ItemElsewhere():
            return _item(found)
        case SupportElsewhere():
            return _support(found)
        case ScaleMisread():
            return _misread(found)


def _unit(found: UnitSlip) -> str:
    listed, true = both("mass_kg", found.estimate_kg), both("mass_kg", found.mass_kg)
    return (
        f"The weighing suggests that {found.item}, listed with {listed}, weighs {true}, as if its number were "
        f"{found.written} (probability {percent(found.probability)}): check its unit."
    )


def _item(found: ItemElsewhere) -> str:
    place = both("station_m", found.station_m)
    far = _about("item_move_m", found.item_move_m)
    return (
        f"The weighing suggests that {found.item}, at station {place} in the list, is {far} "
        f"{'aft' if found.item_move_m > 0.0 else 'forward'} of there (probability {percent(found.probability)}): "
        "check its station."
    )


def _support(found: SupportElsewhere) -> str:
    far = _about("support_move_m", found.support_move_m)
    return (
        f"The weighing suggests that the support of {' and '.join(found.supports)} stood {far} "
        f"{'aft' if found.support_move_m > 0.0 else 'forward'} of where it is written (probability "
        f"{percent(found.probability)}): measure its station."
    )


def _misread(found: ScaleMisread) -> str:
    much = _about("misread_kg", found.misread_kg)
    return (
        f"The weighing suggests that the scale under {found.support} reads {much} too "
        f"{'high' if found.misread_kg > 0.0 else 'low'} (probability {percent(found.probability)}): check it and "
        "its tare."
    )


def _engine(found: EngineElsewhere) -> str:
    far = _about("engine_move_m", found.move_m)
    return (
        f"The weighing suggests that the engine stood {far} {'aft' if found.move_m > 0.0 else 'forward'} of "
        f"where it is written (probability {percent(found.probability)}): measure its station, and write "
        "weighing.engine_move if it was moved."
    )


def _suspected(first: Suspicion, kinds: CauseKinds) -> str:
    way = "heavier" if first.correction_kg > 0.0 else "lighter"
    return (
        f"The weighing suggests that a mass in the item list is wrong (probability "
        f"{percent(kinds.listed_mass_probability)}); if so, first that the group {first.group} is {way} than listed "
        f"({percent(kinds.given_listed_mass(first.probability))}): check it first."
    )


def _set_on_scales(model: Model) -> Iterator[str]:
    """Yield that a changed item of an airplane as weighed is a corrected list, not a changed airplane."""
    keys = model.set_on_scales
    if keys:
        yield (
            f"{', '.join(keys)} {'was' if len(keys) == 1 else 'were'} set, of what stood on the scales: a correction "
            "of the list, and the scales still decide weight and CG together. For a change since the weighing set the "
            "item's move, or list what joined with added = true; for another pilot than was weighed give "
            "weighing.pilot."
        )


def _exact(model: Model, powerplant: str) -> Iterator[str]:
    """Yield that items of an airplane that was not weighed count as exact where they state no ±."""
    empty = [item for item in model.weights(powerplant).items if item.group not in USEFUL]
    bare = sum(not (item.mass_error_kg and item.station_error_m) for item in empty)
    if bare:
        yield (
            f"{bare} of {len(empty)} items of the empty airplane state no ± of mass or of station, which then counts "
            "as exact: the ± of weight, CG and move of the engine are too small. Write them, or weigh the airplane."
        )


def _aboard(guess: AboardGuess) -> str:
    name, where = guess.group if guess.whole else guess.items[0], "left out" if guess.left_out else "aboard"
    if not guess.nearly_certain:
        return (
            f"The weighing does not say for certain that the {name} was {where} (probability "
            f"{percent(guess.probability)}): check stations of the supports, scales and tares first."
        )
    return f"The weighing suggests that the {name} was {where}: if so, every number here is wrong; see weighing.aboard."


def wing_arm_m(model: Model, cg_station_m: float) -> float:
    """Return how far the quarter of the mean chord lies aft of a centre of gravity [m].

    Parameters
    ----------
    model : Model
        Of a scenario with ``layout.leading_edge``.
    cg_station_m : float
        Aft of the datum. [m]
    """
    return model.mean_chord.station_m(0.25) - cg_station_m


def _mass(model: Model, whole: Total) -> Iterator[str]:
    stated = model.flight_keys["airplane.mass"]
    if mass_apart(stated, whole):
        yield _compared("airplane.mass", stated.value, whole.mass_kg)


def unlike_axes(model: Model, mass_kg: float, tensor: Inertia) -> list[str]:
    """Return the axes about which no airplane has the moment of inertia that the items give."""
    built = {"roll": tensor.xx, "pitch": tensor.yy, "yaw": tensor.zz}
    return [axis for axis, of in built.items() if unlike_an_airplane(model, mass_kg, of, axis)]


def _points(model: Model, powerplant: str, whole: Total) -> Iterator[str]:
    """Yield that items without sizes make moments of inertia that no airplane has."""
    axes = unlike_axes(model, whole.mass_kg, whole.inertia_kg_m2)
    items = [item for item in model.weights(powerplant).items if item.mass_kg > 0.0]
    bare = [item for item in items if not (item.length_m or item.width_m or item.height_m)]
    if axes and bare:
        yield (
            f"{len(bare)} of {len(items)} items state no length, width or height and count as points: about "
            f"{' and '.join(axes)} they give a moment of inertia that no airplane of this size has. Give the wings "
            "their spans as widths, fuselage and tail their lengths; until then those of the airplane table are flown, "
            "and --write leaves them as they are."
        )


def _inertia(model: Model, whole: Total) -> Iterator[str]:
    tensor = whole.inertia_kg_m2
    if unlike_axes(model, whole.mass_kg, tensor):
        return
    for axis, built in (("roll", tensor.xx), ("pitch", tensor.yy), ("yaw", tensor.zz)):
        key = f"airplane.inertia_{axis}"
        stated = model.flight_keys[key]
        if inertia_apart(stated.value, built, stated.tolerance):
            yield _compared(key, stated.value, built)


def _compared(key: str, stated: float, built: float) -> str:
    over = 100.0 * (stated / built - 1.0)
    return f"{key} is {abs(over):.0f} % {'more' if over > 0.0 else 'less'}"


def _wing_arm(model: Model, whole: Total) -> Iterator[str]:
    stated, built_m = model.flight_keys["wing.arm"], wing_arm_m(model, whole.cg_station_m)
    chord_m = model.wing.nominal.chord_m
    band_m = hypot(2.0 * whole.cg_error_m, 2.0 * stated.tolerance)
    if abs(stated.value - built_m) > max(band_m, LEAST_APART * chord_m):
        share = 100.0 * (stated.value - built_m) / chord_m
        yield f"wing.arm lies {abs(share):.0f} % of the chord farther {'aft' if share > 0.0 else 'forward'}"
