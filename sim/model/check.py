"""The faults of scenario and drawing files, all at once, and remarks on what is allowed and unusual."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from sim.answer import Answer
from sim.display.inert import refused_values
from sim.errors import Fault, InputError, NoAnswerError, refuse
from sim.model.display_model import DisplayModel, display_model
from sim.model.model import Model
from sim.scenario.bundled import fetch
from sim.scenario.display_file import is_display
from sim.scenario.drawing import load as read_drawing
from sim.scenario.fault_lines import at_lines
from sim.scenario.reading import load
from sim.scenario.tables import Scenario
from sim.scenario.toml_text import parse

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sim.model.plausibility.remark import Remark
    from sim.scenario.toml_text import Source


@dataclass(frozen=True, slots=True)
class Checked:
    """One file and its faults.

    Attributes
    ----------
    file : str
        As it was named.
    kind : str
        ``scenario``, ``drawing`` for one to be scaled, or ``display`` for one alone.
    fine : bool
        Whether it can be used.
    faults : tuple of Fault
        In the order of the file.
    remarks : tuple of Remark
        On a scenario without faults: what is unusual about it, and no reason not to use it.
    """

    file: str
    kind: str
    fine: bool
    faults: tuple[Fault, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True, slots=True)
class Checks(Answer):
    """All files that were asked about, in that order.

    Attributes
    ----------
    files : tuple of Checked
        Each with its own faults and remarks.
    faults : tuple of Fault
        Those of all files.
    remarks : tuple of Remark
        Likewise.
    """

    main: ClassVar[str] = "files"

    files: tuple[Checked, ...]
    faults: tuple[Fault, ...]
    remarks: tuple[Remark, ...]


def check(files: Iterable[str], settings: Iterable[str] = ()) -> Checks:
    """Return faults and remarks of each scenario or drawing, a file or a bundled name, however bad the one before.

    Parameters
    ----------
    files : iterable of str
        Files or bundled names.
    settings : iterable of str
        ``table.key=value`` each, read as if it stood in every scenario; a drawing has none.
    """
    own = tuple(settings)
    found = tuple(_checked(file, own) for file in files)
    return Checks(
        found,
        faults=tuple(fault for one in found for fault in one.faults),
        remarks=tuple(remark for one in found for remark in one.remarks),
    )


def _checked(file: str, settings: tuple[str, ...]) -> Checked:
    kind = "scenario"
    source: Source | None = None
    try:
        source = parse(fetch(file).text, file)
        kind = _kind(source.data or {})
        remarks = _remarks(kind, file, settings)
    except InputError as error:
        faults = error.faults if source is None else tuple(at_lines(error.faults, source, file, settings))
        return Checked(file, kind, fine=False, faults=faults, remarks=())
    return Checked(file, kind, fine=True, faults=(), remarks=remarks)


def _kind(data: Mapping[str, Any]) -> str:
    """Return what a file is, by the tables it holds."""
    if is_display(data):
        return "display"
    return "drawing" if Scenario.foreign(data) else "scenario"


def _remarks(kind: str, file: str, settings: tuple[str, ...]) -> tuple[Remark, ...]:
    """Return the remarks on a file without faults, of which a scenario alone has any.

    Raises
    ------
    InputError
        With every fault, those that only a study finds without file and line.
    """
    if kind == "display":
        _refuse_display(display_model(file, settings))
        return ()
    if kind == "drawing":
        read_drawing(file)
        if settings:
            refuse("settings", f"changes a scenario; {file} is a drawing, whose file is to be changed")
        return ()
    scenario = load(file, settings)
    model = Model(scenario)
    _refuse_masses(model)
    if scenario.exhibit is not None:
        _refuse_display(model)
    return model.remarks()


def _refuse_display(model: Model | DisplayModel) -> None:
    """Refuse a display whose timing leaves nothing to show or which asks for more than a lamp needs, as its study does.

    Raises
    ------
    InputError
        With every value that is refused, and for a powerplant that there is not.
    """
    try:
        refused = refused_values(model.display())
    except NoAnswerError as error:
        if isinstance(model, DisplayModel):
            raise InputError([Fault("timing", str(error))]) from error
        return  # an airplane that its guns fit is right without a display of them
    if refused:
        raise InputError(refused)


def _refuse_masses(model: Model) -> None:
    """Refuse what keeps a complete item list from being used: a missing mass, scales that contradict the list.

    Raises
    ------
    InputError
        With every such fault, in the words of the studies that would refuse it.
    """
    found = dict[Fault, None]()
    for name in model.powerplants:
        if model.has_list(name):
            try:
                model.mass_state(name)
            except InputError as error:
                found |= dict.fromkeys(error.faults)
    if found:
        raise InputError(found)
