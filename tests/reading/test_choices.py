"""Questions with four choices, in the forms that tests give them, read with their choices."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.parser import parse_expr
from narrate.exact.tree import value
from narrate.reading.words.understand import read_words

_ROWS = [
    row.split("\t")
    for row in (Path(__file__).parent / "choices.tsv").read_text("utf-8").splitlines()
    if row and not row.startswith("#")
]


@pytest.mark.parametrize(("kind", "text", "choices", "key"), _ROWS)
def test_the_right_choice_is_read(kind: str, text: str, choices: str, key: str) -> None:
    offered = tuple(choice.strip() for choice in choices.split(";"))
    if key == "-":
        with pytest.raises(Declined):
            read_words(text, offered)
    else:
        assert read_words(text, offered).value == _value(key), kind


def test_marks_of_an_unfinished_sentence_lie_in_it() -> None:
    text = "Ada picked 12 plums and Juno picked 8 plums. The number of plums they picked in all is"
    marks = read_words(text).marks
    assert [text[mark.start : mark.end] for mark in marks] == [mark.text for mark in marks]
    assert [mark.text for mark in marks if mark.role == "amount"] == ["12 plums", "8 plums"]
    assert marks[-1].text == "The number of plums they picked in all is"


def _value(key: str) -> Fraction:
    return value(parse_expr(key))
