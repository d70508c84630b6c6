"""The same machine, written from either end or from both: "outside" is toward the end that a thing sat at."""

import re
from pathlib import Path

import pytest

from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.result import compare

ROOT = Path(__file__).parent.parent.parent
BOTH = (ROOT / "examples/13-front-hub-seal-before-collar.toml").read_text()


def taken_from(end: str, other: str) -> str:
    """The list as if everything had come off one end."""
    head, *rest = re.split(r"^(?=\[\[)", BOTH, flags=re.MULTILINE)
    off = [table for table in rest if table.startswith("[[off]]")]
    near = [table for table in off if f'end = "{end}"' in table]
    far = [table.replace(f'end = "{other}"', f'end = "{end}"') for table in off if f'end = "{other}"' in table]
    return head + "".join([*near, *reversed(far), *(table for table in rest if not table.startswith("[[off]]"))])


@pytest.mark.parametrize(
    "text", [BOTH, taken_from("left", "right"), taken_from("right", "left")], ids=["both", "left", "right"]
)
def test_a_clean_hub_agrees_whichever_end_it_was_taken_from(text, tmp_path):
    (tmp_path / "list.toml").write_text(text)
    found, reference = read_found(tmp_path / "list.toml", Library(ROOT / "reference_assemblies").reference)
    comparison = compare(reference, found)
    assert (comparison.verdict, comparison.findings) == ("agrees", ())
