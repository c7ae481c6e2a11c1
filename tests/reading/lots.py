"""Lots of stories in tables (lot, answer, text), read and held against their answers."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from narrate.errors import Declined
from narrate.reading.words.understand import read_words


def lots(name: str) -> list[list[str]]:
    """The rows of a table beside the tests: lot, answer ("-": none is right), text."""
    lines = Path(__file__).with_name(name).read_text("utf-8").splitlines()
    return [line.split("\t") for line in lines if not line.startswith("#")]


def hold(items: list[list[str]], lot: str, least: Mapping[str, int]) -> None:
    """Asserts that nothing of a lot is read wrong, and that as many are read as said."""
    mine = [(answer, text) for told, answer, text in items if told == lot]
    read = [(answer, found, text) for answer, text in mine if (found := value_of(text)) is not None]
    assert [(text, found) for answer, found, text in read if _written(answer) != found] == []
    assert len(read) >= least[lot]


def value_of(text: str) -> Fraction | None:
    """What a story comes to, None where it is declined."""
    try:
        return read_words(text).value
    except Declined:
        return None


def _written(answer: str) -> Fraction | None:
    if answer == "-":
        return None
    return sum((Fraction(part) for part in answer.split()), Fraction(0))
