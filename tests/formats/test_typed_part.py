"""A part described by hand on the command line."""

import pytest

from stackcheck.errors import InputError
from stackcheck.formats.typed_part import read_typed_part


def how(words: str) -> dict[str, str]:
    return {name: reading.how for name, reading in read_typed_part(words.split()).sizes}


@pytest.mark.parametrize("words", ["shim 45x35x0.5 mic no marking", "shim 45x35x0.5 no marking mic", "mic 45x35x0.5 shim, no marking"])
def test_no_marking_says_nothing_about_how_the_sizes_were_got(words):
    assert set(how(words).values()) == {"micrometer"}


def test_of_the_first_two_figures_the_larger_one_is_the_outside():
    sizes = dict(read_typed_part(["20x28x0.5"]).sizes)
    assert (sizes["outside"].value_mm, sizes["bore"].value_mm) == (28, 20)


def test_every_mistake_of_the_words_is_said_at_once():
    with pytest.raises(InputError) as refusal:
        read_typed_part(["washer", "28x20x0.5", "gaw", "widht=3"])
    assert len(refusal.value.mistakes) == 2
