"""Plain stories of multiplying and dividing: equal groups, rates, shares, areas, means.

Each lot was written with its answers by hand before it was run; the table's head says how many of a
first run were right. None may be wrong; a trap may be declined.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

_LINES = Path(__file__).with_name("plain_groups.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]

READ = {
    "plain": 59,
    "traps": 19,
    "plain, fresh": 39,
    "traps, more": 8,
    "two steps": 22,
    "two steps traps": 0,
}
"""How many of each are read; of 60, 107, 40, 45, 24 and 23."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    mine = [(answer, text) for told, answer, text in ITEMS if told == name]
    read = [(answer, found, text) for answer, text in mine if (found := _read(text)) is not None]
    assert [(text, found) for answer, found, text in read if _value(answer) != found] == []
    assert len(read) >= READ[name]


def _read(text: str) -> Fraction | None:
    try:
        return read_words(text).value
    except Declined:
        return None


def _value(written: str) -> Fraction | None:
    if written == "-":
        return None
    return sum((Fraction(part) for part in written.split()), Fraction(0))
