"""Where scenarios are found: a file of the user's, or a name of one that came along; and files that one names."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from sim.errors import Fault, InputError, did_you_mean
from sim.units.parsing import quoted

if TYPE_CHECKING:
    import os
    from collections.abc import Iterator

MOST_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class File:
    """The text of a file, what to call it in an error, and the folder it lies in."""

    called: str
    text: str
    folder: Path


def folder() -> Path:
    """Return where the bundled scenarios are: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).parents[1]
    installed = package / "scenarios"
    return installed if installed.is_dir() else package.parent / "scenarios"


def names(shelf: str = "") -> list[str]:
    """Return the names of the bundled scenarios, or of a shelf below them, in the order of the alphabet."""
    return sorted(path.stem for path in (folder() / shelf).glob("*.toml"))


def _refuse(called: str, what: str, line: int = 0) -> NoReturn:
    raise InputError([Fault("", what, called, line)])


def fetch(path_or_name: str | os.PathLike[str], shelf: str = "") -> File:
    """Return the scenario in the file, or the bundled one of that name on a shelf; a file goes before a name.

    Raises
    ------
    InputError
        When there is neither, or it cannot be read as text.
    """
    text = str(path_or_name)
    called = text if text and text.isprintable() else quoted(text)
    with _in_words(called):
        path = Path(path_or_name)
        if not path.exists():
            path = _bundled(called, shelf)
        if not (path.is_file() or path.is_dir()):
            _refuse(called, "cannot be read: it is no regular file; save what comes through it into one")
        return File(called, _text(path, called, "a scenario"), path.parent)


def fetch_beside(folder: Path, name: str, called: str, *, what: str = "a bill of items") -> File:
    """Return a CSV file that a scenario or an option names, found from a folder; a device or pipe is refused.

    Raises
    ------
    InputError
        When there is none, or it cannot be read as text.
    """
    with _in_words(called):
        path = folder / name
        if not path.exists():
            beside = (other.name for other in path.parent.glob("*.csv")) if path.parent.is_dir() else ()
            _refuse(called, f"cannot be read: no such file{did_you_mean(path.name, beside)}")
        if not path.is_file():
            _refuse(called, "cannot be read: it is no regular file")
        return File(called, _text(path, called, what), path.parent)


@contextmanager
def _in_words(called: str) -> Iterator[None]:
    """Turn what the operating system says of a name into a sentence."""
    try:
        yield
    except OSError as error:
        _refuse(called, f"cannot be read: {(error.strerror or 'no such file').lower()}")
    except ValueError:
        _refuse(called, "cannot be the name of a file")


def _text(path: Path, called: str, what: str) -> str:
    with path.open("rb") as stream:
        data = stream.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        _refuse(called, f"is not {what}: it is larger than {MOST_BYTES // 1_000_000} MB")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        cure = "save it as CSV with the encoding UTF-8" if path.suffix.lower() == ".csv" else "save it as UTF-8"
        _refuse(called, f"is not UTF-8 text: byte 0x{data[error.start]:02x} belongs to no letter; {cure}", line)


def _bundled(called: str, shelf: str) -> Path:
    if called in names(shelf):
        return folder() / shelf / f"{called}.toml"
    near = did_you_mean(called, names(shelf))
    if not near:
        parent = Path(called).parent
        beside = (path.stem for path in parent.glob("*.toml")) if parent.is_dir() else ()
        near = did_you_mean(Path(called).stem, beside)
    _refuse(
        called,
        f"is neither a file nor a bundled {shelf.removesuffix('s') or 'scenario'} ({', '.join(names(shelf))}){near}",
    )
