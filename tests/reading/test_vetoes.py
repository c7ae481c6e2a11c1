"""What a hasty reading answers wrong is answered right or declined, whoever reads it.

Stories of our own, answers worked by hand; beside them stand those that must still be read.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr
from narrate.reading.vetoes.vetoed import vetoed
from narrate.reading.words.understand import read_words


def _rows(name: str) -> list[list[str]]:
    lines = Path(__file__).with_name(name).read_text("utf-8").splitlines()
    return [line.split("\t") for line in lines if not line.startswith("#")]


ITEMS = _rows("vetoed.tsv")


@pytest.mark.parametrize(("answer", "text"), ITEMS)
def test_it_is_right_or_declined(answer: str, text: str) -> None:
    try:
        found = read_words(text).value
    except Declined:
        return
    assert answer != "-"
    assert found == Fraction(answer)


@pytest.mark.parametrize(
    ("text", "work", "vetoes"),
    [
        (ITEMS[0][1], "2/5 + 10", True),
        (ITEMS[0][1], "2/5 * 10", False),
        (ITEMS[2][1], "18 + 9 - 6", True),
        (ITEMS[2][1], "18 - 6", False),
        (ITEMS[5][1], "18 + 9 - 4", True),
        (ITEMS[7][1], "26 - 4", False),
        (ITEMS[8][1], "4 / 3 * 6", True),
        (ITEMS[11][1], "30 * 4", True),
        (ITEMS[12][1], "8 / 2 * 5", False),
        ("There are 9 pots on the shelf. Bo puts 4 more pots on the shelf. How many pots are on "
         "the shelf?", "9 + 4", False),
        ("There are 9 pots in the shed and 4 in the yard. How many more pots are in the shed than "
         "in the yard?", "9 - 4", False),
    ],
)  # fmt: skip
def test_what_the_words_speak_against(text: str, work: str, vetoes: bool) -> None:
    tree = parse_expr(work)
    assert isinstance(tree, Expr)
    assert bool(vetoed(text, tree)) is vetoes


STILL_READ = _rows("still_read.tsv")


@pytest.mark.parametrize(("answer", "text"), STILL_READ)
def test_what_stands_beside_them_is_read(answer: str, text: str) -> None:
    assert read_words(text).value == Fraction(answer)
