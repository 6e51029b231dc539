"""The proof page: every published value the tests checked, in one table a source, written when all of them passed.

`tests/conftest.py` registers this as a plugin, for a run that spreads over workers reads no other conftest where the
reports come together. The table of estimated derivatives in DEVELOPERS.md is written with it. With ``WHIRLGATE_FRESH``
set both are compared instead of written, and an old one fails.
"""

import ast
import os
import re
from decimal import Decimal
from math import sqrt
from pathlib import Path
from statistics import median

import pytest

FOLDER = Path(__file__).parent
PAGE = FOLDER.parents[1] / "viz" / "handbook" / "proof.md"
MISSING = FOLDER / "missing.md"
GUIDE = FOLDER.parents[1] / "DEVELOPERS.md"
BOUNDS = ("<!-- estimates: written by pytest tests/published -->\n", "<!-- end of estimates -->\n")
"""In the guide, around the table of estimates."""
INSIDE = 1.645  # standard deviations to each side that hold 90 % of a normal distribution
NARROWING = ("keyword", "deselect", "lf", "stepwise")  # options that leave tests out; no published test bears a mark
MARKS = {
    "P": "read in a public reproduction of the source",
    "M": "from memory",
    "R": "computed again by a method independent of the program",
    "X": "mathematics, exact or converged: no source prints it, nothing was measured",
}
HEAD = """# Published values beside ours

Written by the tests (`pytest`), never by hand: every value a source prints, what whirlgate says, and how far apart they
are. A digit is one unit of the last place the source prints; agreement means half a digit unless the row says
otherwise and why. Where a source prints a formula, its value stands as printed. Ours has three places more. Mark P:
read in a public reproduction of the source; M: from memory; R: computed again by a method independent of the program;
X: mathematics, exact or converged, never a measurement.
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
        """Write the page and the table of the guide, or compare them; return what is wrong, or nothing."""
        sources = gather(self.rows)
        if faults := mistakes(sources):
            return "; ".join(faults)
        for path, make in ((PAGE, lambda _: page(sources)), (GUIDE, lambda old: with_estimates(old, sources))):
            old = path.read_text(encoding="utf-8") if path.exists() else ""
            text = make(old)
            if text != old and fresh:
                name = path.relative_to(FOLDER.parents[1]).as_posix()
                return f"{name} is not what the tests make: run pytest tests/published and commit it"
            if text != old:
                path.write_text(text, encoding="utf-8", newline="\n")
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
        first = re.search(r"\b[Mm]arks?:? ([PMRX](?: [PMRX])*)\b", text)
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
        marks = [set(note["mark"].split()) for note in notes]
        found += [f"{file} has no mark P, M, R or X in its docstring"] * any(not m or m - set(MARKS) for m in marks)
        found += [f"{file} calls a row mathematics and published"] * any("X" in m and m & {"P", "M"} for m in marks)
    return found


def page(sources):
    """Return the whole page."""
    parts = [HEAD, summary(sources), errors(sources), MISSING.read_text(encoding="utf-8"), contents(sources)]
    parts += [section(file, text, notes) for file, (text, notes) in sources.items()]
    return "\n".join(parts)


def summary(sources):
    """Count sources, values and marks, and name the largest differences."""
    notes = [(title(text)[0], note) for text, notes in sources.values() for note in notes]
    marks = ", ".join(
        f"{sum(mark in note['mark'].split() for _, note in notes)} {mark} ({words})" for mark, words in MARKS.items()
    )
    tight = [pair for pair in notes if pair[1]["allowed"] == "half a digit"]
    loose = [pair for pair in notes if pair[1]["why"] and pair[1]["digits"] and pair[1]["band"] is None]
    lines = [
        f"- **{len(notes)} values from {len(sources)} sources**: {marks}.",
        f"- {len(tight)} agree to half a digit; the largest difference among them: {largest(tight)}.",
        f"- {len(loose)} have a tolerance of their own; the largest difference among them: {largest(loose)}.",
        f"- {sum(n['band'] is not None for _, n in notes)} are estimates with a band of their own.",
        f"- {sum(n['allowed'] == 'exact' for _, n in notes)} are limits and factors that must not differ at all.",
        f"- {sum(n['allowed'] == 'word' for _, n in notes)} are words, such as the way the nose goes.",
        f"- {sum(bool(n['misprint']) for _, n in notes)} misprints of the sources stand beside the corrected value.",
    ]
    return "\n".join(lines) + "\n"


def errors(sources):
    """Return the errors of each kind, what others published apart from mathematics."""
    notes = [note for _, rows in sources.values() for note in rows if note["kind"]]
    parts = []
    for mathematics, name in (
        (False, "Errors by kind, beside published values"),
        (True, "Errors by kind, mathematics"),
    ):
        chosen = [note for note in notes if ("X" in note["mark"].split()) is mathematics and counts(note)]
        chosen.sort(key=lambda note: note["band"] is None)
        kinds = {kind: [n for n in chosen if n["kind"] == kind] for kind in dict.fromkeys(n["kind"] for n in chosen)}
        estimated = [note for note in chosen if note["band"] is not None]
        lines = [f"## {name}", "", "| kind | values | median | rms | largest | inside the 90 % band |"]
        lines += ["|---|--:|--:|--:|--:|--:|", *(line_of_errors(kind, rows) for kind, rows in kinds.items())]
        if estimated:
            lines.append(line_of_errors("all estimated derivatives", estimated))
        parts.append("\n".join(lines) + "\n")
    return "\n".join(parts)


def counts(note):
    """Return whether a row counts in a median: not where it is from memory alone, nor where the printed value is 0."""
    return note["mark"] != "M" and number(note["printed"]) != 0.0


def number(text):
    return float(text.replace("−", "-"))


def error(note):
    return number(note["ours"]) / number(note["printed"]) - 1.0


def inside(note):
    return abs(number(note["ours"]) - number(note["printed"])) <= INSIDE * note["band"]


def line_of_errors(kind, notes):
    sizes = [abs(error(note)) for note in notes]
    banded = [note for note in notes if note["band"] is not None]
    share = f"{sum(map(inside, banded))} of {len(banded)}" if banded else ""
    cells = (median(sizes), sqrt(sum(size * size for size in sizes) / len(sizes)), max(sizes))
    return f"| {escaped(kind)} | {len(notes)} | {' | '.join(f'{100.0 * cell:.3g} %' for cell in cells)} | {share} |"


def with_estimates(guide, sources):
    """Return the guide for contributors with the table of all estimated derivatives, an airplane a column."""
    notes = [note for _, rows in sources.values() for note in rows if note["band"] is not None]
    cells = {tuple(note["row"].split(": ", 1)): note for note in notes}
    known = [airplane for airplane, _ in cells]
    airplanes = sorted(dict.fromkeys(known), key=known.count, reverse=True)
    names = dict.fromkeys(name for airplane in airplanes for one, name in cells if one == airplane)
    lines = [f"| derivative | {' | '.join(airplanes)} | median error |", f"|---|{'---|' * len(airplanes)}---|"]
    for name in names:
        row = [cells.get((airplane, name)) for airplane in airplanes]
        sizes = [abs(error(note)) for note in row if note and counts(note)]
        middle = f"{100.0 * median(sizes):.0f} %" if sizes else ""
        lines.append(f"| `{name}` | {' | '.join(estimate(note) if note else '' for note in row)} | {middle} |")
    before, rest = guide.split(BOUNDS[0])
    return before + BOUNDS[0] + "\n".join(lines) + "\n" + BOUNDS[1] + rest.split(BOUNDS[1])[1]


def estimate(note):
    """Return estimate, band, printed value and error of one derivative."""
    return f"{number(note['ours']):.3f} ± {note['band']:.3f}, {note['printed']} ({100.0 * error(note):+.0f} %)"


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
        marks = " ".join(mark for mark in MARKS if any(mark in note["mark"].split() for note in notes))
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
        f"`{file}`",
        "",
    ]
    lines += ["| what | printed | ours | difference | digits | allowed | mark |", "|---|--:|--:|--:|--:|---|---|"]
    for note in notes:
        value = " ".join(filter(None, (note["printed"].replace("-", "−"), note["unit"])))
        value += f" (misprinted {note['misprint']})" * bool(note["misprint"])
        allowed = ": ".join(filter(None, (note["allowed"], note["why"])))
        mark = note["mark"].replace("X", "X, mathematics")
        cells = (note["row"], value, note["ours"], note["difference"], note["digits"], allowed, mark)
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
