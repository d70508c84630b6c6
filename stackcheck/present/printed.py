"""What every printed page of ours shares: one self-contained HTML file, sizes in true millimetres, black on white."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

STYLE = """
* { box-sizing: border-box; margin: 0; padding: 0; }
body { font: 9pt/1.25 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; color: #000; background: #fff; }
.page { page-break-after: always; break-after: page; position: relative; }
.page:last-child { page-break-after: auto; break-after: auto; }
h1 { font-size: 14pt; line-height: 1.15; }
h2 { font-size: 10.5pt; margin: 0 0 1.5mm; }
@media screen { body { background: #ddd; } .page { margin: 6mm auto; background: #fff; } }
"""


def document(title: str, *, paper: str, style: str, pages: Iterable[str]) -> str:
    """The whole file. `paper` is a CSS page size; `pages` are HTML, one a printed page."""
    body = "\n".join(f'<section class="page">\n{page}\n</section>' for page in pages)
    return (
        "<!DOCTYPE html>\n"
        '<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(title)}</title>\n"
        f"<style>\n@page {{ size: {paper}; margin: 0; "
        f"}}{STYLE}{style.strip()}\n</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )


def ruled(label: str, width_mm: float) -> str:
    """A word and a line to write on."""
    return f'<span class="ruled"><span>{escape(label)}</span><i style="width:{width_mm:g}mm"></i></span>'


RULED_STYLE = """
.ruled { display: inline-flex; align-items: flex-end; gap: 1.2mm; margin-right: 4mm; white-space: nowrap; }
.ruled i { display: inline-block; height: 6mm; border-bottom: 0.25mm solid #000; }
"""
