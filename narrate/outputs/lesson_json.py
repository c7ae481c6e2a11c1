"""`lesson.json`: the lesson for other programs, beat by beat: words, times, slide, builds."""

from __future__ import annotations

import json
from typing import Any, BinaryIO

from narrate.lesson.lesson import Beat, Lesson, Timeline
from narrate.lesson.marks import Page

FILE = "lesson.json"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, sink: BinaryIO) -> None:
    """Write the lesson as one JSON object in UTF-8 to `sink`; times in milliseconds."""
    pages = {beat: number for number, page in enumerate(lesson.pages) for beat in page.beats}
    whole = {
        "review": lesson.review,
        "total_ms": timeline.total_ms,
        "slides": len(lesson.pages),
        "beats": [_beat(beat, timeline, pages[beat.id], lesson.pages) for beat in lesson.beats],
    }
    sink.write((json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode())


def _beat(beat: Beat, timeline: Timeline, page: int, pages: tuple[Page, ...]) -> dict[str, Any]:
    span = timeline.beats[beat.id]
    return {
        "id": beat.id,
        "item": beat.item,
        "part": beat.part,
        "slide": page + 1,
        "start_ms": span.start,
        "end_ms": span.end,
        "say": beat.say,
        "caption": beat.caption,
        "builds": [build.group.name for build in pages[page].builds if build.beat == beat.id],
        "waits": beat.waits,
    }
