"""The whole demo clicked through in Chromium to its end; times saved, fitted, a deck timed."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

from narrate import cli
from narrate.fitting.recorded_deck import slide_times
from tests.browser import browser, visit

DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
FRAME = 17
"""Milliseconds: the page's clock moves on once a frame."""


def clicked(page_file: Path, waits: list[int], to: Path) -> None:
    """Goes through the page by keys and by its button, as a person would, and saves the times."""
    with browser() as chromium:
        page = visit(chromium, page_file, stopped=True)
        page.click("#keep")
        page.keyboard.press("Space")  # the clock runs
        for place, wait in enumerate(waits):
            page.clock.fast_forward(wait)
            if place % 3 == 0:
                page.click("#forward")
            else:
                page.keyboard.press("ArrowRight" if place % 3 == 1 else "PageDown")
        with page.expect_download() as download:
            page.click("#save")
        download.value.save_as(to)
        page.context.close()


def beats(folder: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((folder / "lesson.json").read_text("utf-8"))["beats"]
    return found


def test_the_fitted_deck_keeps_the_times_of_the_clicks(tmp_path: Path) -> None:
    """Every beat to two frames of the page's clock; every slide as long as its beats."""
    review = tmp_path / DEMO.name
    review.write_bytes(DEMO.read_bytes())
    to = ["--to", str(tmp_path / "out")]
    assert cli.main(["build", str(review), *to]) == 0
    folder = tmp_path / "out" / "garden-week"
    chance = random.Random(4)
    planned = [beat["end_ms"] - beat["start_ms"] for beat in beats(folder)]
    waits = [round(length * chance.uniform(0.6, 1.8)) for length in planned]
    clicked(folder / "runthrough.html", waits, tmp_path / "times.json")
    times = ["--times", str(tmp_path / "times.json")]
    assert cli.main(["fit", str(review), *times, *to, "--builds", "timed", "--also", "deck"]) == 0
    slides: dict[int, int] = {}
    for beat, wait in zip(beats(folder), waits, strict=True):
        length = beat["end_ms"] - beat["start_ms"]
        assert abs(length - wait) <= 2 * FRAME, beat["id"]
        slides[beat["slide"]] = slides.get(beat["slide"], 0) + length
    assert slide_times(folder / "deck.pptx") == list(slides.values())
