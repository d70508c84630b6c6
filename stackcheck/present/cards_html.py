"""Numbered cards to cut: one in the bag or on the wire, the same one in the picture."""

from __future__ import annotations

from html import escape

from stackcheck.present.printed import document

ACROSS, DOWN = 2, 4
PER_PAGE = ACROSS * DOWN

_STYLE = """
.page { width: 210mm; height: 296.5mm; padding: 8.5mm 10mm 0; }
.how { height: 11mm; font-size: 8.5pt; }
.cards { display: grid; grid-template-columns: 95mm 95mm; grid-auto-rows: 66mm; \
border-top: 0.2mm dashed #000; border-left: 0.2mm dashed #000; width: 190mm; }
.card { border-right: 0.2mm dashed #000; border-bottom: 0.2mm dashed #000; position: relative; }
.number { position: absolute; left: 5mm; top: 1mm; font-size: 64pt; font-weight: bold; line-height: 1.1; }
.arrow { position: absolute; right: 4mm; top: 9mm; width: 42mm; height: 15mm; }
.line { position: absolute; left: 5mm; right: 5mm; top: 41mm; border-bottom: 0.2mm solid #000; font-size: 7pt; }
.bar { position: absolute; left: 5mm; bottom: 4mm; width: 75mm; height: 12mm; }
"""


def cards_html(first_end: str, *, first: int, count: int) -> str:
    """Cards from a number on, each with an arrow toward the first end and a bar of 50 mm."""
    numbers = range(first, first + count)
    pages = [_page(numbers[start : start + PER_PAGE], first_end) for start in range(0, count, PER_PAGE)]
    return document(f"Cards {first} to {numbers[-1]}", paper="A4 portrait", style=_STYLE, pages=pages)


def _page(numbers: range, first_end: str) -> str:
    how = (
        "Print at 100 %, not fitted to the page: lay a rule on a bar, it must measure 50 mm. Cut along the dashes. "
        f"One card in the bag or on the wire, the same one in the picture, its arrow toward the {first_end} end."
    ).replace("end end", "end")
    return (
        f'<p class="how">{escape(how)}</p>\n'
        f'<div class="cards">{"".join(_card(number, first_end) for number in numbers)}</div>'
    )


def _card(number: int, first_end: str) -> str:
    return (
        f'<div class="card"><div class="number">{number}</div>{_arrow(first_end)}'
        f'<div class="line">part</div>{_bar()}</div>\n'
    )


def _arrow(first_end: str) -> str:
    name = first_end.upper()
    size = min(6.0, 34 / max(1, len(name)) * 1.35)
    return (
        '<svg class="arrow" viewBox="0 0 42 15"><path d="M0.4 4 H31 V0.4 L41.6 7.5 L31 14.6 V11 H0.4 Z" fill="none" '
        f'stroke="#000" stroke-width="0.5"/><text x="2" y="7.6" font-size="{size:.2f}" font-weight="bold" '
        f'dominant-baseline="middle" font-family="DejaVu Sans, Arial, sans-serif">{escape(name)}</text></svg>'
    )


def _bar() -> str:
    """50 mm in fields of 10 mm, black and white in turn, so that it can be counted in a poor picture."""
    fields = "".join(
        f'<rect x="{10 * step + 0.25}" y="4.5" width="10" height="3.5" '
        f'fill="{"#000" if step % 2 == 0 else "#fff"}" stroke="none"/>'
        for step in range(5)
    )
    return (
        f'<svg class="bar" viewBox="0 0 75 12">{fields}'
        '<path d="M0.25 4.5 H50.25 M0.25 8 H50.25" stroke="#000" stroke-width="0.2"/>'
        '<path d="M0.25 2.5 V10 M50.25 2.5 V10" stroke="#000" stroke-width="0.2"/>'
        '<text x="52.5" y="8" font-size="4" font-family="DejaVu Sans, Arial, sans-serif">50 mm</text></svg>'
    )
