"""Compiles a little C for a bench, or ends the bench politely where no compiler is found."""

import ctypes
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path


def library(source: str, *flags: str) -> ctypes.CDLL:
    """Return `source` compiled and loaded; without a compiler the bench ends."""
    compiler = shutil.which("gcc") or shutil.which("cc") or shutil.which("clang")
    if compiler is None:
        print("skipped: no C compiler here")
        sys.exit(0)
    folder = Path(tempfile.mkdtemp())
    try:
        (folder / "bench.c").write_text(source, encoding="utf-8")
        order = [compiler, "-O3", "-march=native", "-shared", "-fPIC", *flags]
        subprocess.run([*order, "-o", folder / "bench.so", folder / "bench.c", "-lm"], check=True)
        return ctypes.CDLL(str(folder / "bench.so"))
    finally:
        shutil.rmtree(folder, ignore_errors=True)
