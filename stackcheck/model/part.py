"""What a part is: its sizes with limits, the feature that shows which way round it is, its duties.

Lengths are in mm. A `Size` is what a drawing or a standard says (nominal, least, most); a `Reading` is what somebody
measured (value, how it was got, good to). The text as written survives in both, for ever.
"""

from __future__ import annotations

from stackcheck.model.warm_reading import Warm
from stackcheck.value import Value

SIZE_NAMES = {
    "length": "length along the axis",
    "bore": "bore",
    "outside": "outside diameter (OD)",
    "inner_width": "inner ring width",
    "outer_width": "outer ring width",
    "inner_standout": "how far the inner ring stands out of the outer ring, toward the first end",
    "free_length": "length when nothing presses on it",
    "length_when_turned": "length it takes up when it is turned round",
    "seat": "seat diameter",
    "shoulder": "shoulder diameter",
    "face_outside": "outside of its faces where they touch",
    "face_bore": "bore of its faces where they touch",
    "feature_face_outside": "outside of the face with its feature where it touches",
    "feature_face_bore": "bore of the face with its feature where it touches",
    "width": "width across",
    "groove": "groove diameter",
    "groove_width": "groove width",
    "across_flats": "across flats",
    "thread_diameter": "thread diameter",
    "thread_pitch": "thread pitch",
    "pitch_diameter": "pitch diameter of the thread",
    "core_diameter": "minor diameter of the thread",
    "radial_clearance": "radial clearance",
    "axial_play": "axial play of the bearing by itself, in its place",
    "pair_play": "play of two of them with their faces together",
    "shaft": "shaft diameter it is made for",
    "ball": "ball diameter",
    "roller_length": "effective length of one roller",
    "wire": "diameter of the wire of a coil spring",
    "disc_thickness": "thickness of one disc",
    "disc_height": "free height of one disc",
}
"""Every size a part may have, with its words on a screen."""

KINDS = (
    "axle", "shaft", "arbor", "spacer tube", "collar", "washer", "shim ring", "thrust washer", "tab washer",
    "spring washer", "disc spring", "circlip", "ball bearing", "angular bearing", "taper bearing", "needle bearing",
    "loose balls", "cone", "cup", "seal", "mechanical seal", "O-ring", "gasket", "nut", "bolt", "split pin",
    "crush sleeve", "plate", "friction plate", "steel plate", "pressure plate", "key", "flange", "gear", "sprocket",
    "impeller", "pulley", "disc", "wheel", "hub", "drum", "leg", "bracket", "carrier", "cover", "housing", "shoulder",
    "spring", "bush", "ring", "cap",
)  # fmt: skip
"""Kinds of part, in the words of the trade; `stackcheck.formats.words` matches what people type instead."""

SINGLE_DIRECTION_KINDS = frozenset({"angular bearing", "taper bearing"})
RING_BEARINGS = frozenset({"ball bearing"}) | SINGLE_DIRECTION_KINDS
"""Rolling bearings with an inner and an outer ring."""
ROLLING_BEARINGS = RING_BEARINGS | {"needle bearing"}
SEATS = frozenset({"hub", "housing", "drum", "wheel", "carrier", "cover", "bracket", "gear", "pulley"})
"""Kinds that hold an outer ring."""
CARRIED_AWAY = frozenset({"leg", "bracket", "cover", "carrier"})
"""Fixed members that come away in the hand: what lies behind them is met from the same end,
and they are put back last.
"""

PASS_THROUGH = frozenset({"axle", "bolt", "shaft", "arbor"})
"""Kinds that may reach through the others of a stack: their length is then none of the stack's."""
LIE_ACROSS = frozenset({"split pin", "key"})
"""Kinds of which no length along the axis counts."""


class Size(Value, kw_only=True):
    """A length as a drawing or standard gives it [mm]: `least` and `most` are its limits, None where none are given.

    `limits_from` says where the limits come from: "written", "fit H8 (ISO 286)", "ISO 492 Normal", or "" for none.
    """

    text: str
    nominal_mm: float
    least_mm: float | None = None
    most_mm: float | None = None
    limits_from: str = ""

    @property
    def has_limits(self) -> bool:
        return self.least_mm is not None and self.most_mm is not None

    @property
    def low_mm(self) -> float:
        """The low limit, or the nominal size where no limits are given [mm]."""
        return self.nominal_mm if self.least_mm is None else self.least_mm

    @property
    def high_mm(self) -> float:
        """The high limit, or the nominal size where no limits are given [mm]."""
        return self.nominal_mm if self.most_mm is None else self.most_mm


class Section(Value, kw_only=True):
    """One step of a part along its axis: a plain tube, or a solid bar where it has no bore.

    `material` is "" where it is that of the part.
    """

    length: Size
    outside: Size
    bore: Size | None = None
    material: str = ""

    @property
    def words(self) -> str:
        """ "7 mm of 58/39 mm", "30 mm of 20 mm, titanium"; the same for the same figures however they were written."""
        across = [size.nominal_mm for size in (self.outside, self.bore) if size is not None]
        words = f"{self.length.nominal_mm:.9g} mm of {'/'.join(f'{figure:.9g}' for figure in across)} mm"
        return f"{words}, {self.material}" if self.material else words


class Shim(Value, kw_only=True):
    """One thickness of a box of shims and how many of it there are."""

    thickness: Size
    count: int


class Reading(Value, kw_only=True):
    """A length as somebody measured it [mm].

    `value_mm` is the middle of `readings_mm` (or of a range such as a feeler gives); `good_to_mm` is half the width of
    the interval that holds the true length (coverage factor 2 in the sense of JCGM 100:2008), so the true length lies
    in `value_mm` ± `good_to_mm`. `how` is the instrument, "marking", "drawing" or "guess", "" when not said. `step_mm`
    is the smallest step of the digits written, 0 where nobody wrote any; `own_good_to` tells a ± that somebody wrote
    from what the instrument is taken to be good to. Lengths are at 20 °C; `warm` tells what was read of a part that was
    not, None where nobody says that it was warm.
    """

    text: str
    value_mm: float
    good_to_mm: float
    how: str = ""
    readings_mm: tuple[float, ...] = ()
    step_mm: float = 0.0
    own_good_to: bool = False
    warm: Warm | None = None

    @property
    def low_mm(self) -> float:
        return self.value_mm - self.good_to_mm

    @property
    def high_mm(self) -> float:
        return self.value_mm + self.good_to_mm

    @property
    def is_measurement(self) -> bool:
        """A width read off a marking or a drawing is not a measurement of this part; a guess is none either."""
        return self.how not in ("marking", "drawing", "guess")


class Amount(Value, kw_only=True):
    """A quantity that is no length (torque, force, angle, temperature, pressure, stiffness), in our inside units.

    Units: N, N·mm, degrees, °C, MPa, N/mm. `dimension` names which.
    """

    text: str
    dimension: str
    nominal: float
    least: float | None = None
    most: float | None = None


class Duty(Value, kw_only=True):
    """What a part is there for or demands: `name` from `DUTIES`, `detail` after the colon ("pair: collar-short")."""

    name: str
    detail: str = ""


DUTIES = {
    "retention": "keeps something from coming off",
    "anti-turn": "keeps something from turning",
    "brake": "part of a brake, or its place decides where one runs",
    "steering": "part of the steering",
    "life-and-limb": "its failure endangers life",
    "single direction": "carries thrust one way only",
    "new every time": "is renewed whenever it comes off",
    "crushes once": "is crushed when tightened and never again",
    "look-alike": "is easily taken for another part",
    "pair": "is one of an unequal pair",
    "watch": "where it stands along the axis matters",
}
BLOCKING_DUTIES = frozenset({"retention", "anti-turn", "brake", "steering", "single direction", "life-and-limb"})
"""Duties for which "cannot tell" or "not looked at" blocks "agrees" for the whole assembly."""


class Part(Value, kw_only=True):
    """A thing with a name, kind and sizes; defined once, however many places it fills.

    `sizes` are pairs of a name from `SIZE_NAMES` and a `Size`. `sections` are the steps of one that is no single tube,
    first end to second as it stands in its first place; its outside is then that of the widest of them and its bore
    that of the narrowest. `feature` is what shows which way round the part is; a
    part with `same_both_ways` is never asked. `stiffness` is that of a spring along the axis, from its free length;
    `coils` (working ones) and `waves` tell it where nobody pressed the spring, 0: not said; `crush_force` that at which
    a crush sleeve goes on shortening; `rollers` and `balls` (how many, 0: not said) and `contact_angle` are the inside
    of a bearing, `static_rating` its C0, `pair_preload` the force with which two of them press on each other when their
    faces meet, before they are fitted. `fixed` parts stay on the machine and are not expected in a teardown.
    """

    id: str
    name: str
    kind: str
    number: str = ""
    accepts: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    standard: str = ""
    sizes: tuple[tuple[str, Size], ...] = ()
    sections: tuple[Section, ...] = ()
    material: str = ""
    stiffness: Amount | None = None
    coils: float = 0.0
    waves: int = 0
    rollers: int = 0
    balls: int = 0
    static_rating: Amount | None = None
    contact_angle: Amount | None = None
    crush_force: Amount | None = None
    pair_preload: Amount | None = None
    feature: str = ""
    same_both_ways: bool = False
    duties: tuple[Duty, ...] = ()
    must_measure: tuple[str, ...] = ()
    fixed: bool = False
    note: str = ""

    def size(self, name: str) -> Size | None:
        for own, size in self.sizes:
            if own == name:
                return size
        return self.across(name) if self.sections else None

    def across(self, name: str) -> Size | None:
        """The outside or the bore of the whole, by its sections."""
        if name == "outside":
            return max((section.outside for section in self.sections), key=lambda size: size.nominal_mm)
        if name == "bore":
            bores = (section.bore for section in self.sections if section.bore is not None)
            return min(bores, key=lambda size: size.nominal_mm, default=None)
        return None

    def has_duty(self, name: str) -> bool:
        return any(duty.name == name for duty in self.duties)

    @property
    def blocks_agreement(self) -> bool:
        """Whether an unseen place or facing of this part leaves the whole assembly undecided."""
        return self.kind in SINGLE_DIRECTION_KINDS or any(duty.name in BLOCKING_DUTIES for duty in self.duties)
