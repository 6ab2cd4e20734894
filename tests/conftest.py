"""No test fails because the machine is slow or busy, and none keeps a core waiting."""

from __future__ import annotations

import gc
import os

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("patient", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("patient")


def pytest_xdist_auto_num_workers() -> int:
    """For `-n auto`, one more than there are cores: some tests wait for a terminal or a browser."""
    return (os.cpu_count() or 1) + 1


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Share the long ones out and begin with them, so that none is left when all else is done.

    Each worker is first given as many tests as the others, in the order they stand in.
    """
    workers = getattr(config, "workerinput", {}).get("workercount", 1)
    long = [item for item in items if item.get_closest_marker("long")]
    short = [item for item in items if not item.get_closest_marker("long")]
    share = -(-len(short) // workers)
    items[:] = [
        item
        for worker in range(workers)
        for item in (*long[worker::workers], *short[worker * share : (worker + 1) * share])
    ]


def pytest_collection_finish() -> None:
    """Keep the collector of garbage from what stays: thousands of tests and all that they import.

    To look through that every few tests took a fifth of the time of those of the screens.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 10, 10)
