"""The notebooks as pages: their words, their code, and what each cell shows, run as the page is made."""

from __future__ import annotations

import ast
import json
import re
from pathlib import Path
from pprint import pformat
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

FOLDER = Path(__file__).parents[1] / "notebooks"
CELL = re.compile(r"^```whirlgate-python(?: (?P<what>[^\n]+))?\n(?P<code>.*?)^```$", re.MULTILINE | re.DOTALL)
"""A block of Python, run in the names that the blocks before it have made; behind its first word what it shows."""


def pages() -> dict[str, str]:
    """Return the name and the Markdown of the page of each notebook, its code not run yet."""
    return {f"notebooks/{path.stem}.md": "\n\n".join(_blocks(path)) + "\n" for path in sorted(FOLDER.glob("*.ipynb"))}


def _blocks(path: Path) -> Iterator[str]:
    said = ""
    for number, cell in enumerate(json.loads(path.read_text(encoding="utf-8"))["cells"]):
        text = "".join(cell["source"])
        if cell["cell_type"] == "markdown":
            said = " ".join(text.split()).rstrip(":.")
            yield text
        else:
            yield f"```whirlgate-python {said}\n{text}\n```"
        if number == 0:
            yield f"The same as a notebook, to run and to change: [{path.name}]({path.name})."


def ran(text: str, folder: Path) -> str:
    """Return a page whose blocks of Python are followed by what they show.

    Parameters
    ----------
    text : str
        Markdown.
    folder : Path
        Of the page's name, beside it; pictures go there.
    """
    names: dict[str, Any] = {}

    def block(found: re.Match[str]) -> str:
        shown = _shown(_value(found["code"], names), folder, f"cell_{found.start()}.svg", found["what"] or "")
        return "\n\n".join(part for part in (f"```python\n{found['code']}```", shown) if part)

    return CELL.sub(block, text)


def unrun(text: str) -> str:
    """Return a page whose blocks of Python are shown and not run."""
    return CELL.sub(lambda found: f"```python\n{found['code']}```", text)


def _value(code: str, names: dict[str, Any]) -> Any:  # noqa: ANN401
    """Run lines of Python, and return the value of the last one; None where that is no expression."""
    *lines, last = ast.parse(code).body
    if not isinstance(last, ast.Expr):
        lines.append(last)
    exec(compile(ast.Module(lines, []), "<handbook>", "exec"), names)
    return (
        eval(compile(ast.Expression(last.value), "<handbook>", "eval"), names) if isinstance(last, ast.Expr) else None
    )


def _shown(value: Any, folder: Path, file: str, what: str) -> str:  # noqa: ANN401
    """Return a value as Markdown: a figure as a picture, a sheet as a notebook shows it, others as Python does."""
    from matplotlib.figure import Figure

    from viz.figures.sheet import rendered
    from viz.present import Sheet

    if value is None:
        return ""
    if isinstance(value, Figure):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes(rendered(value))
        return f"![{what}]({folder.name}/{file})"
    if isinstance(value, Sheet):
        return f'<div class="sheet">\n{value._repr_html_()}\n</div>'
    return f"```text\n{pformat(value, width=100)}\n```"
