"""A sentence that keeps what it was made of, so that it can be told in another language as well."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence


class Told(str):
    """English words with their values filled in: a text like any other, whose template and values are still there.

    Attributes
    ----------
    template : str
        With its slots open, ``the {part} meets the {other}``.
    values : mapping of str to str
        What fills them.
    """

    __slots__ = ("template", "values")
    template: str
    values: Mapping[str, str]

    def __reduce__(self) -> tuple[Callable[..., Told], tuple[str, dict[str, str]]]:
        """Return how to make it again in another process."""
        return _again, (self.template, dict(self.values))


def told(template: str, **values: Any) -> Told:  # noqa: ANN401
    """Return a sentence with its slots filled.

    Examples
    --------
    >>> told("the {part} meets the {other}", part="cam", other="base")
    'the cam meets the base'
    """
    return _again(template, {name: value if isinstance(value, str) else str(value) for name, value in values.items()})


def together(parts: Sequence[str], between: str) -> str:
    """Return several texts as one, each told on its own; what stands between is a phrase as they are.

    Examples
    --------
    >>> together(["pilot", "full tanks"], ", ")
    'pilot, full tanks'
    """
    if len(parts) == 1:
        return parts[0]
    slots = {f"part{place}": part for place, part in enumerate(parts)}
    return _again("{between}".join(f"{{{name}}}" for name in slots), {**slots, "between": between})


def in_series(parts: Sequence[str]) -> str:
    """Return parts one after another, the last behind an "and"; a language puts its own marks between them.

    Examples
    --------
    >>> in_series(["cam", "spring", "roller"])
    'cam, spring and roller'
    """
    *before, last = parts
    return together([together(before, ", "), last], " and ") if before else last


def _again(template: str, values: Mapping[str, str]) -> Told:
    made = Told(template.format(**values))
    made.template, made.values = template, values
    return made
