"""A display put together with a cam, and what keeps it from being built and turned."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.build import assemble
from sim.display.assembly.plan import Plan
from sim.display.assembly.proof import interference
from sim.display.assembly.sequence import barred
from sim.display.worst_hand import cam_torque, magnet_pairs

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly
    from sim.display.assembly.interference import Clash
    from sim.display.assembly.sequence import Barred
    from sim.display.display import Display
    from sim.display.search import FoundCam
    from sim.display.spring import Spring


@dataclass(frozen=True)
class PutTogether:
    """A display put together with a cam.

    Attributes
    ----------
    assembly : Assembly
        All of its parts and screws in their places.
    met : tuple of Clash
        What meets in it, at any angle of propeller and lead plate.
    """

    assembly: Assembly
    met: tuple[Clash, ...]

    @cached_property
    def lost(self) -> tuple[Barred, ...]:
        """What does not come into its place, or has no room for its tool."""
        return barred(self.assembly)

    @property
    def unfit(self) -> bool:
        """Whether something meets, or cannot be put together."""
        return bool(self.met or self.lost)


def put_together(display: Display, found: FoundCam, spring: Spring) -> PutTogether:
    """Return a display put together with a cam, and what meets in it."""
    cam_n_m = float(np.max(np.abs(cam_torque(display, found, spring)))) / display.cam_ratio
    assembly = assemble(display, found, spring, magnet_pairs=magnet_pairs(display, cam_n_m))
    return PutTogether(assembly, interference(assembly, Plan(display, found, spring)))
