"""A teardown list of an assembly that nobody has written down yet: read by itself, only its ends are given."""

from __future__ import annotations

from pathlib import Path

from stackcheck.formats.found_file import read_found
from stackcheck.formats.source import Reader
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference, Source


def read_found_alone(path: Path, ends: tuple[str, str], seen_from: str) -> tuple[Found, Reference]:
    """The list and a blank reference that knows nothing but the ends.

    Raises:
        InputError: every mistake of the file; also a part that is named by the id of a reference that is not there.
    """
    revision = Reader(path).tree.get("revision")

    def blank(id: str) -> Reference:
        return Reference(
            id=id, title=id.rpartition("/")[2].replace("-", " ").capitalize(),
            revision=revision if isinstance(revision, str) else "", ends=ends,
            ends_seen_from=seen_from, source=Source(kind="taken from a machine"), parts=(), places=(), stacks=(),
        )  # fmt: skip

    return read_found(path, blank)
