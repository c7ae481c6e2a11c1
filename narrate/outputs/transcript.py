"""`transcript.txt`: all that is said and all that is shown, to read instead of watching.

A media alternative (WCAG 2.2, 1.2.8): what appears on the slides stands in square brackets where
it appears, mathematics in symbols. A part begins with what is on its page from the first: answer
choices, boxes, a drawing that is given.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import BinaryIO

from narrate.lesson.lesson import Beat, Lesson, Timeline
from narrate.lesson.templates import labels
from narrate.lesson.timeline import chapter_beats
from narrate.outputs._clock import minutes_seconds
from narrate.outputs._options import Options
from narrate.outputs._words import caption_words

FILE = "transcript.txt"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the transcript of a lesson as UTF-8 to `sink`; each beat is a paragraph."""
    sink.write(("\n\n".join(_blocks(lesson, timeline, options)) + "\n").encode())


def _blocks(lesson: Lesson, timeline: Timeline, options: Options) -> Iterator[str]:
    words = labels("transcript", lesson.language, options.templates)
    yield f"{_line(lesson.title)}: {words['kind'].lower()}"
    pages = {page.beats[0]: page for page in lesson.pages if page.beats}
    for chapter, beats in chapter_beats(lesson):
        if beats:
            start = minutes_seconds(timeline.beats[beats[0].id].start)
            yield f"{start} {_line(chapter.title)}"
            there = pages.get(beats[0].id)
            given = [group.alt for group in there.base] if there else []
            yield _paragraph(beats[0], words["shown"], given)
            yield from (_paragraph(beat, words["shown"]) for beat in beats[1:])


def _paragraph(beat: Beat, shown: str, given: Sequence[str] = ()) -> str:
    """What is said, and what is seen with it; a text that is read aloud is not said twice."""
    said = _line(beat.caption)
    seen = [line for line in map(_line, given) if line and line not in said]
    drawn = "; ".join([*seen, *map(_line, beat.appears)])
    return f"{said}\n[{shown}: {drawn}]" if drawn else said


def _line(text: str) -> str:
    return " ".join(caption_words(text))
