"""What was looked at and measured on a stray part, and what was not: three states that are never mixed up.

A size that the tool cannot show is *not measured*; a mark that nobody looked for is `None`, one that was looked for and
not found is "". Words in the list ("painted", "not magnetic", "no chamfer", "lies flat") are read here, nowhere else.
"""

from __future__ import annotations

import re

from stackcheck.catalogue.known import ALSO_LENGTH
from stackcheck.formats.bare_sizes import length_word
from stackcheck.model.found import Entry
from stackcheck.model.part import Reading
from stackcheck.units.instruments import INSTRUMENTS, bore_from_chord, standard_uncertainty
from stackcheck.value import Value

FEATURES = {
    "chamfer": r"chamfer(?:ed)?|bevel(?:led)?",
    "tab": r"tabs?|tangs?|tongues?",
    "teeth": r"teeth|toothed|splines?|splined",
    "dished": r"dished|cupped|cups?|conical|hollow|rocks on a plate",
    "wear step": r"wear step|step worn|witness marks?",
    "split": r"split|open ring|gap in the ring",
    "broken": r"broken|cracked|half|fragments?|pieces? of",
    "hard": r"hard(?:ened)?|file skates",
}
"""What free looks can show -> the words for it."""
FLAT = re.compile(r"\b(?:lies|lay|is) flat\b|\bflat on (?:a|the) plate\b", re.IGNORECASE)
CONDITIONS = {
    "painted": "painted", "paint": "painted", "dirty": "dirty", "greasy": "dirty", "rusty": "dirty", "worn": "worn",
    "new": "new", "unused": "new", "used": "used", "clean": "clean", "cleaned": "clean",
}  # fmt: skip
MATERIALS = (
    "stainless",
    "steel",
    "brass",
    "bronze",
    "aluminium",
    "copper",
    "rubber",
    "plastic",
    "nylon",
    "paper",
    "fibre",
)
_NO_NAME = frozenset(CONDITIONS) | {"old", "one", "a", "an", "the", "my", "its", "half", "broken", "bent", "torn"}
_FILLER = r"(?: (?:a|any|the|very|quite|really|at all|visible|clear|sharp|signs? of|traces? of))*"
_NEVER = rf"\b(?:no|not|without|never|non)\b{_FILLER}[ -]"
_MAGNET = re.compile(
    rf"(?P<no>{_NEVER}magnet(?:ic)?\b|magnet (?:does|did|will|do|wo|would)(?: not|n.t)\b|"
    rf"magnet (?:falls|slides|lets go)|"
    r"(?:not|n.t) (?:stick|hold|cling|held|attracted|drawn)\b[^.,;]{0,12}\bmagnet)|\bmagnet"
)
"""What a magnet did; `no` where it did not hold."""
_FEATURES = {name: re.compile(rf"(?P<no>{_NEVER})?\b(?:{words})\b") for name, words in FEATURES.items()}
_NO_MARK = re.compile(rf"{_NEVER}(?:mark|marks|marking|markings|number|numbers|stamp)\b|\bnot marked\b|\bunmarked\b")
_DENIED = re.compile(rf"{_NEVER}\w+")
EXCLUDE = (("new", "used"), ("new", "worn"), ("clean", "dirty"))
"""Conditions that cannot both be."""
COARSE = 5
"""Digits so many times coarser than what the tool is good to were most likely left out."""
INSIDE = frozenset({"bore"})
THREAD = frozenset({"thread_diameter", "thread_pitch"})
THREAD_U_MM = 0.03
"""A thread is told by its name, on a known bolt or by a gauge:
the next pitch is 0.2 mm away, or more, on sizes from M5 (ISO 261).
"""


class Taken(Value, kw_only=True):
    """One size as taken [mm]: `value_mm` with flat jaws allowed for, `u_mm` its standard uncertainty."""

    name: str
    text: str
    value_mm: float
    u_mm: float
    how: str
    remark: str = ""


class Stray(Value, kw_only=True):
    """One part to explain.

    `magnetic` and `marking` are None where nobody looked; `marking` "" says that there is none. `features` hold what
    was looked for: name -> there or not there. `conditions` of "new", "used", "worn", "painted", "dirty", as said.
    `entry` is its number in the list, `home_list` the reference of that list, "" by hand; `part` the part of that
    reference which somebody named there, "" where nobody did.
    """

    what: str
    kind: str = ""
    taken: tuple[Taken, ...] = ()
    not_measured: tuple[str, ...] = ()
    magnetic: bool | None = None
    marking: str | None = None
    material: str = ""
    features: tuple[tuple[str, bool], ...] = ()
    conditions: tuple[str, ...] = ()
    count: int = 1
    entry: int | None = None
    home_list: str = ""
    part: str = ""

    def size(self, name: str) -> Taken | None:
        return next((taken for taken in self.taken if taken.name == name), None)

    def feature(self, name: str) -> bool | None:
        """Whether it has this feature, None where nobody looked."""
        return dict(self.features).get(name)


class Looks(Value, kw_only=True):
    """What words say about a part beside its sizes; the fields of `Stray`."""

    magnetic: bool | None = None
    marking: str | None = None
    material: str = ""
    features: tuple[tuple[str, bool], ...] = ()
    conditions: tuple[str, ...] = ()


def looks_in(text: str) -> Looks:
    """The looks that a text tells.

    >>> seen = looks_in("painted, not magnetic, no chamfer, lies flat")
    >>> seen.magnetic, seen.features, seen.conditions
    (False, (('chamfer', False), ('dished', False)), ('painted',))
    """
    text = text.lower()
    signs = _signs(text)
    magnetic = signs.pop("magnetic", (None,))[0]
    conditions = [word for word in _conditions(text) if word != "clean"]
    materials = _materials(text)
    return Looks(
        magnetic=magnetic,
        marking="" if _NO_MARK.search(text) else None,
        material=materials[0] if materials else "",
        features=tuple((name, said[0]) for name, said in signs.items()),
        conditions=tuple(dict.fromkeys(conditions)),
    )


def contradictions(entry: Entry) -> tuple[tuple[str, str], ...]:
    """Pairs of looks that cannot both be, in words.

    >>> contradictions(Entry(number=1, what="washer, magnetic, not magnetic, new, worn"))
    (('magnetic', 'not magnetic'), ('new', 'worn'))
    """
    text = _text(entry).lower()
    both = [(name, _denied(name)) for name, said in _signs(text).items() if len(set(said)) > 1]
    conditions = _conditions(text)
    both += [pair for pair in EXCLUDE if set(pair) <= set(conditions)]
    materials = _materials(". ".join((entry.what, *entry.look)).lower())
    if len(materials) > 1:
        both.append(materials[:2])
    if entry.marked and _NO_MARK.search(text):
        both.append((f"marked {entry.marked}", "no marking"))
    return tuple(both)


def _denied(name: str) -> str:
    return {
        "magnetic": "not magnetic",
        "dished": "flat",
        "broken": "not broken",
        "hard": "not hard",
        "split": "not split",
    }.get(name, f"no {name}")


def _text(entry: Entry) -> str:
    return ". ".join((entry.what, *entry.look, entry.note, entry.feature))


def _signs(text: str) -> dict[str, tuple[bool, ...]]:
    """Every look that the text tells -> each time whether it is there."""
    signs = {"magnetic": [match["no"] is None for match in _MAGNET.finditer(text)]}
    for name, pattern in _FEATURES.items():
        signs[name] = [match["no"] is None for match in pattern.finditer(text)]
    signs["dished"] += [False] * bool(FLAT.search(text))
    return {name: tuple(said) for name, said in signs.items() if said}


def _conditions(text: str) -> list[str]:
    return [CONDITIONS[word] for word in re.findall(r"\w+", _DENIED.sub("", text)) if word in CONDITIONS]


def _materials(text: str) -> tuple[str, ...]:
    """The materials that are named, the first one first; stainless steel is one."""
    named = re.findall(rf"\b(?:{'|'.join(MATERIALS)})\b", text.replace("stainless steel", "stainless"))
    return tuple(dict.fromkeys(named))


def taken_size(name: str, reading: Reading, kind: str = "") -> Taken | str:
    """One reading as a size with its standard uncertainty; in words why it is not measured, where it is not.

    A ± that somebody wrote is an interval with coverage factor 2 (JCGM 100:2008). A bore that was said to be taken with
    an outside tool counts as taken with the inside jaws of a calliper.
    """
    tool = INSTRUMENTS[reading.how or "calliper"]
    inside = name in INSIDE
    said = f"{length_word(kind) if name == 'length' else name.replace('_', ' ')} {reading.text}"
    if name in THREAD:
        return Taken(
            name=name, text=reading.text, value_mm=reading.value_mm, u_mm=THREAD_U_MM, how="the name of its thread"
        )
    how, remark = reading.how or "calliper", ""
    if not reading.is_measurement and reading.how != "guess":
        return f"{said}: read off a {reading.how}, not measured"
    step = max(reading.step_mm, tool.resolution_mm)
    if reading.value_mm < step / 2:
        return f"{said}: below what this tool can show, not measured"
    u_mm = standard_uncertainty(tool, step_mm=reading.step_mm, inside=inside, readings=max(1, len(reading.readings_mm)))
    if u_mm is None:
        how = "calliper" if inside else how
        remark = f"the {reading.how} takes no such size; counted as by {how}"
        tool = INSTRUMENTS["calliper"]
        u_mm = standard_uncertainty(tool, step_mm=reading.step_mm, inside=inside)
    elif reading.step_mm >= COARSE * tool.good_to_mm and not reading.own_good_to:
        remark = f"counted to the digits written; write {reading.value_mm:.2f} if it was read so"
    if reading.own_good_to:
        u_mm = max(reading.good_to_mm / 2, step / 12**0.5)
    value = bore_from_chord(reading.value_mm, tool.inside_flat_mm) if inside else reading.value_mm
    return Taken(name=name, text=reading.text, value_mm=value, u_mm=u_mm, how=how, remark=remark)


def name_words(text: str) -> tuple[str, ...]:
    """The words of a name, without what is said of the state of the part.

    >>> name_words("old Short collar, worn")
    ('short', 'collar')
    """
    return tuple(word for word in re.findall(r"[^\W_][\w./-]*", text.lower().partition(",")[0]) if word not in _NO_NAME)


def stray_of(entry: Entry, home_list: str, kind: str = "") -> Stray:
    """An entry of a teardown list as a part to explain; `kind` is that of the part it was named, where it was."""
    sizes = [
        taken_size("length" if name == ALSO_LENGTH else name, reading, entry.kind or kind)
        for name, reading in entry.sizes
    ]
    looks = looks_in(_text(entry))
    return Stray(
        what=entry.what,
        kind=entry.kind or kind,
        taken=tuple(size for size in sizes if isinstance(size, Taken)),
        not_measured=tuple(size for size in sizes if isinstance(size, str)),
        magnetic=looks.magnetic,
        marking=entry.marked or looks.marking,
        material=looks.material,
        features=looks.features,
        conditions=looks.conditions,
        count=entry.count,
        entry=entry.number,
        home_list=home_list,
        part=entry.part or "" if entry.sure else "",
    )
