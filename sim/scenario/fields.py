"""The kinds of key a table may have. A key's unit, limits and meaning are said here once: reader and schema use them.

A table's attribute holds SI and its unit stands in its name; the key in the file is the same without the unit:
``span_m`` is written ``span = "28 ft 1 in"``.
"""

from __future__ import annotations

import re
from dataclasses import KW_ONLY, dataclass
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, NoReturn, get_args, get_origin

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import PydanticCustomError, core_schema

from sim.errors import InputError, did_you_mean
from sim.units.limits import in_words
from sim.units.parsing import Allowed, Measured, quoted, read, unit_of
from sim.units.quantities import kinds

if TYPE_CHECKING:
    from collections.abc import Collection

    from pydantic.fields import FieldInfo
    from pydantic_core.core_schema import CoreSchema, ValidationInfo


def key_of(attribute: str) -> str:
    """Return the key in the file for an attribute of a table: its name without the unit."""
    return _ending().sub("", attribute)


@cache
def _ending() -> re.Pattern[str]:
    endings = sorted((kind.suffix for kind in kinds().values() if kind.suffix), key=len, reverse=True)
    return re.compile(f"_(?:{'|'.join(endings)})$")


def told(*faults: tuple[str | tuple[str | int, ...], str]) -> NoReturn:
    """Raise, inside a table's validation, one or more faults as (key below here or empty, sentence)."""
    kind = "told"
    raise PydanticCustomError(kind, kind, {"faults": faults})


class ScenarioTable(BaseModel):
    """A TOML table: its keys are those declared, no others; frozen once read."""

    model_config = ConfigDict(alias_generator=key_of, extra="forbid", frozen=True, defer_build=True)

    @classmethod
    def foreign(cls, keys: Collection[str]) -> str | None:  # noqa: ARG003
        """Return what a file with these keys is in the place of this one, None where nothing is known against it."""
        return None

    @classmethod
    def unknown(cls, key: str) -> str | None:  # noqa: ARG003
        """Return why a key that the table does not have is refused, None where it is merely unknown."""
        return None


@dataclass(frozen=True, slots=True)
class Given:
    """A quantity, ratio or coefficient.

    Attributes
    ----------
    unit : str
        SI unit of the attribute; ``1`` for a ratio or coefficient, which is written as a plain number.
    meaning : str
        What it is, in the trade's words; which way is positive.
    example : str
        As the trade would write it.
    above, least, below, most : float or None
        Limits in SI.
    smallest : str
        The least above 0 that can be meant, as written; empty for that of its kind in the table of quantities.
    bare : str or None
        Unit in which a number without one is taken.
    under : str
        An attribute declared earlier in the same table that this one may reach but not exceed.
    short_of : str
        One that this one may not even reach.
    """

    unit: str
    meaning: str
    _: KW_ONLY
    example: str = ""
    above: float | None = None
    least: float | None = None
    below: float | None = None
    most: float | None = None
    smallest: str = ""
    bare: str | None = None
    under: str = ""
    short_of: str = ""

    @property
    def allowed(self) -> Allowed:
        """The unit and limits for the reader."""
        return Allowed(
            self.unit,
            above=self.above,
            least=self.least,
            below=self.below,
            most=self.most,
            smallest=self.smallest,
            bare=self.bare,
            example=self.example,
        )

    @property
    def shown(self) -> str:
        """How to write one."""
        return self.example or kinds()[self.unit].example

    def measured(self, value: object) -> Measured:
        """Return what was written, or tell what is wrong with it."""
        try:
            return read(value, self.allowed, key="")
        except InputError as error:
            told(("", error.faults[0].what))

    def _read(self, value: object, info: ValidationInfo) -> float | None:
        if value is None:  # a default that a rule of the table looks at
            return None
        found = self.measured(value).value
        most, below = info.data.get(self.under), info.data.get(self.short_of)
        if most is not None and found > most:
            told(("", f"must be at most the {key_of(self.under)} of this table, got {quoted(value)}"))
        if below is not None and found >= below:
            told(("", f"must be below the {key_of(self.short_of)} of this table, got {quoted(value)}"))
        return found

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:  # noqa: ANN401
        return core_schema.with_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, _schema: CoreSchema, _handler: GetJsonSchemaHandler) -> dict[str, Any]:
        limits = in_words(self.allowed, unit_of(self.shown, self.allowed))
        said: dict[str, Any] = {
            "description": f"{self.meaning}{f' ({limits})' if limits else ''}",
            "examples": [self.shown],
            "x-unit": self.unit,
        }
        if self.unit != "1":
            return {"type": ["string", "number"] if self.bare else "string", **said}
        bounds = {"exclusiveMinimum": self.above, "minimum": self.least}
        bounds |= {"exclusiveMaximum": self.below, "maximum": self.most}
        given = {name: bound for name, bound in bounds.items() if bound is not None}
        said["examples"] = [float(self.shown)]
        return {"type": ["number", "string"], **given, **said}


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number: cylinders, blades."""

    meaning: str
    _: KW_ONLY
    least: int = 1
    most: int = 100
    example: int = 2

    unit = "1"

    @property
    def shown(self) -> str:
        """How to write one."""
        return str(self.example)

    def _read(self, value: object) -> int:
        text = value.strip() if isinstance(value, str) else value
        whole = isinstance(text, int) and not isinstance(text, bool)
        if not whole and not (isinstance(text, str) and re.fullmatch("[0-9]{1,9}", text)):
            told(("", f"must be a whole number from {self.least} to {self.most}, got {quoted(value)}"))
        if not self.least <= int(text) <= self.most:  # type: ignore[call-overload]
            told(("", f"must be {self.least} to {self.most}, got {quoted(value)}"))
        return int(text)  # type: ignore[call-overload,no-any-return]

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:  # noqa: ANN401
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, _schema: CoreSchema, _handler: GetJsonSchemaHandler) -> dict[str, Any]:
        bounds = {"minimum": self.least, "maximum": self.most}
        return {"type": "integer", **bounds, "description": self.meaning, "examples": [self.example], "x-unit": "1"}


@dataclass(frozen=True, slots=True)
class ShortText:
    """One of a few words; without choices any short text on one line."""

    meaning: str
    choices: tuple[str, ...] = ()
    example: str = ""
    most: int = 200

    @property
    def shown(self) -> str:
        """How to write one."""
        return self.example or self.choices[0]

    def _read(self, value: object) -> str:
        if self.choices and value not in self.choices:
            near = did_you_mean(value, self.choices) if isinstance(value, str) else ""
            told(("", f"must be {' or '.join(self.choices)}, got {quoted(value)}{near}"))
        if not isinstance(value, str) or not value.strip() or len(value) > self.most or not value.isprintable():
            told(("", f"must be text of 1 to {self.most} letters on one line, got {quoted(value)}"))
        return value

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:  # noqa: ANN401
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, _schema: CoreSchema, _handler: GetJsonSchemaHandler) -> dict[str, Any]:
        said = {"description": self.meaning, "examples": [self.shown]}
        return {"enum": list(self.choices), **said} if self.choices else {"type": "string", "minLength": 1, **said}


def entry_of(field: FieldInfo) -> Given | None:
    """Return what the entries of a key may be that holds a table of quantities, ``attitude`` or ``group``."""
    for part in get_args(field.annotation):
        if get_origin(part) is Annotated:
            return next((mark for mark in part.__metadata__ if isinstance(mark, Given)), None)
    return None


Key = Given | Count | ShortText
"""What a key of a table may be declared as."""
