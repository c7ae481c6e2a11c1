"""Chromium for the tests of pages; without it they are skipped, but never on the build server."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome")
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"]


@contextmanager
def browser() -> Iterator[Browser]:
    """The browser of this machine."""
    path = next(filter(None, map(shutil.which, NAMES)), None)
    if path is None and not os.environ.get("CI"):
        pytest.skip("Chromium is not installed")
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=path, args=QUIET)
        yield started
        started.close()


def visit(
    found: Browser, path: Path, width: int = 1920, height: int = 1080, *, stopped: bool = False
) -> Page:
    """A file opened in a window of its own; any error of its program fails the test.

    With `stopped` its time stands still but for `page.clock.run_for(milliseconds)`.
    """
    page = found.new_context(viewport={"width": width, "height": height}).new_page()
    page.on("pageerror", _fail)
    if stopped:
        page.clock.install(time=0)
        page.clock.pause_at(1_000)
    page.goto(path.as_uri())
    return page


def _fail(error: Exception) -> None:
    raise AssertionError(f"the page's program failed: {error}")
