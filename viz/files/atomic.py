"""Files written whole or not at all, and never over another one without being asked."""

from __future__ import annotations

import errno
import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from sim.errors import Fault, MachineError, refuse

if TYPE_CHECKING:
    from collections.abc import Iterator

THERE = "is already there; give --force to replace it"
"""What is said of a file or a folder that would be written over."""

CURES = {
    errno.ENOSPC: "make room on the disk",
    errno.EDQUOT: "your share of the disk is used up; make room",
    errno.EROFS: "give a place that can be written to",
    errno.EIO: "the disk does not answer as it should",
}
"""What the machine says that is no fault of a name, and what to do."""


def write_faults(option: str, path: str, *, force: bool) -> Iterator[Fault]:
    """Yield what keeps a file from being written, before any work is done for it."""
    if "\0" in path:
        yield Fault(option, "cannot be the name of a file: it holds a letter that no name may")
        return
    file = Path(path)
    try:
        there, folder = file.exists(), file.parent.is_dir()
    except OSError as error:
        yield Fault(path, f"cannot be written: {told(error)}")
        return
    if not folder:
        why = "a file; give another" if file.parent.exists() else "not there; make it first"
        yield Fault(option, f'needs the folder "{file.parent}", which is {why}')
    elif there and not force:
        yield Fault(path, THERE)
    elif not os.access(file.parent, os.W_OK):
        yield Fault(path, "cannot be written: its folder may not be written to; give another one")


def told(error: OSError) -> str:
    """Return what the operating system says, with what to do where that is known."""
    said = (error.strerror or str(error)).lower()
    return f"{said}; {CURES[error.errno]}" if error.errno in CURES else said


def write_whole(path: str | Path, content: bytes | str, *, force: bool = False) -> Path:
    """Write `content` to `path` in one move, so that a reader never meets half a file.

    Raises
    ------
    InputError
        When the file is there and `force` is not given, or when it cannot be written under this name.
    MachineError
        When the disk is full or fails.
    """
    target = Path(path)
    data = content.encode() if isinstance(content, str) else content
    try:
        if target.exists() and not force:
            refuse(str(path), THERE)
        handle, draft = tempfile.mkstemp(dir=target.parent, prefix=".whirlgate.")
        try:
            _move_in(handle, draft, target, data)
        except BaseException:
            Path(draft).unlink(missing_ok=True)
            raise
    except OSError as error:
        if error.errno not in CURES:
            refuse(str(path), f"cannot be written: {told(error)}")
        message = f"{path}: cannot be written: {told(error)}"
        raise MachineError(message) from error
    return target


def _move_in(handle: int, draft: str, target: Path, data: bytes) -> None:
    with os.fdopen(handle, "wb") as stream:
        stream.write(data)
    Path(draft).chmod(0o666 & ~_umask())
    Path(draft).replace(target)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
