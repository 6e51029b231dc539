"""What differs between two answers, as a table behind the sheet of the first."""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from math import ceil, log10
from typing import TYPE_CHECKING, Any

from sim.answer import plain
from sim.difference import Difference
from sim.units.quantities import known
from viz.sheets.angles import in_a_turn
from viz.sheets.blocks import Value, listed, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from sim.difference import Alone, Differences, Scalar
    from sim.pairing import Place
    from viz.sheets.blocks import Block, Cell

    Row = tuple[Difference, list[Place], float]

MOST = 40
"""Rows of the table."""
KINDS = 8
"""Quantities that a table has room for at least."""
LETTERS = 40
"""Of a text that has room in the table."""
COMPONENTS = {
    "force_n": ("ahead", "right", "down"),
    "moment_n_m": ("roll", "pitch", "yaw"),
    "place_m": ("ahead", "right", "down"),
}
"""Part of the name of a quantity -> what its three numbers are of."""
ENGINES = ("powerplants.", "hung.")
"""Paths of what belongs to one powerplant."""
BY_NAME = (
    "Engines are compared by their names: where several have other names, one to be compared needs the same in both."
)
LISTS = ("remarks", "positions", "outside", "outside_at_target", "stands_by")
"""Fields of which nobody asks whether one answer alone has an entry."""
LONGER = "{count} longer texts"
PLACES, NAMES = 3, 8
"""Places of one value, and names of what stands in one answer alone, that are told; the rest are counted."""
FINEST = 6
"""Most significant digits, where fewer would print both values alike."""
PLACE_DIGITS = 4
"""Of a speed, a time or an angle that says where."""
SMALL = 1e-3
"""Share of the largest value of a quantity below which a value is compared with that share: nothing beside nothing."""
ROUNDING = 1e-9
"""Share of the largest value of a quantity that is the rounding error of the computation."""


def called(first: str, against: str | None, settings: Iterable[str]) -> str:
    """Return what to call the other airplane: ``tollgate with wing.span=30 ft``."""
    return " with ".join(part for part in (against or first, ", ".join(settings)) if part)


def sheet(answer: Differences, other: Cell = "the other") -> Iterator[Block]:
    """Yield what differs, as a table or as the sentence that nothing does."""
    yield table(answer, say("Against {other}", other=other))


def table(answer: Differences, title: Cell, *, most: int = MOST, repeated: bool = False) -> Block:
    """Return what differs as a table, and below it what stands in one answer alone.

    Parameters
    ----------
    answer : Differences
        Of two answers.
    title : Cell
        Title of the table.
    most : int
        Rows of the table; the rest are counted.
    repeated : bool
        Whether the meaning of a quantity stands in each of its rows, not in the first alone.
    """
    every = [row for row in _merged(answer) if row[2] > ROUNDING]
    found = [row for row in every if row[2] > _unseen(row[0].name)]
    shown = _chosen(found, most)
    if not (answer.differences or answer.curves or answer.alone):
        return say("{title}: no difference.", title=title)
    heads = ("Quantity", "Of", "This", "Other", "Difference")
    note = (
        "Difference: the other less this one, + where the other has more. First what the sheet is asked for, then "
        "values of the whole, then the largest relative differences."
    )
    curves = ("Of a curve the largest difference is told, and where it is.",) if answer.curves else ()
    notes = (note, *curves, *_counted(answer, len(every) - len(shown)))
    notes = (*notes, *_paired(answer.engines), *_alone(answer.alone))
    return rows(title, heads, _lines(shown, _whole(answer), repeated=repeated), *notes)


def _whole(answer: Differences) -> str:
    """Return what the values of the whole are of where that is not the same: the powerplant of each answer."""
    names = dict.fromkeys(getattr(one, "powerplant", "") for one in (answer.answer, answer.against))
    return " / ".join(names) if len(names) > 1 and all(isinstance(name, str) for name in names) else ""


def _chosen(found: list[Row], most: int) -> list[Row]:
    """Return so many rows: first a few of each quantity, so that none crowds out the others, then whichever follow."""
    by_name: dict[str, int] = {}
    early, late = list[int](), list[int]()
    for place, (one, _, _) in enumerate(found):
        by_name[one.name] = by_name.get(one.name, 0) + 1
        (early if by_name[one.name] <= most // KINDS else late).append(place)
    return [found[place] for place in sorted([*early, *late][:most])]


def _merged(answer: Differences) -> list[Row]:
    """Return what has room in a table, values alike together, each with its places and its relative difference.

    What the answer is asked for comes first, then values of the whole airplane, then the others, each with the largest
    relative differences first.
    """
    fitting = [one for one in answer.differences if not one.curve and _short(one.first) and _short(one.second)]
    fitting += [Difference(c.path, c.name, c.first, c.second, c.difference, c.place) for c in answer.curves]
    largest = {name: max(abs(number) for number in own) for name, own in _numbers(answer).items()}
    alike: dict[tuple[str, Scalar, Scalar], list[Difference]] = {}
    for one in fitting:
        alike.setdefault((one.name, one.first, one.second), []).append(one)
    ranked = [(group[0], _places(group), _relative(group[0], largest)) for group in alike.values()]
    return sorted(ranked, key=lambda row: (_asked(row, answer), all(row[1]), -row[2]))


def _asked(row: Row, answer: Differences) -> int:
    """Return where a value stands among what its answer is asked for; behind all of it where it is none of that."""
    headline, (one, places, _) = answer.answer.headline, row
    engines = {*getattr(answer.answer, "powerplants", ()), *getattr(answer.answer, "hung", ())}
    own = any(not place or [value for _, value in place] in ([name] for name in engines) for place in places)
    return headline.index(one.name) if own and one.name in headline else len(headline)


def _unseen(name: str) -> float:
    """Return the relative difference that no sheet shows: a tenth of one unit of the last digit of a quantity."""
    found = known(name)
    return float(max(ROUNDING, 10.0 ** -((found.digits if found else 3) + 1)))


def _short(value: Scalar) -> bool:
    return not isinstance(value, str) or len(value) <= LETTERS


def _places(group: list[Difference]) -> list[Place]:
    return [one.place for one in group]


def _numbers(answer: Differences) -> dict[str, list[float]]:
    """Return the numbers of both answers by the names of their fields."""
    found: dict[str, list[float]] = {}
    waiting: list[tuple[str, Any]] = [("", plain(answer.answer)), ("", plain(answer.against))]
    while waiting:
        name, value = waiting.pop()
        if isinstance(value, dict | list):
            waiting += value.items() if isinstance(value, dict) else [(name, item) for item in value]
        elif isinstance(value, float | int):
            found.setdefault(name, []).append(float(value))
    return found


def _size(one: Difference) -> float:
    """Return the larger of two numbers without their signs; 0 for words."""
    return max((abs(x) for x in (one.first, one.second) if isinstance(x, float | int)), default=0.0)


def _relative(one: Difference, largest: dict[str, float]) -> float:
    """Return a difference over the larger value; 1 for words and for what only one of the two has."""
    if one.difference is None:
        return 1.0
    return abs(one.difference) / max(_size(one), SMALL * largest.get(one.name, 0.0))


def _lines(found: Iterable[Row], whole: str, *, repeated: bool) -> Iterator[tuple[Cell, ...]]:
    """Yield a line for each value, those of one quantity together under its meaning."""
    by_name: dict[str, list[tuple[Cell, ...]]] = {}
    for one, places, _ in found:
        own = by_name.setdefault(one.name, [])
        own.append(("" if own and not repeated else _meaning(one), _where(one, places, whole), *_values(one)))
    for lines in by_name.values():
        yield from lines


def _meaning(one: Difference) -> str:
    found = known(one.name)
    number = any(isinstance(value, float | int) and not isinstance(value, bool) for value in (one.first, one.second))
    return found.meaning if found and number else one.name.replace("_", " ")


def _values(one: Difference) -> Iterator[Cell]:
    """Yield both values and their difference; counts are whole."""
    one = in_a_turn(one)
    numbers = (one.first, one.second, one.difference)
    whole = 0 if all(isinstance(number, int) for number in numbers) else None
    yield from (_cell(one.name, value, _digits(one), whole) for value in numbers[:2])
    yield "" if one.difference is None else Value(one.name, one.difference, decimals=whole, change=True)


def _cell(name: str, value: Scalar, digits: int | None, decimals: int | None) -> Cell:
    if value is None or value == "":
        return "–"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else Value(name, value, digits=digits, decimals=decimals)


def _digits(one: Difference) -> int | None:
    """Return as many digits as tell the two values apart, None where those of the quantity do."""
    if not one.difference:
        return None
    found = known(one.name)
    return min(FINEST, max(found.digits if found else 3, ceil(log10(_size(one) / abs(one.difference))) + 1))


def _where(one: Difference, every: list[Place], whole: str) -> Cell:
    places = [place for place in every if place]
    if not places:
        return whole if one.difference is not None else ""
    told = [listed(_parts(_worded(one.name, place)), ", ") for place in places[:PLACES]]
    return listed([*told, *_more(len(places) - PLACES)])


def _more(count: int) -> Iterator[Cell]:
    if count > 0:
        yield say("and {count} more", count=str(count))


def _worded(name: str, place: Place) -> Place:
    """Return a place with the components of a force, a moment or a position by their words, not their numbers."""
    *before, (kind, number) = place
    words = next((words for part, words in COMPONENTS.items() if part in name), None)
    if words is None or kind or not isinstance(number, int) or not 1 <= number <= len(words):
        return place
    return (*before, ("", words[number - 1]))


def _parts(place: Place) -> Iterator[Cell]:
    for pattern, parts in groupby(place, key=lambda part: part[0].endswith("_per_pattern")):
        if pattern:
            yield " : ".join(str(value) for _, value in parts)
        else:
            yield from (_part(name, value) for name, value in parts)


def _part(name: str, value: Scalar) -> Cell:
    if not name or not isinstance(value, float | int):
        return str(value)
    return Value(name, value, digits=PLACE_DIGITS, plain=True, signed=bool((own := known(name)) and own.signs))


def _counted(answer: Differences, further: int) -> Iterator[Cell]:
    """Yield how much is left out."""
    curves = sum(one.curve for one in answer.differences)
    texts = sum(not (one.curve or (_short(one.first) and _short(one.second))) for one in answer.differences)
    counts = ((further, "{count} further differences"), (curves, "{count} points of curves"), (texts, LONGER))
    told = [say(what, count=str(count)) for count, what in counts if count > 0]
    if told:
        yield say("Not shown, but in the JSON object of the command: {counts}.", counts=listed(told, ", "))


def _paired(engines: Mapping[str, str]) -> Iterator[Cell]:
    """Yield which engines of unlike names are compared."""
    for theirs, ours in engines.items():
        yield say("Engine {theirs} of the other is compared with {ours} of this.", theirs=theirs, ours=ours)


def _alone(alone: Iterable[Alone]) -> Iterator[Cell]:
    """Yield what stands in one answer alone."""
    several = tuple(one for one in alone if not any(value in LISTS for _, value in one.place))
    if len({one.in_first for one in several if one.path.startswith(ENGINES)}) > 1:
        yield BY_NAME
    for in_first, told in ((True, "In this one alone: {names}."), (False, "In the other alone: {names}.")):
        own = _outermost(one.place for one in several if one.in_first is in_first)
        if own:
            names = [listed(_parts(_spelled(place)), ", ") for place in own[:NAMES]]
            yield say(told, names=listed([*names, *_more(len(own) - NAMES)]))


def _spelled(place: Place) -> Place:
    """Return a place with the meaning of a quantity where its name stands."""
    keys = ((name, value, None if name else known(str(value))) for name, value in place)
    return tuple((name, key.meaning if key else value) for name, value, key in keys)


def _outermost(places: Iterable[Place]) -> list[Place]:
    """Return the places, each once, without those that lie in another; what stands in several by its own name alone."""
    by_values = {tuple(value for _, value in place): place for place in places}
    outer = [
        place
        for values, place in by_values.items()
        if not any(values[:end] in by_values for end in range(1, len(values)))
    ]
    count = Counter(place[-1][1] for place in outer)
    told = {place[-1][1] if count[place[-1][1]] > 1 else place: place for place in outer}
    return [place[-1:] if count[place[-1][1]] > 1 else place for place in told.values()]
