"""What the timing studies take in: a propeller, a gun line through its disc and the speeds asked for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.synchronizer.blade import Action

MOST_SPEEDS = 100_000
NEEDED = {"spin_rad_s": "--rpm", "blades": "--blades", "blocked_rad": "--blocked-deg"}
_COUNTS = {"blades": "--blades", "impulses_per_rev": "--impulses-per-rev"}
_GUN = ("blades", "blocked_rad", "margin_rad", "delay_s", "natural_rate_per_s", "action", "impulses_per_rev")


@dataclass(frozen=True, slots=True)
class Setup:
    """A gun line through a turning propeller.

    Attributes
    ----------
    spin_rad_s : tuple of float
        Propeller speeds asked for, each above 0. [rad/s]
    blades : int
        Blades, evenly spaced.
    blocked_rad : float
        Arc that one blade blocks, the bullet's width in it, margins apart. [rad]
    margin_rad : float
        Kept clear on each side of the blade as well. [rad]
    delay_s : float
        From release to passage through the disc. [s]
    natural_rate_per_s : float or None
        The gun's own rate; None where only the windows are asked for. [1/s]
    action : str
        ``interrupter``: the gun cycles freely, the cam holds the sear while a blade is due. ``impulse``: every
        impulse of the cam releases one round, if the gun is ready.
    impulses_per_rev : int
        Impulses, or windows of the interrupter's cam, in a turn of the propeller; divides the number of blades.
    powerplant : str
        The scenario's name for the engine that turns the propeller; empty without a scenario.
    """

    spin_rad_s: tuple[float, ...]
    blades: int
    blocked_rad: float
    margin_rad: float = 0.0
    delay_s: float = 0.0
    natural_rate_per_s: float | None = None
    action: Action = "interrupter"
    impulses_per_rev: int = 0
    powerplant: str = ""

    @property
    def rpm(self) -> tuple[float, ...]:
        """The speeds as they were written, in rpm."""
        return tuple(neat(spin * 30.0 / math.pi) for spin in self.spin_rad_s)

    @property
    def gun_rounds_per_min(self) -> float:
        """The gun's own rate as it was written, in rounds a minute; 0 where it is not known."""
        return neat((self.natural_rate_per_s or 0.0) * 60.0)

    @property
    def shut_deg(self) -> float:
        """Blocked arc of one blade with both margins as it was written, in degrees."""
        return neat(math.degrees(self.blocked_rad + 2.0 * self.margin_rad))

    @property
    def openings(self) -> int:
        """Windows used in a turn of the propeller."""
        return self.impulses_per_rev or self.blades

    def share(self) -> tuple[float, float]:
        """Return the shut part of one interval from opening to opening, and that interval, both in one small unit.

        Whole degrees give whole numbers, which is what makes the rate exact.
        """
        whole = 360.0 * self.blades
        return whole - self.openings * (360.0 - self.blades * self.shut_deg), whole


def neat(value: float) -> float:
    """Return the number without the rounding that a unit's factor left: 1200 rpm come back as 1200, not 1200.0…02."""
    return float(f"{value:.12g}")


def setup_faults(given: Mapping[str, object], needed: Mapping[str, str] = NEEDED) -> Iterator[Fault]:
    """Yield what is wrong with timing options taken together.

    Parameters
    ----------
    given : mapping
        Fields of `Setup` by name; None, empty, or no entry, for one that was not given.
    needed : mapping
        Fields that must be there, and the option each is given by.
    """
    for name, option in needed.items():
        if not given.get(name) and given.get(name) != 0.0:
            yield Fault(option, "is missing; give it, or name a scenario")
    spins = given.get("spin_rad_s")
    if isinstance(spins, tuple) and len(spins) > MOST_SPEEDS:
        yield Fault("--rpm", f'must be at most {MOST_SPEEDS} speeds, got "{len(spins)}"')
    counts = {name: given.get(name) for name in _COUNTS}
    for name, value in counts.items():
        if isinstance(value, float) and value % 1.0 > 0.0:
            yield Fault(_COUNTS[name], f'must be a whole number, got "{value:g}"')
    blades, impulses = counts.values()
    if (
        isinstance(blades, float | int)
        and isinstance(impulses, float | int)
        and impulses
        and blades % impulses
        and not blades % 1.0
    ):
        allowed = f"must divide the number of blades, {blades:g}, so that each falls between two of them"
        yield Fault("--impulses-per-rev", f'{allowed}, got "{impulses:g}"')


def setup_of_options(spin_rad_s: Sequence[float] = (), **given: object) -> Setup:
    """Return the setup that options alone describe.

    Raises
    ------
    InputError
        Every fault of the combination at once.
    """
    faults = list(setup_faults({"spin_rad_s": tuple(spin_rad_s), **given}))
    if faults:
        raise InputError(faults)
    fields: dict[str, object] = {name: given[name] for name in _GUN if given.get(name) is not None}
    for name in _COUNTS:
        if name in fields:
            fields[name] = int(fields[name])  # type: ignore[call-overload]
    return Setup(tuple(spin_rad_s), **fields)  # type: ignore[arg-type]
