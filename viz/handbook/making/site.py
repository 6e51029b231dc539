"""The handbook as pages that open from a disk: what is written by hand, and what is made of the program itself."""

from __future__ import annotations

import logging
import shutil
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from importlib import import_module
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from viz.cli import COMMANDS
from viz.handbook.making import commands, functions, keys, notebooks
from viz.handbook.making.examples import filled, unfilled
from viz.report.drawings import cores

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    Progress = Callable[[Iterable[Future[None]], int], Iterable[Future[None]]]

SOURCE = Path(__file__).parents[1]
"""Where the pages stand that are written by hand."""
MADE = "<!-- made -->"
"""In a page: here stands what is made of the program."""
CONTENTS = {
    "The first hour": ("first_hour/designer", "first_hour/educator", "first_hour/builder"),
    "Notebooks": ("notebooks/designer", "notebooks/educator", "notebooks/builder"),
    "How to": ("how_to/mount", "how_to/display", "how_to/kiosk", "page", "how_to/cluster"),
    "Commands": ("commands/index", *(f"commands/{name}" for name in COMMANDS)),
    "Reference": ("keys", "python", "limits"),
    "Physics: the airplane": (
        "strips", "slipstream", "propeller", "drag", "forces", "structure", "drawing", "pilot_reports",
    ),
    "Physics: the gun and the display": ("timing", "cam", "link", "bursts"),
    "How sure it is": ("numerics", "proof"),
}  # fmt: skip
"""Heading -> pages below it, after the first page."""


def build(
    folder: Path, progress: Progress = lambda made, _: made, runs: Callable[[str], bool] = lambda _: True
) -> None:
    """Write the handbook to a folder, ``index.html`` first.

    Parameters
    ----------
    folder : Path
        New, or one that holds a handbook, which is replaced when the new one is whole.
    progress : callable
        Takes the pages as they are made, and their number; yields them.
    runs : callable
        Takes the name of a page, and returns whether the commands on it are run: those of all take minutes.

    Raises
    ------
    InputError
        Where what sets the pages is not installed.
    StaleExampleError
        When a command on a page is refused.
    """
    _equipped()
    with TemporaryDirectory() as room:
        docs, site = Path(room) / "docs", Path(room) / "site"
        _written(docs, progress, runs)
        _set(docs, site)
        if folder.exists():
            shutil.rmtree(folder)
        folder.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(site, folder)


def pages() -> dict[str, str]:
    """Return the name and the Markdown of every page, its commands not run yet."""
    by_hand = {path.relative_to(SOURCE).as_posix(): path.read_text(encoding="utf-8") for path in SOURCE.rglob("*.md")}
    for name, made in (
        ("commands/index.md", commands.table),
        ("keys.md", keys.tables),
        ("python.md", functions.entries),
    ):
        by_hand[name] = by_hand[name].replace(MADE, made())
    return by_hand | notebooks.pages() | commands.pages()


def _equipped() -> None:
    """Refuse, before a command is run, where what sets the pages is missing."""
    try:
        for name in ("mkdocs.config", "material", "mkdocstrings"):
            import_module(name)
    except ImportError:
        cure = 'what sets its pages is not installed: pip install "whirlgate[handbook]"'
        raise InputError([Fault("handbook", cure)]) from None


def _written(docs: Path, progress: Progress, runs: Callable[[str], bool]) -> None:
    """Write the Markdown and what belongs to it, a page a process at a time: the commands on them take minutes."""
    every = pages()
    with ProcessPoolExecutor(cores(), mp_context=get_context("spawn")) as pool:
        made = [pool.submit(_page, docs / name, text, run=runs(name)) for name, text in every.items()]
        try:
            for done in progress(as_completed(made), len(made)):
                done.result()
        except BaseException:
            pool.shutdown(cancel_futures=True)  # pages that wait are not made any more
            raise
    for path in (SOURCE / "handbook.css", *notebooks.FOLDER.glob("*.ipynb")):
        shutil.copyfile(path, docs / path.relative_to(SOURCE))


def _page(path: Path, text: str, *, run: bool) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    folder = path.with_suffix("")
    made = notebooks.ran(filled(text, folder), folder) if run else notebooks.unrun(unfilled(text))
    path.write_text(made, encoding="utf-8")


def _set(docs: Path, site: Path) -> None:
    """Set Markdown as HTML; a broken link, a missing page or a warning is an error."""
    from mkdocs.commands.build import build as set_pages
    from mkdocs.config import load_config

    log = logging.getLogger("mkdocs")
    log.setLevel(logging.WARNING)
    log.addHandler(logging.StreamHandler())
    nav = [{"whirlgate": "index.md"}] + [{title: [f"{name}.md" for name in names]} for title, names in CONTENTS.items()]
    config = load_config(str(SOURCE / "mkdocs.yml"), docs_dir=str(docs), site_dir=str(site), nav=nav, strict=True)
    config.plugins.on_startup(command="build", dirty=False)
    set_pages(config)
    config.plugins.on_shutdown()
