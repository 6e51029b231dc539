"""The scenario as a second gun sees it: the same airplane with that gun's line, link and opening in their place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario

OF_THE_LINE = ("bore_radius_m", "offset_m", "converge_m", "link_delay_s")
"""What the table of the second gun may give in place of that of the first."""


def second_scenario(scenario: Scenario) -> Scenario | None:
    """Return the scenario with its second gun in the place of its first; None where there is none.

    What the second gun leaves out it has in common with the first: so too the cam, which both read where their own bore
    line stands. A time of the link of its own takes the place of a link that is computed.
    """
    second, gun = scenario.second_gun, scenario.gun
    if second is None or gun is None:
        return None
    own = {name: getattr(second, name) for name in OF_THE_LINE if getattr(second, name) is not None}
    changed: dict[str, Any] = {"gun": gun.model_copy(update=own), "second_gun": None}
    if second.link_delay_s is not None:
        changed["link"] = None
    if second.opens_rad is not None and scenario.cam is not None:
        changed["cam"] = scenario.cam.model_copy(update={"opens_rad": second.opens_rad})
    return scenario.model_copy(update=changed)
