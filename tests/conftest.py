"""Settings of all tests: Hypothesis tries the same examples every time, CI skips nothing.

A run in the background of a shell ignores interruptions, and so would the programs that tests start
and interrupt: here they are heeded again.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Generator

import pytest
from hypothesis import settings

signal.signal(signal.SIGINT, signal.default_int_handler)
settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """In CI (`.ci/run` sets it) every program and font that a test needs is there: no skips."""
    report = yield
    if os.environ.get("CI") and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{report.nodeid} was skipped, which CI allows to none: {report.longrepr}"
    return report
