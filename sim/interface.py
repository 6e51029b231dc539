"""Every command as a function of one name: ``sim.handling("tollgate", speed_m_s=35.0, banks_deg=(-45.0, 45.0))``.

A function that is asked about an airplane takes it first: the name of a bundled scenario, a file, a scenario read by
`sim.load`, or a `Model` that several questions share. Options follow by keyword, with their unit in the name. The
answer is frozen; it has `to_json` and `records`, and a notebook shows it as a table.
"""

from __future__ import annotations

import inspect
import os
from functools import wraps
from importlib import import_module
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, TypeAlias, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from sim.airframe.drawing import MeasuredDrawing
    from sim.model.model import Model
    from sim.scenario.tables import Scenario

    AnyDrawing: TypeAlias = MeasuredDrawing | str | os.PathLike[str]
    AnyScenario: TypeAlias = Scenario | Model | str | os.PathLike[str]

Options = ParamSpec("Options")
Answer = TypeVar("Answer")

ABOUT_A_MODEL = {
    name: f"sim.studies.{name}"
    for name in (
        "compare",
        "handling",
        "rotor_effect",
        "modes",
        "maneuver",
        "derivatives",
        "drag",
        "speeds",
        "field",
        "stall",
        "autorotation",
        "propeller",
        "layout",
        "drawing",
        "structure",
        "balance",
        "mount",
        "derive",
        "windows",
        "rate",
        "burst",
        "safe_range",
        "link",
        "disc",
        "cooling",
        "exhibit",
    )
}
"""Function -> the module that holds it; its first parameter is a `Model`."""
OF_A_DISPLAY = ("exhibit",)
"""Of these, what is asked about a display that stands alone as well."""
BY_ITSELF = {
    "couple": "sim.studies.couple",
    "swing": "sim.studies.swing",
    "disc_exercise": "sim.studies.disc_exercise",
    "wings": "sim.studies.wings",
    "sweep": "sim.sweeps.grid",
    "spread": "sim.sweeps.monte_carlo",
    "sensitivity": "sim.sweeps.local_sensitivity",
    "differences": "sim.difference",
    "check": "sim.model.check",
    "new": "sim.scenario.new",
    "schema": "sim.scenario.schema",
}
"""Function -> the module that holds it; it takes what it needs as it is."""
NAMES = ("load", *ABOUT_A_MODEL, "scale", *BY_ITSELF)

_MODEL = "model : Model"
_DRAWING = "drawing : MeasuredDrawing"
_SCENARIO = "scenario : str, path, Scenario or Model"


def load(
    scenario: str | os.PathLike[str] = "tollgate",
    *,
    set: Iterable[str] = (),  # noqa: A002 - as the command line calls it
) -> Scenario:
    """Return the scenario in a file, or the bundled one of that name, with settings applied.

    Parameters
    ----------
    scenario : str or path
        A TOML file, or a name such as ``tollgate``.
    set : iterable of str
        ``table.key=value`` each, read as if it stood in the file.

    Raises
    ------
    InputError
        With every fault at once, each with file, line, key, what came and what is allowed.

    Examples
    --------
    >>> load("tollgate", set=["wing.span=27 ft 6 in"]).wing.span_m
    8.382
    """
    from sim.scenario.reading import load as read

    return read(scenario, set)


def _model(scenario: Scenario | str | os.PathLike[str]) -> Model:
    from sim.model.model import model

    return model(scenario)


def _model_or_display(scenario: Any) -> Any:  # noqa: ANN401
    from sim.model.display_model import DisplayModel, display_model

    if isinstance(scenario, DisplayModel):
        return scenario
    return display_model(scenario) if isinstance(scenario, str | os.PathLike) else _model(scenario)


def asked(
    study: Callable[Concatenate[Model, Options], Answer],
    read: Callable[[Scenario | str | os.PathLike[str]], Model] = _model,
) -> Callable[Concatenate[AnyScenario, Options], Answer]:
    """Return a study of a model as a function of a scenario, which `read` makes a model of."""

    @wraps(study)
    def ask(scenario: AnyScenario = "tollgate", *args: Options.args, **options: Options.kwargs) -> Answer:
        from sim.model.model import Model

        return study(scenario if isinstance(scenario, Model | None) else read(scenario), *args, **options)

    ask.__doc__ = (study.__doc__ or "").replace(_MODEL, _SCENARIO)
    first, *rest = inspect.signature(study).parameters.values()
    needed = any(one.kind is one.POSITIONAL_OR_KEYWORD and one.default is one.empty for one in rest)
    default = first.empty if needed else "tollgate"
    given = first.replace(name="scenario", default=default, annotation="AnyScenario")
    ask.__signature__ = inspect.signature(study).replace(parameters=[given, *rest])  # type: ignore[attr-defined]
    return cast("Callable[Concatenate[AnyScenario, Options], Answer]", ask)


def asked_of_a_drawing(study: Callable[[MeasuredDrawing], Answer]) -> Callable[[AnyDrawing], Answer]:
    """Return the study of a drawing as a function of a drawing's name or file, or of one that is read already."""

    @wraps(study)
    def ask(drawing: AnyDrawing = "tollgate") -> Answer:
        from sim.airframe.drawing import MeasuredDrawing
        from sim.model.drawing import drawing as read

        return study(drawing if isinstance(drawing, MeasuredDrawing) else read(drawing))

    ask.__doc__ = (study.__doc__ or "").replace(_DRAWING, "drawing : str, path or MeasuredDrawing")
    return ask


def function(name: str) -> Any:  # noqa: ANN401
    """Return the function of that name, loading the module that holds it.

    Raises
    ------
    AttributeError
        When there is none.
    """
    if name == "load":
        return load
    if name in ABOUT_A_MODEL:
        read = _model_or_display if name in OF_A_DISPLAY else _model
        return asked(getattr(import_module(ABOUT_A_MODEL[name]), name), read)
    if name == "scale":
        return asked_of_a_drawing(import_module("sim.studies.scale").scale)
    if name in BY_ITSELF:
        return getattr(import_module(BY_ITSELF[name]), name)
    message = f"module 'sim' has no attribute {name!r}"
    raise AttributeError(message)
