"""Self-study pages for the tests: made of a review, read back, and used in Chromium."""

from __future__ import annotations

import json
import re
import wave
from array import array
from dataclasses import replace
from io import BytesIO
from math import pi, sin
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

from narrate import pipeline
from narrate.items.loading import load
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.narration import Narration
from narrate.lesson.timeline import predict
from narrate.lesson.wishes import Wishes
from narrate.lesson.wording import Words
from narrate.outputs import USUAL, Options, selfstudy
from tests.browser import visit

PROBLEMS = Path(__file__).resolve().parents[2] / "problems"
FRAME = 17
"""Milliseconds: the page's clock moves on once a frame."""


def told(path: Path) -> tuple[Lesson, Timeline]:
    review = load([path]).reviews[0]
    lesson, _, _ = pipeline.make_lesson(review, Words(review.language), wishes=Wishes(asks=True))
    assert lesson is not None
    return lesson, predict(lesson)


def told_text(source: str, folder: Path) -> tuple[Lesson, Timeline]:
    path = folder / "review.yaml"
    path.write_text(source, encoding="utf-8")
    return told(path)


def page_of(lesson: Lesson, timeline: Timeline, options: Options = USUAL) -> bytes:
    sink = BytesIO()
    selfstudy.write(lesson, timeline, options, sink)
    return sink.getvalue()


def write_page(folder: Path, lesson: Lesson, timeline: Timeline, options: Options = USUAL) -> Path:
    path = folder / "selfstudy.html"
    path.write_bytes(page_of(lesson, timeline, options))
    return path


def data_of(page: bytes) -> dict[str, Any]:
    """What the page holds for its program."""
    found = re.search(
        r'<script type="application/json" id="lesson">(.*?)</script>', page.decode(), re.S
    )
    assert found
    read: dict[str, Any] = json.loads(found[1])
    return read


def hummed(timeline: Timeline, folder: Path) -> Options:
    """Options with a sound as long as the review: a tone, quiet enough for anyone near."""
    path, rate = folder / "narration.wav", 16_000
    wave_of = array("h", (int(600 * sin(2 * pi * 220 * k / rate)) for k in range(rate)))
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(rate)
        for _ in range(timeline.total_ms // 1000 + 1):
            sound.writeframes(wave_of.tobytes())
    return replace(USUAL, narration=Narration(path=path, voice="a tone"))


class Pupil:
    """Somebody at the page. Its clock stands still but where time is let go by, unless `live`."""

    def __init__(
        self,
        browser: Browser,
        path: Path,
        width: int = 1366,
        height: int = 768,
        *,
        live: bool = False,
    ) -> None:
        self.page: Page = visit(browser, path, width, height, stopped=not live)
        self.live = live
        self.requests: list[str] = []
        self.page.on("request", lambda request: self.requests.append(request.url))

    def wait(self, ms: int) -> None:
        if self.live:
            self.page.wait_for_timeout(ms)
        else:
            self.page.clock.run_for(ms)

    def begin(self) -> None:
        self.page.click("#hold")

    def to_question(self, number: int) -> dict[str, Any]:
        """Goes on to just before a question, and lets it come up."""
        self.page.evaluate(f"seek(questions[{number}].at - 100)")
        if self.page.evaluate("!going && asked === null"):
            self.page.click("#hold")
        self.wait(100 + 3 * FRAME)
        if self.live:
            until(self.page, "asked !== null")
        found: dict[str, Any] = self.page.evaluate(f"questions[{number}]")
        return found

    def answer(self, *values: str) -> str:
        """Marks letters or fills boxes in their order, checks, and reads what is said."""
        boxes = self.page.locator("#fields input[type=text]")
        if boxes.count():
            for k, value in enumerate(values):
                boxes.nth(k).fill(value)
        else:
            for mark in self.page.locator("#fields input").all():
                if mark.get_attribute("type") == "checkbox":
                    mark.set_checked(mark.get_attribute("value") in values)
                elif mark.get_attribute("value") in values:
                    mark.check()
        self.page.click("#ask [type=submit]")
        return self.said

    @property
    def said(self) -> str:
        return self.page.locator("#told").inner_text().strip() and plain(self.page, "#told")

    @property
    def now(self) -> float:
        found: float = self.page.evaluate("now")
        return found

    def close(self) -> None:
        self.page.context.close()


def until(page: Page, what: str) -> None:
    """Waits for something to be so; the page's own policy forbids Playwright's way of waiting."""
    for _ in range(200):
        if page.evaluate(what):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"not so after ten seconds: {what}")


def plain(page: Page, what: str) -> str:
    """The words of an element as text: 3/4 for a fraction, stacked or not."""
    return " ".join((page.text_content(what) or "").split())
