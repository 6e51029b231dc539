"""Load factors and design speeds of the wing that are below the least of its airworthiness category."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.remark import Usual, unusual
from sim.model.wing_loading import wing_loading
from sim.structures.wing_cases import LEAST_DIVE_OVER_CRUISE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark
    from sim.structures.wing_cases import WingLoading

TEXT = "2014 text"


def load_factors(examined: Examined) -> Iterator[Remark]:
    """Yield limit load factors below those of the category."""
    loading = _loading(examined)
    for key, what, least, value, rule in (
        ("load_factor", "the limit load factor", loading.least_up, loading.up, "14 CFR 23.337(a)"),
        ("negative_load_factor", "the size of the negative one", loading.least_down, loading.down, "14 CFR 23.337(b)"),
    ):
        yield from unusual(
            Usual(least, None, f"{rule}, {TEXT}", "", f"{rule}, {loading.category}"),
            value,
            key=f"structure.{key}",
            what=what,
            cure="Raise it, or leave it out.",
        )


def design_speeds(examined: Examined) -> Iterator[Remark]:
    """Yield a design cruising or diving speed below the least of the category, or too near to the other speeds."""
    loading = _loading(examined)
    for key, what, least_m_s, value_m_s, rule, cure in _speeds(loading):
        yield from unusual(
            Usual(least_m_s, None, f"{rule}, {TEXT}", "speed_m_s", rule),
            value_m_s,
            key=f"structure.{key}",
            what=what,
            cure=cure,
        )


def _loading(examined: Examined) -> WingLoading:
    model = examined.model
    return wing_loading(model.structure, model.airplane(model.usual_powerplant().name))


def _speeds(loading: WingLoading) -> Iterator[tuple[str, str, float, float, str, str]]:
    """Yield key, subject, least, value, rule and cure of each speed."""
    cruise_m_s, own = loading.cruising_m_s, f", {loading.category}"
    slower = cruise_m_s < loading.least_cruise_m_s
    yield (
        "cruise_speed",
        "the design speed VC at this mass",
        loading.least_cruise_m_s,
        cruise_m_s,
        f"14 CFR 23.335(a){own}",
        (
            "Gusts at VC are too small with it: raise it, or show that 0.9 times the top level speed at sea level "
            "is no more."
        ),
    )
    if not slower:
        yield (
            "cruise_speed",
            "the design speed VC at this mass",
            loading.manoeuvring_m_s,
            cruise_m_s,
            "VA, at which cases of the full load factor are flown",
            "Raise it, or check load_factor and lift.max.",
        )
    yield (
        "dive_speed",
        "the design speed VD at this mass",
        max(LEAST_DIVE_OVER_CRUISE * cruise_m_s, loading.least_dive_m_s, loading.manoeuvring_m_s),
        loading.diving_m_s,
        f"14 CFR 23.335(b){own}",
        "Raise it, or leave it out.",
    )
