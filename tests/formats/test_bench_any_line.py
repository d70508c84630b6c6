"""Whatever is typed, it is read or refused, nothing of it is lost, and what is read back is read again the same."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from stackcheck.errors import SizeError
from stackcheck.formats.bench_line import ReadLine, back, candidates, read_line
from stackcheck.formats.library import Library
from stackcheck.units import read_reading
from tests.strategies import LIBRARY

REFERENCES = [
    None,
    *(Library(LIBRARY).reference(name) for name in ("front-hub", "clutch-pack", "pinion-shaft", "arbor")),
]
LINES = (
    "thin ring 45 od 35 id .5, drip tray", "washer 37x21x3", "long collar 22, gritty", "3 shims .29 .29 .20 mic, input",
    "brg 20 47 14 open, smooth", "1 1/4 arbor flange, hollow side in", "spacer, 2 thou short",
    "3.0 goes in, 3.5 does not",
    "seal spring side out", "22 balls 5/32", "forty-five od half a millimetre ring", "nut, nylon, used",
    "dont know, rusty ring", "same as other side", "stuck: bearing + seal", "fell out", "2 shims .3 and .25, right",
    "15/16 long collar, step out",
    "brg 20 47 14 2 rubber seals gritty", "three shims point two nine", "57.94 57.95 57.94 mic", "pack 0.80",
    "M16x1.5 nut, by hand",
    "bearing 6204 2RS C3, notchy at one place, card 6", "washer od 28 id 17 3 thick rule, no rust", "shim .060",
)  # fmt: skip
WORDS = sorted(
    {word for line in LINES for word in line.split()}
    | {"x", "+", "and", "to", "left", "note:", "(", "by", "M", "..", '"', "±"}
)
typed = st.one_of(
    st.text(max_size=40),
    st.text(alphabet="0123456789.,x /-+\"'(): mindocalthuøMØ½±", max_size=30),
    st.lists(st.sampled_from(WORDS), max_size=9).map(" ".join),
    st.sampled_from(LINES),
)
figures = st.decimals(min_value="0.01", max_value="99", places=2).map(str)


def read(text, **options) -> ReadLine | None:
    try:
        return read_line(text, **options)
    except SizeError as refused:
        assert refused.wanted
        return None


@settings(max_examples=500)
@given(
    text=typed,
    reference=st.sampled_from(REFERENCES),
    unit=st.sampled_from(["mm", "in"]),
    how=st.sampled_from(["", "cal"]),
)
@example(text="1,500", reference=None, unit="mm", how="")
@example(text="ſhim 3", reference=None, unit="mm", how="")
@example(text="3/4-0 UNF", reference=None, unit="mm", how="")
@example(text="M0 nut 1/0", reference=None, unit="mm", how="")
def test_any_text_is_read_or_refused(text, reference, unit, how):
    line = read(text, reference=reference, default_unit=unit, how=how)
    if line is None:
        return
    assert line.typed == text
    for part in line.parts:
        assert part.count >= 1
        for _, size in part.sizes:
            read_reading(size)
        if reference:
            assert len(candidates(part, reference)) <= 3
    assert isinstance(back(line, reference=reference), str)
    for question in line.questions:
        assert question.part < max(1, len(line.parts))
        assert question.choices
        for _, again in question.choices:
            read(again, reference=reference, default_unit=unit, how=how)


@settings(max_examples=300)
@given(
    line=st.sampled_from(LINES),
    data=st.data(),
    junk=st.from_regex(r"zq[bcdfgkpvw]{2,6}", fullmatch=True),
    reference=st.sampled_from(REFERENCES),
)
def test_a_word_that_nobody_knows_is_never_lost(line, data, junk, reference):
    """What is not understood stays in the words or the note, as typed."""
    words = line.split(" ")
    words.insert(data.draw(st.integers(0, len(words))), junk)
    answer = read(" ".join(words), reference=reference)
    assert answer is None or junk in repr((answer.parts, answer.gap, answer.pack))


@settings(max_examples=300)
@given(line=st.sampled_from(LINES), data=st.data(), figure=figures, reference=st.sampled_from(REFERENCES))
def test_a_figure_is_never_lost(line, data, figure, reference):
    words = line.split(" ")
    words.insert(data.draw(st.integers(0, len(words))), figure)
    answer = read(" ".join(words), reference=reference)
    assert answer is None or figure in repr((answer.parts, answer.gap, answer.pack))


@st.composite
def plain_lines(draw) -> str:
    """Lines in which everything is understood."""
    kind = draw(
        st.sampled_from(
            [
                "ring",
                "thin washer",
                "long collar",
                "brg",
                "oil seal",
                "spacer",
                "shim",
                "castle nut",
                "friction plate",
                "taper",
            ]
        )
    )
    sizes = draw(
        st.sampled_from(
            [
                "",
                "45 od 35 id .5",
                "45x35x3",
                "15/16 od",
                "od 2 in bore 1 1/2 in",
                "bore 20.1 20.2 cal",
                "30 20 7 mic",
                "60 thou thick",
            ]
        )
    )
    rest = draw(
        st.lists(
            st.sampled_from(
                [
                    "rust",
                    "no damage seen",
                    "by hand",
                    "drip tray",
                    "fell out",
                    "card 6",
                    "right",
                    "step out",
                    "marked 6204 C3",
                ]
            ),
            max_size=4,
            unique=True,
        )
    )
    note = draw(st.sampled_from(["", "note: looks odd to me"]))
    return ", ".join(piece for piece in (f"{kind} {sizes}".strip(), *rest, note) if piece)


@settings(max_examples=300)
@given(text=plain_lines())
def test_what_is_read_back_is_read_again_the_same(text):
    """Somebody may type back what they were shown."""
    first = read_line(text)
    again = read_line(back(first))
    assert back(again) == back(first)
    (one,), (other,) = first.parts, again.parts
    for name in (
        "kind",
        "marked",
        "count",
        "end",
        "feature",
        "feel",
        "look",
        "came_off",
        "place_seen",
        "where",
        "card",
        "note",
        "unknown",
    ):
        assert getattr(other, name) == getattr(one, name)
    assert [(name, read_reading(size).readings_mm) for name, size in other.sizes] == [
        (name, read_reading(size).readings_mm) for name, size in one.sizes
    ]


@settings(max_examples=300)
@given(text=typed, reference=st.sampled_from(REFERENCES))
def test_a_chosen_answer_leaves_that_question_settled(text, reference):
    line = read(text, reference=reference)
    for question in line.questions if line else ():
        for _, again in question.choices:
            answered = read(again, reference=reference)
            assert answered is None or question not in answered.questions
