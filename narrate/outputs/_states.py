"""Which page each beat is told on, and how much of it is there."""

from __future__ import annotations

from narrate.lesson.lesson import Beat, Lesson
from narrate.lesson.marks import Page


def pages_of(lesson: Lesson) -> dict[str, int]:
    """The number of each beat's page, from 0."""
    return {beat: number for number, page in enumerate(lesson.pages) for beat in page.beats}


def shown_at(beat: Beat, page: Page) -> int:
    """How many builds of the page are there once this beat's are."""
    order = {name: place for place, name in enumerate(page.beats)}
    return sum(order[build.beat] <= order[beat.id] for build in page.builds)
