"""What a timing study is asked: the gun lines of a model, changed by options, or one line made of options alone."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from sim.errors import Fault, InputError, refuse, whole_faults
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.link import DelayStage

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action

MOST_SPEEDS = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class GunOptions:
    """The options that the timing studies share; None, or no speed, for one that is not given.

    Attributes
    ----------
    powerplant : str or None
        One powerplant of the model; None for every one.
    spin_rad_s : tuple of float
        Propeller speeds, each above 0. [rad/s]
    blades : int or None
        Blades of the propeller.
    blocked_deg : float or None
        Arc that one blade blocks, margins not included, 0 to 360. [°]
    margin_deg : float or None
        Arc kept clear on each side of a blade, 0 to 180. [°]
    delay_s : float or None
        Mean time from release to passage through the disc, 0 or more. [s]
    natural_rate_per_s : float or None
        Rate of fire of the gun on its own, above 0. [1/s]
    action : str or None
        ``interrupter`` or ``impulse``.
    impulses_per_rev : int or None
        Impulses, or windows of the cam, in a turn of the propeller; divides the number of blades.
    """

    powerplant: str | None = None
    spin_rad_s: tuple[float, ...] = ()
    blades: float | None = None
    blocked_deg: float | None = None
    margin_deg: float | None = None
    delay_s: float | None = None
    natural_rate_per_s: float | None = None
    action: Action | None = None
    impulses_per_rev: float | None = None

    @property
    def describe_a_gun(self) -> bool:
        """Whether they say something of a gun line of their own."""
        return any(given is not None for given in (self.blades, self.blocked_deg, self.natural_rate_per_s))

    def faults(self, *, alone: bool, with_rate: bool = False) -> Iterator[Fault]:
        """Yield what is wrong with the options taken together.

        Parameters
        ----------
        alone : bool
            Whether no model stands behind them.
        with_rate : bool
            Whether the question needs the gun's own rate.
        """
        needed = ["spin_rad_s", "blades", "blocked_deg", *(["natural_rate_per_s"] if with_rate else [])]
        for name in needed if alone else ():
            if getattr(self, name) in (None, ()):
                yield Fault(name, "is missing; give it, or name a scenario")
        if alone and self.powerplant is not None:
            yield Fault("powerplant", "is one of a scenario, and none is named; name it, or leave the powerplant out")
        if len(self.spin_rad_s) > MOST_SPEEDS:
            yield Fault("spin_rad_s", f'must be at most {MOST_SPEEDS} speeds, got "{len(self.spin_rad_s)}"')
        yield from whole_faults({"blades": self.blades, "impulses_per_rev": self.impulses_per_rev})
        if self.blades and not self.blades % 1.0 and self.impulses_per_rev and self.blades % self.impulses_per_rev:
            allowed = f"must divide the number of blades, {self.blades:g}, so that each falls between two of them"
            yield Fault("impulses_per_rev", f'{allowed}, got "{self.impulses_per_rev:g}"')


def gun_lines(model: Model | None, options: GunOptions, *, with_rate: bool = False) -> tuple[GunLine, ...]:
    """Return the gun lines asked for: through the propeller of each powerplant of a model, or of options alone.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.
    """
    faults = list(options.faults(alone=model is None, with_rate=with_rate))
    if faults:
        raise InputError(faults)
    if model is None:
        return (_changed(GunLine((), 1, 0.0), options),)
    names = model.powerplants if options.powerplant is None else [options.powerplant]
    return tuple(_changed(model.gun_line(name), options) for name in names)


def delay_stages(
    model: Model | None, line: GunLine, *, delay_s: float | None, scatter_s: float | None
) -> tuple[DelayStage, ...]:
    """Return the model's stages of the delay, or a single one where an option gives the delay or its scatter."""
    if model is not None and delay_s is None and scatter_s is None:
        return model.delay_stages
    return (DelayStage("whole delay", line.delay_s, scatter_s or 0.0),)


def _changed(line: GunLine, options: GunOptions) -> GunLine:
    """Return the line with options in place of its values, or raise where they do not fit it."""
    changed = replace(line, **_given(options))
    if changed.blades % changed.openings == 0:
        return changed
    if options.impulses_per_rev is None:
        return replace(changed, impulses_per_rev=0)
    allowed = f"must divide the {changed.blades} blades of {changed.powerplant or 'the propeller'}"
    return refuse("impulses_per_rev", f'{allowed}, got "{changed.openings}"')


def _given(options: GunOptions) -> dict[str, Any]:
    """Return the values of a line that the options give."""
    values = {
        "spin_rad_s": options.spin_rad_s or None,
        "blades": _whole(options.blades),
        "blocked_rad": _radians(options.blocked_deg),
        "margin_rad": _radians(options.margin_deg),
        "delay_s": options.delay_s,
        "natural_rate_per_s": options.natural_rate_per_s,
        "action": options.action,
        "impulses_per_rev": _whole(options.impulses_per_rev),
    }
    return {name: value for name, value in values.items() if value is not None}


def _whole(count: float | None) -> int | None:
    return None if count is None else int(count)


def _radians(angle_deg: float | None) -> float | None:
    return None if angle_deg is None else math.radians(angle_deg)
