"""What lies open on the bench: assemblies of one machine, compared or not, and which of their places lack a part."""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import Value


class Lacking(Value, kw_only=True):
    """A place that lacks `count` pieces of its part. `group` names equal places, any of which may be the empty one."""

    reference: str
    place: str
    part: str
    count: int = 1
    group: tuple[str, ...] = ()


class Assembly(Value, kw_only=True):
    """A reference, and the teardown list of it with its least explanation; both None where nothing was compared."""

    reference: Reference
    found: Found | None = None
    explanation: Explanation | None = None

    @property
    def id(self) -> str:
        return self.reference.id

    @property
    def was_compared(self) -> bool:
        return self.found is not None

    @property
    def agrees(self) -> bool:
        return self.explanation is not None and not self.explanation.findings

    @property
    def unreached(self) -> tuple[str, ...]:
        """The places that a list which is not finished has not come to:
        whether they lack a part, nobody knows so far.
        """
        notes = self.explanation.notes if self.explanation is not None else ()
        return tuple(dict.fromkeys(place for note in notes if note.kind == "not_reached" for place in note.places))

    def finding_of(self, entry: int | None) -> Finding | None:
        """The finding that names this entry."""
        if entry is None or self.explanation is None:
            return None
        return next((finding for finding in self.explanation.findings if entry in finding.entries), None)

    def home_of(self, entry: int | None) -> str:
        """The place that this entry fills by the least explanation, "" where it fills none."""
        if entry is None or self.explanation is None:
            return ""
        return next((standing.home or "" for standing in self.explanation.line if standing.entry == entry), "")

    def lacking(self, apart_from: int | None = None) -> tuple[Lacking, ...]:
        """Every place that lacks a part; without the entry `apart_from`, its own place lacks one too."""
        if self.explanation is None:
            return ()
        lacks: list[Lacking] = []
        for finding in self.explanation.findings:
            if finding.kind == "missing":
                lacks += [self._lacking(place, group=getattr(finding, "group", ())) for place in finding.places]
            elif finding.kind == "different_part":
                lacks += [self._lacking(place) for place in finding.places]
            elif finding.kind == "count_differs" and finding.found < finding.wanted:
                lacks += [self._lacking(place, finding.wanted - finding.found) for place in finding.places]
        home = self.home_of(apart_from)
        if home and all(home != each.place for each in lacks) and self.is_needed(apart_from):
            lacks.append(self._lacking(home))
        return tuple(lacks)

    def is_needed(self, entry: int | None) -> bool:
        """Whether the place that this entry fills lacks a piece without it: not where others fill it already."""
        home = self.home_of(entry)
        if not home or not self.reference.has_place(home):
            return False
        others = (
            standing.entry for standing in self.explanation.line if standing.home == home and standing.entry != entry
        )
        return sum(self.found.entry(other).count for other in others if other) < self.reference.place(home).count

    def _lacking(self, place: str, count: int = 1, group: tuple[str, ...] = ()) -> Lacking:
        return Lacking(
            reference=self.id, place=place, part=self.reference.place(place).part, count=count,
            group=tuple(other for other in group if other != place),
        )  # fmt: skip

    def stands_at(self, entry: int | None, place: str) -> bool:
        """Whether this entry, as another part, was found at that very place, or as one too many between its neighbours.

        The part of the place itself, turned round or swapped, stands in for nothing.
        """
        finding = self.finding_of(entry)
        if finding is None:
            return False
        if finding.kind == "different_part":
            return place in finding.places
        line = self.reference.line
        if finding.kind != "extra" or getattr(finding, "loose", False) or place not in line:
            return False
        after = line.index(finding.after) if finding.after in line else -1
        before = line.index(finding.before) if finding.before in line else len(line)
        return after < line.index(place) < before


class Bench(Value, kw_only=True):
    """All assemblies of one machine. `built` is "new" or "old"
    where somebody said how long the job has run, else "".
    """

    assemblies: tuple[Assembly, ...]
    built: str = ""

    def assembly(self, reference: str) -> Assembly | None:
        return next((assembly for assembly in self.assemblies if assembly.id == reference), None)

    @property
    def is_finished(self) -> bool:
        """Whether every list that is open here was taken to its end."""
        return all(assembly.found.finished for assembly in self.compared)

    @property
    def compared(self) -> tuple[Assembly, ...]:
        return tuple(assembly for assembly in self.assemblies if assembly.was_compared)


def compared(reference: Reference, found: Found) -> Assembly:
    """One assembly with its teardown list compared."""
    return Assembly(reference=reference, found=found, explanation=explanations(reference, found)[0])
