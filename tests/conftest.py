"""Settings for the whole suite: a slow machine is no reason for a test to fail, and help is in English as shipped."""

import os
import sys

from hypothesis import settings

# pytest has loaded argparse before `stackcheck.cli` could: it would look on the disk for a translation of every word.
os.environ["LANGUAGE"] = "C"

# What the tests import or start is compiled once, even where the surroundings say otherwise: a start without costs five times as much.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
