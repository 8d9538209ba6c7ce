"""One profile for all property tests: the same examples on every machine, no clock; one BLAS thread."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy: threads only slow small solves down

from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady", derandomize=True, deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("steady")
