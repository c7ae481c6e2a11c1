"""A part without a unit of its own is never added to a count or a measure: 3/8 of these pupils.

Stories of our own beside near misses (2/3 of a liter, 0.4 of the paint, 25% of them, 1/3 more).
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr
from narrate.reading.vetoes.bare_parts import joins_a_bare_part
from narrate.reading.words.understand import read_words

_LINES = Path(__file__).with_name("bare_parts.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]


def _value(text: str) -> Fraction | None:
    try:
        return read_words(text).value
    except Declined:
        return None


def test_no_part_is_read_wrong_and_most_are_read() -> None:
    read = [(answer, found, text) for answer, text in ITEMS if (found := _value(text)) is not None]
    wrong = [row for row in read if row[0] == "-" or Fraction(row[0]) != row[1]]
    assert wrong == []
    assert len(read) >= _READ


_READ = 40


@pytest.mark.parametrize(
    ("text", "work", "joins"),
    [
        ("There are 40 pots. Of these, 3/8 hold mint.", "40 - 3/8", True),
        ("There are 40 pots. 25% of them hold mint.", "40 - 25", True),
        ("There are 40 pots. 0.4 of the pots hold mint.", "40 - 0.4", True),
        ("There are 40 pots. Half of them hold mint.", "40 - 1/2", True),
        ("A jug holds 3/4 liter. Kim drank 1/2 of it.", "3/4 - 1/2", True),
        ("A jug holds 3/4 liter. Kim drank 1/2 liter of it.", "3/4 - 1/2", False),
        ("A jug holds 3 liters. Kim drank 1/2 of a liter.", "3 - 1/2", False),
        ("3/8 of the bed is mint and 1/4 of the bed is dill.", "1 - 3/8 - 1/4", False),
        ("There are 40 pots. Of these, 3/8 hold mint.", "40 - 3/8 * 40", False),
    ],
)
def test_a_part_is_told_apart_from_an_amount(text: str, work: str, joins: bool) -> None:
    tree = parse_expr(work)
    assert isinstance(tree, Expr)
    assert joins_a_bare_part(text, tree) is joins
