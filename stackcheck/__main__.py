"""`python -m stackcheck`."""

from stackcheck.cli import run

run()
