"""What hypothesis generates for the whole suite: TOML trees of references and teardown lists, and spoiled texts."""

from __future__ import annotations

from pathlib import Path

from hypothesis import strategies as st

ROOT = Path(__file__).parents[1]
LIBRARY = ROOT / "reference_assemblies"
GOOD_LIBRARY = ROOT / "tests" / "good_library"
REAL_FILES = [
    path
    for folder in ("reference_assemblies", "examples/generations")
    for path in sorted((ROOT / folder).glob("*/*.toml"))
]
REAL_FILES += sorted((ROOT / "examples").glob("*.toml"))

words = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")) | st.sampled_from('"\\\n\t='), min_size=1, max_size=12
)
ids = st.from_regex(r"[a-z0-9][a-z0-9-]{0,8}", fullmatch=True)
figures = st.decimals(min_value="0.01", max_value="400", places=2).map(str)
units = st.sampled_from([" mm", "", " in", '"', " thou", "mm"])


@st.composite
def sizes(draw) -> str:
    """A size as a drawing gives it."""
    figure, unit = draw(figures), draw(units)
    downward = [" ±0.01", " +0.02/-0.01"] if float(figure) > 0.01 else []  # a size stays above nothing
    limits = draw(st.sampled_from(["", *downward, " +0.1/0", " (sheet 3)"]))
    fit = draw(
        st.sampled_from(
            ["20 H8", "35 k6", "47 N7", "1 1/2 in ±1/64 in", "18.35..18.45 mm", "60 thou", ".060 in", "0,5 mm"]
        )
    )
    return draw(st.sampled_from([f"{figure}{unit}{limits}", fit]))


def _some(draw, **values: st.SearchStrategy) -> dict:
    """Each key or not."""
    return {key: draw(value) for key, value in values.items() if draw(st.booleans())}


def steps(bores: st.SearchStrategy, **figures: st.SearchStrategy) -> st.SearchStrategy:
    """One step of a part as a file has it: outside 30 to 60 mm, bore 10 to 25 mm or as `bores` gives it."""
    lengths = figures.get("lengths", st.integers(1, 40))
    return st.builds(
        lambda length, outside, bore, material: (
            {"length": f"{length} mm", "outside": f"{outside} mm ±0.1"}
            | ({"bore": f"{bore} mm"} if bore else {})
            | ({"material": material} if material else {})
        ),
        lengths,
        st.integers(30, 60),
        bores,
        st.sampled_from(["", "steel", "brass"]),
    )


@st.composite
def stepped(draw) -> dict:
    """The keys of a part that is given by its sections."""
    rows = draw(st.lists(steps(st.integers(10, 25)), min_size=1, max_size=4))
    return {"sections": rows, "length": f"{sum(int(row['length'].split()[0]) for row in rows)} mm ±0.05"}


@st.composite
def reference_trees(draw) -> dict:
    """The tree of a sound reference file: one long stack, and a second that shares its ends."""
    names = draw(st.lists(ids, min_size=3, max_size=7, unique=True))
    parts = {}
    for name in names:
        parts[name] = {
            "name": draw(words),
            "kind": draw(st.sampled_from(["collar", "washer", "hub"])),
            "feature": "flange",
        }
        parts[name] |= _some(
            draw, number=words, length=sizes(), seat=sizes(), inner_standout=st.just("-0.1 mm ±0.02"), accepts=st.lists(words, max_size=2),
            pair_preload=st.just("120..260 N"),
            material=words, fixed=st.booleans(), note=words, duty=st.just(["brake", "pair: " + names[0]]),
        )  # fmt: skip
        parts[name] |= draw(stepped()) if draw(st.booleans()) else {}
    parts[names[0]] = {
        "name": "Bearing",
        "standard": draw(st.sampled_from(["6204", "6205 C3", "ISO 7089 M16"])),
    } | _some(draw, length=sizes(), also=st.lists(words, max_size=2), same_both_ways=st.booleans())
    order = [name if index else f"{name}@left" for index, name in enumerate(names)]
    items = []
    for name in order:
        extra = _some(
            draw,
            toward=st.sampled_from(["left", "right", "away from right"]),
            count=st.integers(1, 9),
            may_be_absent=words,
        )
        if name == order[0]:
            extra.pop("toward", None)
        items.append({"place": name} | extra if extra else name)
    gap = {"gap": draw(words)} | _some(
        draw, least=st.just("0.1 mm"), most=st.sampled_from(["4 mm", "1 in"]), set_by=words, clamped=st.booleans()
    )
    items.insert(1, gap)
    limit = {"what": draw(words), "between": [order[0], f"{order[1]}/left"], "least": "-0,1 mm"} | _some(
        draw, most=st.just("60 thou"), source=words
    )
    pairing = {"what": draw(words), "outer": [names[0], "bore"], "inner": [names[0], "outside"]} | _some(
        draw, least=st.just("0.1 thou")
    )
    joint = {"name": draw(words), "clamps": order[:2]} | _some(
        draw,
        torque=st.just("40 N·m"),
        angle=st.just("1/4 turn"),
        note=words,
        shank=st.lists(steps(st.sampled_from([0, 8])), min_size=1, max_size=3),
    )
    clamp = {"what": draw(words), "of": joint["name"], "most": "900 lbf", "source": draw(words)} | _some(
        draw, least=st.sampled_from(["3 kN", "400 N"])
    )
    wanted = [clamp] if joint["name"] not in (gap["gap"], limit["what"]) and draw(st.booleans()) else []
    if draw(st.booleans()):
        clamp["state"] = draw(st.sampled_from(["assembly", "running"]))
    states = [
        {"name": "running", "temperature": "60 °C", "source": "own record"},
        {"name": "cold start", "temperature": "14 °F"},
    ]
    states[0]["apart"] = draw(
        st.dictionaries(st.sampled_from([*names, *order, "axle", "inner rings"]), st.just("-5 °C"), max_size=3)
    )
    support = {"place": order[1]} | _some(
        draw, stiffness=st.just("180 N/mm"), floating=st.booleans(), free_position=st.just("-1 mm")
    )
    assembly = {
        "id": "bench", "title": draw(words), "revision": draw(words), "ends": ["left", "right"], "ends_seen_from": draw(words),
        "source": {"kind": "own record", "state": draw(words)},
    }  # fmt: skip
    tree = {
        "kind": "reference assembly", "format": 1, "assembly": assembly | _some(draw, note=words, cautions=st.just(["S1", "W2"])),
        "parts": parts,
        "stacks": [{"name": "first", "order": items}, {"name": "second", "order": [order[0], order[-1]], "through": "outer rings"}],
        **_some(
            draw, limits=st.just([limit]), pairings=st.just([pairing]), joints=st.just([joint]), supports=st.just([support]),
            units=st.just({"unit-" + names[0]: {"name": "Cartridge", "members": order[:2]}}),
            history=st.just([{"revision": "A", "date": "2025-03-02", "what": "first", "by": "A"}]),
        ),
    }  # fmt: skip
    tree["states"] = states
    if "joints" in tree:
        tree["limits"] = [*tree.get("limits", []), *wanted]
    return tree


readings = st.builds(
    lambda figure, unit, how: figure + unit + how,
    figures,
    units,
    st.sampled_from(["", " cal", " mic", " rule", " ±0.02", " (rusty)"]),
)


@st.composite
def found_trees(draw) -> dict:
    """The tree of a sound teardown list of the stub axle in `GOOD_LIBRARY`."""
    entries = []
    for _ in range(draw(st.integers(1, 6))):
        entry = {"what": draw(st.sampled_from(["nut", "left collar", "spacer", "some thing"]) | words)} | _some(
            draw, end=st.sampled_from(["left", "Right"]), part=st.sampled_from(["nut", "collar", "bearing@left"]), sure=st.booleans(),
            kind=st.sampled_from(["nut", "spacer", "Clip"]), number=words, count=st.integers(1, 9), length=readings, od=readings,
            toward=st.sampled_from(["left", "away from left", "not seen", "?", "both ways"]), feel=st.lists(words, max_size=2),
            look=st.lists(words, max_size=2), came_off=words, card=words, tag=words, place_seen=st.sampled_from(["inferred", "found loose"]),
            stuck_to_next=st.booleans(), note=words,
            sections=st.lists(st.fixed_dictionaries(
                {"length": readings, "outside": st.just("30.1 cal"), "bore": st.just("20 ±0.1")}, optional={"material": words}
            ), min_size=1, max_size=3),
        )  # fmt: skip
        # A length and its steps may contradict one another, which is another test.
        entry.pop("length", None) if "sections" in entry else None
        entries.append(entry)
    measured = [{"gap": "free gap", "reading": "0.0..0.3 feeler"}, {"place": "hub", "reading": draw(readings)}]
    return {
        "kind": "as found", "format": 1, "reference": "workshop/stub-axle", "revision": "A", "off": entries,
        **_some(draw, finished=st.booleans(), title=words, story=words, by=words, date=words, measured=st.just(measured),
            not_seen=st.just(["nut"]), symptoms=st.just([{"what": "drag"}])),
    }  # fmt: skip


@st.composite
def spoiled(draw, text: str) -> str:
    """A text after somebody's slips: pieces cut out, doubled, replaced, signs strewn in, lines exchanged."""
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 40)))
        piece = draw(
            st.text(max_size=6)
            | st.sampled_from(
                ['"', "'", "[", "]", "{", "}", "=", "[[off]]", "\n", "\x00", "nan", "1e999", "-", "[" * 60, "é", "\\"]
            )
        )
        match draw(st.sampled_from(["cut", "double", "replace", "insert", "lines"])):
            case "cut":
                text = text[:start] + text[end:]
            case "double":
                text = text[:end] + text[start:]
            case "replace":
                text = text[:start] + piece + text[end:]
            case "insert":
                text = text[:start] + piece + text[start:]
            case "lines":
                lines = text.split("\n")
                one, other = draw(st.integers(0, len(lines) - 1)), draw(st.integers(0, len(lines) - 1))
                lines[one], lines[other] = lines[other], lines[one]
                text = "\n".join(lines)
    return text
