"""Captions of every part there is: the demo, the kitchen's items and 200 made-up parts.

Each at the pace by grade (130, 140 and 150 words a minute). The limits are those of
`test_captions.py`; a cue with numbers stays 2 s, and half a second longer than it is read at the
children's rate where it holds a fraction or an equation (the project's own).
"""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from narrate.items.loading import load
from narrate.lesson.lesson import Lesson
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, captions_vtt, chapters
from narrate.outputs._cues import Cue, make_cues
from tests.lesson.told import demo, generated, told_review
from tests.outputs.strict_webvtt import parse_all_strictly

KITCHEN = sorted((Path(__file__).parents[1] / "kitchen_week").iterdir())
GRADES = (3, 5, 7)


@cache
def lessons() -> tuple[Lesson, ...]:
    kitchen = [told_review(review).lesson for review in load(KITCHEN).reviews]
    return demo().lesson, generated().lesson, *kitchen


@cache
def cues(grade: int) -> tuple[Cue, ...]:
    told = [replace(lesson, grade=grade) for lesson in lessons()]
    return tuple(cue for lesson in told for cue in make_cues(lesson, predict(lesson)))


def rate(cue: Cue) -> float:
    """Characters a second."""
    return len(cue.text) * 1_000 / (cue.end - cue.start)


LIMITS: dict[str, Callable[[Cue], bool]] = {
    "2 lines": lambda cue: len(cue.lines) <= 2,
    "37 characters": lambda cue: all(len(line) <= 37 for line in cue.lines),
    "6 s": lambda cue: cue.end - cue.start <= 6_000,
    "1.5 s": lambda cue: cue.end - cue.start >= 1_500,
    "2 s with numbers": lambda cue: (
        cue.end - cue.start >= 2_000 or not any(map(str.isdigit, cue.text))
    ),
    "17 characters a second": lambda cue: rate(cue) <= 17,
    "time for fractions": lambda cue: (
        "/" not in cue.text or cue.end - cue.start >= 500 + len(cue.text) * 1_000 / 17
    ),
}


@pytest.mark.parametrize("limit", LIMITS)
@pytest.mark.parametrize("grade", GRADES)
def test_every_cue_keeps_the_limits(grade: int, limit: str) -> None:
    found = cues(grade)
    assert len(found) > 2_000
    assert [cue for cue in found if not LIMITS[limit](cue)] == []


@pytest.mark.parametrize("grade", GRADES)
def test_few_lines_are_longer_than_32_characters(grade: int) -> None:
    lines = [line for cue in cues(grade) for line in cue.lines]
    assert sum(len(line) > 32 for line in lines) / len(lines) < 0.07


def test_the_strict_parser_reads_every_file() -> None:
    texts: dict[str, list[str]] = {"captions": [], "chapters": []}
    for lesson in lessons():
        for kind, output in (("captions", captions_vtt), ("chapters", chapters)):
            sink = io.BytesIO()
            output.write(lesson, predict(lesson), USUAL, sink)
            texts[kind].append(sink.getvalue().decode())
    read = parse_all_strictly(texts["captions"])
    assert sum(map(len, read)) == sum(
        len(make_cues(lesson, predict(lesson))) for lesson in lessons()
    )
    titles = parse_all_strictly(texts["chapters"], "chapters")
    assert [len(found) for found in titles] == [len(lesson.chapters) for lesson in lessons()]
