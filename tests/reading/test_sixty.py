"""Sixty stories that the reading had not seen: right, or declined with what to add.

At the first run 43 were right, 2 wrong and 15 declined; both wrong ones (rain that "fell" on top of
what was there, a part of a salad that nothing tells of) were mended by rules for their kind.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words
from tests.reading.sixty import SIXTY


@pytest.mark.parametrize(("cell", "text", "answer"), SIXTY, ids=[cell for cell, _, _ in SIXTY])
def test_a_story_is_right_or_declined_with_what_to_add(cell: str, text: str, answer: str) -> None:
    found = _read(text)
    if isinstance(found, Fraction):
        assert found == Fraction(answer)
    else:
        assert found.understood.startswith("I found ")
        assert "`model:" in found.add  # a form or a guess: guesses are rare, see test_offered_lines


def test_fifty_of_sixty_are_right() -> None:
    assert len(SIXTY) == 60
    assert sum(_read(text) == Fraction(answer) for _, text, answer in SIXTY) >= 50


def _read(text: str) -> Fraction | Declined:
    try:
        return read_words(text).value
    except Declined as declined:
        return declined
