"""A reference is not told to mend a part whose face ends before the other ring; one whose wide face looks there is."""

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.references.weak.bridging import bridging
from stackcheck.value import replace

WHEEL = Library(Path(__file__).parents[2] / "examples" / "sharp-edges").reference("sluice-gate/guide-wheel")


def collar(toward: str, without: tuple[str, ...] = ()):
    """The guide wheel with its short collar's flange toward this end, and some of its sizes left out."""
    return replace(
        WHEEL,
        places=tuple(replace(p, facing=toward) if p.part == "collar-short" else p for p in WHEEL.places),
        parts=tuple(
            replace(part, sizes=tuple(pair for pair in part.sizes if pair[0] not in without))
            if part.id == "collar-short"
            else part
            for part in WHEEL.parts
        ),
    )


def test_a_flange_that_looks_away_from_the_bearing_bridges_nothing():
    assert list(bridging(collar("first"))) == []


@pytest.mark.parametrize(
    "reference", [collar("second"), collar("first", without=("face_outside", "feature_face_outside"))],
    ids=["its flange looks at the bearing", "nobody says where its faces end"],
)  # fmt: skip
def test_a_face_wide_enough_for_both_rings_is_named(reference):
    (weak,) = bridging(reference)
    assert weak.about == ("parts", "collar-short", "outside")
    assert "36.00 reaches the outer ring" in weak.sentence
