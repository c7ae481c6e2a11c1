"""`lesson.json`: the lesson for other programs, beat by beat: words, times, slide, builds."""

from __future__ import annotations

import json
from typing import Any, BinaryIO

from narrate.lesson.lesson import Beat, Lesson, Timeline
from narrate.outputs._options import Options
from narrate.outputs._sheets import sheet_numbers, sheets

FILE = "lesson.json"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the lesson as one JSON object in UTF-8 to `sink`; times in milliseconds."""
    numbers = sheet_numbers(lesson, options)
    builds: dict[str, list[str]] = {beat.id: [] for beat in lesson.beats}
    for build in (build for page in lesson.pages for build in page.builds):
        builds[build.beat].append(build.group.name)
    whole = {
        "review": lesson.review,
        "total_ms": timeline.total_ms,
        "slides": len(sheets(lesson, options)),
        "beats": [
            _beat(beat, timeline, numbers[beat.id], builds[beat.id]) for beat in lesson.beats
        ],
    }
    sink.write((json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode())


def _beat(beat: Beat, timeline: Timeline, slide: int, builds: list[str]) -> dict[str, Any]:
    span = timeline.beats[beat.id]
    return {
        "id": beat.id,
        "item": beat.item,
        "part": beat.part,
        "slide": slide,
        "start_ms": span.start,
        "end_ms": span.end,
        "say": beat.say,
        "caption": beat.caption,
        "builds": builds,
        "waits": beat.waits,
    }
