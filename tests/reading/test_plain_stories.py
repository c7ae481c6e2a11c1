"""Plain stories of putting together, taking apart, adding to and taking from, kind by kind.

Answers were worked by hand from the words. Each kind stands beside stories that look like it and
must be declined.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

_LINES = Path(__file__).with_name("plain_stories.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]


@pytest.mark.parametrize(
    ("answer", "text"), [(a, t) for _, a, t in ITEMS if a != "-"], ids=lambda told: told[:60]
)
def test_is_read_right(answer: str, text: str) -> None:
    assert read_words(text).value == sum(map(Fraction, answer.split()))


@pytest.mark.parametrize("text", [t for _, a, t in ITEMS if a == "-"], ids=lambda told: told[:60])
def test_is_declined(text: str) -> None:
    with pytest.raises(Declined):
        read_words(text)
