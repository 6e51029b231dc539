"""What may be wrong with timing options taken together, and when they stand alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

MOST_SPEEDS = 100_000
ALONE = ("blades", "blocked_rad", "natural_rate_per_s")
NEEDED = {"spin_rad_s": "--rpm", "blades": "--blades", "blocked_rad": "--blocked-deg"}
NEEDED_FOR_RATE = {**NEEDED, "natural_rate_per_s": "--gun-rate"}
_COUNTS = {"blades": "--blades", "impulses_per_rev": "--impulses-per-rev"}


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


def alone(given: Mapping[str, object]) -> bool:
    """Return whether options describe the gun line by themselves: no scenario is named and one of them is the gun's."""
    named = given.get("scenario") is not None or bool(given.get("settings"))
    return not named and any(given.get(name) is not None for name in ALONE)


def option_faults(given: Mapping[str, object], needed: Mapping[str, str] = NEEDED) -> Iterator[Fault]:
    """Yield what is wrong with a command's timing options, with a scenario or alone."""
    yield from setup_faults(given, needed if alone(given) else {})
