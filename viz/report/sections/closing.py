"""What the answers rest on, what to beware of, and how to get them again."""

from __future__ import annotations

import shlex
from pathlib import PurePath
from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Points, Verbatim, rows, say
from viz.sheets.validity import range_of_validity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block

ASSUMED = (
    (
        "Flight",
        "Rigid airframe, air at rest, flat earth; a propeller with equal moments of inertia about all its diameters.",
        "exact within these",
    ),
    (
        "Aerodynamics",
        "Linear derivatives; tail, fin and inner wing in the slipstream; lift limited smoothly, no stall break.",
        "within the range of validity below; bands in the table of derivatives; parts in the slipstream ±25 %",
    ),
    (
        "Polar inertia of the engine",
        "Sum of its parts; pistons and rods exact over a revolution.",
        "within 10 % of values from a swinging test, which are better",
    ),
    (
        "Inertia of the airplane",
        "As given, or from items taken as boxes.",
        "items: within 10 % of values from a swinging test",
    ),
    (
        "Power and propeller",
        "Torque does not depend on speed and falls with the air's density; blade elements, tip Mach number of cruise.",
        "thrust ±5 to 10 %, at rest ±20 %, without the losses by engine and body behind the propeller",
    ),
    (
        "Climb",
        "Thrust along the path; additional drag in the slipstream not included.",
        "climb rate less than 1 % high up to 8° of climb; slipstream drag of biplanes takes 3 to 8 %",
    ),
    (
        "Levels",
        "Roots against MIL-F-8785C, Class I; control forces and roll response are not graded.",
        "as good as the derivatives",
    ),
    (
        "Bolts",
        "Elastic method; bending of the firewall, prying, preload and fit not included.",
        "these can raise the load of one bolt by half",
    ),
    (
        "Tubes",
        "Pin-jointed; bending at welds, heat-affected zones and dents not included.",
        "an engineer must add these",
    ),
    (
        "Firing windows",
        "Steady speed from cam to passage; a blade blocks the same arc at every speed.",
        "exact within these; bursts show the effect of scatter",
    ),
    ("Cooling", "Forced convection in a free stream; radiation not included.", "± 20 %, drawn as a band"),
    ("Display", "Each check names its standard, or that the limit was set for this display.", "see the column Source"),
)
"""Part, what is assumed, how good it is: as the formulas' own pages say."""


def assumptions(found: Findings) -> Iterator[Block]:
    """Yield what is assumed and how good it is."""
    yield rows("Assumptions", ("Part", "Assumption", "Accuracy"), ASSUMED)
    yield range_of_validity()
    count = len(found.scenario.tolerances)
    if count == 0:
        yield say("No values of the scenario carry a tolerance; the others are taken as exact.")
    elif count == 1:
        yield say("1 value of the scenario carries a tolerance; the others are taken as exact.")
    else:
        told = "{count} values of the scenario carry a tolerance; the others are taken as exact."
        yield say(told, count=str(count))


def derivatives(found: Findings) -> Iterator[Block]:
    """Yield every derivative with its origin and its band."""
    from viz.sheets.derivatives import sheet

    yield from tables(sheet(found.derivatives))


def beware(found: Findings) -> Iterator[Block]:  # noqa: ARG001
    """Yield every caution, once."""
    from sim.units.quantities import cautions

    yield Points(cautions())


def again(found: Findings) -> Iterator[Block]:
    """Yield version, command and scenario, with the files of items that it names."""
    from sim import __version__
    from sim.scenario.bundled import fetch

    words = ["whirlgate", "--units", found.units, "report", found.called]
    words += [word for setting in found.settings for word in ("--set", setting)]
    words += found.other.words if found.other else []
    told = "Made by whirlgate {version}. The same version, command and scenario give the same page."
    yield say(told, version=__version__)
    yield Verbatim("Command", shlex.join([*words, "--out", "report.html"]))
    own = fetch(str(found.called)).text
    yield Verbatim("Scenario", own, _file(found.called))
    for name, text in found.scenario.source.files:
        yield Verbatim("Items of the scenario", text, name)
    if found.other and found.other.file:
        source = found.other.findings.scenario.source
        yield Verbatim("The other scenario", source.text, _file(found.other.file))
        for name, text in source.files:
            yield Verbatim("Items of the other scenario", text, name)


def _file(called: str) -> str:
    """Return the name of a scenario's file without its folder; a bundled one is called without an ending."""
    name = PurePath(called).name
    return name if name.endswith(".toml") else f"{name}.toml"
