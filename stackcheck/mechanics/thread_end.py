"""Whether a nut meets the end of its thread before it clamps: by lengths alone, no force is computed.

The wrench feels the torque all the same; what should be clamped is loose.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.clamp import clamps_loop, inner_stack
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.sums import Lengths, lengths_of
from stackcheck.mechanics.taken_limits import with_limits
from stackcheck.model.reference import Joint


def thread_room(arrangement: Arrangement, joint: Joint) -> Interval | None:
    """How much longer the stack between the two clamped places is, themselves with it, than where the thread ends [mm].

    None where the reference gives no end of the thread, or a length is not known; an end without limits is no exact one.
    """
    if joint.thread_stop is None:
        return None
    lengths = _between_clamps(arrangement, joint)
    if lengths is None or lengths.total is None:
        return None
    return lengths.total + _kept_apart(arrangement, joint) - Interval.of_size(with_limits(joint.thread_stop, ""))


def further_in(wanted: Arrangement, believed: Arrangement, joint: Joint) -> float | None:
    """How much further the nut runs on its thread than by the reference [mm], below nothing where it stands further out.

    Told only where nobody says where the thread ends: None elsewhere, and where a length is not known.
    """
    own, seen = (_between_clamps(each, joint) for each in (wanted, believed))
    if joint.thread_stop is not None or own is None or seen is None:
        return None
    nearer = own.less(seen).total
    if nearer is None:
        return None
    apart = [_kept_apart(each, joint).nominal_mm for each in (wanted, believed)]
    return nearer.nominal_mm + apart[0] - apart[1]


def _between_clamps(arrangement: Arrangement, joint: Joint) -> Lengths | None:
    """What stands between the two clamped places, themselves with it; None where no stack holds both."""
    for stack in arrangement.reference.stacks:
        if set(joint.clamps) <= set(stack.places):
            first, last = sorted(stack.places.index(place) for place in joint.clamps)
            between = stack.places[first : last + 1]
            members = arrangement.members(stack.name)
            spots = [i for i, member in enumerate(members) if member.place in between]
            clamped = members[spots[0] : spots[-1] + 1] if spots else ()
            known = [member for member in clamped if not is_face(arrangement, member, stack.through)]
            return lengths_of(arrangement.ruler, known, stack.through)
    return None


def _kept_apart(arrangement: Arrangement, joint: Joint) -> Interval:
    """What the seats of the outer rings keep the inner ones apart by where what stands between those is shorter,
    as without its tube [mm].
    """
    apart = Interval.exactly(0.0)
    for loop in arrangement.reference.loops:
        short = loop_lengths(arrangement, loop).total if clamps_loop(arrangement.reference, joint, loop) else None
        if short is not None:
            outward = short if inner_stack(arrangement.reference, loop) == loop.open_stack else -short
            ends = [max(end, 0.0) for end in (outward.least_mm, outward.nominal_mm, outward.most_mm)]
            apart += Interval(least_mm=ends[0], nominal_mm=ends[1], most_mm=ends[2])
    return apart


def is_face(arrangement: Arrangement, member: Member, through: str) -> bool:
    """A fixed member without a length, which only says where a stack stops."""
    part = arrangement.ruler.part(member.standing)
    return part is not None and part.fixed and arrangement.ruler.term(member.standing, through) is None
