"""Load cases of a wing: load factors and speeds by the category of the airplane, gusts, dive, roll and landing."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Final, Literal

from numpy import interp

from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterator

Category = Literal["normal", "utility", "acrobatic"]

_LB_KG, _KNOT_M_S, _FT_M = (float(ratio(*units)) for units in (("lb", "kg"), ("kt", "m/s"), ("ft", "m")))
_LB_FT2_KG_M2: Final = _LB_KG / _FT_M**2
NEGATIVE_SHARE: Final = {"normal": 0.4, "utility": 0.4, "acrobatic": 0.5}
_CRUISE: Final = {"normal": 33.0, "utility": 33.0, "acrobatic": 36.0}
_DIVE: Final = {"normal": 1.4, "utility": 1.5, "acrobatic": 1.55}
_HEAVY_LB_FT2: Final = (20.0, 100.0)
"""Wing loadings from which the factors of the speeds fall, and at which they are those below."""
_CRUISE_HEAVY, _DIVE_HEAVY = 28.6, 1.35
LEAST_DIVE_OVER_CRUISE: Final = 1.25
_ROLL: Final = {"normal": 0.75, "utility": 0.75, "acrobatic": 0.6}
GUST_CRUISE_M_S: Final = 50.0 * _FT_M
GUST_DIVE_M_S: Final = 25.0 * _FT_M
LANDING_INERTIA: Final = 2.67
LANDING_LIFT: Final = 2.0 / 3.0
AILERON_LIFT: Final = 2.0 / 3.0
"""Least load factor with ailerons deflected, over the limit manoeuvring load factor."""


@dataclass(frozen=True, slots=True)
class WingCase:
    """One load case at limit load.

    Attributes
    ----------
    name, rule : str
        The condition, and where it comes from.
    load_factor : float
        Lift of the airplane over its weight, up positive.
    speed_m_s : float
        Equivalent airspeed. [m/s]
    inertia_factor : float
        Weight of the wing times this bears on it, downwards.
    left_share, right_share : float
        Factor on the air load of each side.
    aileron_share : float
        Deflection of the ailerons over their travel, roll to the left positive.
    """

    name: str
    rule: str
    load_factor: float
    speed_m_s: float
    inertia_factor: float
    left_share: float = 1.0
    right_share: float = 1.0
    aileron_share: float = 0.0


@dataclass(frozen=True, slots=True)
class WingLoading:
    """What load cases are made of.

    Attributes
    ----------
    mass_kg, area_m2, chord_m : float
        Of the airplane and its wing. [kg, m², m]
    lift_max, lift_slope : float
        Greatest lift coefficient, and lift slope of the airplane. [–, 1/rad]
    category : str
        ``normal``, ``utility`` or ``acrobatic``.
    load_factor, negative_load_factor : float or None
        Limit manoeuvring load factors, the second by its size; None for those of the category.
    cruise_m_s, dive_m_s : float or None
        Design speeds VC and VD; None for the least of the category. [m/s]
    """

    mass_kg: float
    area_m2: float
    chord_m: float
    lift_max: float
    lift_slope: float
    category: Category = "normal"
    load_factor: float | None = None
    negative_load_factor: float | None = None
    cruise_m_s: float | None = None
    dive_m_s: float | None = None

    @property
    def kg_per_m2(self) -> float:
        """Mass over area of the wing. [kg/m²]."""
        return self.mass_kg / self.area_m2

    @property
    def least_up(self) -> float:
        """Least limit manoeuvring load factor of the category."""
        return manoeuvring_factor(self.mass_kg, self.category)

    @property
    def up(self) -> float:
        """Limit manoeuvring load factor."""
        return self.least_up if self.load_factor is None else self.load_factor

    @property
    def least_down(self) -> float:
        """Least size of the negative one."""
        return NEGATIVE_SHARE[self.category] * self.up

    @property
    def down(self) -> float:
        """Size of the negative one."""
        return self.least_down if self.negative_load_factor is None else self.negative_load_factor

    @property
    def manoeuvring_m_s(self) -> float:
        """Design speed VA: stall at the limit load factor. [m/s]."""
        stall = sqrt(2.0 * self.kg_per_m2 * GRAVITY_M_S2 / (SEA_LEVEL_KG_M3 * self.lift_max))
        return stall * sqrt(self.up)

    @property
    def least_cruise_m_s(self) -> float:
        """Least design speed VC of the category. [m/s]."""
        factor = self._at_loading(_CRUISE[self.category], _CRUISE_HEAVY)
        return factor * sqrt(self.kg_per_m2 / _LB_FT2_KG_M2) * _KNOT_M_S

    @property
    def cruising_m_s(self) -> float:
        """Design speed VC. [m/s]."""
        return self.least_cruise_m_s if self.cruise_m_s is None else self.cruise_m_s

    @property
    def least_dive_m_s(self) -> float:
        """Least design speed VD of the category: of the least VC, whatever VC is taken. [m/s]."""
        return self._at_loading(_DIVE[self.category], _DIVE_HEAVY) * self.least_cruise_m_s

    @property
    def diving_m_s(self) -> float:
        """Design speed VD. [m/s]."""
        if self.dive_m_s is not None:
            return self.dive_m_s
        return self._at_loading(_DIVE[self.category], _DIVE_HEAVY) * self.cruising_m_s

    def _at_loading(self, light: float, heavy: float) -> float:
        """Return a factor of the speeds, which falls in proportion as the wing is loaded more."""
        return float(interp(self.kg_per_m2 / _LB_FT2_KG_M2, _HEAVY_LB_FT2, (light, heavy)))


def manoeuvring_factor(mass_kg: float, category: Category) -> float:
    """Return the least limit manoeuvring load factor of a category.

    References
    ----------
    14 CFR 23.337 (2014 text).

    Examples
    --------
    >>> round(manoeuvring_factor(2721.6, "normal"), 2), manoeuvring_factor(635.0, "acrobatic")
    (3.6, 6.0)
    """
    if category == "normal":
        return min(3.8, 2.1 + 24_000.0 / (mass_kg / _LB_KG + 10_000.0))
    return 4.4 if category == "utility" else 6.0


def gust_increment(loading: WingLoading, gust_m_s: float, speed_m_s: float) -> float:
    """Return the change of load factor in a gust.

    Parameters
    ----------
    loading : WingLoading
        Of the airplane.
    gust_m_s, speed_m_s : float
        Derived gust, and equivalent airspeed. [m/s]

    References
    ----------
    14 CFR 23.341 (2014 text): Kg Ude V a/(498 W/S), with Kg = .88 μ/(5.3 + μ), μ = 2 (W/S)/(ρ C a g); written here
    without units, ρ0 Kg Ude V a/(2 W/S).
    """
    mass_ratio = 2.0 * loading.kg_per_m2 / (SEA_LEVEL_KG_M3 * loading.chord_m * loading.lift_slope)
    alleviation = 0.88 * mass_ratio / (5.3 + mass_ratio)
    lift = 0.5 * SEA_LEVEL_KG_M3 * alleviation * gust_m_s * speed_m_s * loading.lift_slope
    return lift / (loading.kg_per_m2 * GRAVITY_M_S2)


def wing_cases(loading: WingLoading) -> tuple[WingCase, ...]:
    """Return the load cases of a wing.

    Parameters
    ----------
    loading : WingLoading
        Of the airplane.

    Notes
    -----
    Pull-up at VA (high incidence) and at VD (low incidence), push-over at VC, gusts of 50 ft/s at VC and 25 ft/s at VD,
    no harder than the stall allows, a dive without lift at VD (torsion and drag), roll at VA with less load on one
    side, ailerons with two thirds of the load factor, landing with lift of two thirds of the weight. Ailerons go to
    their stops at VA, at VC as far as the rate of roll at VA needs, at VD as far as a third of it needs; the rate goes
    with deflection times speed. Flaps, ground handling, crash and flutter are not covered.

    References
    ----------
    14 CFR 23.333, 23.335, 23.337, 23.341 (2014 text); 23.349(a)(2) and (b), 23.455(a)(2), 23.473(e) and (g) (2014
    text, from memory).
    """
    va, vc, vd = loading.manoeuvring_m_s, loading.cruising_m_s, loading.diving_m_s
    up, down, roll = loading.up, loading.down, _ROLL[loading.category]
    return (
        WingCase("pull-up at VA", "14 CFR 23.333(b)", up, va, up),
        WingCase("pull-up at VD", "14 CFR 23.333(b)", up, vd, up),
        WingCase("push-over at VC", "14 CFR 23.333(b)", -down, vc, -down),
        *_gusts(loading, "VC", GUST_CRUISE_M_S, vc),
        *_gusts(loading, "VD", GUST_DIVE_M_S, vd),
        WingCase("dive without lift", "14 CFR 23.333(b)", 0.0, vd, 0.0),
        WingCase("roll to the right at VA", "14 CFR 23.349(a)(2)", up, va, up, right_share=roll),
        WingCase("roll to the left at VA", "14 CFR 23.349(a)(2)", up, va, up, left_share=roll),
        *_ailerons(loading),
        WingCase("landing", "14 CFR 23.473", LANDING_LIFT, va / sqrt(up) * 1.2, LANDING_INERTIA),
    )


def _ailerons(loading: WingLoading) -> Iterator[WingCase]:
    factor, va = AILERON_LIFT * loading.up, loading.manoeuvring_m_s
    for at, speed_m_s, rate in (("VA", va, 1.0), ("VC", loading.cruising_m_s, 1.0), ("VD", loading.diving_m_s, 1 / 3)):
        share = rate * min(va / speed_m_s, 1.0)
        for way, sense in (("right", -1.0), ("left", 1.0)):
            name = f"ailerons to the {way} at {at}"
            yield WingCase(name, "14 CFR 23.349(b)", factor, speed_m_s, factor, aileron_share=sense * share)


def _gusts(loading: WingLoading, at: str, gust_m_s: float, speed_m_s: float) -> Iterator[WingCase]:
    change = gust_increment(loading, gust_m_s, speed_m_s)
    stall = loading.up * (speed_m_s / loading.manoeuvring_m_s) ** 2
    for word, sign in (("up", 1.0), ("down", -1.0)):
        factor = max(min(1.0 + sign * change, stall), -stall)
        yield WingCase(f"gust {word} at {at}", "14 CFR 23.341", factor, speed_m_s, factor)
