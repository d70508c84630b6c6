"""What is written for people is true: README blocks run, every command and option is in the manual."""

import argparse
import re
import shlex
import shutil
import textwrap
from pathlib import Path

import pytest

from stackcheck.cli import _parser, main

ROOT = Path(__file__).parent.parent
MANUAL = (ROOT / "stackcheck/manual/commands.md").read_text()


def _console_blocks():
    for path in (ROOT / "README.md", *sorted((ROOT / "stackcheck/manual").glob("*.md"))):
        for block in re.findall(r"^```console\n(.*?)^```$", path.read_text(), re.MULTILINE | re.DOTALL):
            command, _, output = block.partition("\n")
            yield pytest.param(command.removeprefix("$ stackcheck "), output, id=f"{path.name}: {command[2:]}")


def test_the_readme_shows_real_output():
    assert len(list(_console_blocks())) >= 3


@pytest.mark.parametrize(("command", "output"), list(_console_blocks()))
def test_a_shown_command_answers_what_is_shown(command, output, capsys, monkeypatch):
    """ "..." alone on a line stands for lines left out."""
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    main(shlex.split(command))
    shown = capsys.readouterr().out
    for piece in re.split(r"^\.\.\.\n", output, flags=re.MULTILINE):
        assert piece in shown


def test_the_files_shown_in_the_readme_are_those_that_are_shipped():
    shown = re.findall(r"^```toml\n(.*?)^```$", (ROOT / "README.md").read_text(), re.MULTILINE | re.DOTALL)
    shipped = [path.read_text() for path in (ROOT / "examples/first-reference").rglob("*.toml")]
    assert len(shown) == 2
    assert all(text in shipped for text in shown)


def test_what_the_readme_adds_to_its_reference_is_read_and_answered(tmp_path, capsys):
    """Whoever copies those lines below the first reference gets forces and states without another word."""
    said = (ROOT / "README.md").read_text().partition("### What else may it say?")[2]
    lines = textwrap.dedent(
        "\n".join(re.findall(r"^(?:    .*)?$", said.partition("Then `stackcheck")[0], re.MULTILINE))
    )
    shutil.copytree(ROOT / "examples/first-reference", tmp_path / "own")
    with (tmp_path / "own/drill-stand/idler.toml").open("a", encoding="utf-8") as file:
        file.write(f"\n{lines}")
    assert main(["stack", "idler", "--library", str(tmp_path / "own"), "--temperature", "states"]) == 2
    out = capsys.readouterr().out
    assert all(words in out for words in ("tension of the bolt", "pulley 70 °C", "by heat"))
    assert main(["stack", "idler", "--library", str(tmp_path / "own")]) == 2  # a length is not given, and said so
    assert "needs length of the dust cap" in capsys.readouterr().out


def _commands(parser, words=()):
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for name, child in action.choices.items():
                yield from _commands(child, (*words, name))
            return
    yield words, [option for action in parser._actions for option in action.option_strings if option.startswith("--")]


@pytest.mark.parametrize(("words", "options"), list(_commands(_parser())), ids=lambda value: " ".join(value))
def test_every_command_and_option_stands_in_the_manual(words, options):
    assert f"stackcheck {' '.join(words)}" in MANUAL
    assert all(option in MANUAL for option in options if option not in ("--help", "--version"))


def test_links_lead_somewhere():
    for path in (ROOT / "README.md", ROOT / "DEVELOPERS.md"):
        for target in re.findall(r"\]\(([^)#]+)\)", path.read_text()):
            assert target.startswith("http") or (path.parent / target).exists(), f"{path.name}: {target}"


def _headings(page):
    return re.findall(r"^##+ (.+)$", (ROOT / f"stackcheck/manual/{page}.md").read_text(), re.MULTILINE)


def test_the_contents_of_the_forces_name_every_heading():
    """A mechanic with ten minutes finds the question by the list at the top, and the list leads there."""
    text = (ROOT / "stackcheck/manual/forces.md").read_text()
    listed = re.findall(r"^ *- \[(.+)\]\(#(.+)\)$", text, re.MULTILINE)
    assert [title for title, _ in listed] == _headings("forces")
    assert all(anchor == re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-") for title, anchor in listed)


def test_what_the_sharp_edges_name_of_the_forces_is_a_heading_there():
    rows = re.findall(r"forces\.md, ((?:\"[^\"]+\"(?:, )?)+)", (ROOT / "stackcheck/manual/sharp_edges.md").read_text())
    named = [title for row in rows for title in re.findall(r'"([^"]+)"', row)]
    assert len(named) > 10
    assert [title for title in named if not any(head.startswith(title) for head in _headings("forces"))] == []


def test_every_price_stands_in_the_manual_with_its_reason():
    from stackcheck.compare.prices import PRICES

    manual = (ROOT / "stackcheck/manual/comparing.md").read_text()
    for kind, price in PRICES.items():
        row = next(line for line in manual.splitlines() if line.startswith(f"| {kind.replace('_', ' ')} |"))
        assert row.split("|")[2].strip().split(",")[0] == str(price.points)
        assert price.reason in row
