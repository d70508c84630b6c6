"""Weak places of references: every planted fault is found as what it is, on its line, and a sound file has none.

A fault is a slip of somebody's pen in a shipped file: (file, what was written, what is written now), the check that
must find it, and what it is about.
"""

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.formats.mending import Lines
from stackcheck.formats.reference_file import read_reference
from stackcheck.references.weak import CHECKS, OPEN, TO_MEND, weaknesses
from tests.strategies import LIBRARY, ROOT

HUB, REAR, HEAD = "freight-tricycle/front-hub", "freight-tricycle/rear-hub", "freight-tricycle/steering-head"
PUMP, SEAL, COUPLING = "bilge-pump/shaft-bearings", "bilge-pump/seal-and-impeller", "bilge-pump/coupling"
CLUTCH, PINION, LAYSHAFT, DISCS = (
    f"orchard-tractor/{name}" for name in ("clutch-pack", "pinion-shaft", "layshaft", "disc-spring-stack")
)
ARBOR, TRAILER, JOCKEY = "bench-grinder/arbor", "boat-trailer/hub", "boat-trailer/jockey-wheel"

BARREL = ('{ length = "43.95 mm", outside', '{ length = "44.95 mm", outside')
"""The sections of the hub go with its length."""

PLANTED = [
    # a metal that nobody knows
    (HUB, ('outside = "28 mm ±0.1"\nmaterial = "steel"', 'outside = "28 mm ±0.1"\nmaterial = "cheese"'), "metal",
     ("parts", "spacer-tube", "material")),
    # chains that do not close, and limits that cannot be met
    (HUB, ('length = "58.00 mm ±0.02"', ""), ('must_measure = ["length"]\n\n[parts.hub]', "[parts.hub]"), "chain",
     ("limits", "seat gap")),
    (HUB, ('length = "57.95 mm ±0.02"', 'length = "58.95 mm ±0.02"'), BARREL, "chain", ("limits", "seat gap")),
    (HUB, ('length = "58.00 mm ±0.02"', 'length = "58.00 mm ±0.08"'), "chain", ("limits", "seat gap")),
    (HUB, ('length = "129.2 mm ±0.2"', 'length = "126.2 mm ±0.2"'), "chain", ("places", "free gap")),
    (HUB, ('most = "4.0 mm"', 'most = "3.5 mm"'), "chain", ("places", "free gap")),
    (CLUTCH, ('length = "2.40 mm ±0.01"', 'length = "2.40 mm ±0.05"'), "chain", ("places", "free travel")),
    (CLUTCH, ("repeat = 6", "repeat = 5"), "chain", ("places", "free travel")),
    (PINION, ('most = "0.14 mm"', 'most = "0.10 mm"'), "chain", ("limits", "end float of the pinion")),
    (PINION, ('{ place = "preload-shim", count = 3 }', '{ place = "preload-shim", count = 4 }'), "chain",
     ("limits", "end float of the pinion")),
    (LAYSHAFT, ('length = "107.70 mm ±0.03"', 'length = "106.70 mm ±0.03"'), "chain", ("places", "room on the shaft")),
    (SEAL, ('length = "48.5 mm ±0.1"', 'length = "58.5 mm ±0.1"'), "chain", ("places", "seal working length")),
    # a preload that is wanted where the lengths leave end float, and a clamp that the torque does not bring
    (PINION,
     ("[[pairings]]",
      '[[limits]]\nwhat = "preload of the pinion"\nof = "end float of the pinion"\nleast = "3 kN"\nsource = "sheet"\n[[pairings]]'),
     "force", ("limits", "preload of the pinion")),
    (HUB,
     ("[[joints]]",
      '[[limits]]\nwhat = "clamp of the hub"\nof = "axle nut"\nleast = "40 kN"\nsource = "own record"\n\n[[joints]]'),
     "force", ("limits", "clamp of the hub")),
    # a gap that heat carries out of the limits that are said for a state
    (REAR, ('most = "0.20 mm"', 'most = "0.05 mm"'), "state", ("limits", "end float with a hot brake")),
    (PUMP, ('least = "0.5 mm"', 'least = "2.0 mm"'), "state", ("limits", "room for the shaft to grow")),
    # a bolt in line with what it reaches through
    (HUB, ('kind = "spacer tube"', 'kind = "bolt"'), "passing", ("parts", "spacer-tube", "length")),
    # facing not stated
    (HUB, ('{ place = "seal@right", toward = "bearing" }', '"seal@right"'), "facing", ("places", "seal@right")),
    (HUB, ('{ place = "collar-short@left", toward = "outside" }', '"collar-short@left"'), "facing",
     ("places", "collar-short@left")),
    (CLUTCH, ('{ place = "circlip", toward = "circlip end" }', '"circlip"'), "facing", ("places", "circlip")),
    (PUMP, ('{ place = "oil-seal@coupling", toward = "impeller end" }', '"oil-seal@coupling"'), "facing",
     ("places", "oil-seal@coupling")),
    (REAR, ('{ place = "bearing-large", toward = "right" }', '"bearing-large"'), "facing", ("places", "bearing-large")),
    (DISCS, ('{ place = "disc-spring@4", toward = "nut end" }', '"disc-spring@4"'), "facing",
     ("places", "disc-spring@4")),
    (REAR, ('standard = "30204"\nfeature = "small end of the rollers"', 'standard = "30204"'),
     ('{ place = "bearing-small", toward = "left" }', '"bearing-small"'), "facing", ("parts", "bearing-small")),
    # steps that contradict what is said of the way round, or that nothing is said of
    (ARBOR,
     ('length = "28.0 mm ±0.03"\nbore = "20.2 mm +0.1/0"\noutside = "28 mm ±0.1"\nmaterial = "steel"',
      ('length = "28.0 mm ±0.03"\nmaterial = "steel"\nsections = [{ length = "4 mm", outside = "30 mm", bore = "20.2 mm" }, '
       '{ length = "24 mm", outside = "28 mm", bore = "20.2 mm" }]')),
     "steps", ("parts", "spacer-tube-short", "same_both_ways")),
    (HUB,
     ('bore = "20.2 mm +0.1/0"\noutside = "28 mm ±0.1"\nmaterial = "steel"',
      ('material = "steel"\nsections = [{ length = "4 mm", outside = "30 mm", bore = "20.2 mm" }, '
       '{ length = "54 mm", outside = "28 mm", bore = "20.2 mm" }]')),
     "steps", ("parts", "spacer-tube", "sections")),
    # a flange that looks at the bearing reaches its outer ring
    (LAYSHAFT,
     ('bore = "25.1 mm +0.1/0"\noutside = "42 mm ±0.2"',
      ('sections = [{ length = "1 mm", outside = "48 mm", bore = "25.1 mm" }, '
       '{ length = "1.5 mm", outside = "42 mm", bore = "25.1 mm" }]')),
     "bridging", ("parts", "thrust-washer", "sections")),
    # pairs without their partner
    (HUB, ('duty = ["pair: collar-short", "brake"]', 'duty = ["brake"]'), "pair", ("parts", "collar-long", "duty")),
    (ARBOR, ('duty = ["pair: spacer-tube-long"]', 'duty = ["pair: nut-left"]'), "pair", ("parts", "nut-left", "duty")),
    (ARBOR, ('duty = ["pair: spacer-tube-long"]', 'duty = ["pair: spacer-tube-short"]'), "pair",
     ("parts", "spacer-tube-short", "duty")),
    # retention without a locking device
    (ARBOR,
     (('torque = "40 N·m"\nthread_condition = "dry"\n'
       'locked_by = "the hand of its thread: the turning wheel tightens it"'),
      'torque = "40 N·m"\nthread_condition = "dry"'),
     "retention", ("parts", "nut-left", "duty")),
    (HUB, ('duty = ["retention", "life-and-limb", "new every time"]', 'duty = ["retention", "life-and-limb"]'),
     "retention", ("parts", "axle-nut", "duty")),
    (PINION, ('"Self-locking flange nut"', '"Flange nut"'), ('also = ["insert lock nut"]', ""),
     ('feature = "insert"', 'feature = "collar"'), ('duty = ["retention", "new every time"]', 'duty = ["retention"]'),
     "retention", ("parts", "flange-nut", "duty")),
    (PUMP, ('locked_by = "tab washer"', 'locked_by = "split pin"'), "retention", ("joints", "shaft nut", "locked_by")),
    # single-direction bearings that do not take thrust both ways
    (REAR, ('{ place = "bearing-small", toward = "left" }', '{ place = "bearing-small", toward = "right" }'),
     "thrust", ("places", "bearing-small")),
    (PINION, ('{ place = "bearing@input", toward = "web" }', '{ place = "bearing@input", toward = "input end" }'),
     "thrust", ("places", "bearing@input")),
    (HEAD, ('{ place = "bearing@bottom", toward = "middle" }', '{ place = "bearing@bottom", toward = "bottom" }'),
     "thrust", ("places", "bearing@bottom")),
    (TRAILER,
     ('{ place = "bearing-inboard", toward = "outboard" }', '{ place = "bearing-inboard", toward = "inboard" }'),
     "thrust", ("places", "bearing-outboard")),
    # washers that bridge to the other ring
    (LAYSHAFT, ('outside = "42 mm ±0.2"', 'outside = "48 mm ±0.2"'), "bridging", ("parts", "thrust-washer", "outside")),
    (PUMP, ('outside = "49 mm ±0.3"', 'outside = "58 mm ±0.3"'), "bridging", ("parts", "tab-washer", "outside")),
    (ARBOR,
     ('length = "28.0 mm ±0.03"\nbore = "20.2 mm +0.1/0"\noutside = "28 mm ±0.1"',
      'length = "28.0 mm ±0.03"\nbore = "20.2 mm +0.1/0"\noutside = "40 mm ±0.1"'),
     "bridging", ("parts", "spacer-tube-short", "outside")),
    (PINION,
     ('outside = "45 mm 0/-0.2"\nsame_both_ways = true\nduty = ["look-alike: position',
      'outside = "64 mm 0/-0.2"\nsame_both_ways = true\nduty = ["look-alike: position'),
     "bridging", ("parts", "preload-shim", "outside")),
    # bores that do not suit their shaft
    (HUB, ('seat = "20 g6"', 'seat = "19 g6"'), "bore", ("pairings", "bearing bore on axle")),
    (PUMP, ('seat = "62 H7"', 'seat = "62 H9"'), "bore", ("pairings", "floating bearing in the bracket")),
    (LAYSHAFT, ('seat = "25 k6"', 'seat = "25 g6"'), "bore", ("pairings", "bearing on the layshaft")),
    (LAYSHAFT, ('bore = "25.1 mm +0.1/0"', 'bore = "24.7 mm +0.1/0"'), "bore", ("parts", "thrust-washer", "bore")),
    (COUPLING, ('bore = "24 H7"', 'bore = "24 N7"'), "bore", ("pairings", "coupling half on the motor shaft")),
    # standard parts that disagree with their standard
    (HUB, ('standard = "6204 C3"', 'standard = "6204 C3"\nlength = "15 mm"'), "standard",
     ("parts", "bearing", "length")),
    (HUB, ('standard = "ISO 7089 M16"', 'standard = "ISO 7089 M16"\nbore = "16.0 mm"'), "standard",
     ("parts", "axle-washer", "bore")),
    (HUB, ('standard = "ISO 7089 M16"', 'standard = "ISO 7089 M16"\nkind = "shim ring"'), "standard",
     ("parts", "axle-washer", "kind")),
    # torque without thread condition
    (HUB, ('thread_condition = "dry"', ""), "thread", ("joints", "axle nut", "torque")),
    (HUB, ('clamps = ["leg@left", "collar-long@right"]', 'clamps = ["leg@left", "leg@left"]'), "thread",
     ("joints", "axle nut", "clamps")),
    (REAR, ('thread_condition = "greased"', ""), "thread", ("joints", "axle nut", "torque")),
    (HEAD, ('thread = "M25x1"', ""), "thread", ("joints", "lock nut", "torque")),
    (HEAD, ('thread = "M25x1"', 'thread = "25 fine"'), "thread", ("joints", "lock nut", "thread")),
    # look-alikes that nothing tells apart
    (CLUTCH, ("look-alike: steel plate of the reverse pack OT-2203, 1.80 thick", "look-alike: the other one"),
     "look-alike", ("parts", "steel-plate")),
    (ARBOR, ("look-alike: right arbor nut; this one has a left-hand thread", "brake"),
     ("look-alike: left arbor nut; this one has a right-hand thread", "brake"), "look-alike", ("parts", "nut-right")),
    # sizes that decide and have no limits, and sizes that nobody measured
    (HUB, ('length = "18.0 mm ±0.05"', 'length = "18.0 mm"'), "size", ("parts", "collar-short", "length")),
    (CLUTCH, ('length = "5.00 mm ±0.01"', 'length = "5.00 mm"'), "size", ("parts", "backing-plate", "length")),
    (REAR, ('length = "9.0 mm ±0.05"', 'length = "9.0 mm"'), "size", ("parts", "wear-ring", "must_measure")),
    (HUB, ('kind = "maker\'s drawing"', 'kind = "memory"'), "size", ("assembly", "source")),
    # limits that nobody is named for
    (HUB, ('most = "0.10 mm"\nsource = "common practice, no source"', 'most = "0.10 mm"'), "source",
     ("limits", "seat gap")),
    (CLUTCH, (', source = "maker\'s drawing, service sheet 21"', ""), "source", ("places", "free travel")),
]  # fmt: skip


def planted(tmp_path: Path, id: str, edits) -> Path:
    text = (LIBRARY / f"{id}.toml").read_text(encoding="utf-8")
    for was, now in edits:
        assert was in text, was
        text = text.replace(was, now)
    path = tmp_path / f"{id.partition('/')[2]}.toml"
    path.write_text(text, encoding="utf-8")
    return path


EVERY = [(id, edits, check, about) for id, *edits, check, about in PLANTED]


def test_at_least_forty_faults_are_planted_and_every_check_has_some():
    assert len(EVERY) >= 40
    assert {check for *_, check, _ in EVERY} == set(CHECKS)


@pytest.mark.parametrize(
    ("id", "edits", "check", "about"), EVERY, ids=lambda value: value if isinstance(value, str) else None
)
def test_a_planted_fault_is_found_as_what_it_is(id, edits, check, about, tmp_path):
    path = planted(tmp_path, id, edits)
    found = weaknesses(read_reference(path))
    assert (check, about) in [(weakness.check, weakness.about) for weakness in found]
    line = Lines(path).of(about)
    said = path.read_text(encoding="utf-8").splitlines()[line - 1 : line + 1]
    assert about[-1] in " ".join(said) or about[1] in said[0]


@pytest.mark.parametrize("id", Library(LIBRARY).files)
def test_nothing_is_to_be_mended_in_a_shipped_reference(id):
    assert [weakness for weakness in weaknesses(Library(LIBRARY).reference(id)) if weakness.grade == TO_MEND] == []


@pytest.mark.parametrize("id", [id for id in Library(LIBRARY).files if id != "boat-trailer/winch"])
def test_a_reference_with_a_drawing_or_a_measured_machine_leaves_nothing_open(id):
    assert weaknesses(Library(LIBRARY).reference(id)) == ()


def test_a_picture_of_the_parts_leaves_open_what_no_picture_shows():
    found = weaknesses(Library(LIBRARY).reference("boat-trailer/winch"))
    assert [(weakness.check, weakness.grade) for weakness in found] == [("facing", OPEN), ("size", OPEN)]


def test_both_generations_of_the_tricycle_are_sound():
    for path in sorted((ROOT / "examples/generations/freight-tricycle-early").glob("*.toml")):
        assert path.stem == "machine" or weaknesses(read_reference(path)) == ()


def test_a_limit_that_parts_cannot_keep_says_how_often(tmp_path):
    """Six clutch plates of 0.05 either way: the sentence tells the share, worst case alone would frighten or lull."""
    path = planted(tmp_path, CLUTCH, [('length = "2.40 mm ±0.01"', 'length = "2.40 mm ±0.05"')])
    (weakness,) = weaknesses(read_reference(path))
    assert weakness.sentence == (
        "free travel: by the limits of its parts gap 0.39 to 1.21, allowed gap 0.60 to 1.00: "
        "about 5 in 1000 assemblies outside, "
        "if every part lies evenly between its limits"
    )
    path.unlink()
    path = planted(tmp_path, HUB, [('length = "57.95 mm ±0.02"', 'length = "58.95 mm ±0.02"'), BARREL])
    assert weaknesses(read_reference(path))[0].sentence.endswith("allowed gap 0.00 to 0.10: no set of parts keeps it")


def test_a_gap_that_a_shim_ring_is_chosen_for_is_left_open_and_not_called_a_slip(tmp_path):
    """Limits narrower than the parts are what shims are there for; only a gap that no set keeps contradicts itself."""
    path = planted(tmp_path, PINION, [('most = "0.14 mm"', 'most = "0.10 mm"')])
    (weakness,) = weaknesses(read_reference(path))
    assert (weakness.check, weakness.grade) == ("chain", OPEN)
    assert weakness.sentence.endswith("; the preload shim ring is chosen for it")
    assert 'pinion-shaft "end float of the pinion"`' in weakness.mend


def test_a_shaft_that_says_from_where_to_where_it_was_measured_is_taken_at_its_word(tmp_path):
    """A shaft between two bearings comes off with them; its length, shoulder to shoulder, is in their line."""
    named = (
        'name = "Layshaft, between the outer walls of its grooves"\nkind = "shaft"\nlength = "107.70 mm ±0.03"\n'
        'seat = "25 k6"\nfixed = true'
    )
    line = ('"spacer-tube",\n  { place = "gear-small"', '"spacer-tube",\n  "layshaft",\n  { place = "gear-small"')
    out = ('[[stacks]]\nname = "layshaft itself"\norder = ["groove@input", "layshaft", "groove@output"]\n', "")
    for name, is_said in (("Layshaft, shoulder to shoulder", False), ("Layshaft", True)):
        loose = named.replace("Layshaft, between the outer walls of its grooves", name).replace("\nfixed = true", "")
        path = planted(tmp_path, LAYSHAFT, [(named, loose), line, out])
        assert ("passing" in [weakness.check for weakness in weaknesses(read_reference(path))]) == is_said


def test_where_two_stacks_close_one_gap_it_is_said_which_of_them_does_not(tmp_path):
    """A tie tube beside the frame, a millimetre too long: without its name both lines speak of one gap."""
    itself = '[[stacks]]\nname = "layshaft itself"'
    part = '[parts.tie]\nname = "Tie"\nkind = "spacer tube"\nlength = "108.70 mm ±0.03"\nfixed = true'
    stack = '[[stacks]]\nname = "tie beside it"\norder = ["groove@input", "tie", "groove@output"]'
    tie = (itself, f"{part}\n\n{stack}\n\n{itself}")
    path = planted(tmp_path, LAYSHAFT, [tie])
    said = [weakness.sentence for weakness in weaknesses(read_reference(path)) if weakness.check == "chain"]
    assert [sentence.partition(":")[0] for sentence in said] == ["room on the shaft (closed by tie beside it)"]
