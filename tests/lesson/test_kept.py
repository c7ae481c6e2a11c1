"""A lesson kept as text is read as it was (own contract)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from narrate import pipeline
from narrate.items.loading import load
from narrate.lesson import kept
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.marks import Group, Picture
from narrate.lesson.timeline import predict
from narrate.lesson.wishes import Wishes
from narrate.lesson.wording import Words

PROBLEMS = Path(__file__).resolve().parents[2] / "problems"


def lesson(name: str) -> Lesson:
    (review,) = load([PROBLEMS / name]).reviews
    found, *_ = pipeline.make_lesson(review, Words("en"), wishes=Wishes(asks=True))
    assert found
    return found


@pytest.mark.parametrize("name", ["garden-week.yaml", "kitchen-market.yaml"])
def test_it_is_read_as_it_was(name: str) -> None:
    """With its questions, whose answers and bounds are exact fractions."""
    told = lesson(name)
    assert any(each.bounds for each in told.questions)
    assert all(isinstance(each.answer, Fraction) for each in told.questions)
    assert kept.load(kept.dump(told, predict(told))) == (told, predict(told))


def test_a_picture_is_held_once() -> None:
    told = lesson("kitchen-market.yaml")
    data = bytes(range(256)) * 40
    picture = Picture(x=0, y=0, width=10, height=10, data=data, kind="png")
    group = Group(name="picture", alt="a bed", marks=(picture,))
    shown = replace(told, pages=tuple(replace(page, base=(group,)) for page in told.pages))
    bare = replace(told, pages=tuple(replace(page, base=()) for page in told.pages))
    text = kept.dump(shown, predict(told))
    assert kept.load(text) == (shown, predict(told))
    assert len(text) - len(kept.dump(bare, predict(told))) < 2 * len(data)


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"[]\n",
        b"[]\n1\n2\n",
        b"[]\n{}\n{}\n",
        b'[]\n{"Span":[1]}\n{}\n',
        b'[]\n{"Lesson":[]}\n{}\n',
        b'[]\n{"Lesson":3}\n{}\n',
        b'[]\n{"Fraction":"x"}\n{}\n',
        b"no json\nat all\nhere\n",
        b"\xff\n\xff\n\xff\n",
    ],
)
def test_what_is_no_lesson_is_refused(text: bytes) -> None:
    with pytest.raises((ValueError, TypeError, KeyError)):
        kept.load(text)


def test_times_are_read_with_their_sentences() -> None:
    told = lesson("kitchen-market.yaml")
    times: Timeline = kept.load(kept.dump(told, predict(told)))[1]
    assert times.total_ms == predict(told).total_ms
    assert list(times.beats) == [beat.id for beat in told.beats]
