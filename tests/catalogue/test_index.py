"""The index against a plain scan of the same parts, and catalogues that cannot be."""

import csv

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.catalogue.index import COLUMNS, SIZES, TooMany, build, look_up
from stackcheck.catalogue.known import Known, Limits
from stackcheck.catalogue.near import near
from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.model.part import Reading

HEADER = ["name", "kind", *COLUMNS]


def write(path, rows):
    with open(path, "w", newline="") as handle:
        csv.writer(handle).writerows([HEADER, *rows])
    return path


tenths = st.integers(1, 300)


@st.composite
def parts(draw):
    bore, wall, thick = draw(tenths), draw(st.integers(2, 100)), draw(tenths)
    least = (bore / 10, (bore + wall) / 10, thick / 10)
    limits = [(low, round(low + draw(st.integers(0, 9)) / 100, 2)) for low in least]
    return tuple(Limits(name, *pair) for name, pair in zip(SIZES, limits) if draw(st.integers(0, 9)))


reading = st.builds(
    lambda tenth, good_to: Reading(text="", value_mm=tenth / 10, good_to_mm=good_to),
    tenths,
    st.sampled_from([0.01, 0.05, 0.5, 3.0]),
)


def ends(size):
    return ("", "") if size is None else (size.low_mm, size.high_mm)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    sizes=st.lists(parts(), min_size=1, max_size=60),
    readings=st.dictionaries(st.sampled_from(list(SIZES)), reading, min_size=1).map(lambda taken: tuple(taken.items())),
)
def test_the_index_finds_what_a_scan_finds(sizes, readings, tmp_path_factory):
    """Any box, any size missing in the question or in the part: the same answer as judging every part."""
    folder = tmp_path_factory.mktemp("catalogue")
    known = [Known(name=str(number), kind="washer", where="own.db", sizes=each) for number, each in enumerate(sizes)]
    cells = [[part.name, part.kind, *(end for name in SIZES for end in ends(part.size(name)))] for part in known]
    assert build(write(folder / "own.csv", cells), folder / "own.db") == len(known)

    def names(answer):
        return sorted((part.name, each.verdict, each.off_mm) for each in answer for part in each.parts)

    assert names(near(readings, look_up(folder / "own.db", readings))) == names(near(readings, known))


def test_above_two_thousand_answers_another_measurement_is_asked_for(tmp_path, capsys):
    write(tmp_path / "own.csv", [[str(number), "washer", 17, 17.2, 30, 30.2, 3, 3.1] for number in range(2001)])
    assert main(["references", "index", str(tmp_path / "own.csv"), str(tmp_path / "own.db")]) == 0
    with pytest.raises(TooMany):
        look_up(tmp_path / "own.db", (("bore", Reading(text="", value_mm=17.1, good_to_mm=0.1)),))
    assert main(["find", "bore", "17.1", "--catalogue", str(tmp_path / "own.db")]) == 3
    assert "measure another size" in capsys.readouterr().err


def test_a_size_that_no_catalogue_holds_is_refused_and_not_left_out(tmp_path, capsys):
    """Left out, the answer would look as if the size had agreed."""
    write(tmp_path / "own.csv", [["a", "nut", 8, 8.2, 13, 13.2, 6, 6.1]])
    assert main(["references", "index", str(tmp_path / "own.csv"), str(tmp_path / "own.db")]) == 0
    assert main(["find", "across flats 13 bore 8.1", "--catalogue", str(tmp_path / "own.db")]) == 3
    assert "a catalogue holds no across flats" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        (["a", "washer", 17, 17.2, 15, 16, 3, 3.1], "own.csv:2: the bore is not below the outside"),
        (["a", "washer", 17, 17.2, 30, 31, 0, 1], 'thickness_least "0" is no size'),
        (["a", "washer", 17, 16, 30, 31, 1, 1], "the limits of the bore cannot be"),
        (["a", "washer", 17, "", 30, 31, 1, 1], "the limits of the bore cannot be"),
        (["a", "washer", "nan", "nan", 30, 31, 1, 1], "is no size"),
        (["a", "washer", 17], "3 cells under 8 columns"),
    ],
)
def test_a_line_that_cannot_be_a_part_is_refused_and_nothing_is_left_behind(row, reason, tmp_path):
    with pytest.raises(InputError) as refused:
        build(write(tmp_path / "own.csv", [row]), tmp_path / "own.db")
    assert reason in str(refused.value)
    assert not (tmp_path / "own.db").exists()


def test_a_file_that_is_no_index_is_refused(tmp_path, capsys):
    (tmp_path / "other").write_text("not a database, only text that is long enough to be looked at as one" * 20)
    assert main(["find", "bore 17", "--catalogue", str(tmp_path / "other")]) == 3
    assert main(["find", "bore 17", "--catalogue", str(tmp_path / "absent")]) == 3
    assert "there is no such file" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("absent.csv", "there is no such file"),
        (".", "the file cannot be read (is a directory)"),
        ("latin.csv", "not text in UTF-8"),
    ],
)
def test_a_source_that_cannot_be_read_says_why_in_words(name, reason, tmp_path, capsys):
    """Nobody at a bench knows what Errno 2 is."""
    (tmp_path / "latin.csv").write_bytes("name,Größe".encode("latin-1"))
    assert main(["references", "index", str(tmp_path / name), str(tmp_path / "own.db")]) == 3
    err = capsys.readouterr().err
    assert reason in err and "Errno" not in err and "codec" not in err
    assert not (tmp_path / "own.db").exists()


def test_one_part_is_no_parts(tmp_path, capsys):
    write(tmp_path / "own.csv", [["a", "washer", 17, 17.2, 30, 30.2, 3, 3.1]])
    assert main(["references", "index", str(tmp_path / "own.csv"), str(tmp_path / "own.db")]) == 0
    assert capsys.readouterr().out.startswith("1 part in ")
