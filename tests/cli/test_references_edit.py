"""`references edit` on the command line: the next revision, what changed, and the history that `show` tells."""

import json
import shutil

from stackcheck.cli import main
from tests.strategies import LIBRARY, ROOT


def test_an_edit_names_the_next_revision_and_shows_what_changed(tmp_path, capsys):
    shutil.copytree(LIBRARY, tmp_path / "library")
    shared = ["--library", str(tmp_path / "library")]
    assert (
        main(
            [
                "references",
                "edit",
                "front-hub",
                "parts.spacer-tube.length=58.00 mm ±0.03",
                "--what",
                "new drawing",
                "--by",
                "A",
                *shared,
            ]
        )
        == 0
    )
    out = capsys.readouterr().out
    assert "rev C" in out and "RESIZED  Spacer tube: length 58.00 mm ±0.02, now 58.00 mm ±0.03" in out
    main(["references", "show", "front-hub", *shared])
    assert "A: new drawing" in capsys.readouterr().out
    main(
        [
            "references",
            "edit",
            "front-hub",
            "assembly.replaced_by=freight-tricycle/rear-hub",
            "--what",
            "no longer made",
            "--json",
            *shared,
        ]
    )
    assert json.loads(capsys.readouterr().out)["revision"] == "D"
    main(["references", "show", "front-hub", *shared])
    assert "replaced by freight-tricycle/rear-hub" in " ".join(capsys.readouterr().out.split())


def test_an_edit_inside_a_variant_shows_what_changed_there(tmp_path, capsys):
    folder = tmp_path / "freight-tricycle-early"
    folder.mkdir()
    path = shutil.copy(ROOT / "examples/generations/freight-tricycle-early/front-hub.toml", folder)
    name = "variants.without shield.parts.collar-short.length"
    assert main(["references", "edit", str(path), f"{name}=19.2 mm ±0.05", "--what", "measured again"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert out.startswith(
        "From freight-tricycle-early/front-hub rev A, "
        'variant "without shield" to freight-tricycle-early/front-hub rev B, variant'
    )
    assert "RESIZED Short collar: length 19.0 mm ±0.05, now 19.2 mm ±0.05" in out
    main(
        [
            "references",
            "edit",
            str(path),
            f"{name}=19.3 mm ±0.05",
            "parts.hub.material=steel",
            "--what",
            "both",
            "--json",
        ]
    )
    first, second = json.loads(capsys.readouterr().out)["differences"]
    assert (first["first"]["for_machine"], second["first"]["for_machine"]) == ("", 'variant "without shield"')
    assert [change["what"] for change in second["changes"]] == ["length", "material"]


def test_a_revision_that_nobody_can_count_on_from_is_asked_for(tmp_path, capsys):
    shutil.copytree(LIBRARY, tmp_path / "library")
    edit = [
        "references",
        "edit",
        "coupling",
        "parts.half.note=x",
        "--what",
        "x",
        "--library",
        str(tmp_path / "library"),
    ]
    assert main(edit) == 3
    assert "name it: --revision" in capsys.readouterr().err
    assert main([*edit, "--revision", "as fitted 2025-10"]) == 0
