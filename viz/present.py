"""An answer shown: its figure, and its sheet for a notebook, a page or a terminal."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec
from typing import TYPE_CHECKING

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

    module = import_module(f"viz.sheets.{_named('sheets', answer)}")
    return Sheet(complete(module.sheet(answer)), units)


def figure(answer: Answer, *, units: System = "us") -> Figure:
    """Return the figure that a command draws of an answer, with the cautions that it bears.

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
    from viz.figures.complete import complete
    from viz.figures.sheet import arrange

    made = complete(_named("figures", answer), answer, units)
    arrange(made)
    return made


SHOWN_AS = {"grid": "sweep", "monte_carlo_answer": "sweep"}
"""Module that answers come from -> module that shows them, where it is called otherwise."""


def _named(room: str, answer: object) -> str:
    """Return the module of a room that shows an answer: it is called like the study that the answer comes from."""
    own = type(answer).__module__.rpartition(".")[2]
    name = SHOWN_AS.get(own, own.removesuffix("_answer"))
    if find_spec(f"viz.{room}.{name}") is None:
        message = f"answers of {name} have no {room.removesuffix('s')}"
        raise TypeError(message)
    return name
