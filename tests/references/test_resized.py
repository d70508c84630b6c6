"""Sizes measured on a machine, on a part with steps: what is made of them is still a sound reference."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.model.part import Part, Section
from stackcheck.references.resized import resized
from tests.builders import size


def collar() -> Part:
    return Part(
        id="collar", name="Collar", kind="collar", sizes=(("length", size(22.0)),),
        sections=(Section(length=size(4.0), outside=size(40.0), bore=size(20.0)),
                  Section(length=size(18.0), outside=size(30.0), bore=size(20.0))),
    )  # fmt: skip


@given(length=st.floats(10, 40), outside=st.floats(35, 50), bore=st.floats(15, 25))
def test_the_steps_agree_with_whatever_was_measured(length, outside, bore):
    part = resized(collar(), {"length": size(length), "outside": size(outside), "bore": size(bore)})
    assert sum(section.length.nominal_mm for section in part.sections) == pytest.approx(length, abs=0.0005)
    assert (part.across("outside").nominal_mm, part.across("bore").nominal_mm) == (outside, bore)
    assert (part.sections[0].length, part.sections[1].outside) == (size(4.0), size(30.0))


def test_where_nothing_else_was_measured_the_steps_stay_as_they_were_written():
    assert resized(collar(), {"length": size(22.0)}) == collar()
