"""What every study answers with: one frozen object that becomes JSON, rows for a data frame and a notebook's table."""

from __future__ import annotations

import dataclasses
from math import isfinite
from typing import TYPE_CHECKING, Any, ClassVar

from sim.units.quantities import cautions_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

ASIDE = {"aside": True}
"""Metadata of a field that serves figures and drawings alone: not in JSON, nor in rows, nor in a notebook."""


class Answer:
    """What every study returns: a frozen dataclass whose fields are the keys of its JSON.

    Attributes
    ----------
    main : str
        Dotted path of the fields that lead to its main table, ``powerplants.turns``; empty where it has none.
    headline : tuple of str
        Fields that are asked for first, in that order: of the whole, else of each powerplant.
    """

    __slots__ = ()
    main: ClassVar[str] = ""
    headline: ClassVar[tuple[str, ...]] = ()

    @property
    def cautions(self) -> tuple[str, ...]:
        """What must stand wherever this answer is told: the cautions that the quantities in it bear."""
        return borne(self)

    def to_json(self) -> str:
        """Return the answer as one JSON object, its cautions last; null where there is no number."""
        cautions = {"cautions": list(self.cautions)} if self.cautions else {}
        return json_text({**plain(self), **cautions})

    def __str__(self) -> str:
        """Return the answer as JSON."""
        return self.to_json()

    def records(self) -> list[dict[str, Any]]:
        """Return the rows of the main table, or the whole as one row, for a data frame.

        Notes
        -----
        A row says in its first columns where it stands: the key or the texts of what holds it. A result inside a row
        has dotted names, the items of a list of results are numbered from 1; plain lists stay lists.
        """
        levels = [level for level in self.main.split(".") if level]
        return [{**place, **_flat(row)} for place, row in _rows(plain(self), levels, {})]

    def _repr_html_(self) -> str:
        """Return the answer as HTML: numbers in SI with their units, every text escaped, the cautions below."""
        from sim.answer_html import html

        return html(self)


def borne(results: object) -> tuple[str, ...]:
    """Return the cautions that the quantities in a result, or in several by name, bear."""
    return cautions_of(set(_names(plain(results))))


def json_text(value: object) -> str:
    """Return plain values as JSON, as every command writes it."""
    import json

    return json.dumps(value, ensure_ascii=False, indent=1, allow_nan=False)


def fields_of(value: Any) -> dict[str, Any]:  # noqa: ANN401
    """Return the fields of a result that leave it as JSON or as a table: all but those marked `ASIDE`."""
    if not dataclasses.is_dataclass(value):
        return {"": str(value)}
    fields = (field for field in dataclasses.fields(value) if not field.metadata.get("aside"))
    return {field.name: getattr(value, field.name) for field in fields}


def plain(value: Any) -> Any:  # noqa: ANN401
    """Return a result as dictionaries, lists, texts and numbers, None where a number is not finite."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {name: plain(item) for name, item in fields_of(value).items()}
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if hasattr(value, "tolist"):
        return plain(value.tolist())
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    if isinstance(value, float) and not isfinite(value):
        return None
    return value


def _names(value: Any) -> Iterator[str]:  # noqa: ANN401
    """Yield every name in a plain result, however deep."""
    if isinstance(value, dict):
        yield from value
        yield str(value.get("name", ""))  # a column or a symbol that stands for a quantity
    for item in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        if isinstance(item, dict | list):
            yield from _names(item)


def _rows(value: Any, levels: list[str], place: dict[str, Any]) -> Iterator[tuple[dict[str, Any], Any]]:  # noqa: ANN401
    """Yield each row below the fields named, and the columns that say where it stands."""
    if not levels:
        yield place, value
        return
    level, *rest = levels
    for key, row in _items(value[level]):
        named = {level.removesuffix("s"): key} if key else {}
        texts = {name: text for name, text in row.items() if isinstance(text, str)} if rest else {}
        inner = {f"{level}.{name}" if name in place else name: text for name, text in texts.items()}
        yield from _rows(row, rest, {**place, **named, **inner})


def _items(rows: Any) -> Iterable[tuple[str, Any]]:  # noqa: ANN401
    return rows.items() if isinstance(rows, dict) else (("", row) for row in rows)


def _flat(value: dict[str, Any], under: str = "") -> dict[str, Any]:
    """Return a plain result as one row with dotted names."""
    row: dict[str, Any] = {}
    for name, item in value.items():
        if isinstance(item, list) and any(isinstance(one, dict) for one in item):
            item = {str(number): one for number, one in enumerate(item, 1)}
        row |= _flat(item, f"{under}{name}.") if isinstance(item, dict) else {f"{under}{name}": item}
    return row
