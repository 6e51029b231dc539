"""Spars in the chord and longerons in the fuselage."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from sim.airframe.layout import spar_room
from sim.model.plausibility import limits
from sim.model.plausibility.remark import Remark, Usual, amount, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined

LEANING = {
    "cabane strut": {"front": "cabane_foot_buttline", "side": "cabane_feet"},
    "interplane strut": {"front": "strut_splay", "side": "strut_splay"},
    "lift strut": {"side": "lift_feet"},
}
"""Kinds of struts, and the key that makes them lean in each view; how flat lift struts are is told by `bracing`."""


def spars(examined: Examined) -> Iterator[Remark]:
    """Yield spars that overlap or stand out of the chord, in the narrowest plane."""
    layout = examined.scenario.layout
    rows = layout.spar if layout else []
    chord_m = min(plane.chord_m for plane in examined.model.wing.planes)
    edges = [(row, row.fraction * chord_m - 0.5 * row.width_m, 0.5 * row.width_m) for row in rows]
    for number, (row, front_m, half_m) in enumerate(edges, 1):
        key = f"layout.spar.{number}.fraction"
        if front_m < 0.0 or front_m + 2.0 * half_m > chord_m:
            reach = " to ".join(amount("station_m", end_m) for end_m in (front_m, front_m + 2.0 * half_m))
            yield Remark(
                key,
                f"{key}: the {row.name} spar reaches from {reach} behind the leading edge; usual is within the chord, "
                f"from 0 to {amount('station_m', chord_m)}. Check fraction and width.",
            )
    for number, ((one, front_m, half_m), (other, next_m, _)) in enumerate(pairwise(edges), 2):
        if front_m + 2.0 * half_m > next_m:
            key = f"layout.spar.{number}.fraction"
            over_m = front_m + 2.0 * half_m - next_m
            yield Remark(
                key,
                f"{key}: the {other.name} spar begins {amount('station_m', over_m)} ahead of the rear face of the "
                f"{one.name} spar; usual is behind it, spars listed from front to rear. Check fractions and widths.",
            )


def spar_depths(examined: Examined) -> Iterator[Remark]:
    """Yield spars that are shallow for the longest bay between their fittings, in the plane where they are."""
    layout = examined.model.layout
    lines, narrowest = layout.truss, min(layout.planes, key=lambda placed: placed.plane.chord_m)
    if not layout.truss.strut_buttlines_m[-1]:
        return
    inner_m = min(lines.root_buttline_m, lines.cabane_buttline_m)
    bay_m = max(outer - inner for inner, outer in pairwise((inner_m, *lines.strut_buttlines_m)))
    for number, spar in enumerate(layout.spars, 1):
        depth_m = spar_room(layout.section, narrowest.plane.chord_m, spar).spar_depth_m
        yield from unusual(
            limits.BAY_OVER_SPAR_DEPTH,
            bay_m / depth_m,
            key=f"layout.spar.{number}.fraction",
            what=f"the longest bay over the depth of the {spar.name} spar, {amount('spar_depth_m', depth_m)},",
            cure="Move it to where the section is deeper, take a thicker section, or put struts closer together.",
        )


def bracing(examined: Examined) -> Iterator[Remark]:
    """Yield fittings that stand outside the innermost struts, and lift wires or struts that are too flat to lift."""
    layout = examined.model.layout
    lines = layout.truss
    if lines.bracing == "none":
        return
    _, fitted = layout.fitted()
    for key, what, buttline_m in (
        ("root_buttline", "root fittings", lines.root_buttline_m),
        ("cabane_buttline", "cabane fittings", lines.cabane_buttline_m),
    ):
        yield from unusual(
            Usual(None, lines.strut_buttlines_m[0], limits.PRACTICE, "buttline_m", "the innermost struts"),
            buttline_m,
            key=f"layout.{key}",
            what=f"the buttline of the {what}",
            cure="Check it, strut_buttline and inner_struts.",
        )
    feet = [node for node in fitted.nodes if node.kind == "strut foot"]
    if lines.strut_splay_m and feet:
        innermost = min(feet, key=lambda node: node.buttline_m)
        yield from unusual(
            Usual(lines.root_buttline_m, None, limits.PRACTICE, "buttline_m", "the root fittings"),
            innermost.buttline_m,
            key="layout.strut_splay",
            what=f"the buttline of the {innermost.name} with it",
            cure="Check it, strut_buttline and inner_struts.",
        )
    for kind in ("flying wire", "landing wire", "lift strut"):
        own = [one for one in fitted.members if one.kind == kind]
        if own:
            flattest = min(own, key=lambda one: 90.0 - abs(one.front_view_deg))
            yield from unusual(
                limits.BRACING_ANGLE,
                90.0 - abs(flattest.front_view_deg),
                key="layout.strut_buttline",
                what=f"the angle of the {flattest.name} above the horizontal, in the front view,",
                cure="Raise the gap, or put the struts farther in or another bay between.",
            )


def struts(examined: Examined) -> Iterator[Remark]:
    """Yield feet of cabane struts beside the fuselage, and struts that lean far from the vertical."""
    lines, half_m = examined.model.layout.truss, 0.5 * examined.scenario.fuselage.width_m
    _, fitted = examined.model.layout.fitted()
    members = {kind: [one for one in fitted.members if one.kind == kind] for kind in LEANING}
    if members["cabane strut"]:
        yield from unusual(
            Usual(None, half_m, limits.PRACTICE, "buttline_m", "the side of the fuselage"),
            lines.cabane_feet_m,
            key="layout.cabane_foot_buttline" if lines.cabane_foot_buttline_m is not None else "layout.root_buttline",
            what="the buttline of the feet of the cabane struts",
            cure="Check it, and fuselage.width.",
        )
    for kind, keys in LEANING.items():
        for view, key in keys.items():
            leans = {one.name: abs(getattr(one, f"{view}_view_deg")) for one in members[kind]}
            for name in sorted(leans, key=leans.__getitem__)[-1:]:
                yield from unusual(
                    limits.STRUT_LEAN,
                    leans[name],
                    key=f"layout.{key}",
                    what=f"the angle from the vertical, in the {view} view, of the {name},",
                    cure="Check it, and the stations and buttlines of both ends.",
                )


def longerons(examined: Examined) -> Iterator[Remark]:
    """Yield longerons that are upside down, or too near or far for the depth of the fuselage."""
    layout = examined.scenario.layout
    if layout is None or not {"upper_longeron_m", "lower_longeron_m"} <= layout.model_fields_set:
        return
    apart_m = layout.upper_longeron_m - layout.lower_longeron_m
    yield from unusual(
        limits.LONGERONS_SHARE,
        apart_m / examined.scenario.fuselage.depth_m,
        key="layout.upper_longeron",
        what="its height above the lower one, over the depth of the fuselage,",
        cure="Check upper_longeron, lower_longeron and fuselage.depth, and their units.",
    )


def firewall(examined: Examined) -> Iterator[Remark]:
    """Yield an engine whose mass centre lies behind the firewall that carries it."""
    mount = examined.model.mount
    name = examined.model.powerplant(mount.powerplant).name
    ahead_m = mount.engines[name].ahead_m
    if ahead_m <= 0.0:
        key = "mount.firewall"
        yield Remark(
            key,
            told(
                "{key}: the CG of what hangs on the mount with {name} lies {far} behind it; usual is ahead, and every "
                "bending load turns round with it. Check firewall, aft of the datum positive, and the station of the "
                "engine.",
                key=key,
                name=name,
                far=amount("ahead_m", -ahead_m),
            ),
        )
