"""`references tables`: nobody has to trust a figure without seeing who says so, or search for what is not there."""

import json

from stackcheck.cli import main
from stackcheck.tables import figures, rows, tables


def test_every_table_is_listed_with_rows_sources_and_gaps(capsys):
    assert main(["references", "tables", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [table["id"] for table in answer["tables"]] == [table.id for table in tables()]
    assert sum(table["rows"] for table in answer["tables"]) == sum(len(rows(table.id)) for table in tables()) >= 640
    assert all(table["not_covered"] and len(table["sources"]) >= 2 for table in answer["tables"])


def test_figures_that_parts_are_made_with_are_listed_beside_the_parts(capsys):
    """ISO 286 and ISO 5753-1 decide fits and clearances; whoever doubts one wants its source too."""
    assert main(["references", "tables", "--json"]) == 0
    listed = json.loads(capsys.readouterr().out)["figures"]
    assert (
        [table["id"] for table in listed]
        == [table.id for table, _ in figures()]
        == ["iso-286-1", "iso-286-2", "iso-5753-1"]
    )
    assert all(table["rows"] >= 10 and len(table["sources"]) >= 2 for table in listed)


def test_what_has_no_table_is_said_with_its_reason(capsys):
    assert main(["references", "tables"]) == 0
    out = capsys.readouterr().out
    absent = out.partition("NO TABLE")[2]
    assert "DIN 988" in absent and "one source only" in absent
    assert all(":" in line or line.startswith("    ") for line in absent.splitlines()[2:] if line.startswith(" -  "))


def test_no_line_is_wider_than_a_terminal(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["references", "tables"]) == 0
    assert [line for line in capsys.readouterr().out.splitlines() if len(line) > 80] == []
