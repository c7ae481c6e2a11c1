"""A lesson and its times as text, to be kept in a file and read from it again.

JSON, a line each: the data of pictures, each once; the lesson; its times. What is of a class is
written as {"Beat": [its fields in their order]}; lists are read as tuples, as values have them.
"""

from __future__ import annotations

import json
from base64 import b64decode, b64encode
from collections.abc import Callable
from dataclasses import fields
from fractions import Fraction
from hashlib import sha256
from typing import Any, get_args

from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence, Span, Timeline
from narrate.lesson.marks import Build, Group, Page, Plain
from narrate.lesson.question import Bound, Foreseen, Offered, Question

_OF_LESSONS = (Lesson, Chapter, Beat, Sentence, Timeline, Span)
_OF_PAGES = (Page, Build, Group, *get_args(Plain))
_OF_QUESTIONS = (Question, Offered, Foreseen, Bound)
_CLASSES = {each.__name__: each for each in (*_OF_LESSONS, *_OF_PAGES, *_OF_QUESTIONS)}
_FIELDS = {name: tuple(field.name for field in fields(each)) for name, each in _CLASSES.items()}
_NUMBER, _DATA = "Fraction", "data"

FORM = sha256(repr(sorted(_FIELDS.items())).encode()).hexdigest()[:12]
"""Names the form: it changes with what lessons are made of, and then old files cannot be read."""


def dump(lesson: Lesson, timeline: Timeline) -> bytes:
    """A lesson and its times as text in UTF-8, of three lines."""
    data: dict[bytes, int] = {}

    def plain(value: Any) -> dict[str, Any]:
        if isinstance(value, bytes):
            return {_DATA: data.setdefault(value, len(data))}
        if isinstance(value, Fraction):
            return {_NUMBER: str(value)}
        name = type(value).__name__
        return {name: [getattr(value, field) for field in _FIELDS[name]]}

    told = [_line(each, plain) for each in (lesson, timeline)]
    files = _line([b64encode(each).decode() for each in data], plain)
    return "".join((files, *told)).encode()


def load(text: bytes) -> tuple[Lesson, Timeline]:
    """The lesson and its times. Raises ValueError, TypeError or KeyError where that is no such."""
    files, lesson, timeline = text.splitlines()
    data = [b64decode(each) for each in json.loads(files)]

    def made(found: dict[str, Any]) -> Any:
        if len(found) != 1:
            return found
        ((name, value),) = found.items()
        if name == _DATA:
            return data[value]
        if name == _NUMBER:
            return Fraction(value)
        if name not in _CLASSES:
            return found
        return _CLASSES[name](**dict(zip(_FIELDS[name], map(_tupled, value), strict=True)))

    told = json.loads(lesson, object_hook=made)
    times = json.loads(timeline, object_hook=made)
    if not isinstance(told, Lesson) or not isinstance(times, Timeline):
        raise TypeError("this is no lesson with its times")
    return told, times


def _line(value: Any, plain: Callable[[Any], Any]) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), default=plain) + "\n"


def _tupled(value: Any) -> Any:
    """A value with tuples for its lists; the spans of a beat's sentences stand in a dict."""
    if isinstance(value, list):
        return tuple(map(_tupled, value))
    if isinstance(value, dict):
        return {name: _tupled(each) for name, each in value.items()}
    return value
