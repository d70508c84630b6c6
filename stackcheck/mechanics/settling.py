"""What a clamped stack loses after it is tightened: the roughness of faces and thread is pressed flat.

Every pair of faces in the grip settles by a few thousandths of a millimetre, and so does the thread. The axle is
stretched by so much less, and its tension falls by that over what axle and stack give: short stiff joints lose most.
Between two bearings the path of the inner rings grows shorter too, which changes their preload.
Source: VDI 2230 part 1 (2015), Table 5, guide values for axial load (from memory): 1.5 to 3 µm a pair of faces between
parts, 1 µm more under head and nut, 3 µm in the thread. They are for joints tightened to near the yield of the bolt;
the edition of 1986 had 3.29 (l/d)^0.34 µm for all faces together (from memory), a quarter to a half of that sum for the
joints here.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import Thread, embedding_loss
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import ends_the_pull
from stackcheck.mechanics.grip_gives import grip_row
from stackcheck.mechanics.joint_pull import grip_stiffness, pull
from stackcheck.mechanics.side_by_side import Gives, paths_beside
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.reference import Joint
from stackcheck.value import Value

FACE_MM = (0.0015, 0.002, 0.003)
"""What one pair of faces between two parts settles: fine, usual, rough."""

ENDS_MM, THREAD_MM = 2 * 0.001, 0.003
"""What the faces under head and nut settle more than others, and each thread."""

SHARE = (0.25, 0.625, 1.0)
"""How much of the guide values a joint settles: all of it near the yield of its bolt, less where it pulls lightly.
Nobody knows where between the two a joint lies: the middle is no likelier than the ends, and is told as a range only.
"""


class Settling(Value, kw_only=True):
    """How many pairs of faces and threads a joint presses together, and what it loses when they have settled [N]."""

    faces: int
    threads: int = 1
    loss_n: Spanned | None = None
    needs: tuple[str, ...] = ()


def face_settles(unknowns: Unknowns) -> Any:
    """What a pair of faces settles [mm]."""
    return _share(unknowns) * unknowns.value("settling of each pair of faces", *FACE_MM)


def ends_settle(unknowns: Unknowns, threads: int = 1) -> Any:
    """What the faces under head and nut settle more than others, and the threads [mm]."""
    return _share(unknowns) * ends_mm(threads)


def ends_mm(threads: int) -> float:
    """What a joint near the yield of its bolt settles beside its pairs of faces [mm]."""
    return ENDS_MM + threads * THREAD_MM


def settles_mm(faces: int, threads: int = 1) -> tuple[float, float, float]:
    """What so many pairs of faces and threads settle together, least, usual and most [mm].

    >>> [round(1e3 * each, 1) for each in settles_mm(3)]
    [2.4, 6.9, 14.0]
    """
    least, usual, most = (share * (faces * face + ends_mm(threads)) for share, face in zip(SHARE, FACE_MM))
    return least, usual, most


def _share(unknowns: Unknowns) -> Any:
    return unknowns.value("share of the guide values that settles", *SHARE)


def settling(arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread) -> Settling:
    """The loss of one joint of an arrangement, tightened to this torque [N·mm]:
    f_z/(1/k_b + 1/k_c), at most all of its tension.
    """
    faces, threads = pairs_of_faces(arrangement, joint), threads_of(arrangement, joint)

    def lost(unknowns: Unknowns) -> Any:
        stack, axle = grip_stiffness(unknowns, arrangement, joint, thread)
        beside, tension = (
            paths_beside(unknowns, arrangement, joint),
            pull(unknowns, arrangement, joint, torque_nmm, thread),
        )
        if beside:
            gives = Gives(row=1 / stack + 1 / axle, beside=beside)
            settled = faces * face_settles(unknowns) + ends_settle(unknowns, threads)
            return tension - gives.force(gives.travel(tension) - settled)
        loss = embedding_loss(
            faces=faces,
            bolt_n_per_mm=axle,
            stack_n_per_mm=stack,
            face_mm=face_settles(unknowns),
            thread_mm=ends_settle(unknowns, threads),
        )
        return np.minimum(loss, tension)

    try:
        unknowns, loss = with_variants(lost)
    except Missing as problem:
        return Settling(faces=faces, threads=threads, needs=tuple(map(str, problem.args)))
    return Settling(faces=faces, threads=threads, loss_n=unknowns.spanned(loss))


def pairs_of_faces(arrangement: Arrangement, joint: Joint) -> int:
    """Where two faces meet between what the pull starts from and what it ends at;
    a pack of equal pieces has its own.
    """
    _, members = grip_row(arrangement, joint)
    if not members:
        return 0
    pieces = sum(member.standing.count for member in members)
    # A nut or a shoulder that stands in the stack ends the pull; else one stands beyond it.
    return pieces - 1 + sum(not ends_the_pull(arrangement, end, joint) for end in (members[0], members[-1]))


def threads_of(arrangement: Arrangement, joint: Joint) -> int:
    """Two where a nut stands at either end of what the joint presses together, else one."""
    _, members = grip_row(arrangement, joint)
    ends = {id(end): arrangement.ruler.part(end.standing) for end in (*members[:1], *members[-1:])}
    return max(1, sum(part is not None and part.kind == "nut" for part in ends.values()))
