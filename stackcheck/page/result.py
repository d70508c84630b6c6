"""The result: the sentence, the drawing, every finding as a card with its decision, what was not verified;
the strip report.
"""

from __future__ import annotations

from typing import Any

from starlette.responses import HTMLResponse, Response

from stackcheck.job.deciding import key_of, lacking_words, record_comparison, retains
from stackcheck.job.events import DECISIONS, Decided
from stackcheck.job.folder import JobFolder, now
from stackcheck.page.guard import PAPER_HEADERS
from stackcheck.page.minding import minded
from stackcheck.page.visit import TEMPLATES, Visit, told_blocks
from stackcheck.present.compare_page import below, finding_blocks, top
from stackcheck.present.finding_title import finding_title
from stackcheck.present.job_page import not_to_use
from stackcheck.present.putting_right_page import beside_as_found, fitting_page
from stackcheck.present.verdict_words import headline, not_verified_sentence


def result(visit: Visit, folder: JobFolder) -> Response:
    job = folder.job
    comparison = job.comparison
    if job.offs:
        record_comparison(folder, comparison)
    decided = [job.decisions.get(key_of(each.finding)) for each in comparison.findings]
    titles = [finding_title(comparison, each.finding) for each in comparison.findings]
    findings = [
        (title, told_blocks(words), decision_words(decision))
        for title, words, decision in zip(titles, finding_blocks(comparison), decided)
    ]
    sections = _sections(
        told_blocks(beside_as_found(job, comparison)) + told_blocks(below(comparison, all_cautions=True))
    )
    return visit.page(
        "result.html",
        job=job,
        headline=headline(comparison),
        unverified=not_verified_sentence(comparison),
        minded=minded(job.reference, comparison.cautions),
        warning=not_to_use(job) if job.offs and job.closed is None else "",
        top=told_blocks(top(comparison)),
        sections=sections,
        findings=findings,
        at=visit.said("at", 6),
    )


def _sections(blocks: list[dict[str, Any]]) -> list[tuple[str, list[dict[str, Any]]]]:
    """What stands below the findings, by its headings; words that are for a terminal alone are left out."""
    sections: list[tuple[str, list[dict[str, Any]]]] = []
    for block in blocks:
        if block["kind"] == "heading" or not sections:
            sections.append(
                (
                    block["text"] if block["kind"] == "heading" else "TOGETHER",
                    [] if block["kind"] == "heading" else [block],
                )
            )
        elif block["kind"] != "text" or not ("stackcheck " in block["text"] or "--" in block["text"]):
            sections[-1][1].append(block)
    return sections


def decide(visit: Visit, folder: JobFolder) -> Response:
    """One finding, and what is done about it."""
    job, number, back = folder.job, visit.said("finding", 6), f"/job/{folder.name}/result"
    comparison = job.comparison
    if not number.isdecimal() or not 1 <= int(number) <= len(comparison.findings):
        return visit.refused("There is no such finding any more: look at the page again.", back=back)
    finding = comparison.findings[int(number) - 1].finding
    if not visit.is_post:
        words = told_blocks(finding_blocks(comparison)[int(number) - 1])
        decided = job.decisions.get(key_of(finding))
        chosen, reason = (decided.decision, decided.reason) if decided else ("", "")
        return visit.page(
            "decide.html",
            job=job,
            number=number,
            words=words,
            now=decision_words(decided),
            decisions=DECISIONS,
            chosen=chosen,
            reason=reason,
        )
    decision, reason = visit.said("decision"), visit.said("reason", 500)
    if decision not in DECISIONS:
        return visit.refused("That is none of the decisions.", back=back)
    if lacking := lacking_words(decision, reason, visit.by, retains=retains(job, finding)):
        plain = lacking.replace(" (--reason)", "").replace(" (--by)", "")
        return visit.refused(
            f'"{decision}" needs {plain}: whoever comes later must know why, and who said so.',
            back=f"/job/{folder.name}/decide?finding={number}",
        )
    folder.record(Decided(about=key_of(finding), decision=decision, reason=reason, by=visit.by))
    return visit.go_to(f"{back}?at={number}", f"Decided: {decision}.", to=f"finding-{number}")


def decision_words(decided: Decided | None) -> str:
    if decided is None:
        return "undecided"
    return (
        f"{decided.decision}{f': {decided.reason}' if decided.reason else ''}{f' ({decided.by})' if decided.by else ''}"
    )


def drawing(visit: Visit, folder: JobFolder) -> Response:
    """The whole half section, or the small section round one finding."""
    from stackcheck.drawing.excerpt import detail
    from stackcheck.drawing.layout import layout
    from stackcheck.drawing.svg import svg

    comparison = folder.job.comparison
    picture, number = layout(comparison), visit.said("finding", 6)
    if number.isdecimal() and 1 <= int(number) <= len(comparison.findings):
        picture = detail(picture, comparison.findings[int(number) - 1].finding)
    return Response(svg(picture), media_type="image/svg+xml", headers=PAPER_HEADERS)


def report(visit: Visit, folder: JobFolder) -> Response:
    from stackcheck.report.content import strip_report
    from stackcheck.report.from_job import job_parts
    from stackcheck.report.html import html

    comparison = folder.job.comparison
    paper = html(strip_report(comparison, job_parts(folder, comparison, now())))
    around = TEMPLATES.get_template("report_ends.html").module
    job = folder.job
    warning = not_to_use(job) if job.offs and job.closed is None else ""
    paper = paper.replace("<body>", f"<body>{around.head(job, warning)}", 1).replace(
        "</body>", f"{around.fitting(told_blocks(fitting_page(job)))}</body>", 1
    )
    return HTMLResponse(paper, headers=PAPER_HEADERS)
