"""One setting for the whole suite: a slow machine is no reason for a test to fail."""

from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
