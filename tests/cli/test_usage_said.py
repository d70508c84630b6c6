"""A slip in a command is answered with what mends it."""

import pytest

from stackcheck.cli import main


@pytest.mark.parametrize(
    ("command", "said"),
    [
        (["stack", "front-hub", "--temperature", "-20..60"], '"=": --temperature="-20..60 °C"'),
        (["open", "front-hub", "--library", "my-machines"], "a job has its reference in its own folder"),
    ],
)
def test_what_mends_it_stands_below_the_slip(command, said, capsys):
    assert main(command) == 3
    assert said in capsys.readouterr().err
