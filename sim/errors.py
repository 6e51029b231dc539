"""What can go wrong that is the user's to mend: the input is wrong, the question has no answer, or the machine fails.

Every other exception is a bug of ours, but for what the operating system raises. The command line turns these into
exit codes 2, 1 and 3; nothing here knows that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with the input.

    Attributes
    ----------
    where : str
        The key of a file or the parameter of a study: ``engine.mass``, ``spin_rad_s``.
    what : str
        What is wrong, what came, what is allowed: one sentence without the place and without a full stop; other
        parameters stand in it in backquotes, so that a command line can put its options there.
    file : str
        The file it stands in, or empty.
    line : int
        Its line there, counted from 1; 0 where it cannot be had.
    """

    where: str
    what: str
    file: str = ""
    line: int = 0

    def __str__(self) -> str:
        """``file:line: where: what``, leaving out what is not known."""
        place = f"{self.file}:{self.line}" if self.file and self.line else self.file
        return ": ".join(part for part in (place, self.where, self.what) if part)


class WhirlgateError(Exception):
    """Anything the user can mend."""


class InputError(WhirlgateError):
    """The input is wrong; holds every fault found, in the order of the input."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


class NoAnswerError(WhirlgateError):
    """The input is right and the question has no answer; the message says which limit was met and what to change."""


class MachineError(WhirlgateError):
    """The input is right and the machine could not do it, as with a disk that is full; the message says what to do."""


def refuse(where: str, what: str) -> NoReturn:
    """Raise `InputError` for a single fault."""
    raise InputError([Fault(where, what)])


def whole_faults(counts: Mapping[str, float | None]) -> Iterator[Fault]:
    """Yield each count that is given and not a whole number."""
    for name, count in counts.items():
        if count is not None and count % 1.0 > 0.0:
            yield Fault(name, f'must be a whole number, got "{count:g}"')


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return ``; did you mean X?`` for the known word nearest to `word`, or nothing when none is near."""
    from difflib import get_close_matches

    near = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"; did you mean {near[0]}?" if near else ""


def one_of(known: Iterable[str], came: str, *, meant: str | None = None) -> str:
    """Return what to say of a name that is none of those known, with the one `meant`, else the nearest of them."""
    known = tuple(known)
    return f'must be one of {", ".join(known)}, got "{came}"{did_you_mean(meant or came, known)}'
