"""Stories of one and two steps in the words of tests, beside near misses of each way to say it.

Pieces that are each so long, trays with so many on each, what had not been eaten, several alike and
one thing more, a leftover that is shared, the rest of a group, a fence but for its gate, a practice
but for its break, two baskets by their sum and difference.
"""

from __future__ import annotations

import pytest

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr
from narrate.reading.vetoes.vetoed import vetoed
from tests.reading.lots import hold, lots

ITEMS = lots("plain_wording.tsv")

READ = {"as tests word it": 52, "near misses": 36, "fresh wordings": 40}
"""So many are read at least, none wrong."""


@pytest.mark.parametrize("lot", READ)
def test_what_is_read_is_right(lot: str) -> None:
    hold(ITEMS, lot, READ)


def _tree(text: str) -> Expr:
    tree = parse_expr(text)
    assert not isinstance(tree, str)
    return tree


@pytest.mark.parametrize(
    ("text", "work", "reason"),
    [
        (
            "A box with 4 melons weighs 9.5 kg. The box alone weighs 0.5 kg. What does each weigh?",
            "9.5 ÷ 4",
            "what is in the container is weighed with it",
        ),
        (
            "A box with 4 melons weighs 9.5 kg. The box alone weighs 0.5 kg. What does each weigh?",
            "(9.5 − 0.5) ÷ 4",
            "",
        ),
        (
            "Ada cuts 3 pieces, each 2 feet long, from a board 8 feet long. How much is cut off?",
            "3 × 2 + 8",
            "one amount is some of the other",
        ),
        (
            "There are 9 shelves with 14 jars on each. 28 of the jars are taken out. How many?",
            "9 × 14 + 28",
            "one amount is some of the other",
        ),
        (
            "Ivo has 3 cups of yogurt. He uses 1 cup of milk. How many cups of yogurt are left?",
            "3 − 1",
            "what went is something else than what was there",
        ),
        (
            "Ivo has 3 cups of grape juice. He drinks 1 cup of juice. How many cups of juice are "
            "left?",
            "3 − 1",
            "",
        ),
        (
            "From a board 8 feet long Ada cuts 3 pieces, 2 feet long in all. How much is left?",
            "8 − 3 × 2",
            "all of them together are so long",
        ),
    ],
)
def test_what_is_never_joined(text: str, work: str, reason: str) -> None:
    assert vetoed(text, _tree(work)) == reason
