"""Lessons to be fitted: the demo's first items, and beats made by hand."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from narrate.items.loading import load
from narrate.lesson.lesson import Beat, Lesson, Sentence
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "problems" / "garden-week.yaml"


@cache
def demo(items: int) -> Lesson:
    """The demo's lesson, told of its first items only."""
    (review,) = load([DEMO]).reviews
    lesson, _, _ = make_lesson(replace(review, items=review.items[:items]), Words("en"))
    assert lesson
    return lesson


def said(say: str, pause: int = 500) -> Sentence:
    return Sentence(say=say, caption=say, pause_ms=pause)


def made(*beats: tuple[Sentence, ...]) -> Lesson:
    told = tuple(
        Beat(id=f"b{number}", item=None, part=None, move="say", sentences=sentences)
        for number, sentences in enumerate(beats)
    )
    return Lesson(review="r", title="R", grade=5, language="en", beats=told, pages=(), chapters=())
