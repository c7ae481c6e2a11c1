"""Why a story is declined is told in a teacher's words, with what is unclear quoted."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.reading.words import amiss, askew, certain, elsewhere, mistaken, seeming, witness
from narrate.reading.words.understand import read_words
from narrate.reading.words.why_told import told_plainly

_READERS = (amiss, askew, certain, elsewhere, mistaken, seeming, witness)


def reasons() -> list[str]:
    """Every reason that a reader returns, with X where a word of the story stands."""
    found = []
    for reader in _READERS:
        assert reader.__file__
        tree = ast.parse(Path(reader.__file__).read_text("utf-8"))
        found += [said(n.value) for n in ast.walk(tree) if isinstance(n, ast.Return)]
    return [reason for reason in found if reason.count(" ") > 1]


def said(made: ast.expr | None) -> str:
    """The text that an expression makes, X for what it fills in; "" where it makes none."""
    match made:
        case ast.Constant(str() as text):
            return text if "\\" not in text else ""
        case ast.JoinedStr(values):
            return "".join(said(v) if isinstance(v, ast.Constant) else "X" for v in values)
        case ast.IfExp(body=body):
            return said(body)
        case _:
            return ""


def test_every_reason_is_said_out_in_words_of_its_own() -> None:
    same = {"how long it took is not told"}
    assert len(reasons()) > 60
    assert [r for r in reasons() if told_plainly(r) == r and r not in same] == []


@pytest.mark.parametrize(
    ("story", "told"),
    [
        (
            "Nadia gave half of her plums to Bo. Then she ate 4 plums and had 7. How many plums "
            "did Nadia have before?",
            "I cannot tell what “half of her plums” is for",
        ),
        (
            "Wen mixes 8 cups of mash. It was all used up except a spoonful. Then she mixes 4 "
            "cups more. How many cups are there now?",
            "I cannot tell what “It was all used up except a spoonful” changes",
        ),
    ],
)
def test_what_is_not_understood_is_quoted(story: str, told: str) -> None:
    with pytest.raises(Declined) as declined:
        read_words(story)
    assert told in declined.value.understood
    assert "a sentence is left out" not in declined.value.understood
