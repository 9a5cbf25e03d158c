"""Settings of the whole test run."""

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True)  # a busy machine is no failure
settings.load_profile("steady")
