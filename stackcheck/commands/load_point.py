"""Where a load across acts, as somebody says it: "hub", "hub/left", "35 mm right of hub/right"."""

from __future__ import annotations

from typing import Any

from stackcheck.commands.common import mistake, said

WANTED = 'name a place ("hub": its middle), a face ("hub/left"), or a length from one ("35 mm right of hub/right")'


def load_point(text: str, reference: Any) -> Any:
    """The point; a mistake names the option, what was said and what is wanted."""
    from stackcheck.formats.sizes import size_of
    from stackcheck.mechanics.load_across import LoadPoint
    from stackcheck.units import read_limits

    face, along = text.strip(), (0.0, 0.0, 0.0)
    for sign, end in zip((-1.0, 1.0), reference.ends):
        length, words, start = text.partition(f" {end} of ")
        if words:
            size = said("--radial-at", length, lambda written: size_of(read_limits(written)))
            ends = sorted(sign * each for each in (size.low_mm, size.high_mm))
            face, along = start.strip(), (ends[0], sign * size.nominal_mm, ends[1])
            break
    place, _, end = face.rpartition("/")
    if reference.has_place(face):
        place, end = face, ""
    elif not reference.has_place(place) or end not in reference.ends:
        raise mistake(
            "--radial-at", f'"{text[:60]}" is no place of it', f"{WANTED}; places: {', '.join(reference.line)}"
        )
    if any(along) and not end:
        raise mistake("--radial-at", f'"{text[:60]}" starts at no face', f'write "{place}/{reference.ends[0]}"')
    return LoadPoint(
        text=text.strip(), place=place, face=dict(zip(reference.ends, ("first", "second"))).get(end, ""), along_mm=along
    )
