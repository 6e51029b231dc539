"""An answer shown: its figure, and its sheet for a notebook, a page or a terminal."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from inspect import signature
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.answer import Answer
    from sim.units.quantities import System
    from viz.sheets.blocks import Block


@dataclass(frozen=True, slots=True)
class Sheet:
    """The sheet of an answer: text when printed, HTML in a notebook.

    Attributes
    ----------
    blocks : tuple of Block
        Tables, sentences and cautions, their numbers in SI.
    units : str
        ``us`` or ``si``: units in which it is shown.
    """

    blocks: tuple[Block, ...]
    units: System

    def __str__(self) -> str:
        """Return the sheet as a terminal shows it."""
        from viz.sheets.terminal import write

        return write(self.blocks, self.units)

    def _repr_html_(self) -> str:
        from viz.sheets.html import write

        return write(self.blocks, self.units)

    def to_csv(self) -> str:
        """Return the sheet as CSV."""
        from viz.sheets.csv import write

        return write(self.blocks, self.units)


def sheet(answer: Answer, *, units: System = "us") -> Sheet:
    """Return the sheet that a command prints of an answer, with the cautions that it bears.

    Parameters
    ----------
    answer : Answer
        Of any function of `sim`.
    units : {"us", "si"}
        Units in which it is shown.
    """
    from viz.sheets.complete import complete

    return Sheet(complete(_of("sheets", answer).sheet(answer)), units)


def figure(answer: Answer, *, units: System = "us") -> Figure:
    """Return the figure that a command draws of an answer.

    Parameters
    ----------
    answer : Answer
        Of any function of `sim` whose command has ``--figure``.
    units : {"us", "si"}
        Units of its axes.

    Raises
    ------
    TypeError
        When answers of this kind have no figure.
    """
    draw = _of("figures", answer).draw
    drawn: Figure = draw(answer, units) if len(signature(draw).parameters) > 1 else draw(answer)
    return drawn


def _of(room: str, answer: Answer) -> Any:  # noqa: ANN401
    """Return the module of a room that shows an answer: it is called like the module that the answer comes from."""
    name = type(answer).__module__.rpartition(".")[2]
    try:
        return import_module(f"viz.{room}.{name}")
    except ModuleNotFoundError:
        message = f"answers of {name} have no {room.removesuffix('s')}"
        raise TypeError(message) from None
