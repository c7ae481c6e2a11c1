"""Stories in the fixed forms of tests: rates, ratios, percents, figures, ages, unknown numbers."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

_LINES = Path(__file__).with_name("fixed_forms.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]


@pytest.mark.parametrize(("kind", "answer", "text"), ITEMS)
def test_stories_in_fixed_forms(kind: str, answer: str, text: str) -> None:
    if answer == "-":
        with pytest.raises(Declined):
            read_words(text)
    else:
        wanted = sum((Fraction(part) for part in answer.split()), Fraction(0))
        assert read_words(text).value == wanted, kind
