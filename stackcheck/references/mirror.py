"""The other side of a machine: a reference as a mirror across the middle shows it.

What stood at the first end stands at the second: the sequence of every stack is turned, every facing points the other
way, bearing@left becomes bearing@right, "clamp bolt of the right leg" the one of the left leg. Pairs stay pairs, sizes
stay as they are, the two ends keep their names and their meaning. Mirrored twice, every reference is itself again.

Left as they are: numbers, standard parts, who says so, and the hand of a thread. Whether the other side really takes
the same numbers and the same hand is for somebody to look at.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from stackcheck.formats.sizes import size_of
from stackcheck.formats.words import plain
from stackcheck.model.part import Part, Size
from stackcheck.model.reference import Gap, Place, Reference, Stack, Variant
from stackcheck.model.state import State
from stackcheck.units import read_limits
from stackcheck.value import replace

_OTHER = {"first": "second", "second": "first", "": ""}


def mirrored(reference: Reference) -> Reference:
    """The reference of the other side."""
    return Mirror(reference).reference()


def other_side_of(ends: tuple[str, str]) -> Callable[[str], str]:
    """A text with the names of the two ends exchanged, "left hand" left alone.

    >>> other_side_of(("left", "right"))("Left collar, left-hand thread, toward the right leg")
    'Right collar, left-hand thread, toward the left leg'
    """
    first, second = ends
    exchanged = {
        spelled(one): spelled(other)
        for one, other in ((first, second), (second, first))
        for spelled in (str, str.capitalize, str.upper, lambda end: end.replace(" ", "-"))
    }
    words = "|".join(sorted(map(re.escape, exchanged), key=len, reverse=True))
    pattern = re.compile(rf"\b(?:{words})\b(?![- ]hand\b)")
    return lambda text: pattern.sub(lambda match: exchanged[match[0]], text)


class Mirror:
    """One reference being mirrored; `names`: each place -> its place on the other side."""

    def __init__(self, reference: Reference):
        self.was = reference
        self.words = other_side_of(reference.ends)
        self.names = {place.name: self._name(place) for place in reference.places}

    def _name(self, place: Place) -> str:
        """The place at the same distance from the other end: the other end's tag, or the number counted from there."""
        id, at, tag = place.name.partition("@")
        if place.end is not None:
            other = self.was.ends[1 - place.end]
            is_short = plain(tag) != plain(self.was.ends[place.end])
            tag = (other.removesuffix(" end") if is_short else other).replace(" ", "-")
        elif tag.isdigit():
            tags = [each.name.partition("@")[2] for each in self.was.places_of(place.part)]
            if sorted(tags) == sorted(str(number) for number in range(1, len(tags) + 1)):
                tag = str(len(tags) + 1 - int(tag))
        return f"{self.words(id)}{at}{tag}"

    def reference(self) -> Reference:
        was, words = self.was, self.words
        stacks = tuple(self._stack(stack) for stack in was.stacks)
        places = {self.names[place.name]: self._place(place) for place in was.places}
        met = dict.fromkeys(name for stack in stacks for name in stack.places)
        return replace(
            was,
            id=words(was.id),
            title=words(was.title),
            parts=tuple(self._part(part) for part in was.parts),
            places=tuple(places[name] for name in met),
            stacks=stacks,
            limits=tuple(
                replace(limit, what=words(limit.what), between=self._turned(limit.between), source=words(limit.source))
                for limit in was.limits
            ),
            force_limits=tuple(
                replace(limit, what=words(limit.what), of=words(limit.of), source=words(limit.source))
                for limit in was.force_limits
            ),
            state_limits=tuple(
                replace(limit, what=words(limit.what), of=words(limit.of), source=words(limit.source))
                for limit in was.state_limits
            ),
            states=tuple(self._state(state) for state in was.states),
            pairings=tuple(
                replace(
                    pairing, what=words(pairing.what), outer=self._size(pairing.outer), inner=self._size(pairing.inner)
                )
                for pairing in was.pairings
            ),
            joints=tuple(
                replace(
                    joint,
                    name=words(joint.name),
                    clamps=self._turned(joint.clamps),
                    locked_by=words(joint.locked_by),
                    note=words(joint.note),
                )
                for joint in was.joints
            ),
            supports=tuple(
                replace(
                    support,
                    place=self.names[support.place],
                    note=words(support.note),
                    free_position=support.free_position and _negated(support.free_position),
                )
                for support in was.supports
            ),
            units=tuple(
                replace(unit, id=words(unit.id), name=words(unit.name), members=self._turned(unit.members))
                for unit in was.units
            ),
            note=words(was.note),
            variants=tuple(self._variant(variant) for variant in was.variants),
        )

    def _state(self, state: State) -> State:
        return replace(state, apart=tuple((self._called(name), amount) for name, amount in state.apart))

    def _variant(self, variant: Variant) -> Variant:
        return replace(
            variant,
            name=self.words(variant.name),
            why=self.words(variant.why),
            reference=mirrored(variant.reference),
            told=tuple((key, self._told(key, value)) for key, value in variant.told),
        )

    def _told(self, table: str, told: tuple) -> tuple:
        """The differences of a variant as the file of the other side has them."""
        if table == "without":
            return tuple(self._called(name) for name in told)
        named = self._called if table in ("places", "supports") else self.words
        return tuple(
            (
                named(name),
                tuple(
                    (key, self._steps(name, value) if key == "sections" else self._value(key, value))
                    for key, value in keys
                ),
            )
            for name, keys in told
        )

    def _called(self, name: str) -> str:
        return self.names.get(name, self.words(name))

    def _value(self, key: str, value: object) -> object:
        if key == "toward":
            return self._toward(value)
        if key in ("clamps", "between"):
            return self._turned(value)
        if key == "free_position":
            return _negated(size_of(read_limits(value, may_be_negative=True))).text
        if key == "apart":
            return tuple((self._called(name), temperature) for name, temperature in value)
        if isinstance(value, tuple):
            return tuple(self.words(each) if isinstance(each, str) else each for each in value)
        return (
            self.words(value)
            if isinstance(value, str)
            and key in ("name", "feature", "note", "may_be_absent", "source", "set_by", "locked_by")
            else value
        )

    def _part(self, part: Part) -> Part:
        words = self.words
        return replace(
            part,
            id=words(part.id),
            name=words(part.name),
            also=tuple(map(words, part.also)),
            feature=words(part.feature),
            sizes=tuple(
                (name, _negated(size) if name == "inner_standout" and self._shows_its_other_end(part.id) else size)
                for name, size in part.sizes
            ),
            sections=self._steps(part.id, part.sections),
            duties=tuple(replace(duty, detail=words(duty.detail)) for duty in part.duties),
            note=words(part.note),
        )

    def _steps(self, part: str, steps: tuple) -> tuple:
        return steps[::-1] if self._shows_its_other_end(part) else steps

    def _shows_its_other_end(self, part: str) -> bool:
        """What is told first end to second is told of the part's first place:
        in the mirror another one, which may face the other way already.
        """
        stacks = [stack.places for stack in self.was.stacks]
        first = next(name for places in stacks for name in places if self.was.place(name).part == part)
        last = next(name for places in stacks for name in reversed(places) if self.was.place(name).part == part)
        return self.was.place(first).facing == self.was.place(last).facing

    def _place(self, place: Place) -> Place:
        return replace(
            place,
            name=self.names[place.name],
            part=self.words(place.part),
            facing=_OTHER[place.facing],
            toward=self._toward(place.toward),
            end=None if place.end is None else 1 - place.end,
            may_be_absent=self.words(place.may_be_absent),
        )

    def _toward(self, word: str) -> str:
        start = "away from " if word.startswith("away from ") else ""
        target = word.removeprefix(start)
        return start + self.names.get(target, self.words(target))

    def _stack(self, stack: Stack) -> Stack:
        return replace(
            stack,
            name=self.words(stack.name),
            items=tuple(
                self._gap(item) if isinstance(item, Gap) else self.names[item] for item in reversed(stack.items)
            ),
        )

    def _gap(self, gap: Gap) -> Gap:
        return replace(gap, name=self.words(gap.name), set_by=self.words(gap.set_by), source=self.words(gap.source))

    def _size(self, said: tuple[str, str]) -> tuple[str, str]:
        return self.words(said[0]), said[1]

    def _turned(self, names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(self._face(name) for name in reversed(names))

    def _face(self, name: str) -> str:
        place, slash, end = name.partition("/")
        return (
            self.names[place] + slash + (self.was.ends[1 - self.was.ends.index(end)] if end in self.was.ends else end)
        )


def _negated(size: Size) -> Size:
    """The same length toward the other end."""
    least, most = (None if value is None else -value + 0.0 for value in (size.most_mm, size.least_mm))
    text = size.text.removeprefix("-") if size.text.startswith("-") else f"-{size.text.removeprefix('+')}"
    if least is not None and "±" not in size.text:
        text = f"{least:.9g}..{most:.9g} mm"
        nominal = -size.nominal_mm + 0.0
        if abs(nominal - (least + most) / 2) > 1e-9:
            text = f"{nominal:.9g} {most - nominal:+.9g}/{least - nominal:+.9g} mm"
    return replace(size, text=text, nominal_mm=-size.nominal_mm + 0.0, least_mm=least, most_mm=most)
