"""A metal that nothing is known of is said to be one, where a force is told with it."""

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.metals import unknown_metals
from stackcheck.model.part import Part
from stackcheck.result.forces import all_forces
from stackcheck.value import replace

HUB = Library(Path(__file__).parents[2] / "reference_assemblies").reference("freight-tricycle/front-hub")


def hub_of(part: str, metal: str):
    return replace(HUB, parts=tuple(replace(p, material=metal, sections=()) if p.id == part else p for p in HUB.parts))


@pytest.mark.parametrize("part", ["spacer-tube", "hub"])
def test_an_unknown_metal_between_the_bearings_stands_among_the_defaults(part):
    said = [each for each in all_forces(hub_of(part, "cheese"), None).defaults if "cheese" in each]
    name = part.replace("-", " ")
    assert said == [f'metal of the {name} not known: "cheese", its stiffness a wide range']
    assert not any("metal of the" in each for each in all_forces(hub_of(part, "steel"), None).defaults)


@pytest.mark.parametrize("metal", ["", *MODULUS_MPA, "rubber"])
def test_known_metals_and_what_is_no_metal_are_no_slip(metal):
    assert unknown_metals(Part(id="ring", name="Ring", kind="spacer tube", material=metal)) == ()


def test_what_is_never_of_metal_all_through_may_be_of_anything():
    assert unknown_metals(Part(id="seal", name="Seal", kind="seal", material="cheese")) == ()
