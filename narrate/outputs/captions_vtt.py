"""`captions.vtt`: captions in WebVTT (W3C), mathematics in symbols."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs._clock import vtt_time
from narrate.outputs._cues import make_cues
from narrate.outputs._options import Options

FILE = "captions.vtt"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the captions of a lesson as UTF-8 to `sink`."""
    sink.write("\n".join(_lines(lesson, timeline)).encode())


def _lines(lesson: Lesson, timeline: Timeline) -> Iterator[str]:
    yield "WEBVTT"
    for number, cue in enumerate(make_cues(lesson, timeline), start=1):
        yield ""
        yield str(number)
        yield f"{vtt_time(cue.start)} --> {vtt_time(cue.end)}"
        yield from (escape(line, quote=False) for line in cue.lines)
    yield ""
