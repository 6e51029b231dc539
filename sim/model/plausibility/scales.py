"""The weighing: which engine stood on the scales."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.remark import Remark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined


def engine_is_named(examined: Examined) -> Iterator[Remark]:
    """Yield that a weighing of an airplane with several engines does not say which of them it was with."""
    from sim.model.weighing import engine_on_scales

    table, engines = examined.scenario.weighing, examined.scenario.powerplant
    if table is None or table.powerplant or len(engines) == 1:
        return
    key, taken = "weighing.powerplant", engine_on_scales(examined.scenario, table)
    yield Remark(
        key,
        f"{key}: is not given, and the scenario has {len(engines)} engines; {taken} is taken to have been on the "
        "scales. Write the one that was.",
    )
