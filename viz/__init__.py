"""Everything a person sees: commands, tables, figures, reports, drawings and the stage.

``viz.figure(answer)`` and ``viz.sheet(answer)`` show the answer of any function of `sim`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from viz.present import figure as figure
    from viz.present import sheet as sheet


def __getattr__(name: str) -> Any:  # noqa: ANN401
    if name in ("figure", "sheet"):
        from viz import present

        return getattr(present, name)
    message = f"module 'viz' has no attribute {name!r}"
    raise AttributeError(message)
