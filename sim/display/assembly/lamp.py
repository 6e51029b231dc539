"""The lamp as it is ordered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.text import amount, brief

if TYPE_CHECKING:
    from sim.display.assembly.plan import Plan

BEND_M = 0.003
"""What the leads of the lamp need behind its body to bend to their hole: common practice, no source. [m]"""


def supply(plan: Plan) -> str:
    """Return voltage and kind of the supply of lamp, sensor and timer: ``12 V dc``."""
    return f"{brief('lamp_v', plan.display.lamp.lamp_v)} {plan.display.lamp.supply}"


def lamp_words(plan: Plan) -> str:
    """Return the lamp as it is ordered; its body and the bend of its leads fit the thickness of the outline."""
    deep_m = plan.stock.board(0.015) - BEND_M
    body = " (".join(amount("plate_thickness_m", deep_m, units, 2) for units in ("si", "us"))
    return (
        f"LED lamp, amber, {supply(plan)}, at most 20 mA, 10 mm (0.39 in) in diameter, with bezel 14 mm (0.55 in), "
        f"body behind the bezel at most {body}) long, with two leads"
    )
