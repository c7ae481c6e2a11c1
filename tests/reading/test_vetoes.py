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
from narrate.reading.words.understand import read_words
from narrate.reading.words.vetoes import vetoed

_LINES = Path(__file__).with_name("vetoed.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]


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


STILL_READ = [
    ("20", "It takes 8 minutes to fill 2 cans. At this rate, how many minutes does it take to fill "
     "5 cans?"),
    ("22", "There are 26 trays on the rack. Bo moves 4 trays from the rack to the oven. How many "
     "trays are on the rack now?"),
    ("13", "There are 9 pots on the shelf. Bo puts 4 more pots on the shelf. How many pots are on "
     "the shelf now?"),
    ("3", "Ivo bought a 5-pound bag of flour. He used 2 pounds of it. How many pounds of flour are "
     "left?"),
    ("14", "A 20-gallon tank was full. Then 6 gallons leaked out. How many gallons are left in the "
     "tank?"),
    ("8", "A ribbon 48 inches long is cut into pieces 6 inches long. How many pieces are there?"),
    ("20", "Ana runs 3 laps in 12 minutes. At this rate, how many minutes does it take her to run "
     "5 laps?"),
    ("20", "Three boxes are filled in 12 minutes. At this rate, how many minutes does it take to "
     "fill 5 boxes?"),
    ("6", "Sara bought 4 pads and an eraser. Each pad cost $1.50. How much did the pads cost?"),
    ("8", "Sara bought 4 pads and a pen that cost $2. Each pad cost $1.50. How much did Sara spend "
     "in all?"),
    ("27/4", "Sara bought 4 pads and an eraser. Each pad cost $1.50. The eraser cost $0.75. How "
     "much did she pay in all?"),
]  # fmt: skip


@pytest.mark.parametrize(("answer", "text"), STILL_READ)
def test_what_stands_beside_them_is_read(answer: str, text: str) -> None:
    assert read_words(text).value == Fraction(answer)
