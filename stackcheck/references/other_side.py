"""A mirrored reference as somebody would write it down:
a draft, with where it comes from and what has to be looked at.
"""

from __future__ import annotations

from stackcheck.formats.remarks import Remarks
from stackcheck.model.reference import Reference, Source
from stackcheck.references.mirror import Mirror
from stackcheck.value import replace

NUMBER = "number of the other side: look whether it is the same here"
HAND = "hand of the thread as on the other side: look"


def other_side(
    reference: Reference, remarks: Remarks, *, title: str = ""
) -> tuple[Reference, Remarks, tuple[str, ...]]:
    """The reference of the other side, its remarks, and what to look at, in words."""
    mirror = Mirror(reference)
    words, turned = mirror.words, mirror.reference()
    source = reference.source
    said = f"{source.kind}, {source.what}" if source.what else source.kind
    what = f"mirror image of {reference.id} rev {reference.revision} ({said})"
    made = replace(
        turned,
        title=title or turned.title,
        revision="A",
        covers="",
        replaced_by="",
        source=Source(kind="memory", what=what, state="draft"),
    )
    handed = [
        part for part, was in zip(turned.parts, reference.parts, strict=True) if part.number and part.name != was.name
    ]
    threads = [joint for joint in turned.joints if "hand" in joint.thread]
    behind = {
        (table, mirror.names.get(name, words(name)), *key): words(text)
        for (table, name, *key), text in remarks.behind.items()
        if table != "assembly"
    }
    behind |= {("parts", part.id, "number"): NUMBER for part in handed} | {
        ("joints", joint.name, "thread"): HAND for joint in threads
    }
    head = (
        *map(words, remarks.head),
        f"Mirror image of {reference.id} rev {reference.revision}; not yet compared with a machine.",
    )
    look = [f"{part.name}: number {part.number} is that of the other side" for part in handed]
    look += [f"{joint.name}: {joint.thread}, as on the other side" for joint in threads]
    if any(part.feature and part.number for part in turned.parts):
        look.append("parts with a feature: whether the other side takes the same part, or one of its own hand")
    return made, Remarks(head=head, behind=behind), tuple(look)
