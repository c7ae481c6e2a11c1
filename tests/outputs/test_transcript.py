"""`transcript.txt` and `description.txt`: whole, in order, and with the times of the lesson."""

from __future__ import annotations

import io
import re
from types import ModuleType

import pytest

from narrate.lesson.timeline import chapter_spans, predict
from narrate.outputs import USUAL, description, transcript
from narrate.outputs._clock import minutes_seconds
from tests.lesson.told import demo
from tests.outputs.samples_text import BEATS, LESSON

TIMES = predict(LESSON)
STARTS = [minutes_seconds(span.start) for _, span in chapter_spans(LESSON, TIMES)]


def text(output: ModuleType) -> str:
    sink = io.BytesIO()
    output.write(LESSON, TIMES, USUAL, sink)
    return sink.getvalue().decode()


def test_everything_said_stands_in_order_in_symbols() -> None:
    """WCAG 2.2, 1.2.8 asks for all that is said and seen."""
    found = text(transcript)
    place = 0
    for beat in BEATS:
        place = found.index(" ".join(beat.caption.split()), place)


def test_everything_shown_stands_in_brackets_after_its_words() -> None:
    paragraphs = text(transcript).split("\n\n")
    drawn = [re.findall(r"^\[On the slide: (.*)\]$", each, re.MULTILINE) for each in paragraphs]
    assert ["; ".join(beat.appears) for beat in BEATS if beat.appears] == [
        d for [d] in filter(None, drawn)
    ]


@pytest.mark.parametrize("output", [transcript, description])
def test_each_part_has_its_start(output: ModuleType) -> None:
    lines = re.findall(r"^(\d+:\d\d(?::\d\d)?) (.+)$", text(output), re.MULTILINE)
    assert [start for start, _ in lines] == STARTS
    assert lines[0][0] == "0:00"
    assert [title for _, title in lines] == [" ".join(c.title.split()) for c in LESSON.chapters]


def test_the_description_names_each_standard_once() -> None:
    codes = {chapter.standard for chapter in LESSON.chapters if chapter.standard}
    [line] = [line for line in text(description).splitlines() if line.startswith("Standards: ")]
    named = line.removeprefix("Standards: ").split(", ")
    assert set(named) == codes
    assert len(named) == len(codes)


def test_what_a_page_shows_from_the_first_is_told_with_its_part() -> None:
    """Choices, boxes and given strips are no builds; who cannot see them reads them."""
    sink = io.BytesIO()
    lesson = demo().lesson
    transcript.write(lesson, predict(lesson), USUAL, sink)
    _, _, after = sink.getvalue().decode().partition(" Question 1\n\n")
    first, second = after.split("\n\n")[:2]
    assert first.splitlines()[0].endswith("What fraction of the barrel is full now?")
    assert first.splitlines()[1:] == [
        "[On the slide: answer choices A: 4/9; B: 9/10; C: 19/20; D: 4/20]"
    ]
    assert "answer choices" not in second
    assert "C: 1 − 1/12" in sink.getvalue().decode()
