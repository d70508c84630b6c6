"""The sweep over torque or temperature as a drawing:
one panel a question, all over one axis, for paper in black and white.

Each panel holds what was found as a grey band from least to most with a heavy line at the usual value, and the
reference as three thin broken lines. Where it matters whether outer rings slide or are held fast, both stand in one
panel: sliding as the band, held fast as a hatched band with a dotted line. Nothing is told by colour. Above the force
where the model says nothing the panel is hatched and no line stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import ceil, floor, log10
from textwrap import wrap

from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.limits_in_sweep import LimitInSweep, limits_in_sweep, stretch_words
from stackcheck.present.swept_plays import swept_plays
from stackcheck.result.forces import ForcesResult
from stackcheck.units.force_words import force_limits_words
from stackcheck.value import Value, replace

WIDTH, LEFT, RIGHT, TOP, PANEL, BETWEEN, BOTTOM = 760, 76, 24, 112, 190, 66, 84
"""Sizes of the drawing [px]: its width, the margins, the height of a panel and of the strip between two."""

WIDEST, LINE = 104, 13
"""Signs in a line beneath a panel, and its height [px]."""

STYLE = """text{font-family:Helvetica,Arial,sans-serif;font-size:13px;fill:#000}
.head{font-size:17px;font-weight:bold}.panel{font-weight:bold}.small{font-size:12px}
.axis{stroke:#000;stroke-width:1.2;fill:none}.grid{stroke:#bbb;stroke-width:.6}
.band{fill:#000;fill-opacity:.14;stroke:#000;stroke-width:.8}.usual{stroke:#000;stroke-width:2.4;fill:none}
.fast{fill:url(#fast);stroke:#000;stroke-width:.8}\
.fast-usual{stroke:#000;stroke-width:2.4;stroke-dasharray:2 4;fill:none}
.reference{stroke:#000;stroke-width:1.1;stroke-dasharray:6 4;fill:none}\
.wanted{stroke:#000;stroke-width:1.6;stroke-dasharray:2 2}.crossing{stroke:#000;stroke-width:.8;stroke-dasharray:1 3}\
.limit{stroke:#000;stroke-width:1.2;stroke-dasharray:10 3 2 3}"""

HATCH = (
    '<pattern id="beyond" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="8" height="8" fill="#fff"/>'
    '<line x1="0" y1="0" x2="0" y2="8" stroke="#000" stroke-width=".8"/></pattern>'
    '<pattern id="fast" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">'
    '<line x1="0" y1="0" x2="0" y2="5" stroke="#000" stroke-width=".5"/></pattern>'
)


class Panel(Value, kw_only=True):
    """One question: what was found at every step, the reference where it is another, and where no figure holds.

    `fast` is what was found if the outer rings are held fast, `found` then if they slide;
    empty where that is no other answer. `limits` are those of the force,
    `said` the lines beneath the panel, `at` the steps that it is told for, where that is not all of them.
    """

    title: str
    unit: float
    digits: int
    found: tuple[Spanned, ...]
    reference: tuple[Spanned, ...] = ()
    fast: tuple[Spanned, ...] = ()
    beyond: float | None = None
    limits: tuple[LimitInSweep, ...] = ()
    said: tuple[str, ...] = ()
    at: tuple[float, ...] = ()


def sweep_svg(steps: Sequence[Sequence[ForcesResult]], *, over_torque: bool, title: str, note: str) -> str:
    """The whole drawing as text; `title` names the reference, `note` stands below it.

    Raises:
        ValueError: nothing to draw, no joint has a tension.
    """
    at = [step[0].reference.torque_nmm / 1000 if over_torque else step[0].reference.at_c for step in steps]
    unit = "N·m" if over_torque else "°C"
    panels = [panel for i in range(len(steps[0])) for panel in _panels(at, [step[i] for step in steps], unit)]
    if not panels:
        raise ValueError("no joint with a tension")
    tops = [TOP]
    for panel in panels:
        tops.append(tops[-1] + PANEL + BETWEEN + LINE * len(panel.said))
    height = tops[-1] - BETWEEN + BOTTOM
    axis = "torque, N·m" if over_torque else "temperature, °C (tightened at 20 °C)"
    pieces = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" width="{WIDTH}" '
            f'height="{height}" role="img">'
        ),
        f"<title>{escape(title)}</title><desc>{escape(note)}</desc><style>{STYLE}</style><defs>{HATCH}</defs>",
        f'<rect width="{WIDTH}" height="{height}" fill="#fff"/>',
        _text(LEFT, 30, title, "head"),
        *(_text(LEFT, 50 + 16 * i, line, "small") for i, line in enumerate(note.split("\n"))),
    ]
    for panel, top in zip(panels, tops):
        pieces += [*_drawn(panel, at, top), *_kept(panel, at, top)]
    pieces.append(_text((LEFT + WIDTH - RIGHT) / 2, height - BOTTOM + 40, axis, "panel", "middle"))
    pieces += _legend(
        height - 22,
        has_reference=any(panel.reference for panel in panels),
        has_both=any(panel.fast for panel in panels),
    )
    return "\n".join([*pieces, "</svg>"]) + "\n"


def _panels(at: list[float], steps: list[ForcesResult], unit: str) -> list[Panel]:
    first = steps[0]
    if any(side.tension_n is None for step in steps for side in (step.reference, step.as_found)):
        return []
    name = first.reference.joint.name
    tension = _panel(f"{name}: tension, kN", 1000.0, 1, steps, lambda joint: joint.now_n)
    panels = [_with_limits(tension, at, steps, name, unit), *_play_panels(at, steps)]
    for j, loop in enumerate(first.as_found.loops):
        known = [k for k, step in enumerate(steps) if step.as_found.loops[j].slides is not None]
        if known:
            # What cannot be told at a step is left open in its panel.
            told, there = [steps[k] for k in known], tuple(at[k] for k in known)
            preload = _panel(
                f"{loop.loop}: preload, kN",
                1000.0,
                1,
                told,
                lambda f, j=j: f.loops[j].slides,
                lambda f, j=j: f.loops[j].held,
                loop.beyond_n,
            )
            panels.append(_with_limits(replace(preload, at=there), at, steps, loop.loop, unit))
            title = f"{loop.loop}: end float under ±{GAUGE_N:g} N, mm"
            play = _panel(
                title, 1.0, 2, told, lambda f, j=j: f.loops[j].float_slides, lambda f, j=j: f.loops[j].float_held
            )
            panels.append(replace(play, at=there))
    return panels


def _play_panels(at: list[float], steps: list[ForcesResult]) -> list[Panel]:
    """What a dial reads of each play that the joint sets, and the preload where it is used up."""
    panels = []
    for play in swept_plays(steps):
        for title, size, digits, values, beyond in (
            (f"{play.name}: end float under ±{GAUGE_N:g} N, mm", 1.0, 2, play.dial, None),
            (f"{play.name}: preload, kN", 1000.0, 1, play.preload, play.beyond_n),
        ):
            known = [(place, value) for place, value in zip(at, values) if value is not None]
            if known:
                there, told = zip(*known)
                panels.append(Panel(title=title, unit=size, digits=digits, found=told, beyond=beyond, at=there))
    return panels


def _with_limits(panel: Panel, at: list[float], steps: list[ForcesResult], of: str, unit: str) -> Panel:
    """The same with the limits of its force, and the words beneath it."""
    limits = limits_in_sweep(at, steps, of)
    words = (
        f"wanted {force_limits_words(each.limit.least_n, each.limit.most_n)}: {stretch_words(each, at, unit)}"
        for each in limits
    )
    return replace(panel, limits=limits, said=tuple(line for each in words for line in wrap(each, WIDEST)))


def _panel(
    title: str, unit: float, digits: int, steps: list[ForcesResult], asked, asked_fast=None, beyond: float | None = None
) -> Panel:
    found, own = (
        tuple(asked(forces) for forces in side) for side in ([s.as_found for s in steps], [s.reference for s in steps])
    )
    is_other = found != own and None not in own
    fast = tuple(asked_fast(step.as_found) for step in steps) if asked_fast is not None else ()
    apart = 0.5 * unit * 10**-digits
    differs = any(
        abs(a - b) > apart
        for one, two in zip(found, fast)
        for a, b in ((one.least, two.least), (one.usual, two.usual), (one.most, two.most))
    )
    if differs:
        title = title.replace(", ", ", outer rings sliding or held fast, ", 1) if "preload" in title else title
    return Panel(
        title=title,
        unit=unit,
        digits=digits,
        found=found,
        reference=own if is_other else (),
        fast=fast if differs else (),
        beyond=beyond,
    )


def _ceiling(panel: Panel) -> tuple[float, float | None]:
    """How high a panel reaches, and above what no figure stands in it."""
    wanted = [end for each in panel.limits for end in (each.limit.least_n, each.limit.most_n) if end is not None]
    highest = max(value.most for value in (*panel.found, *panel.reference, *panel.fast))
    beyond = panel.beyond if panel.beyond is not None and highest > panel.beyond else None
    return max(1.15 * beyond if beyond is not None else highest, *(1.05 * end for end in wanted), 0.0), beyond


def _kept(panel: Panel, at: list[float], top: float) -> list[str]:
    """The limits of a force as lines across its panel, upright lines where the verdict changes, the words beneath."""
    if not panel.limits:
        return []
    end, pieces = _end(panel), []
    for each in panel.limits:
        for wanted in (each.limit.least_n, each.limit.most_n):
            if wanted is not None:
                level = top + PANEL * (1 - wanted / end)
                pieces.append(
                    f'<line class="wanted" x1="{LEFT}" y1="{level:.1f}" x2="{WIDTH - RIGHT}" y2="{level:.1f}"/>'
                )
        for place in each.crossings:
            x = LEFT + (place - at[0]) / (at[-1] - at[0]) * (WIDTH - LEFT - RIGHT)
            pieces.append(f'<line class="crossing" x1="{x:.1f}" y1="{top:.1f}" x2="{x:.1f}" y2="{top + PANEL}"/>')
    return pieces + [_text(LEFT, top + PANEL + 37 + LINE * i, line, "small") for i, line in enumerate(panel.said)]


def _end(panel: Panel) -> float:
    """The force or length at the upper edge of a panel."""
    ceiling, _ = _ceiling(panel)
    return max(nice_ticks(0.0, ceiling / panel.unit)[-1] * panel.unit, ceiling)


def _drawn(panel: Panel, at: list[float], top: float) -> list[str]:
    ceiling, beyond = _ceiling(panel)
    if ceiling / panel.unit < 0.5 * 10**-panel.digits:
        none = f"none at any of them{' that can be told' if panel.at and len(panel.at) < len(at) else ''}"
        empty = [_frame(top), _text((LEFT + WIDTH - RIGHT) / 2, top + PANEL / 2, none, "", "middle")]
        return [_text(LEFT, top - 10, panel.title, "panel"), *empty, *_x_ticks(at, top)]
    ticks = nice_ticks(0.0, ceiling / panel.unit)
    end, decimals = _end(panel), max(len(f"{tick:g}".partition(".")[2]) for tick in ticks)

    told = panel.at or tuple(at)

    def x(value: float) -> float:
        return LEFT + (value - at[0]) / (at[-1] - at[0]) * (WIDTH - LEFT - RIGHT)

    def y(value: float) -> float:
        return top + PANEL * (1 - min(value, beyond or end) / end)

    pieces = [_text(LEFT, top - 10, panel.title, "panel")]
    for tick in ticks:
        level = top + PANEL * (1 - tick * panel.unit / end)
        pieces.append(f'<line class="grid" x1="{LEFT}" y1="{level:.1f}" x2="{WIDTH - RIGHT}" y2="{level:.1f}"/>')
        pieces.append(_text(LEFT - 8, level + 4, f"{tick:.{decimals}f}", "", "end"))

    def band(values: tuple[Spanned, ...]) -> str:
        stood = list(zip(told, values))
        return _points([(x(a), y(v.most)) for a, v in stood] + [(x(a), y(v.least)) for a, v in reversed(stood)])

    pieces.append(f'<polygon class="band" points="{band(panel.found)}"/>')
    if panel.fast:
        pieces.append(f'<polygon class="fast" points="{band(panel.fast)}"/>')
        usual = [(x(a), y(v.usual)) for a, v in zip(told, panel.fast) if beyond is None or v.usual <= beyond]
        pieces.append(f'<polyline class="fast-usual" points="{_points(usual)}"/>')
    for name in ("least", "usual", "most") if panel.reference else ():
        pieces.append(
            '<polyline class="reference" '
            f'points="{_points([(x(a), y(getattr(v, name))) for a, v in zip(told, panel.reference)])}"/>'
        )
    line = [(x(a), y(v.usual)) for a, v in zip(told, panel.found) if beyond is None or v.usual <= beyond]
    pieces.append(f'<polyline class="usual" points="{_points(line)}"/>')
    if len(told) < len(at):
        start, end = (at[0], told[0]) if at[0] != told[0] else (told[-1], at[-1])
        pieces.append(_text((x(start) + x(end)) / 2, top + PANEL / 2, "cannot tell", "small", "middle"))
    pieces += [f'<circle cx="{a:.1f}" cy="{b:.1f}" r="3.2"/>' for a, b in line]
    if beyond is not None:
        pieces.append(
            f'<rect x="{LEFT}" y="{top:.1f}" width="{WIDTH - LEFT - RIGHT}" height="{y(beyond) - top:.1f}" '
            'fill="url(#beyond)"/>'
        )
        pieces.append(
            f'<line class="limit" x1="{LEFT}" y1="{y(beyond):.1f}" x2="{WIDTH - RIGHT}" y2="{y(beyond):.1f}"/>'
        )
        words = f"no figure holds above {beyond / panel.unit:.{panel.digits}f}"
        if panel.fast and min(value.least for value in panel.fast) > beyond:
            words += "; held fast lies above it everywhere"
        wide = 6.6 * len(words) + 8
        pieces.append(
            f'<rect x="{WIDTH - RIGHT - wide - 4:.1f}" y="{y(beyond) - 20:.1f}" width="{wide:.1f}" height="17" '
            'fill="#fff"/>'
        )
        pieces.append(_text(WIDTH - RIGHT - 8, y(beyond) - 7, words, "small", "end"))
    return [*pieces, _frame(top), *_x_ticks(at, top)]


def _frame(top: float) -> str:
    return f'<rect class="axis" x="{LEFT}" y="{top:.1f}" width="{WIDTH - LEFT - RIGHT}" height="{PANEL}"/>'


def _x_ticks(at: list[float], top: float) -> list[str]:
    pieces = []
    for value in (tick for tick in nice_ticks(at[0], at[-1]) if at[0] <= tick <= at[-1]):
        x = LEFT + (value - at[0]) / (at[-1] - at[0]) * (WIDTH - LEFT - RIGHT)
        pieces.append(f'<line class="axis" x1="{x:.1f}" y1="{top + PANEL}" x2="{x:.1f}" y2="{top + PANEL + 5}"/>')
        pieces.append(_text(x, top + PANEL + 20, f"{value:g}".replace("-", "−"), "", "middle"))
    return pieces


def _legend(y: float, *, has_reference: bool, has_both: bool) -> list[str]:
    name = "as found" if has_reference else "least to most, and usual"
    rows = [("band", "usual", f"{name}, rings sliding" if has_both else name)]
    rows += [("fast", "fast-usual", "held fast")] if has_both else []
    pieces, x = [], float(LEFT)
    for area, line, words in rows:
        pieces += [
            (
                f'<rect class="{area}" x="{x}" y="{y - 11}" width="34" height="13"/>'
                f'<line class="{line}" x1="{x}" y1="{y - 4.5}" x2="{x + 34}" y2="{y - 4.5}"/>'
            ),
            _text(x + 42, y, words, "small"),
        ]
        x += 60 + 6.5 * len(words)
    if has_reference:
        pieces.append(f'<line class="reference" x1="{x}" y1="{y - 4.5}" x2="{x + 40}" y2="{y - 4.5}"/>')
        pieces.append(
            _text(
                x + 48,
                y,
                "reference, sliding: least, usual and most" if has_both else "reference: least, usual and most",
                "small",
            )
        )
    return pieces


def nice_ticks(low: float, high: float) -> list[float]:
    """Round figures from at most `low` to at least `high`, four to nine of them.

    >>> nice_ticks(0, 23.0)
    [0.0, 5.0, 10.0, 15.0, 20.0, 25.0]
    """
    rough = (high - low) / 5
    step = 10.0 ** floor(log10(rough))
    step *= next(factor for factor in (1, 2, 2.5, 5, 10) if factor * step >= rough * 0.999)
    first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
    return [round(i * step, 10) for i in range(first, last + 1)]


def _points(points: list[tuple[float, float]]) -> str:
    return " ".join(f"{a:.1f},{b:.1f}" for a, b in points)


def _text(x: float, y: float, words: str, kind: str = "", anchor: str = "start") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
        f"{f' class={chr(34)}{kind}{chr(34)}' if kind else ''}>{escape(words)}</text>"
    )
