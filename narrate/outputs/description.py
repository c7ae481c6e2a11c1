"""`description.txt`: what is in the video, to paste below it: parts with start times, standards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.templates import labels
from narrate.lesson.timeline import chapter_spans
from narrate.outputs._clock import minutes_seconds
from narrate.outputs._options import Options
from narrate.outputs._words import caption_words

FILE = "description.txt"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the description of a lesson's video as UTF-8 to `sink`."""
    sink.write(("\n\n".join(_blocks(lesson, timeline, options)) + "\n").encode())


def _blocks(lesson: Lesson, timeline: Timeline, options: Options) -> Iterator[str]:
    words = labels("description", lesson.language, options.templates)
    yield _line(lesson.title)
    yield words["about"]
    yield "\n".join([words["parts"], *_parts(lesson, timeline)])
    codes = dict.fromkeys(chapter.standard for chapter in lesson.chapters if chapter.standard)
    if codes:
        yield f"{words['standards']} {', '.join(map(_line, codes))}"
    yield words["try"]
    yield words["cautions"]


def _parts(lesson: Lesson, timeline: Timeline) -> Iterator[str]:
    """A line for each chapter, times from 0:00 on, as players read them."""
    for chapter, span in chapter_spans(lesson, timeline):
        yield f"{minutes_seconds(span.start)} {_line(chapter.title)}"


def _line(text: str) -> str:
    return " ".join(caption_words(text))
