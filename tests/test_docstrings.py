"""Every worked example in a docstring runs."""

import doctest
import importlib
import pkgutil

import pytest

import stackcheck

MODULES = sorted(
    module.name
    for module in pkgutil.walk_packages(stackcheck.__path__, "stackcheck.")
    if not module.name.endswith("__main__")
)


def test_there_are_examples():
    assert sum(len(doctest.DocTestFinder().find(importlib.import_module(name))) > 0 for name in MODULES) > 10


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_run(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0
