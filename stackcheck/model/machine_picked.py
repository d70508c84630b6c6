"""Which variant of a reference a machine has, by its year and serial, and in words why."""

from __future__ import annotations

from stackcheck.model.reference import Reference
from stackcheck.value import replace


def for_a_machine(reference: Reference, year: str, serial: str) -> Reference:
    """The reference as it is for a machine of this year and serial ("" where not said), and what was picked."""
    if not (reference.years or reference.serials or reference.variants) or not (year or serial or reference.variants):
        return reference
    if not (year or serial):
        names = ", ".join(f'"{variant.name}"' for variant in reference.variants)
        return replace(
            reference, for_machine=f"year and serial of the machine are not said; variants not looked at: {names}"
        )
    machine = " and ".join(filter(None, (year and f"year {year}", serial and f"serial {serial}")))
    inside = [
        coverage.holds(word)
        for coverage, word in ((reference.years, year), (reference.serials, serial))
        if coverage and word
    ]
    if False in inside:
        covered = ", ".join(coverage.text for coverage in (reference.years, reference.serials) if coverage)
        return replace(
            reference,
            for_machine=f"the machine ({machine}) lies outside what the reference covers: {covered}",
            outside=True,
        )
    picked = [variant for variant in reference.variants if variant.holds(year, serial)]
    open_ = [variant.name for variant in reference.variants if variant.holds(year, serial) is None]
    if len(picked) == 1:
        why = f": {picked[0].why}" if picked[0].why else ""
        return replace(picked[0].reference, for_machine=f'variant "{picked[0].name}", for the machine ({machine}){why}')
    if open_:
        names = ", ".join(f'"{name}"' for name in open_)
        missing = (
            " and ".join(word for word, said in (("year", year), ("serial", serial)) if not said) or "year and serial"
        )
        return replace(reference, for_machine=f"the machine ({machine}) may be one of {names}: say its {missing}")
    if reference.variants:
        return replace(reference, for_machine=f"no variant, for the machine ({machine})")
    known = (
        "lies inside what the reference covers" if True in inside else "cannot be told from what the reference covers"
    )
    return replace(reference, for_machine=f"the machine ({machine}) {known}")
