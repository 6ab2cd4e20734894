"""No test fails because the machine is slow or busy, and none keeps a core waiting."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

settings.register_profile("patient", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("patient")


def pytest_xdist_auto_num_workers() -> int:
    """For `-n auto`, one more than there are cores: some tests wait for a terminal or a browser."""
    return (os.cpu_count() or 1) + 1
