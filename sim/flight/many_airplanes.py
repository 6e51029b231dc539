"""Many airplanes as one, whose uncertain numbers are arrays with one entry for each: drawn from their errors."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import TYPE_CHECKING, Any, cast

import numpy as np

from sim.flight.cg_shift import with_cg_moved

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.slipstream import Slipstream
    from sim.flight.motion import Airplane, Body

    Array = NDArray[np.float64]
    Selection = slice | NDArray[np.intp]

LEAST_SHARE = 0.05
"""Of its own size, below which no mass, drag or greatest lift is drawn."""


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """How well an airplane is known, one standard deviation each.

    Attributes
    ----------
    derivatives : Mapping of str to Derivative
        With what each source of error changes; a source is the same one in every airplane that has it.
    lift : float
        Lift coefficient at which they are.
    mass_error_kg, cg_error_m, inertia_error : float
        Of mass and centre of gravity, and of the rotors' polar inertia over itself. [kg, m, 1]
    body_inertia_errors : Mapping of str to float
        Of the moments of inertia in roll and in pitch, over themselves, by name; that in yaw goes with their sum.
    torque_error : float
        Of the gas torque of the engine over itself, and so of its power.
    polar_errors, propeller_errors : Mapping of str to float
        Of numbers of the polar, and of the scales of the propeller, by name.
    slipstream_error, disc_error : float
        Of what lies in the slipstream, and of the loads across the shaft, over themselves.
    swirl_error : float
        Of the part of the swirl that the wing recovers.
    immersed_errors : Mapping of str to Mapping of str to float
        Of numbers of the slipstream by name, over themselves, by the sources that move the derivatives too.
    """

    derivatives: Mapping[str, Derivative]
    lift: float
    mass_error_kg: float = 0.0
    cg_error_m: float = 0.0
    inertia_error: float = 0.0
    body_inertia_errors: Mapping[str, float] = field(default_factory=dict)
    torque_error: float = 0.0
    polar_errors: Mapping[str, float] = field(default_factory=dict)
    propeller_errors: Mapping[str, float] = field(default_factory=dict)
    slipstream_error: float = 0.0
    swirl_error: float = 0.0
    disc_error: float = 0.0
    immersed_errors: Mapping[str, Mapping[str, float]] = field(default_factory=dict)


PARTS = ("body", "engine", "polar", "derivatives", "propeller", "disc", "slipstream")
"""Of an airplane, whose numbers may be arrays."""


class Draws:
    """Standard normal numbers for each source of error, the same whenever a source is asked for again.

    Parameters
    ----------
    count : int
        Airplanes drawn.
    seed : int
        Of the generator.
    """

    def __init__(self, count: int, seed: int) -> None:
        self.count, self._seed = count, seed
        self._of: dict[str, Array] = {}

    def of(self, source: str) -> Array:
        """Return the numbers of one source, whose stream hangs on its name alone."""
        if source not in self._of:
            key = [self._seed, *source.encode()]
            self._of[source] = np.random.default_rng(key).standard_normal(self.count)
        return self._of[source]


def drawn_airplanes(airplane: Airplane, known: Uncertainty, draws: Draws, *, own: str = "") -> Airplane:
    """Return as many airplanes as are drawn.

    Parameters
    ----------
    airplane : Airplane
        With its most likely numbers.
    known : Uncertainty
        How well it is known.
    draws : Draws
        Of the sources; two airplanes of one airframe err together.
    own : str
        Name of what is known of this airplane alone, its powerplant: mass, centre of gravity, rotors and propeller.
    """
    many = replace(airplane, derivatives=replace(airplane.derivatives, **_derivatives(airplane, known, draws)))
    if known.cg_error_m:
        many = with_cg_moved(many, cast("float", known.cg_error_m * draws.of(f"{own} cg")))
    mass = _drawn(airplane.body.mass_kg, known.mass_error_kg, draws.of(f"{own} mass"))
    size = _drawn(1.0, known.inertia_error, draws.of(f"{own} rotor"))
    torque = _drawn(1.0, known.torque_error, draws.of(f"{own} torque")) * airplane.engine.firing_torque_n_m
    polar = {
        name: _drawn(getattr(airplane.polar, name), error, draws.of(name))
        for name, error in known.polar_errors.items()
        if error
    }
    propeller = {
        name: _drawn(
            getattr(airplane.propeller, name), error * getattr(airplane.propeller, name), draws.of(f"{own} {name}")
        )
        for name, error in known.propeller_errors.items()
        if error
    }
    return replace(
        many,
        body=replace(airplane.body, mass_kg=mass, **_inertias(airplane.body, known, draws)),
        engine=replace(airplane.engine, firing_torque_n_m=torque),
        rotors=tuple(replace(one, polar_inertia_kg_m2=one.polar_inertia_kg_m2 * size) for one in airplane.rotors),
        polar=replace(airplane.polar, **polar),
        propeller=replace(airplane.propeller, **propeller),
        disc=replace(many.disc, share=_drawn(many.disc.share, known.disc_error, draws.of("propeller"))),
        slipstream=_slipstream(many.slipstream, known, draws),
    )


def _inertias(body: Body, known: Uncertainty, draws: Draws) -> dict[str, Any]:
    """Return the moments of inertia drawn: of a flat body that in yaw changes by as much as roll and pitch together."""
    found: dict[str, Any] = {}
    more: Any = 0.0
    for name, error in known.body_inertia_errors.items():
        value = getattr(body, name)
        found[name] = _drawn(value, error * value, draws.of(name))
        more = more + found[name] - value
    return found | {"inertia_yaw_kg_m2": body.inertia_yaw_kg_m2 + more} if found else found


def _slipstream(slipstream: Slipstream, known: Uncertainty, draws: Draws) -> Slipstream:
    """Return the slipstream, what lies in it drawn together and as the derivatives, the swirl between none and all."""
    size = _drawn(1.0, known.slipstream_error, draws.of("slipstream"))
    taken: Any = slipstream.recovered_share
    if known.swirl_error and taken:
        taken = np.clip(taken + known.swirl_error * draws.of("swirl"), 0.0, 1.0)
    shares = {
        name: getattr(slipstream, name) * size for name in ("wing_share", "tail_share", "fin_share", "fin_above_share")
    }
    for name, errors in known.immersed_errors.items():
        change: Any = sum(error * draws.of(source) for source, error in errors.items())
        shares[name] = getattr(slipstream, name) * (1.0 + change)
    return replace(slipstream, recovered_share=taken, **shares)


def _derivatives(airplane: Airplane, known: Uncertainty, draws: Draws) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, one in known.derivatives.items():
        growth = sum(error * draws.of(source) for source, error in one.per_lift_errors.items())
        change = sum(error * draws.of(source) for source, error in one.errors.items()) - known.lift * growth
        found[name] = getattr(airplane.derivatives, name) + change
        if one.per_lift_errors:
            found[f"{name}_per_lift"] = getattr(airplane.derivatives, f"{name}_per_lift") + growth
    return found


def _drawn(value: float, error: float, normal: Array) -> Any:  # noqa: ANN401
    """Return the value drawn with its error, an array, or the value alone where it has none."""
    return np.maximum(value + error * normal, LEAST_SHARE * value) if error else value


def repeated(airplane: Airplane, times: int) -> Airplane:
    """Return many airplanes with each of them `times` in a row."""
    return _mapped(airplane, lambda value: np.repeat(value, times))


def only_of(airplane: Airplane, chosen: Selection) -> Airplane:
    """Return some of many airplanes; one alone, whose numbers are no arrays, is itself."""
    return _mapped(airplane, lambda value: value[chosen])


def _mapped(airplane: Airplane, change: Any) -> Airplane:  # noqa: ANN401
    parts: dict[str, Any] = {name: _part(getattr(airplane, name), change) for name in PARTS}
    rotors = tuple(_part(rotor, change) for rotor in airplane.rotors)
    arm = airplane.thrust_arm_m
    parts["thrust_arm_m"] = change(arm) if isinstance(arm, np.ndarray) else arm
    parts["rotors"] = airplane.rotors if all(map(_same, rotors, airplane.rotors)) else rotors
    if all(_same(value, getattr(airplane, name)) for name, value in parts.items()):
        return airplane
    return replace(airplane, **parts)


def _same(one: object, other: object) -> bool:
    return one is other


def _part(part: Any, change: Any) -> Any:  # noqa: ANN401
    changed = {
        one.name: change(value) for one in fields(part) if isinstance(value := getattr(part, one.name), np.ndarray)
    }
    return replace(part, **changed) if changed else part
