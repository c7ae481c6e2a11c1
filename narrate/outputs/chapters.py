"""`chapters.vtt`: a chapters track in WebVTT, one chapter for each part."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.timeline import chapter_spans
from narrate.outputs._clock import vtt_time
from narrate.outputs._options import Options
from narrate.outputs._words import caption_words

FILE = "chapters.vtt"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the chapters of a lesson as UTF-8 to `sink`; a title takes one line."""
    sink.write("\n".join(_lines(lesson, timeline)).encode())


def _lines(lesson: Lesson, timeline: Timeline) -> Iterator[str]:
    yield "WEBVTT"
    for number, (chapter, span) in enumerate(chapter_spans(lesson, timeline), start=1):
        if span.length:
            yield ""
            yield str(number)
            yield f"{vtt_time(span.start)} --> {vtt_time(span.end)}"
            yield escape(" ".join(caption_words(chapter.title)), quote=False)
    yield ""
