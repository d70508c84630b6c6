"""What one typed line says: the values that the reader of the bench hands on. See `stackcheck.formats.bench_line`."""

from __future__ import annotations

from stackcheck.value import Value


class ReadPart(Value, kw_only=True):
    """One thing of a typed line.

    `what` are the words for it as typed, `sizes` pairs of a size name and the text that `units.read_reading` reads,
    with unit and how it was got. `toward` is the typed word, to be led to an end by `formats.facing`. `note` holds
    everything that was not understood, as typed.
    """

    what: str
    kind: str = ""
    marked: str = ""
    count: int = 1
    end: int | None = None
    sizes: tuple[tuple[str, str], ...] = ()
    feature: str = ""
    toward: str = ""
    feel: tuple[str, ...] = ()
    look: tuple[str, ...] = ()
    came_off: str = ""
    place_seen: str = ""
    where: str = ""
    card: str = ""
    note: str = ""
    stuck_to_next: bool = False
    same_as_other_side: bool = False
    unknown: bool = False

    def size(self, name: str) -> str:
        return dict(self.sizes).get(name, "")


class Question(Value, kw_only=True):
    """What the line leaves open: `choices` are pairs of the words shown and the line as it would then be typed."""

    about: str
    text: str
    choices: tuple[tuple[str, str], ...] = ()
    part: int = 0


class ReadLine(Value, kw_only=True):
    """One typed line as read.

    `gap` is what was measured between two faces ("3.0..3.5 mm feeler"), `gap_name` what it was called as typed ("end
    float", "between the legs"), `pack` what the pieces measure together.
    """

    typed: str
    parts: tuple[ReadPart, ...] = ()
    gap: str = ""
    gap_name: str = ""
    pack: str = ""
    questions: tuple[Question, ...] = ()
