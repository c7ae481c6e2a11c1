"""`captions.srt`: the same captions in SubRip, for players that read nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs._clock import srt_time
from narrate.outputs._cues import make_cues
from narrate.outputs._options import Options

FILE = "captions.srt"
DEFAULT = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the captions of a lesson as UTF-8 to `sink`."""
    sink.write("".join(_lines(lesson, timeline)).encode())


def _lines(lesson: Lesson, timeline: Timeline) -> Iterator[str]:
    for number, cue in enumerate(make_cues(lesson, timeline), start=1):
        yield f"{number}\n{srt_time(cue.start)} --> {srt_time(cue.end)}\n"
        yield "\n".join(cue.lines) + "\n\n"
