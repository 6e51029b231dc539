"""The angular momentum of a rotor, whose sense is said where a gear turns the propeller against the engine shaft."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.bands import with_band

if TYPE_CHECKING:
    from sim.studies.compare import PowerplantComparison
    from sim.studies.handling_answer import PowerplantHandling
    from viz.sheets.blocks import Cell


def momentum(rotor: PowerplantComparison | PowerplantHandling, gap: str = " ") -> Cell:
    """Return the angular momentum with its band: its size with the sense of the shaft, with its own sense against that.

    Parameters
    ----------
    rotor : PowerplantComparison or PowerplantHandling
        Row of an answer: spin of the engine shaft, and angular momentum of all that turns.
    gap : str
        What stands between the number and its band.
    """
    against = rotor.angular_momentum_kg_m2_s * rotor.spin_rad_s < 0.0
    return with_band(rotor, "angular_momentum_kg_m2_s", size=not against, signed=against, gap=gap)
