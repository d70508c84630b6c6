"""A report as PDF, by weasyprint from the same HTML; loaded only where a PDF is asked for."""

from __future__ import annotations

from pathlib import Path

from stackcheck.errors import InputError, Mistake


def write_pdf(document: str, path: Path) -> None:
    """Write a PDF that is not there yet.

    Raises:
        InputError: the library is not installed, or the file is there already or cannot be written.
    """
    try:
        from weasyprint import HTML
    except (ImportError, OSError):
        raise _refusal(
            path,
            "weasyprint is not installed",
            'install it: pip install "stackcheck[pdf]"; or print the HTML from a browser',
        ) from None
    made = HTML(string=document, url_fetcher=_nothing_from_outside).write_pdf()
    try:
        with path.open("xb") as file:
            file.write(made)
    except FileExistsError:
        raise _refusal(path, "the file exists already", "choose another name") from None
    except OSError as problem:
        raise _refusal(
            path, f"cannot be written ({problem.strerror})", "look at its name and at who may write there"
        ) from None


def _nothing_from_outside(address: str, *args: object, **kwargs: object) -> dict:
    """Only what the document itself holds is taken in."""
    if address.startswith("data:"):
        from weasyprint import default_url_fetcher

        return default_url_fetcher(address)
    raise ValueError(f"not part of the document: {address[:60]}")


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="No PDF was written.")
