"""The bench and the phone that most tests of the page begin with."""

from collections.abc import Iterator

import pytest

from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from tests.page.phones import HOST, LIBRARY, Phone


@pytest.fixture
def bench(tmp_path) -> Bench:
    return Bench(tmp_path / "jobs", LIBRARY)


@pytest.fixture
def phone(bench) -> Phone:
    phone = Phone(application(bench, Guard({HOST})))
    phone.post("/begin", reference="freight-tricycle/front-hub", why="wheel off centre", by="A")
    return phone


@pytest.fixture(scope="module")
def chromium():
    """One browser for all tests of a file."""
    pytest.importorskip("playwright.sync_api")
    from tests.page.browsers import chromium_running

    with chromium_running() as browser:
        yield browser


@pytest.fixture
def address(bench) -> Iterator[str]:
    """The bench, served on this computer."""
    from tests.page.browsers import served

    with served(bench) as address:
        yield address
