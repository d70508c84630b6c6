"""Settings for the whole suite: a slow machine is no reason for a test to fail, and help is in English as shipped."""

import os

from hypothesis import settings

# pytest has loaded argparse before `stackcheck.cli` could: it would look on the disk for a translation of every word.
os.environ["LANGUAGE"] = "C"

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
