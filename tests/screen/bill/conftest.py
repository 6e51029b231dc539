"""What the tests of a bill share: it written out, and its cells changed as in a spreadsheet."""

import csv
import io

import pytest


@pytest.fixture
def done(run):
    """Call a command that succeeds, and return what it prints, on one line."""

    def do(*words):
        result = run(*words)
        assert (result.exit_code, result.stderr) == (0, "")
        return " ".join(result.stdout.split())

    return do


@pytest.fixture
def bill(done, scenario, tmp_path):
    """Return the items of the biplane that may be written to, as CSV."""
    path = tmp_path / "items.csv"
    done("balance", scenario, "--bill", path)
    return path


@pytest.fixture(scope="session")
def edited():
    """Return what changes cells of an item of a bill."""

    def edit(path, **cells):
        """Write cells of the item `name`, by the head of their column without its unit; a new one gets a row."""
        rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))))
        heads = list(rows[0])
        name = cells.pop("name")
        row = next((row for row in rows if row["name"] == name), None)
        if row is None:
            rows.append(row := dict.fromkeys(heads, "") | {"name": name})
        for key, cell in cells.items():
            row[next(head for head in heads if head.partition(" [")[0] == key.replace("_error", " ±"))] = cell
        text = io.StringIO()
        writer = csv.DictWriter(text, heads, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
        path.write_text(text.getvalue(), encoding="utf-8")

    return edit
