"""Whatever stands in a file, it is read or refused with our own message, nothing else."""

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.machine_file import read_machine
from stackcheck.formats.reference_file import read_reference
from tests.strategies import GOOD_LIBRARY, LIBRARY, REAL_FILES, spoiled

TEXTS = [file.read_text(encoding="utf-8") for file in REAL_FILES]
NEAR = [text for text in TEXTS if len(text) < 6000]
quick = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
library = Library(LIBRARY)


def read_all(path):
    for read in (read_reference, read_machine, lambda path: read_found(path, library.reference)):
        try:
            read(path)
        except InputError as problem:
            assert problem.mistakes
            shown = str(problem)
            assert all(sign.isprintable() or sign == "\n" for sign in shown)


@quick
@given(data=st.data())
def test_a_spoiled_file_is_read_or_refused(data, tmp_path):
    text = data.draw(spoiled(data.draw(st.sampled_from(NEAR))))
    path = tmp_path / "spoiled.toml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    read_all(path)


@quick
@given(content=st.binary(max_size=300))
@example(content=b"a = 1\n[a]\n")
@example(content=b"a." * 2000 + b"a = 1")
@example(content=b"kind = 1979-05-27T07:32:00Z")
def test_any_bytes_are_read_or_refused(content, tmp_path):
    path = tmp_path / "bytes.toml"
    path.write_bytes(content)
    read_all(path)


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.dates(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3),
    max_leaves=8,
)
KEYS = [
    "assembly", "parts", "stacks", "limits", "pairings", "joints", "supports", "units", "kind", "format", "off",
    "measured", "reference", "revision", "points", "machine",
]  # fmt: skip


@quick
@given(tree=st.dictionaries(st.sampled_from(KEYS), values, max_size=8), data=st.data())
def test_any_tree_is_read_or_refused(tree, data, tmp_path):
    """Sound TOML of another shape, at the top and in the middle of a sound file."""
    import tomllib

    import tomli_w

    base = tomllib.loads(data.draw(st.sampled_from(NEAR)))
    path = tmp_path / "tree.toml"
    path.write_text(tomli_w.dumps(without_none(base | tree)), encoding="utf-8")
    read_all(path)


def without_none(value):
    """TOML has no word for nothing."""
    if isinstance(value, dict):
        return {key: without_none(inner) for key, inner in value.items() if inner is not None}
    return [without_none(inner) for inner in value if inner is not None] if isinstance(value, list) else value


def test_the_good_library_is_good():
    assert Library(GOOD_LIBRARY).reference("stub-axle").title == "Stub axle"
