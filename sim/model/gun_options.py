"""What a timing study is asked: the gun lines of a scenario, changed by options, or one of options alone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.errors import InputError, did_you_mean, refuse
from sim.model.gun_line import Setup, setup_of
from sim.model.timing_faults import alone, setup_faults
from sim.scenario.reading import DEMO, load

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sim.scenario.tables import Scenario

_GUN = ("blades", "blocked_rad", "margin_rad", "delay_s", "natural_rate_per_s", "action", "impulses_per_rev")
_COUNTS = ("blades", "impulses_per_rev")


def source(given: Mapping[str, object]) -> Scenario | None:
    """Return the scenario that a command's options name, the bundled one where they name none, None for a gun alone.

    Raises
    ------
    InputError
        Every fault of the file at once.
    """
    if alone(given):
        return None
    name, settings = given.get("scenario"), given.get("settings")
    return load(str(name or DEMO), settings if isinstance(settings, tuple | list) else ())


def setups(
    *,
    loaded: Scenario | None = None,
    scenario: str | None = None,
    settings: Sequence[str] = (),
    powerplant: str | None = None,
    spin_rad_s: Sequence[float] = (),
    sweep: int = 0,
    **given: object,
) -> list[Setup]:
    """Return the gun lines asked for: of each powerplant of a scenario, changed by options, or of options alone.

    Parameters
    ----------
    loaded : Scenario, optional
        A scenario that is read already.
    scenario : str, optional
        File or bundled name; without it, and without a gun among the options, the bundled demonstration.
    settings : sequence of str
        ``table.key=value`` each.
    powerplant : str, optional
        One powerplant of the scenario; without it every one.
    spin_rad_s : sequence of float
        Propeller speeds; without them idle, cruise and full speed of each powerplant. [rad/s]
    sweep : int
        Where no speeds are given: so many even steps from idle to full speed.
    given : object
        Further fields of `Setup`, in the place of the scenario's.

    Raises
    ------
    InputError
        Every fault at once.
    """
    options = {name: given[name] for name in _GUN if given.get(name) is not None}
    found = loaded or source({"scenario": scenario, "settings": settings, **given})
    if found is None:
        faults = list(setup_faults({"spin_rad_s": tuple(spin_rad_s), **given}))
        if faults:
            raise InputError(faults)
        return [_changed(Setup(tuple(spin_rad_s), 1, 0.0), options)]
    return [
        _changed(setup_of(found, name, spin_rad_s=spin_rad_s, sweep=sweep), options)
        for name in chosen(found, powerplant)
    ]


def chosen(scenario: Scenario, powerplant: str | None) -> list[str]:
    """Return the name of the powerplant asked for, or all of them.

    Raises
    ------
    InputError
        When the scenario has none of that name.
    """
    if powerplant is None:
        return list(scenario.powerplant)
    if powerplant not in scenario.powerplant:
        known = " or ".join(scenario.powerplant)
        near = did_you_mean(powerplant, scenario.powerplant)
        refuse("--powerplant", f'must be {known}, got "{powerplant}"{near}')
    return [powerplant]


def _changed(setup: Setup, options: Mapping[str, object]) -> Setup:
    """Return the setup with options in the place of its fields, or raise what does not fit together."""
    counts = {name: int(value) for name, value in options.items() if name in _COUNTS}  # type: ignore[call-overload]
    changed = replace(setup, **{**options, **counts})
    if changed.blades % changed.openings:
        if "blades" in options and "impulses_per_rev" not in options:
            return replace(changed, impulses_per_rev=0)
        where = "--impulses-per-rev" if "impulses_per_rev" in options else "gun.impulses_per_rev"
        refuse(
            where,
            f"must divide the {changed.blades} blades of {changed.powerplant or 'the propeller'}, got "
            f'"{changed.openings}"',
        )
    return changed
