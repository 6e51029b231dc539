"""A derivative with its origin and band, its parts and what their errors move; given values take precedence."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from sim.aerodynamics.derivative_errors import ERRORS
from sim.aerodynamics.forces import Derivatives

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

Origin = Literal["estimated", "given"]


@dataclass(frozen=True, slots=True)
class Derivative:
    """One derivative.

    Attributes
    ----------
    value : float
        Per radian, or per unit of the dimensionless rate.
    origin : str
        ``estimated`` from geometry or ``given`` in the scenario.
    band : float
        One standard deviation of `value`; 0 where it is given.
    per_lift : float
        Change of `value` for a unit of lift coefficient; 0 for one that does not grow with lift, or is given.
    errors : Mapping of str to float
        Change of `value` as each source of `sim.aerodynamics.derivative_errors` errs by one standard deviation; `band`
        is the root of the sum of their squares.
    per_lift_errors : Mapping of str to float
        Likewise of `per_lift`; a part errs alike at every lift.
    """

    value: float
    origin: Origin
    band: float
    per_lift: float = 0.0
    errors: Mapping[str, float] = field(default_factory=dict)
    per_lift_errors: Mapping[str, float] = field(default_factory=dict)

    @property
    def dominated_by(self) -> str | None:
        """Source of the largest part of the band, or None without one."""
        return max(self.errors, key=lambda source: abs(self.errors[source]), default=None)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a derivative.

    Attributes
    ----------
    value, per_lift : float
        As in `Derivative`.
    sources : tuple of str
        What it is proportional to.
    beside : Mapping of str to float
        Further errors of the derivative, absolute.
    """

    value: float
    sources: tuple[str, ...]
    per_lift: float = 0.0
    beside: Mapping[str, float] = field(default_factory=dict)


def summed(parts: Iterable[Part]) -> Derivative:
    """Return the derivative of these parts, in which errors of one source add up and sources are independent."""
    value, per_lift = 0.0, 0.0
    errors, growth = dict[str, float](), dict[str, float]()
    for part in parts:
        value, per_lift = value + part.value, per_lift + part.per_lift
        for source in part.sources:
            errors[source] = errors.get(source, 0.0) + part.value * ERRORS[source]
            if part.per_lift:
                growth[source] = growth.get(source, 0.0) + part.per_lift * ERRORS[source]
        for source, error in part.beside.items():
            errors[source] = errors.get(source, 0.0) + error
    return Derivative(value, "estimated", math.hypot(*errors.values()), per_lift, errors, growth)


def overridden(estimated: Mapping[str, Derivative], given: Mapping[str, float]) -> Mapping[str, Derivative]:
    """Return the derivatives with every given value in the place of its estimate.

    Parameters
    ----------
    estimated : Mapping of str to Derivative
        From `estimate`.
    given : Mapping of str to float
        Values by name, per radian; they do not grow with lift.
    """
    known = {name: Derivative(value, "given", 0.0) for name, value in given.items()}
    return MappingProxyType({name: known.get(name, value) for name, value in estimated.items()})


def by_source(derivatives: Mapping[str, Derivative], names: Iterable[str] | None = None) -> list[dict[str, float]]:
    """Return what one standard deviation of each source of error changes in the derivatives, a mapping for each source.

    Parameters
    ----------
    derivatives : Mapping of str to Derivative
        From `estimate` or `overridden`.
    names : iterable of str or None
        Derivatives that are asked for; None for all.
    """
    found: dict[str, dict[str, float]] = {}
    for name in derivatives if names is None else names:
        for source, error in derivatives[name].errors.items():
            found.setdefault(source, {})[name] = error
    return list(found.values())


def values(derivatives: Mapping[str, Derivative]) -> Derivatives:
    """Return the values of all derivatives at the lift that they are for, without bands and growth."""
    return Derivatives(**{name: one.value for name, one in derivatives.items()})
