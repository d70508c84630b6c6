"""A job in words: where it stands, what is open, the paper tag."""

from __future__ import annotations

from typing import Any

from stackcheck.job.deciding import kept
from stackcheck.job.events import Compared, Decided, Event, Off
from stackcheck.job.open_items import OpenItem
from stackcheck.job.state import Job
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.event_words import event_words
from stackcheck.present.job_state import ago, state_of
from stackcheck.present.names import counted, is_told_apart, listed, lower_first, offered_name, place_words, size_words
from stackcheck.present.words import LABELS, sentence

NOT_TO_USE = {
    "freight-tricycle": "DO NOT RIDE", "boat-trailer": "DO NOT TOW", "bilge-pump": "DO NOT START",
    "bench-grinder": "DO NOT START", "orchard-tractor": "DO NOT START",
}  # fmt: skip


def not_to_use(job: Job) -> str:
    """What nobody may do with the machine while it is open."""
    return NOT_TO_USE.get(job.begun.reference.partition("/")[0], "DO NOT USE")


def page(job: Job, items: tuple[OpenItem, ...], now: str) -> list[Block]:
    """What somebody who comes back must know first, then what is open."""
    kinds = by_kind(job, items, now)
    return [
        *head(job, items, now),
        *(Text("; ".join(words), mark=f"{kind}: ", indent=1) for kind, words in kinds.items()),
    ]


def head(job: Job, items: tuple[OpenItem, ...], now: str) -> list[Block]:
    """Which job, how it stands, since when, and how much is open."""
    begun = job.begun
    last = job.live[-1]
    state = state_of(job, items)
    blocks: list[Block] = [
        Text(
            (
                f"{begun.title} ({job.name}): {state}. Last touched "
                f"{ago(last.at, now)}{f' by {last.by}' if last.by else ''}."
            ),
            strong=True,
        ),
        Text(
            f"Reference {begun.reference}, revision {begun.revision}. "
            f"{begun.ends[0].capitalize()}: {begun.ends_seen_from}."
        ),
    ]
    if begun.why:
        blocks.append(Text(f"Opened because: {begun.why}."))
    if job.offs and job.closed is None:
        blocks.append(Text(f"{came_off_words(job)} Not to be used as it is."))
    blocks.append(Heading(f"OPEN: {len(items)}" if items else "OPEN: nothing"))
    return blocks


def by_kind(job: Job, items: tuple[OpenItem, ...], now: str) -> dict[str, list[str]]:
    """Kind of open item -> each of them in words."""
    words: dict[str, list[str]] = {}
    for item in items:
        words.setdefault(item.kind, []).append(item_words(job, item, now))
    return words


def came_off_words(job: Job) -> str:
    """ "11 off, 1 more found loose (X1), 2 points not looked at. Cards 1 to 9."."""
    loose = sum(off.place_seen == "found loose" for off in job.offs)
    words = [f"{len(job.offs) - loose} off"]
    if loose:
        words.append(f"{loose} more found loose ({listed(f'X{number}' for number in range(1, loose + 1))})")
    skipped = sum(not answer for answer in job.answers.values())
    if skipped:
        words.append(f"{counted(skipped, 'point')} not looked at")
    cards = sorted({int(card) for card in job.cards if card.isdecimal()})
    if not cards:
        return ", ".join(words) + "."
    in_a_row = len(cards) > 1 and cards == list(range(cards[0], cards[-1] + 1))
    shown = f"{cards[0]} to {cards[-1]}" if in_a_row else listed(map(str, cards))
    return f"{', '.join(words)}. {'Card' if len(cards) == 1 else 'Cards'} {shown}."


def _place_of(job: Job, place: str) -> str:
    """A place in words; until the list was compared by the name that was offered,
    which tells nothing that is expected.
    """
    reference = job.reference
    if not (reference.has_place(place) or any(unit.id == place for unit in reference.units)):
        return place
    return (
        offered_name(reference, place)
        if job.last(Compared) is None and reference.has_place(place)
        else place_words(reference, place)
    )


def part_on_bench(job: Job, place: str, entry: int, *, is_said: bool = False) -> str:
    """The part that belongs to a place, by the entry that it is: "long collar (entry 3, came off the left)".

    The entry is said where it lay elsewhere, where another part of the kind could be taken for it,
    and always with `is_said`.
    """
    words = _place_of(job, place)
    if not 1 <= entry <= len(job.offs) or (
        not is_said and job.offs[entry - 1].place in ("", place) and is_told_apart(job.reference, place)
    ):
        return words
    off = job.offs[entry - 1]
    if job.last(Compared) is None or off.place == place and is_told_apart(job.reference, place):
        return f"entry {entry}, {off.what}"
    return (
        f"{lower_first(job.reference.part_at(place).name)} (entry "
        f"{entry}{f', came off the {off.end}' if off.end else ''})"
    )


def item_words(job: Job, item: OpenItem, now: str) -> str:
    """One open item in a few words."""
    reference = job.reference
    place = _place_of(job, item.place)
    match item.kind:
        case "not fitted":
            return place
        case "finger tight":
            return f"{item.what} ({item.since or 'nothing said'})"
        case "undecided":
            return sentence(item.finding, reference, job.found)
        case "to buy":
            return f"{item.number} x {item.what}"
        case "on order":
            return f"{item.what}, ordered {ago(item.since, now)}"
        case "arrived, not measured":
            return f"{item.what}: {listed(size_words(size) for size in item.sizes)}"
        case "arrived, differs":
            return f"{item.what}, another size than the reference's"
        case "not measured":
            if not item.place:
                return (
                    f"entry {item.entry}, {job.offs[item.entry - 1].what}, {size_words(item.what)}"
                    if item.entry
                    else item.what
                )
            return f"{part_on_bench(job, item.place, item.entry)}, {size_words(item.what)}"
        case "not looked at" | "cannot tell":
            feature = reference.part_at(item.place).feature if item.place and item.what == "facing" else item.what
            return ", ".join(filter(None, (place, "" if feature == "place" else feature)))
        case "temporary" | "borrowed" | "after use":
            return f"{item.what} (note {item.number})"
        case "arrived, not fitted" | "still inside":
            return item.what
        case "points to look at" | "points that differ":
            return item.what
        case "two looks differ":
            looks = listed(f"{by}: {toward}" for by, toward in job.looks(item.entry).items() if by)
            return f"entry {item.entry}, {item.what}: {looks}"
        case "another torque":
            return f"{item.what}: {item.toward}"
        case "another part fitted":
            return (
                f"{place}: entry {item.entry}"
                f"{f', the {lower_first(item.what)}' if item.what else f', {job.offs[item.entry - 1].what}'}"
            )
        case "fitted the other way round":
            part, wanted = reference.part_at(item.place), reference.end_name(reference.place(item.place).facing)
            return f"{place}: {part.feature} toward {item.toward}; reference: toward {wanted}"
        case "way round not seen at fitting":
            return f"{place}, {reference.part_at(item.place).feature}"
        case "not to be refitted, fitted":
            return f"{place}, entry {item.entry}: {item.what}"
        case "single-use, fitted again":
            return f"{place}, entry {item.entry}"
        case "spare on the bench":
            return f"entry {item.entry}, {item.what}"
        case _:
            return "the list was changed after it was compared: compare again"


def tag(job: Job, items: tuple[OpenItem, ...]) -> str:
    """Three lines for a paper tag: what is open, what not to do, since when."""
    part = job.begun.title
    lacking = [item.what for item in items if item.kind in ("on order", "to buy")]
    off = [_place_of(job, item.place) for item in items if item.kind == "not fitted"]
    state = "OPEN" if job.offs else "NOT OPENED YET"
    what = f"{len(off)} parts off" if len(off) > 3 else f"{listed(off)} off" if off else "nothing off"
    loosened = [item.what for item in items if item.kind == "finger tight"]
    lines = [f"{part.upper()} {state} - {what}{f'; waiting for {listed(lacking[:3])}' if lacking else ''}."]
    lines.append(f"{not_to_use(job)}." + (f" Finger tight: {listed(loosened)}." if loosened else ""))
    since = next((event.at[:10] for event in job.live if isinstance(event, Off)), job.begun.at[:10])
    lines.append(f"Since {since}. Job {job.name}: stackcheck open {job.name}")
    return "\n".join(lines)


def resume_page(job: Job, events: tuple[Event, ...], now: str) -> list[Block]:
    """The last things that were said, read out to be confirmed: people believe they are further on than they are."""
    rows = tuple(
        (str(number), event_words(event, job.reference), ago(event.at, now))
        for number, event in enumerate(events, start=1)
    )
    return [Heading("THE LAST THINGS SAID - STILL SO?"), Rows(("", "", ""), rows, wraps=(1,))] if rows else []


def all_jobs(jobs: list[tuple[Job, tuple[OpenItem, ...]]], now: str) -> list[Block]:
    """Every job that is not closed, with how much is open in it;
    packs of all of them are counted before any is closed.
    """
    if not jobs:
        return [Text("No job is open.")]
    rows = tuple(
        (job.name, state_of(job, items), ago(job.live[-1].at, now), counted(len(items), "open item"))
        for job, items in jobs
    )
    return [
        Rows(("job", "state", "last touched", ""), rows, wraps=(1,)),
        Text("stackcheck open JOB shows what is open in one.", indent=1),
    ]


def closing_page(job: Job, items: tuple[OpenItem, ...], by: str) -> list[Block]:
    """What stands on the page before a person closes the job:
    open items, kept differences, never a word that it may be used.
    """
    blocks: list[Block] = [
        Text(
            f"{job.begun.title} ({job.name}): closed by {by}"
            + (f" with {counted(len(items), 'open item')}." if items else "."),
            strong=True,
        )
    ]
    blocks += [Text(item_words(job, item, job.live[-1].at), mark=f"{item.kind}: ", indent=1) for item in items]
    for decided in kept(job):
        blocks.append(
            Text(
                f"{about_words(job, decided)}: {decided.decision}, {decided.reason} ({decided.by}, {decided.at[:10]})",
                mark="difference kept: ",
                indent=1,
            )
        )
    recall = job.answers.get("recall", "")
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(
        Text(
            (
                f"recall of the maker: {recall or 'not looked up'} · cracks, hardness and material · the torque "
                "wrench's own reading · grease and dirt · the truth of the entries."
            ),
            indent=1,
        )
    )
    blocks.append(
        Text(
            (
                "First use: slow, in an open, empty place; then warmth by hand, noise, end float, nuts. "
                "This is not part of the comparison."
            ),
            indent=1,
        )
    )
    return blocks


def about_words(job: Job, decided: Decided) -> str:
    """What a decision is about, in words: the kind of difference and its places or entries."""
    kind, places, entries = decided.about.split(":")
    named = [place_words(job.reference, place) for place in places.split(",") if job.reference.has_place(place)]
    named = named or [
        f"entry {number}, {job.offs[int(number) - 1].what}"
        for number in entries.split(",")
        if number and int(number) <= len(job.offs)
    ]
    return f"{LABELS[kind].lower()} {listed(named)}" if kind in LABELS else listed(named) or decided.about


def as_json(job: Job, items: tuple[OpenItem, ...]) -> dict[str, Any]:
    """The job and its open items."""
    begun = job.begun
    return {
        "job": job.name,
        "reference": {"id": begun.reference, "revision": begun.revision},
        "state": state_of(job, items),
        "begun": begun.at,
        "last_touched": job.live[-1].at,
        "why": begun.why,
        "entries": len(job.offs),
        "cards": list(job.cards),
        "open_items": [
            {
                "kind": item.kind,
                "place": item.place or None,
                "what": item.what or None,
                "entry": item.entry or None,
                "sentence": item_words(job, item, job.live[-1].at),
            }
            for item in items
        ],
        "decisions": [
            {"about": each.about, "decision": each.decision, "reason": each.reason, "by": each.by, "at": each.at}
            for each in job.decisions.values()
        ],
    }
