"""Compiles a little C for a bench, or ends the bench politely where no compiler is found."""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def library(source: str, *flags: str, objects: Sequence[Path] = ()) -> ctypes.CDLL:
    """Return `source` compiled, linked with `objects` and loaded; without a compiler the bench ends."""
    compiler = shutil.which("gcc") or shutil.which("cc") or shutil.which("clang")
    if compiler is None:
        print("skipped: no C compiler here")
        sys.exit(0)
    folder = Path(tempfile.mkdtemp())
    try:
        (folder / "bench.c").write_text(source, encoding="utf-8")
        order = [compiler, "-O3", "-march=native", "-shared", "-fPIC", *flags]
        subprocess.run([*order, "-o", folder / "bench.so", folder / "bench.c", *objects, "-lm"], check=True)
        return ctypes.CDLL(str(folder / "bench.so"))
    finally:
        shutil.rmtree(folder, ignore_errors=True)
