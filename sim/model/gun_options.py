"""What a timing study is asked: the gun lines of a model, changed by options, or one line made of options alone."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from sim.errors import Fault, InputError, whole_faults
from sim.model.cam import CamKeys, is_ratio, whole_ratio, with_cam
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.leak import TIGHT
from sim.synchronizer.link import DelayDeviation, DelayStage, spread

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
        Mean time from cam to passage through the disc, 0 or more. [s]
    natural_rate_per_s : float or None
        Rate of fire of the gun on its own, above 0. [1/s]
    action : str or None
        ``interrupter`` or ``impulse``.
    impulses_per_rev : float or None
        Impulses, or windows of the cam, in a turn of the propeller: a whole number, or a ratio such as 1/2 for one in
        two turns. Where the blades that pass from one to the next are no whole number, some windows meet a blade.
    dwell_deg : float or None
        Turn of the propeller for which the cam is open, 0 to 360; without it that of the model, or the whole clear
        arc where `opens_deg` is given. [°]
    opens_deg : float or None
        Propeller angle at which it opens, 0 with blade 1 on the bore line; without it that of the model where the
        dwell is the model's, or the best one. [°]
    ideal : bool
        Whether the cam is the ideal one, fitted to each speed, in place of the model's, which is cut once for its first
        powerplant. Without a model and without a dwell or an opening it is.
    scatter_s : float or None
        Standard deviation of the whole delay, in place of the model's stages; the best opening makes room for it. [s]
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
    dwell_deg: float | None = None
    opens_deg: float | None = None
    ideal: bool = False
    scatter_s: float | None = None

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
        yield from whole_faults({"blades": self.blades})
        impulses = self.impulses_per_rev
        if impulses is not None and math.isfinite(impulses) and not is_ratio(impulses):
            allowed = "must be a whole number, or a ratio of whole numbers as in 1/2"
            yield Fault("impulses_per_rev", f'{allowed}, got "{impulses:g}"')
        if self.ideal and not (self.dwell_deg is None and self.opens_deg is None):
            yield Fault("ideal", "fits the cam to each speed; leave out `dwell_deg` and `opens_deg`, or `ideal`")


@dataclass(frozen=True, slots=True)
class AskedLines:
    """The gun lines of a question.

    Attributes
    ----------
    lines : tuple of GunLine
        Each at the speeds asked for, with its cam; None in its place is the ideal one.
    cut_for : GunLine
        That behind the engine for which the cam is cut, at the speeds of its whole range.
    keys : CamKeys or None
        What is said of the cam; None for the ideal one.
    delay_sd : DelayDeviation
        Standard deviation of the delay for which the best opening makes room.
    """

    lines: tuple[GunLine, ...]
    cut_for: GunLine
    keys: CamKeys | None
    delay_sd: DelayDeviation


def gun_lines(model: Model | None, options: GunOptions, *, with_rate: bool = False) -> tuple[GunLine, ...]:
    """Return the gun lines asked for, as `asked_lines` does."""
    return asked_lines(model, options, with_rate=with_rate).lines


def asked_lines(model: Model | None, options: GunOptions, *, with_rate: bool = False) -> AskedLines:
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
        lines: tuple[GunLine, ...] = (_changed(GunLine((), 1, 0.0), options),)
        first = lines[0]
    else:
        names = model.powerplants if options.powerplant is None else [options.powerplant]
        lines = tuple(_changed(model.gun_line(name, ideal=True), options) for name in names)
        first = _changed(model.gun_line(ideal=True), replace(options, spin_rad_s=()))
    stages = delay_stages(model, first, delay_s=options.delay_s, scatter_s=options.scatter_s)
    sd, keys = spread(stages, 1.0).root_sum_square, None if options.ideal else _keys(model, options)
    if keys is None:
        return AskedLines(lines, first, None, sd)
    return AskedLines(with_cam(lines, first, keys, sd), with_cam((first,), first, keys, sd)[0], keys, sd)


def _keys(model: Model | None, options: GunOptions) -> CamKeys | None:
    """Return what model and options say of the cam; None where neither says anything."""
    said = model.cam_keys if model else None
    dwell_rad, opens_rad = _radians(options.dwell_deg), _radians(options.opens_deg)
    if said is None and dwell_rad is None and opens_rad is None:
        return None
    keys = said or CamKeys(dwell_rad=None)
    if options.impulses_per_rev is not None:
        keys = replace(keys, windows_rad=(), period_turns=1)
    if dwell_rad is not None:
        keys = replace(keys, dwell_rad=dwell_rad, opens_rad=None, said_in="dwell_deg")
    return keys if opens_rad is None else replace(keys, opens_rad=opens_rad, from_vertical=False)


def delay_stages(
    model: Model | None, line: GunLine, *, delay_s: float | None, scatter_s: float | None
) -> tuple[DelayStage, ...]:
    """Return the model's stages of the delay, or a single one where an option gives the delay or its scatter."""
    if model is not None and delay_s is None and scatter_s is None:
        return model.delay_stages
    return (DelayStage("whole delay", line.delay_s, scatter_s or 0.0, line.delay_rad, leak=line.leak),)


def _changed(line: GunLine, options: GunOptions) -> GunLine:
    """Return the line with options in place of its values.

    Another number of blades takes as many impulses as blades, unless the options give the impulses as well.
    """
    changed = replace(line, **_given(options))
    if options.blades is None or options.impulses_per_rev is not None or changed.blades == line.blades:
        return changed
    return replace(changed, impulses_per_rev=0)


def _given(options: GunOptions) -> dict[str, Any]:
    """Return the values of a line that the options give."""
    values = {
        "spin_rad_s": options.spin_rad_s or None,
        "blades": _whole(options.blades),
        "blocked_rad": _radians(options.blocked_deg),
        "margin_rad": _radians(options.margin_deg),
        "delay_s": options.delay_s,
        "delay_rad": None if options.delay_s is None else 0.0,
        "leak": None if options.delay_s is None else TIGHT,
        "natural_rate_per_s": options.natural_rate_per_s,
        "action": options.action,
        "impulses_per_rev": None if options.impulses_per_rev is None else whole_ratio(options.impulses_per_rev),
    }
    return {name: value for name, value in values.items() if value is not None}


def _whole(count: float | None) -> int | None:
    return None if count is None else int(count)


def _radians(angle_deg: float | None) -> float | None:
    return None if angle_deg is None else math.radians(angle_deg)
