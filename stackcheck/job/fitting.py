"""The fitting sequence, from the reference and the decisions, never the teardown turned round.

Between two bearings one goes fully home first, then what lies between them, then the second only until it touches; then
outward on either side, the members that come away last. With one end barred by a member that stays on, from there
outward. Common practice, no source; the maker's manual comes first.
"""

from __future__ import annotations

from stackcheck.job.buying import Item
from stackcheck.job.events import FASTENER_STATES, Fastened, Fitted
from stackcheck.job.state import Job, finest
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import CARRIED_AWAY, RING_BEARINGS, SIZE_NAMES
from stackcheck.model.reference import Joint, Reference
from stackcheck.value import Value

LAST = frozenset({"nut", "bolt", "split pin", "circlip"})
THROUGH = frozenset({"axle"})


class FitStep(Value, kw_only=True):
    """One part to be fitted. `how` holds what is to be minded: "fully home", "only until it touches"."""

    place: str
    how: str = ""
    fitted: Fitted | None = None


class JointState(Value, kw_only=True):
    """A clamp and what was last said of it; `state` "" where nothing was."""

    joint: Joint
    state: str = ""
    last: Fastened | None = None

    @property
    def is_open(self) -> bool:
        return self.state in ("", *FASTENER_STATES[:2])


def fit_steps(job: Job) -> tuple[FitStep, ...]:
    """Every place that something came off, in the sequence in which it is filled again."""
    fitted = {event.place: event for event in job.of(Fitted)}
    return tuple(FitStep(place=place, how=how, fitted=fitted.get(place)) for place, how in fit_sequence(job.reference))


def fit_sequence(reference: Reference) -> tuple[tuple[str, str], ...]:
    """(place, what to mind) of every part that comes off, in fitting sequence."""
    loose = [name for name in reference.line if not reference.part_at(name).fixed]
    bearings = [name for name in loose if reference.part_at(name).kind in RING_BEARINGS]
    if len(bearings) >= 2 and not _is_barred(reference, 0) and not _is_barred(reference, 1):
        first, second = bearings[0], bearings[-1]
        a, b = loose.index(first), loose.index(second)
        middle = [(first, "fully home"), *((name, "") for name in loose[a + 1 : b]), (second, "only until it touches")]
        sides = [(name, "") for name in _outward(reference, loose[:a][::-1], loose[b + 1 :])]
        return (*middle, *sides)
    order = loose[::-1] if _is_barred(reference, 1) and not _is_barred(reference, 0) else loose
    return tuple((name, "") for name in order)


def _outward(reference: Reference, toward_first: list[str], toward_second: list[str]) -> list[str]:
    """Both sides outward: first what lies inside the legs, then what goes through them,
    then what lies outside, locks last.
    """

    def rank(name: str) -> int:
        kind = reference.part_at(name).kind
        return (
            3
            if kind == "split pin"
            else 1
            if kind in THROUGH
            else 2
            if _is_outside_a_leg(reference, name) or kind in LAST
            else 0
        )

    return sorted([*toward_first, *toward_second], key=rank)


def _is_outside_a_leg(reference: Reference, name: str) -> bool:
    """Whether a member that comes away stands between this place and the middle of the line."""
    middle = len(reference.line) / 2
    for stack in reference.stacks:
        if name in stack.places:
            position = stack.places.index(name)
            inward = stack.places[position + 1 :] if reference.line.index(name) < middle else stack.places[:position]
            own = inward if reference.line.index(name) < middle else inward[::-1]
            legs = [
                index
                for index, place in enumerate(own)
                if reference.part_at(place).kind in CARRIED_AWAY and reference.part_at(place).fixed
            ]
            if legs and legs[0] <= len(own) // 2:
                return True
    return False


def _is_barred(reference: Reference, end: int) -> bool:
    """Whether a member that stays on closes this end: nothing comes off past it."""
    line = reference.line if end == 0 else reference.line[::-1]
    first = reference.part_at(line[0])
    return first.fixed and first.kind not in CARRIED_AWAY


def joint_states(job: Job) -> tuple[JointState, ...]:
    """Every clamp of the reference with its latest state; fastened things that are no joint of it come after."""
    latest: dict[str, Fastened] = {event.joint: event for event in job.of(Fastened)}
    own = [
        JointState(
            joint=joint, state=latest[joint.name].state if joint.name in latest else "", last=latest.get(joint.name)
        )
        for joint in job.reference.joints
    ]
    names = {joint.name for joint in job.reference.joints}
    others = [
        JointState(joint=Joint(name=name, clamps=("", "")), state=event.state, last=event)
        for name, event in latest.items()
        if name not in names
    ]
    return (*own, *others)


def fasteners(reference: Reference) -> tuple[str, ...]:
    """What is tightened: the joints of the reference, then nuts and bolts that belong to none of that name."""
    names = [joint.name for joint in reference.joints]
    names += [
        part.name
        for part in reference.parts
        if part.kind in ("nut", "bolt") and not part.fixed and part.name not in names
    ]
    return tuple(names)


PULLED_THROUGH = "pulled through the balls"
"""How a bearing looks that came off by its loose ring; it is not refitted."""

WAY, NOT_MEASURED, DIFFERS = "which way round", "not measured", "differs"


def hindrance(job: Job, place: str, item: Item | None, toward: str) -> str:
    """What still has to be said or done before a part goes in: `NOT_MEASURED`, `DIFFERS`, `WAY`, or "" for nothing."""
    if item is not None and item.differs:
        return DIFFERS
    if item is not None and item.not_measured:
        return NOT_MEASURED
    return WAY if job.reference.place(place).facing and not toward else ""


def as_fitted(job: Job) -> Found:
    """The as-fitted list: what was put into each place, in the line of the reference, compared like as found."""
    fitted = {event.place: event for event in job.of(Fitted)}
    entries = []
    for place in job.reference.line:
        event = fitted.get(place)
        if event is None:
            continue
        entries.append(_entry(job, len(entries) + 1, event))
    return Found(
        reference=job.reference.id, revision=job.reference.revision, entries=tuple(entries), finished=True,
        measured=job.found.measured,
        not_seen=tuple(name for name, _ in fit_sequence(job.reference) if name not in fitted),
        title=f"{job.begun.title}, as fitted", date=job.live[-1].at[:10], file=job.name,
    )  # fmt: skip


def _entry(job: Job, number: int, event: Fitted) -> Entry:
    part = job.reference.part_at(event.place)
    old = job.found.entries[event.entry - 1] if 1 <= event.entry <= len(job.found.entries) else None
    readings = job.readings(item=event.item) if event.item else {}
    sizes = tuple((name, finest(readings[name])) for name in SIZE_NAMES if name in readings)
    toward = {job.reference.ends[0]: "first", job.reference.ends[1]: "second"}.get(event.toward, event.toward)
    if old is not None:
        return Entry(
            number=number, what=old.what, end=0, part=old.part, sure=old.sure, kind=old.kind, marked=old.marked,
            count=old.count, sizes=old.sizes, feature=part.feature, toward=toward,
        )  # fmt: skip
    return Entry(
        number=number, what=event.item or part.name, end=0, part=part.id, sure=not readings, kind=part.kind,
        count=job.reference.place(event.place).count, sizes=sizes, feature=part.feature, toward=toward,
    )  # fmt: skip
