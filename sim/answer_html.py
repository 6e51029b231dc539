"""An answer as a notebook shows it: nested tables of what stands in it."""

from __future__ import annotations

import dataclasses
from html import escape
from math import isfinite
from typing import TYPE_CHECKING, Any

from sim.answer import fields_of
from sim.units.quantities import known

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.answer import Answer

MOST_ROWS = 200
"""Of one list that are shown in a notebook; the rest are counted."""


def html(answer: Answer) -> str:
    """Return an answer as HTML: numbers in SI with their units, every text escaped, the cautions below."""
    return _shown(answer) + "".join(f"<p>{escape(caution)}</p>" for caution in answer.cautions)


def _shown(value: Any) -> str:  # noqa: ANN401
    if isinstance(value, str | bool) or value is None:
        return escape("" if value is None else str(value))
    if isinstance(value, float | int):
        return f"{value:.6g}" if isfinite(value) else ""
    if hasattr(value, "tolist"):
        return _shown(value.tolist())
    if isinstance(value, list | tuple):
        return _listed(list(value))
    pairs = value.items() if isinstance(value, dict) else fields_of(value).items()
    rows = "".join(f"<tr>{_head(str(name))}<td>{_shown(item)}</td></tr>" for name, item in pairs)
    return f"<table>{rows}</table>"


def _listed(items: list[Any]) -> str:
    """Return plain values side by side, and results of one kind as a table with a row each."""
    rest = f"<p>and {len(items) - MOST_ROWS} more</p>" if len(items) > MOST_ROWS else ""
    shown = items[:MOST_ROWS]
    if not any(dataclasses.is_dataclass(item) for item in shown):
        return ", ".join(map(_shown, shown)) + rest
    rows = [fields_of(item) for item in shown]
    names = list(dict.fromkeys(name for row in rows for name in row))
    body = (_row(row.get(name) for name in names) for row in rows)
    return f"<table><tr>{''.join(map(_head, names))}</tr>{''.join(body)}</table>{rest}"


def _row(values: Iterable[Any]) -> str:
    return f"<tr>{''.join(f'<td>{_shown(value)}</td>' for value in values)}</tr>"


def _head(name: str) -> str:
    found = known(name)
    unit = f" [{escape(found.unit)}]" if found and found.unit else ""
    meaning = f' title="{escape(found.meaning)}"' if found else ""
    return f'<th scope="row"{meaning}>{escape(name)}{unit}</th>'
