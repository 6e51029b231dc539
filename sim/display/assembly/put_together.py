"""A display put together with a cam, and what keeps it from being built and turned."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.build import assemble
from sim.display.assembly.plan import Plan
from sim.display.assembly.proof import interference, with_follower_down
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
    plan : Plan
        How it is laid out.
    """

    assembly: Assembly
    plan: Plan

    @cached_property
    def met(self) -> tuple[Clash, ...]:
        """What meets in it, at any angle of propeller and lead plate."""
        return interference(self.assembly, self.plan)

    @cached_property
    def lost(self) -> tuple[Barred, ...]:
        """What does not come into its place, or has no room for its tool."""
        return barred(with_follower_down(self.assembly, self.plan))

    @property
    def unfit(self) -> bool:
        """Whether something cannot be put together, which is sooner found, or meets."""
        return bool(self.lost or self.met)


def put_together(display: Display, found: FoundCam, spring: Spring) -> PutTogether:
    """Return a display put together with a cam."""
    cam_n_m = float(np.max(np.abs(cam_torque(display, found, spring)))) / display.cam_ratio
    assembly = assemble(display, found, spring, magnet_pairs=magnet_pairs(display, cam_n_m))
    return PutTogether(assembly, Plan(display, found, spring))
