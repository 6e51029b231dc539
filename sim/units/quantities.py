"""The table of quantities: what each name means, its symbol, its units, the words for its sign and its caution.

Scenario fields, sheets, axes, reports, the notebook and JSON read it; a test refuses a public numeric name that is not
in it. The rows are in ``quantities.toml`` beside this file, one line each, so that they can be read, sorted and
searched without reading Python; a run reads them once, when the first is asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import tomli

from sim.told import told
from sim.units.registry import ratio, zero

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

System = Literal["us", "si"]
"""Units a reader asks for: those of a shop that works in feet and pounds, or SI."""

SHORTEST_ROW = 2
"""Symbol and meaning."""
BAND_ENDS = ("lower end of the 90 % band: {of}", "upper end of the 90 % band: {of}")
_SUPERSCRIPTS = {f"^{digit}": power for digit, power in zip("2345", "²³⁴⁵", strict=True)}


@dataclass(frozen=True, slots=True)
class Kind:
    """What all quantities that are held in one unit have in common.

    Attributes
    ----------
    unit : str
        Unit in which it is held, in the spelling that the reader takes: ``kg m^2``; ``1`` for a count or ratio.
    suffix : str
        How the names of such quantities end: ``kg_m2``; empty for a count or ratio.
    shown : tuple of str
        Units in which it is shown, US and SI, in the same spelling.
    filed : tuple of str
        Units in which a scenario file is given one, US and SI.
    called, example : str
        What people call one, with its article, and one as the trade writes it.
    digits : int
        Significant digits that are shown.
    least, most : str
        The least above 0 and the most that can be meant, as written: ``1 g``; empty where there is none.
    """

    unit: str
    suffix: str
    shown: tuple[str, str]
    filed: tuple[str, str]
    called: str
    example: str
    digits: int
    least: str
    most: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """One row of the table.

    Attributes
    ----------
    name : str
        The name in code, JSON and tables, unit included: ``spin_rad_s``.
    symbol : str
        The symbol that the trade writes: ``Ω``; empty where there is none.
    kind : Kind
        What it shares with all quantities held in that unit.
    units : tuple of str
        Units in which it is shown, US and SI.
    digits : int
        Significant digits that are shown.
    signs : tuple of str or None
        What a positive and a negative value are called; None where the sign says nothing, or cannot be negative.
    meaning : str
        A phrase for a label; for a signed quantity it says which way is positive.
    cautions : tuple of str
        Keys of the cautions that it bears.
    """

    name: str
    symbol: str
    kind: Kind
    units: tuple[str, str]
    digits: int
    signs: tuple[str, str] | None
    meaning: str
    cautions: tuple[str, ...]

    @property
    def unit(self) -> str:
        """Unit in which it is held, as printed: ``kg m²``; empty for a count or ratio."""
        return printed(self.kind.unit)

    def shown(self, system: System) -> tuple[str, float]:
        """Return the unit shown, as printed, and the factor from the unit held to it; `number` is for temperatures."""
        unit = self.units[system == "si"]
        return printed(unit), float(ratio(self.kind.unit, unit))

    def number(self, value: float, system: System) -> float:
        """Return `value`, in the unit held, in the unit shown; a temperature on its own scale.

        Examples
        --------
        >>> round(quantity("temperature_k").number(288.15, "us"), 9)
        59.0
        """
        unit = self.units[system == "si"]
        return value * float(ratio(self.kind.unit, unit)) - zero(unit)


def printed(unit: str) -> str:
    """Return a unit as it is printed: ``kg m^2`` is ``kg m²``, and ``1`` is nothing."""
    for written, power in _SUPERSCRIPTS.items():
        unit = unit.replace(written, power)
    return "" if unit == "1" else unit


def quantity(name: str) -> Quantity:
    """Return the quantity called `name`.

    Raises
    ------
    KeyError
        When the name is not in the table: a mistake of ours, never of the user.
    """
    found = known(name)
    if found is None:
        raise KeyError(name)
    return found


def any_quantity(name: str) -> Quantity:
    """Return the quantity called `name`; one that is not in the table is what its ending says."""
    return known(name) or _quantity(name, "", "")


@cache
def known(name: str) -> Quantity | None:
    """Return the quantity called `name`, None where it is not in the table."""
    row = _rows().get(name)
    return _quantity(name, *row[0], **row[1]) if row else None


def quantities() -> dict[str, Quantity]:
    """Return every quantity by name, in the order of the table."""
    return {name: quantity(name) for name in _rows()}


@cache
def kinds() -> dict[str, Kind]:
    """Return every kind of quantity by the unit that it is held in."""
    return {unit: _kind(unit, **row) for unit, row in _table()["kind"].items()}


def kind_of(name: str) -> Kind:
    """Return the kind of quantity that a name says by its ending; a count or ratio where it says none."""
    parts = name.split("_")
    endings = ("_".join(parts[start:]) for start in range(len(parts)))
    by_suffix = _by_suffix()
    return next((by_suffix[ending] for ending in endings if ending in by_suffix), kinds()["1"])


@cache
def band_ends(name: str) -> tuple[str, str]:
    """Return what the ends of the 90 % band of a quantity are called, the unit last.

    Examples
    --------
    >>> band_ends("stall_m_s"), band_ends("rudder_share")
    (('stall_low_m_s', 'stall_high_m_s'), ('rudder_share_low', 'rudder_share_high'))
    """
    stem, unit = _parted(name)
    return f"{stem}_low{unit}", f"{stem}_high{unit}"


def error_of(name: str) -> str:
    """Return what one standard deviation of a quantity is called, the unit last: ``stall_band_m_s``."""
    stem, unit = _parted(name)
    return f"{stem}_band{unit}"


def _parted(name: str) -> tuple[str, str]:
    """Return what a name says, and its unit with what stands before it."""
    unit = kind_of(name).suffix
    return (name.removesuffix(f"_{unit}"), f"_{unit}") if unit else (name, "")


@cache
def shown(name: str, system: System) -> tuple[str, float]:
    """Return the unit, as printed, in which the quantity called `name` is shown, and the factor to it.

    A name that is not in the table is shown as others with its ending.

    Examples
    --------
    >>> shown("cg_station_m", "si")
    ('mm', 1000.0)
    """
    return any_quantity(name).shown(system)


def cautions_of(names: Iterable[str]) -> tuple[str, ...]:
    """Return the cautions that a set of quantities bears, each once, in the order of the table."""
    borne = {key for found in map(known, names) if found for key in found.cautions}
    return tuple(text for key, text in _table()["caution"].items() if key in borne)


def cautions() -> tuple[str, ...]:
    """Return every caution, in the order of the table."""
    return tuple(_table()["caution"].values())


def caution(key: str) -> str:
    """Return the text of one caution."""
    text: str = _table()["caution"][key]
    return text


@cache
def printed_units() -> frozenset[str]:
    """Return every unit in which some quantity is held, shown or written in a file, as printed."""
    every = {unit for kind in kinds().values() for unit in (kind.unit, *kind.shown, *kind.filed)}
    for row, default in _rows().values():
        special = row[2] if len(row) > SHORTEST_ROW else {}
        every.update(special.get("shown", ()), *default.get("shown", {}).values())
    return frozenset(map(printed, every)) - {""}


@cache
def _table() -> dict[str, dict[str, Any]]:
    return tomli.loads(Path(__file__).with_name("quantities.toml").read_text(encoding="utf-8"))


@cache
def _rows() -> dict[str, tuple[list[Any], dict[str, Any]]]:
    """Return each row of the table by name, with the defaults of its section."""
    sections = _table()["name"].values()
    rows = {name: (row, own.get("default", {})) for own in sections for name, row in own.items() if name != "default"}
    return rows | {end: row for name in _table()["band"]["of"] for end, row in _ends(name, *rows[name])}


def _ends(name: str, row: list[Any], default: dict[str, Any]) -> Iterator[tuple[str, tuple[list[Any], dict[str, Any]]]]:
    """Yield the rows of both ends of the 90 % band of a quantity."""
    for end, which in zip(band_ends(name), BAND_ENDS, strict=True):
        yield end, (["", told(which, of=row[1]), *row[2:]], default)


@cache
def _by_suffix() -> dict[str, Kind]:
    return {kind.suffix: kind for kind in kinds().values() if kind.suffix}


def _kind(unit: str, *, called: str, example: str, **special: Any) -> Kind:  # noqa: ANN401
    shown = tuple(special.get("shown", (unit, unit)))
    filed = tuple(special.get("filed", shown))
    least, most = special.get("least", ""), special.get("most", "")
    return Kind(unit, special.get("suffix", ""), shown, filed, called, example, special.get("digits", 3), least, most)


def _quantity(
    name: str,
    symbol: str,
    meaning: str,
    special: dict[str, Any] | None = None,
    *,
    caution: Iterable[str] = (),
    shown: dict[str, list[str]] | None = None,
) -> Quantity:
    """Return a row of the table; `caution` and `shown` are what its section says for all."""
    kind, own = kind_of(name), special or {}
    signs = tuple(_table()["signs"][own["signs"]]) if "signs" in own else None
    return Quantity(
        name=name,
        symbol=symbol,
        kind=kind,
        units=tuple(own["shown"] if "shown" in own else (shown or {}).get(kind.unit, kind.shown)),
        digits=own.get("digits", kind.digits),
        signs=signs,
        meaning=told("{meaning}, {sign} positive", meaning=meaning, sign=signs[0]) if signs else meaning,
        cautions=tuple(own.get("caution", caution)),
    )
