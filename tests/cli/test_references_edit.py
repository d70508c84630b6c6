"""`references edit` on the command line: the next revision, what changed, and the history that `show` tells."""

import json
import shutil

from stackcheck.cli import main
from tests.strategies import LIBRARY


def test_an_edit_names_the_next_revision_and_shows_what_changed(tmp_path, capsys):
    shutil.copytree(LIBRARY, tmp_path / "library")
    shared = ["--library", str(tmp_path / "library")]
    assert main(["references", "edit", "front-hub", "parts.spacer-tube.length=58.00 mm ±0.03", "--what", "new drawing", "--by", "A", *shared]) == 0
    out = capsys.readouterr().out
    assert "rev C" in out and "RESIZED  Spacer tube: length 58.00 mm ±0.02, now 58.00 mm ±0.03" in out
    main(["references", "show", "front-hub", *shared])
    assert "A: new drawing" in capsys.readouterr().out
    main(["references", "edit", "front-hub", "assembly.replaced_by=freight-tricycle/rear-hub", "--what", "no longer made", "--json", *shared])
    assert json.loads(capsys.readouterr().out)["revision"] == "D"
    main(["references", "show", "front-hub", *shared])
    assert "replaced by freight-tricycle/rear-hub" in " ".join(capsys.readouterr().out.split())


def test_a_revision_that_nobody_can_count_on_from_is_asked_for(tmp_path, capsys):
    shutil.copytree(LIBRARY, tmp_path / "library")
    edit = ["references", "edit", "coupling", "parts.half.note=x", "--what", "x", "--library", str(tmp_path / "library")]
    assert main(edit) == 3
    assert "name it: --revision" in capsys.readouterr().err
    assert main([*edit, "--revision", "as fitted 2025-10"]) == 0
