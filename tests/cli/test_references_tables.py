"""`references tables`: nobody has to trust a figure without seeing who says so, or search for what is not there."""

import json

from stackcheck.cli import main
from stackcheck.tables import candidates, tables


def test_every_table_is_listed_with_rows_sources_and_gaps(capsys):
    assert main(["references", "tables", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [table["id"] for table in answer["tables"]] == [table.id for table in tables()]
    assert sum(table["rows"] for table in answer["tables"]) == len(candidates())
    assert all(table["not_covered"] and len(table["sources"]) >= 2 for table in answer["tables"])


def test_what_has_no_table_is_said_and_has_none(capsys):
    assert main(["references", "tables"]) == 0
    out = capsys.readouterr().out
    absent = out.partition("NO TABLE")[2]
    assert "DIN 988" in absent and "ISO 1234" in absent
    assert not [table for table in tables() if table.standard in absent]
