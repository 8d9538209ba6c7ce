"""One profile for all property tests: the same examples on every machine, no clock."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady", derandomize=True, deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("steady")
