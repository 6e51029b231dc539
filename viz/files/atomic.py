"""Files written whole or not at all, and never over another one without being asked."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from sim.errors import refuse

THERE = "is already there; give --force to replace it"
"""What is said of a file or a folder that would be written over."""


def write_whole(path: str | Path, content: bytes | str, *, force: bool = False) -> Path:
    """Write `content` to `path` in one move, so that a reader never meets half a file.

    Raises
    ------
    InputError
        When the file is there and `force` is not given, or when the folder cannot be written.
    """
    target = Path(path)
    if target.exists() and not force:
        refuse(str(path), THERE)
    data = content.encode() if isinstance(content, str) else content
    try:
        handle, draft = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    except OSError as error:
        refuse(str(path), f"cannot be written: {error.strerror}")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        draft_mode = 0o666 & ~_umask()
        Path(draft).chmod(draft_mode)
        Path(draft).replace(target)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise
    return target


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
