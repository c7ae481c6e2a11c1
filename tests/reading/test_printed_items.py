"""Items as they are printed on tests of grades 3 to 6, our own, each with its answer by hand.

Whole numbers, fractions, mixed numbers and decimals in every situation of CCSSM (2010), glossary
Tables 1 and 2. No reading may be wrong; what is not read for certain is declined.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

_LINES = Path(__file__).with_name("printed_items.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]

READ = {
    "built": 63,
    "unseen": 28,
    "fresh": 32,
    "tricky": 13,
    "strict": 194,
    "in another unit": 0,
    "every situation": 50,
    "held back": 61,
}
"""How many of each are read; of 69, 46, 42, 48, 498, 40, 60 and 119."""


def _read(text: str) -> Fraction | None:
    try:
        return read_words(text).value
    except Declined:
        return None


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    mine = [(answer, text) for told, answer, text in ITEMS if told == name]
    read = [(answer, found, text) for answer, text in mine if (found := _read(text)) is not None]
    wrong = [(text, found) for answer, found, text in read if _value(answer) != found]
    assert wrong == []
    assert len(read) >= READ[name]


def _value(written: str) -> Fraction | None:
    if written == "-":
        return None
    return sum((Fraction(part) for part in written.split()), Fraction(0))
