"""What a long work has found so far, kept in a file beside its output: killed at any moment, it goes on from there."""

from __future__ import annotations

import json
import zlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sim.errors import InputError, refuse
from viz.files.atomic import told

if TYPE_CHECKING:
    from types import TracebackType
    from typing import IO

    from sim.sweeps.runner import Outcome


HEAD = b'{"whirlgate journal": 1}\n'
"""What a journal begins with: nothing else is taken for one."""


class Journal:
    """Outcomes by the name of their point, a line each with its checksum; one cut short or damaged counts for nothing.

    A point's name comes from the scenario's text and the point's settings, so a journal can never answer another
    question: it is then merely of no use. While it is open no other sweep writes to it.
    """

    def __init__(self, output: str | Path) -> None:
        self.path = Path(f"{output}.journal")
        self._found: dict[str, list[Any]] = {}
        self._stream: IO[bytes] | None = None

    def __enter__(self) -> Journal:
        """Read what is there and open the file to write on.

        Raises
        ------
        InputError
            When it cannot be written, is another file, or belongs to a sweep that runs.
        """
        try:
            self._stream = self.path.open("a+b")
            self._begin(self._stream)
        except OSError as error:
            self.__exit__(None, None, None)
            refuse(str(self.path), f"cannot be written: {told(error)}")
        except InputError:
            self.__exit__(None, None, None)
            raise
        return self

    def _begin(self, stream: IO[bytes]) -> None:
        if not _locked(stream):
            refuse(str(self.path), "is written by another sweep that runs; wait for it or give another --out")
        stream.seek(0)
        whole = self._read(stream.read())
        stream.truncate(whole)
        if not whole:
            stream.write(HEAD)
            stream.flush()

    def _read(self, data: bytes) -> int:
        """Take in every whole line; return where the last one ends."""
        if HEAD.startswith(data):
            return 0
        if not data.startswith(HEAD):
            refuse(str(self.path), "is in the way: it is no journal of a sweep; remove it or give another --out")
        end = data.rfind(b"\n") + 1
        for line in data[len(HEAD) : end].splitlines():
            sum_, _, text = line.partition(b" ")
            if sum_ == _checksum(text):
                key, values, reason = json.loads(text)
                self._found[key] = [values, reason]
        return end

    def known(self, key: str) -> Outcome | None:
        """Return what was kept under a key."""
        from sim.sweeps.runner import Outcome

        kept = self._found.get(key)
        return Outcome(tuple(kept[0]), kept[1]) if kept else None

    def keep(self, key: str, outcome: Outcome) -> None:
        """Write an outcome down at once."""
        if self._stream:
            text = json.dumps([key, outcome.values, outcome.reason]).encode()
            self._stream.write(_checksum(text) + b" " + text + b"\n")
            self._stream.flush()

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file and leave it there: `done` takes it away."""
        if self._stream:
            self._stream.close()

    def done(self) -> None:
        """Take the file away: its output is written."""
        self.path.unlink(missing_ok=True)


def _checksum(text: bytes) -> bytes:
    return b"%08x" % zlib.crc32(text)


def _locked(stream: IO[bytes]) -> bool:
    """Keep a file for this process until it is closed; return whether no other one has it."""
    try:
        import fcntl
    except ImportError:  # not on this system, where an open file cannot be taken away either
        return True
    try:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
