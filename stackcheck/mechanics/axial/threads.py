"""From a torque to a tension, and why the answer is a range: most of a torque is friction.

ISO 68-1 thread: d2 = d - 0.6495 P, d3 = d - 1.2269 P, stress area π/4 ((d2 + d3)/2)².
"""

from __future__ import annotations

from math import cos, pi, radians

from stackcheck.mechanics.axial.stiffness import _above_nothing, _all
from stackcheck.value import Value

FRICTION = (0.10, 0.14, 0.20)
"""Low, usual and high coefficient where nothing is known of the thread: common practice, no source."""

MEAN_FACE_RADIUS_OVER_D = 0.65
"""Mean friction radius under a hexagon over the thread diameter where the face is not known:
common practice, no source.
"""


class Thread(Value, kw_only=True):
    """A 60° thread: nominal diameter and pitch [mm]."""

    d_mm: float
    pitch_mm: float

    @property
    def flank_mm(self) -> float:
        """Pitch diameter d2 [mm] (ISO 68-1)."""
        return self.d_mm - 0.6495 * self.pitch_mm

    @property
    def root_mm(self) -> float:
        """Root diameter d3 [mm] (ISO 68-1)."""
        return self.d_mm - 1.2269 * self.pitch_mm

    @property
    def stress_area_mm2(self) -> float:
        return pi / 4 * ((self.flank_mm + self.root_mm) / 2) ** 2


def torque_for(
    *, tension_n: float, thread: Thread, thread_friction: float, face_friction: float, face_radius_mm: float
) -> float:
    """The torque that a tension takes [N·mm], the prevailing torque of a locking nut not counted.

    T = F ( d2/2 · (tan λ + μ_t/cos 30°)/(1 - tan λ · μ_t/cos 30°) + μ_h r_h ),  tan λ = P/(π d2)

    Args:
        tension_n: tension in the bolt [N].
        thread: its diameter and pitch [mm].
        thread_friction, face_friction: coefficients, not below 0.
        face_radius_mm: mean radius of the turning face, (OD + ID)/4 [mm].
    Raises:
        ValueError: an argument outside its bounds.

    Source: Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 8-26 (from memory).

    >>> arbor = Thread(d_mm=16, pitch_mm=1.5)
    >>> usual = {"thread": arbor, "thread_friction": 0.14, "face_friction": 0.14, "face_radius_mm": 10.4}
    >>> round(torque_for(tension_n=13_700, **usual) / 1000, 1)
    40.0
    """
    _above_nothing(face_radius_mm=face_radius_mm, pitch_mm=thread.pitch_mm, root_mm=thread.root_mm)
    if not all(_all(value >= 0) for value in (tension_n, thread_friction, face_friction)):
        raise ValueError("tension and friction are not below 0")
    lead = thread.pitch_mm / (pi * thread.flank_mm)
    flank = thread_friction / cos(radians(30))
    return tension_n * (thread.flank_mm / 2 * (lead + flank) / (1 - lead * flank) + face_friction * face_radius_mm)


def tension_from(
    *,
    torque_nmm: float,
    thread: Thread,
    thread_friction: float,
    face_friction: float,
    face_radius_mm: float,
    prevailing_nmm: float = 0.0,
) -> float:
    """The tension that a torque leaves [N], 0 where the prevailing torque takes all of it.

    Args:
        torque_nmm: torque on the wrench [N·mm], not below 0.
        prevailing_nmm: what a locking nut takes before it clamps [N·mm].
        thread, thread_friction, face_friction, face_radius_mm: as for `torque_for`.

    Source: as `torque_for`, solved for F.

    >>> arbor = Thread(d_mm=16, pitch_mm=1.5)
    >>> own = {"torque_nmm": 40e3, "thread": arbor, "face_radius_mm": 10.4}
    >>> [round(tension_from(thread_friction=mu, face_friction=mu, **own), -2) for mu in FRICTION]
    [18600.0, 13700.0, 9800.0]
    """
    if not _all(torque_nmm >= 0) or not _all(prevailing_nmm >= 0):
        raise ValueError("a torque is not below 0")
    for_one = torque_for(
        tension_n=1.0,
        thread=thread,
        thread_friction=thread_friction,
        face_friction=face_friction,
        face_radius_mm=face_radius_mm,
    )
    left = torque_nmm - prevailing_nmm
    return (left + abs(left)) / 2 / for_one


def gain_by_angle(*, angle_deg: float, pitch_mm: float, bolt_n_per_mm: float, stack_n_per_mm: float) -> float:
    """What a joint gains when its nut is turned on by an angle from where it is snug [N]: (P·θ/360)/(1/k_b + 1/k_c).

    Args:
        angle_deg: from where the joint is snug [degrees], not below 0.
        pitch_mm: pitch of the thread [mm], above 0.
        bolt_n_per_mm, stack_n_per_mm: stiffness of bolt and stack [N/mm].
    Raises:
        ValueError: an argument outside its bounds.

    Holds below the yield of the bolt.
    Source: VDI 2230 part 1 (2015), joint diagram (from memory).

    >>> round(gain_by_angle(angle_deg=8, pitch_mm=1.5, bolt_n_per_mm=2.0e5, stack_n_per_mm=1.1e6))  # M16x1.5
    5641
    """
    _above_nothing(pitch_mm=pitch_mm, bolt_n_per_mm=bolt_n_per_mm, stack_n_per_mm=stack_n_per_mm)
    if not _all(angle_deg >= 0):
        raise ValueError(f"angle_deg is {angle_deg}, it must not be below 0")
    return pitch_mm * angle_deg / 360 / (1 / bolt_n_per_mm + 1 / stack_n_per_mm)


def embedding_loss(
    *, faces: int, bolt_n_per_mm: float, stack_n_per_mm: float, face_mm: float = 0.003, thread_mm: float = 0.003
) -> float:
    """The tension lost when the roughness of faces and thread settles [N]: f_z/(1/k_b + 1/k_c).

    Args:
        faces: pairs of faces between head and nut.
        bolt_n_per_mm, stack_n_per_mm: stiffness of bolt and stack [N/mm].
        face_mm, thread_mm: what each pair of faces and the thread settle [mm].

    Source: VDI 2230 part 1, Table 5 (from memory): 2 to 3 µm a pair of faces, 3 µm in the thread.

    >>> round(embedding_loss(faces=6, bolt_n_per_mm=2.0e5, stack_n_per_mm=1.1e6))
    3554
    """
    _above_nothing(bolt_n_per_mm=bolt_n_per_mm, stack_n_per_mm=stack_n_per_mm)
    return (faces * face_mm + thread_mm) / (1 / bolt_n_per_mm + 1 / stack_n_per_mm)
