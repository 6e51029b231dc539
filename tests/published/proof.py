"""The proof page: every published value the tests checked, in one table a source, written when all of them passed.

`tests/conftest.py` registers this as a plugin, for a run that spreads over workers reads no other conftest where the
reports come together. With ``WHIRLGATE_FRESH`` set the page is compared instead of written, and an old page fails.
"""

import ast
import os
import re
from decimal import Decimal
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent
PAGE = FOLDER / "README.md"
NARROWING = ("keyword", "deselect", "lf", "stepwise")  # options that leave tests out; no published test bears a mark
MARKS = {
    "P": "read in a reproduction of the source",
    "M": "from memory, recomputed where possible",
    "E": "exact: worked by hand, no source needed",
}
HEAD = """# Published values beside ours

Written by the tests (`pytest`), never by hand: every value a source prints, what whirlgate says, and how far apart they
are. A digit is one unit of the last place the source prints; agreement means half a digit unless the row says
otherwise and why. Where a source prints a formula, its value stands as printed. Ours has three places more. Mark P:
read in a reproduction of the source; M: from memory, recomputed where possible; E: exact, worked by hand.
"""


class Proof:
    """The rows of one run, gathered from its reports in whatever order they come."""

    def __init__(self, config):
        self.config, self.rows, self.bad, self.said = config, {}, set(), ""

    def pytest_runtest_logreport(self, report):
        path = Path(report.nodeid.split("::")[0])
        if path.parent.name != FOLDER.name or path.parent.parent.name != "tests":
            return
        if report.outcome != "passed":
            self.bad.add(report.nodeid)
        if report.when == "call":
            notes = [note for name, note in report.user_properties if name == "printed"]
            self.rows[report.nodeid] = (path.name, report.location[1], notes)

    def pytest_sessionfinish(self, session, exitstatus):
        fresh = bool(os.environ.get("WHIRLGATE_FRESH"))
        if not self.whole(session, exitstatus):
            self.said = "not every test of tests/published ran and passed: the proof page was not compared" * fresh
        else:
            self.said = self.settle(fresh=fresh)
        if self.said:
            session.exitstatus = pytest.ExitCode.TESTS_FAILED

    def pytest_terminal_summary(self, terminalreporter):
        if self.said:
            terminalreporter.write_line(f"error: {self.said}", red=True)

    def whole(self, session, exitstatus):
        """Return whether every test of the folder ran, and passed."""
        options = self.config.option
        narrowed = any(getattr(options, name, None) for name in NARROWING)
        narrowed |= any("::" in word for word in self.config.args) or bool(session.shouldfail or session.shouldstop)
        seen = {file for file, _, _ in self.rows.values()}
        every = {path.name for path in FOLDER.glob("test_*.py")} == seen
        return exitstatus in (0, 1) and every and not narrowed and not self.bad

    def settle(self, *, fresh):
        """Write the page, or compare it where it must be fresh; return what is wrong, or nothing."""
        sources = gather(self.rows)
        if faults := mistakes(sources):
            return "; ".join(faults)
        text = page(sources)
        old = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
        if text != old and fresh:
            return "tests/published/README.md is not what the tests make: run pytest tests/published and commit it"
        if text != old:
            PAGE.write_text(text, encoding="utf-8", newline="\n")
        return ""


def gather(rows):
    """Sort the rows of each file as they stand in it; returns file -> (docstring, rows)."""
    sources = {}
    for nodeid in sorted(rows, key=lambda nodeid: (*rows[nodeid][:2], natural(nodeid))):
        file, _, notes = rows[nodeid]
        if file not in sources:
            sources[file] = (ast.get_docstring(ast.parse((FOLDER / file).read_text(encoding="utf-8"))) or "", [])
        sources[file][1].extend(notes)
    for text, notes in sources.values():
        first = re.search(r"\b[Mm]arks?:? ([PME])\b", text)
        for note in notes:
            note["mark"] = note["mark"] or (first[1] if first else "")
    return sources


def natural(nodeid):
    """Order 9 before 10."""
    return [(float(part), "") if i % 2 else (0.0, part) for i, part in enumerate(re.split(r"(\d+(?:\.\d+)?)", nodeid))]


def mistakes(sources):
    """Return what keeps the page from being honest, one sentence each."""
    found = [
        f"{file} shows no value: pass what it checks through `printed`" for file, (_, n) in sources.items() if not n
    ]
    for file, (_, notes) in sources.items():
        names = [note["row"] for note in notes]
        found += [f"{file} has two rows named {name!r}" for name in sorted(set(names)) if names.count(name) > 1]
        found += [f"{file} has no mark P, M or E in its docstring"] * any(note["mark"] not in MARKS for note in notes)
    return found


def page(sources):
    """Return the whole page."""
    parts = [HEAD, summary(sources), contents(sources)]
    parts += [section(file, text, notes) for file, (text, notes) in sources.items()]
    return "\n".join(parts)


def summary(sources):
    """Count sources, values and marks, and name the largest differences."""
    notes = [(title(text)[0], note) for text, notes in sources.values() for note in notes]
    marks = ", ".join(
        f"{sum(note['mark'] == mark for _, note in notes)} {mark} ({words})" for mark, words in MARKS.items()
    )
    tight = [pair for pair in notes if pair[1]["allowed"] == "half a digit"]
    loose = [pair for pair in notes if pair[1]["why"] and pair[1]["digits"]]
    lines = [
        f"- **{len(notes)} values from {len(sources)} sources**: {marks}.",
        f"- {len(tight)} agree to half a digit; the largest difference among them: {largest(tight)}.",
        f"- {len(loose)} have a tolerance of their own; the largest difference among them: {largest(loose)}.",
        f"- {sum(n['allowed'] == 'exact' for _, n in notes)} are limits and factors that must not differ at all.",
        f"- {sum(n['allowed'] == 'word' for _, n in notes)} are words, such as the way the nose goes.",
        f"- {sum(bool(n['misprint']) for _, n in notes)} misprints of the sources stand beside the corrected value.",
    ]
    return "\n".join(lines) + "\n"


def digits(note):
    """Return the size of the difference in units of the last printed digit."""
    return abs(Decimal((note["digits"] or "0").replace("−", "-")))


def largest(pairs):
    name, note = max(pairs, key=lambda pair: digits(pair[1]))
    return escaped(f"{digits(note):f} digits ({name}: {note['row']})")


def contents(sources):
    """List the sources, with the largest difference of each."""
    lines = ["| source | values | marks | largest difference, digits |", "|---|---|---|---|"]
    for file, (text, notes) in sources.items():
        marks = " ".join(mark for mark in MARKS if any(note["mark"] == mark for note in notes))
        most = max(digits(note) for note in notes)
        lines.append(f"| [{escaped(title(text)[0])}](#{Path(file).stem}) | {len(notes)} | {marks} | {most:f} |")
    return "\n".join(lines) + "\n"


def section(file, text, notes):
    """Return one source: its citation and its rows."""
    name, rest = title(text)
    lines = [
        f'<a id="{Path(file).stem}"></a>',
        "",
        f"## {escaped(name)}",
        "",
        escaped(rest),
        "",
        f"[{file}]({file})",
        "",
    ]
    lines += ["| what | printed | ours | difference | digits | allowed | mark |", "|---|--:|--:|--:|--:|---|---|"]
    for note in notes:
        value = " ".join(filter(None, (note["printed"].replace("-", "−"), note["unit"])))
        value += f" (misprinted {note['misprint']})" * bool(note["misprint"])
        allowed = ": ".join(filter(None, (note["allowed"], note["why"])))
        cells = (note["row"], value, note["ours"], note["difference"], note["digits"], allowed, note["mark"])
        lines.append(f"| {' | '.join(map(escaped, cells))} |")
    return "\n".join(lines) + "\n"


def title(text):
    """Split a docstring in its first line, up to the mark, and what follows."""
    first = text.split("\n", 1)[0]
    name = re.split(r"\.? +Marks?\b", first)[0]
    return name.rstrip(".").strip(), text[len(name) :].lstrip(".").strip()


def escaped(text):
    """Return text that markdown shows as it is."""
    return re.sub(r"([\\*_\[\]<>|#])", r"\\\1", text)
