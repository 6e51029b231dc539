"""Blade element with momentum theory: loads along the blades of a propeller, at rest, in flight and windmilling."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.numerics.bracket import bracketed_roots
from sim.propulsion.blade_section import FLAT_BOTTOMED, section_coefficients

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.blade_section import BladeSection

    Array = NDArray[np.float64]

ELEMENTS: Final = 40
"""Elements along a blade: coefficients are good to about 1e-4 of themselves."""
MOMENTUM_LIMIT: Final = 1.0 / 3.0
"""Retardation of the stream over airspeed beyond which momentum theory is replaced by its tangent."""
_FLAT_RAD: Final = 1e-9
"""Angle of inflow at which the two brackets meet: not 0, which solves the equations of a blade without load."""


@dataclass(frozen=True, slots=True, eq=False)
class BladeLoads:
    """Loads along the blades; arrays of shape (advance ratios, elements). Speeds are over n D.

    Attributes
    ----------
    radius_share, width_share : array, shape (elements,)
        Middle of each element, and its width, over tip radius.
    advance_ratio : array, shape (advance ratios,)
        V/nD.
    inflow_rad, attack_rad : array
        Angle of the relative wind to the plane of the disc, and angle of attack. [rad]
    lift_coefficient, drag_coefficient : array
        Of the section.
    local_mach : array
        Local Mach number.
    wind_share : array
        Relative wind over n D.
    mass_flow : array
        Velocity of the stream through the disc that momentum theory counts, over n D.
    tip_factor : array
        Prandtl's factor.
    ct_elements, cq_elements : array
        Share of each element in the coefficients of thrust, T/ρn²D⁴, and torque, Q/ρn²D⁵.
    """

    radius_share: Array
    width_share: Array
    advance_ratio: Array
    inflow_rad: Array
    attack_rad: Array
    lift_coefficient: Array
    drag_coefficient: Array
    local_mach: Array
    wind_share: Array
    mass_flow: Array
    tip_factor: Array
    ct_elements: Array
    cq_elements: Array

    @property
    def ct(self) -> Array:
        """Thrust coefficient T/ρn²D⁴ at each advance ratio."""
        return np.asarray(self.ct_elements.sum(axis=-1))

    @property
    def cp(self) -> Array:
        """Power coefficient P/ρn³D⁵ at each advance ratio."""
        return np.asarray(2.0 * np.pi * self.cq_elements.sum(axis=-1))


@dataclass(frozen=True, slots=True, eq=False)
class _Elements:
    """The elements of a blade, ready for the equations: radius, width, chord over diameter, angle, solidity."""

    blades: int
    radius: Array
    width: Array
    chord: Array
    angle: Array
    solidity: Array


def blade_loads(
    blade: Blade,
    advance_ratio: Array,
    *,
    tip_mach: Array | float = 0.0,
    section: BladeSection = FLAT_BOTTOMED,
    elements: int = ELEMENTS,
) -> BladeLoads:
    """Return the loads along the blades at each advance ratio.

    Parameters
    ----------
    blade : Blade
        Chord and angle along the radius.
    advance_ratio : array, shape (J,)
        V/nD, at least 0: from rest to windmilling.
    tip_mach : array, shape (J,), or float
        Speed of rotation of the tip, π n D, over the speed of sound; 0 for incompressible flow.
    section : BladeSection
        Lift and drag of every section.
    elements : int
        Elements along a blade, closer towards the tip.

    Notes
    -----
    Each annulus by itself: the thrust and torque of the blade elements are the change of momentum of the air through
    it, dT = 4π r ρ F u (u − V) dr and dQ = 4π r² ρ F u (Ωr − w) dr, with u and w the axial and tangential velocity
    at the blade and F Prandtl's factor for the tip. Both together are one equation for the angle of inflow whose
    residual has opposite signs at 0 and at one of ±90°, so that bisection always finds its root. Where the disc
    retards the stream by more than a third of the airspeed, the tangent to the momentum curve takes its place; where
    the stream turns back (reverse thrust), |u| takes the place of u. The Mach number is that of the undisturbed
    relative wind. Thin, straight, rigid blades; no nacelle; no hub loss.

    Against the charts of NACA Report 640 the thrust is good to 5 % and the power to 7 % between a third and nine
    tenths of the advance ratio of zero thrust; at rest and with stalled blades to about 20 %.

    References
    ----------
    Glauert, in Durand (ed.), Aerodynamic Theory, vol. IV, div. L, 1935: the equations, and Prandtl's factor.
    Ning, Wind Energy 17, 2014: the two equations as one, and its bracket. Buhl, NREL/TP-500-36834, 2005: on the
    tangent in the windmill state.
    """
    grid = _elements(blade, elements)
    ratio = np.atleast_1d(np.asarray(advance_ratio, float))[:, None]
    turning = np.pi * grid.radius + 0.0 * ratio
    mach = np.reshape(np.asarray(tip_mach, float), (-1, 1)) * np.hypot(grid.radius, ratio / np.pi)

    def residual(inflow: Array) -> Array:
        flow = _stream(grid, section, inflow, mach)
        return np.asarray(ratio * flow.turning - turning * flow.advance)

    flat = np.full_like(turning, _FLAT_RAD)
    inflow = bracketed_roots(residual, flat, np.where(residual(flat) > 0.0, 0.5 * np.pi, -0.5 * np.pi))
    return _loads(grid, ratio, inflow, flow=_stream(grid, section, inflow, mach), mach=mach)


@dataclass(frozen=True, slots=True, eq=False)
class _Stream:
    """What an angle of inflow implies: section, factor, mass flow, and airspeed and speed of rotation times the flow.

    Velocities are over the relative wind.
    """

    angle: Array
    lift: Array
    drag: Array
    tip_factor: Array
    mass: Array
    advance: Array
    turning: Array


def _elements(blade: Blade, count: int) -> _Elements:
    """Return the middle of each element between equal steps of an angle, which crowds them at the tip."""
    first = float(blade.radius_share[0])
    edges = first + (1.0 - first) * np.sin(np.linspace(0.0, 0.5 * np.pi, count + 1))
    radius, width = 0.5 * (edges[1:] + edges[:-1]), np.diff(edges)
    chord = np.interp(radius, blade.radius_share, blade.chord_per_diameter)
    angle = np.interp(radius, blade.radius_share, blade.blade_angle_rad)
    return _Elements(blade.blades, radius, width, chord, angle, blade.blades * chord / (np.pi * radius))


def _stream(grid: _Elements, section: BladeSection, inflow: Array, mach: Array) -> _Stream:
    """Return what the angles of inflow imply by the forces on the blade and the momentum of the air."""
    sine, cosine = np.sin(inflow), np.cos(inflow)
    angle = grid.angle - inflow
    lift, drag = section_coefficients(section, angle, mach)
    factor = tip_factor(grid.blades, grid.radius, inflow)
    load = grid.solidity / (4.0 * factor)
    axial, across = load * (lift * cosine - drag * sine), load * (lift * sine + drag * cosine)
    mass, advance = _momentum(sine, axial)
    return _Stream(angle, lift, drag, factor, mass, advance, mass * cosine + across)


def tip_factor(blades: int, radius_share: Array, inflow_rad: Array) -> Array:
    """Return Prandtl's factor for the loss at the tip, 0 to 1.

    Parameters
    ----------
    blades : int
        Their number.
    radius_share : array
        Radius over tip radius, below 1.
    inflow_rad : array
        Angle of the relative wind to the plane of the disc. [rad]
    """
    steep = np.maximum(np.abs(np.sin(inflow_rad)), 1e-9)
    gap = 0.5 * blades * (1.0 - radius_share) / (radius_share * steep)
    return np.asarray(2.0 / np.pi * np.arccos(np.exp(-gap)))


def _momentum(sine: Array, load: Array) -> tuple[Array, Array]:
    """Return the mass flow, and airspeed times mass flow, in units of the relative wind.

    `sine` is the axial velocity at the blade, `load` the change of momentum: mass flow times what the stream gains.
    """
    advance = sine * np.abs(sine) - load
    braking = np.maximum(-load, 0.0)
    bend, free = 1.0 - 2.0 * MOMENTUM_LIMIT, 1.0 - MOMENTUM_LIMIT
    speed = 0.5 * (bend * sine + np.sqrt((bend * sine) ** 2 + 4.0 * free**2 * braking)) / free**2
    limit = np.where(sine > 0.0, sine * sine / free, np.abs(sine) * speed)
    tangent = (braking > 0.0) & (advance > limit)
    mass = np.where(tangent, braking / np.where(tangent, speed - sine, 1.0), np.abs(sine))
    return mass, np.where(tangent, mass * speed, advance)


def _loads(grid: _Elements, ratio: Array, inflow: Array, *, flow: _Stream, mach: Array) -> BladeLoads:
    """Return the loads at the angles of inflow that solve the equations."""
    mass, cosine = np.maximum(flow.mass, 1e-12), np.cos(inflow)
    along, around = flow.advance / mass, cosine + (flow.turning - flow.mass * cosine) / mass
    wind = (np.pi * grid.radius * around + ratio * along) / (along**2 + around**2)
    sine = np.sin(inflow)
    strip = 0.25 * grid.blades * wind**2 * grid.chord * grid.width
    thrust = strip * (flow.lift * cosine - flow.drag * sine)
    torque = strip * (flow.lift * sine + flow.drag * cosine) * 0.5 * grid.radius
    return BladeLoads(
        radius_share=grid.radius,
        width_share=grid.width,
        advance_ratio=ratio[:, 0],
        inflow_rad=inflow,
        attack_rad=flow.angle,
        lift_coefficient=flow.lift,
        drag_coefficient=flow.drag,
        local_mach=mach,
        wind_share=wind,
        mass_flow=mass * wind,
        tip_factor=flow.tip_factor,
        ct_elements=thrust,
        cq_elements=torque,
    )
