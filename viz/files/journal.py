"""What a long work has found so far, kept in a file beside its output: killed at any moment, it goes on from there."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sim.errors import refuse

if TYPE_CHECKING:
    from types import TracebackType
    from typing import IO

    from sim.sweeps.runner import Outcome


class Journal:
    """Outcomes by the name of their point, a line each; a line that was cut short is put away.

    A point's name comes from the scenario's text and the point's settings, so a journal can never answer another
    question: it is then merely of no use.
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
            When it cannot be written, or is another file.
        """
        try:
            whole = self._read(self.path.read_bytes()) if self.path.exists() else 0
            self._stream = self.path.open("ab")
            self._stream.truncate(whole)
        except OSError as error:
            refuse(str(self.path), f"cannot be written: {(error.strerror or str(error)).lower()}")
        return self

    def _read(self, data: bytes) -> int:
        """Take in every whole line; return where the last one ends."""
        end = data.rfind(b"\n") + 1
        try:
            for line in data[:end].splitlines():
                key, values, reason = json.loads(line)
                self._found[key] = [values, reason]
        except ValueError:
            refuse(str(self.path), "is in the way: it is no journal of a sweep; remove it or give another --out")
        return end

    def known(self, key: str) -> Outcome | None:
        """Return what was kept under a key."""
        from sim.sweeps.runner import Outcome

        kept = self._found.get(key)
        return Outcome(tuple(kept[0]), kept[1]) if kept else None

    def keep(self, key: str, outcome: Outcome) -> None:
        """Write an outcome down at once."""
        if self._stream:
            self._stream.write(json.dumps([key, outcome.values, outcome.reason]).encode() + b"\n")
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
