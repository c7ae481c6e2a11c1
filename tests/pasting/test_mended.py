"""What pasting broke inside a line is mended, and what is well written stays (judged by hand)."""

from __future__ import annotations

import pytest

from narrate.draft import draft_lines
from narrate.pasting.mended import mended

BROKEN = [
    ("Whatis the total numberof trays?", "What is the total number of trays?"),
    ("A tub has 9 liters of water. How much wateris it?", None),
    ("6 tubs hold water. Howmany liters of waterin all?",
     "6 tubs hold water. How many liters of water in all?"),
    ("Nia and Bo ran to the shed by the samepath. The path is long.",
     "Nia and Bo ran to the shed by the same path. The path is long."),
    ("Write 6 and 3 over 4 as a decimal.", "Write 6 3/4 as a decimal."),
    ("Which pair is equal, 2 over 3 and 14 over 21?", "Which pair is equal, 2/3 and 14/21?"),
    ("Solve k over 2.5 = 6.", "Solve k/2.5 = 6."),
    ("Simplify 4 • (−3) • 2.", "Simplify 4 × (−3) × 2."),
    ("What is the quotient of 1,530 / 6?", "What is the quotient of 1,530 ÷ 6?"),
    ("A pot costs $2 a piece.How much are 3?", "A pot costs $2 a piece. How much are 3?"),
]  # fmt: skip
WELL = [
    "She picked 12 over 3 days.",
    "The cabin behind the barn is within a basin of water, therein.",
    "Pumpkins in often grow together.",
    "The roof of the hoof is a proof.",
    "What is 3/4 + 1/5?",
    "Which is the quotient of 3/4 and 1/2?",
    "The bus leaves at 3:40 p.m. On foot it takes longer.",
    "The number of themes and the other theme",
]


@pytest.mark.parametrize(("broken", "whole"), BROKEN)
def test_what_pasting_broke_is_mended(broken: str, whole: str | None) -> None:
    assert mended(broken) == (broken if whole is None else whole)


@pytest.mark.parametrize("text", WELL)
def test_what_is_well_written_stays(text: str) -> None:
    assert mended(text) == text


def test_a_draft_says_which_words_had_grown_together() -> None:
    lines = draft_lines("1. Whatis 3 over 4 plus 1 over 8?\nA. 7 over 8\nB. 4 over 12\n", "w")
    stem = next(line for line in lines if "stem" in line)
    assert stem.endswith('stem: "What is 3/4 plus 1/8?"  # mended, had grown together: Whatis')
    assert '      A: "7/8"' in lines
