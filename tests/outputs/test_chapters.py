"""`chapters.vtt`: read by the strict WebVTT parser, one chapter for each part."""

from __future__ import annotations

import io
from itertools import pairwise

from narrate.lesson.lesson import Lesson
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, chapters
from tests.outputs.samples_text import COMPOST, LESSON, READ
from tests.outputs.strict_webvtt import parse_strictly

TIMES = predict(LESSON)


def text(lesson: Lesson = LESSON) -> str:
    sink = io.BytesIO()
    chapters.write(lesson, TIMES, USUAL, sink)
    return sink.getvalue().decode()


def test_chapters_begin_with_their_beats_and_fill_the_review() -> None:
    """Ascending, first at 0:00 (common practice, no source), each up to the next."""
    found = parse_strictly(text(), "chapters")
    starts = [round(cue["startTime"] * 1_000) for cue in found]
    ends = [round(cue["endTime"] * 1_000) for cue in found]
    assert starts == [0, TIMES.beats[READ.id].start, TIMES.beats[COMPOST.id].start]
    assert ends[-1] == TIMES.total_ms
    assert all(end == start for end, start in zip(ends, starts[1:], strict=False))
    assert all(before < after for before, after in pairwise(starts))


def test_titles_are_escaped_and_take_one_line() -> None:
    titles = [cue["text"] for cue in parse_strictly(text(), "chapters")]
    assert titles == ["Welcome", "Question 1", "Question 2 &lt;A&gt; &amp; more"]
