"""Why a story is declined is told in a teacher's words, with what is unclear quoted."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.reading.words import (
    amiss,
    askew,
    certain,
    elsewhere,
    mistaken,
    passed_over,
    seeming,
    witness,
)
from narrate.reading.words.understand import read_words
from narrate.reading.words.why_told import told_plainly
from tests.solving import solve_one

_READERS = (amiss, askew, certain, elsewhere, mistaken, passed_over, seeming, witness)


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


@pytest.mark.parametrize(
    ("story", "work"),
    [
        ("Each crate holds 24 jars. How many jars are in 1 crate?", "24"),
        ("6 pears are shared equally by 1 child. How many pears does each child get?", "6"),
        ("Each crate holds 21 jars. How many jars are in 11 crates?", "11 × 21"),
    ],
)
def test_no_step_is_read_that_changes_nothing(story: str, work: str) -> None:
    found = read_words(story).expression
    assert found is not None
    assert write(found) == work


def test_sums_that_are_compared_are_not_called_unclear() -> None:
    row = solve_one(
        "Which sum is greater than 1?",
        choices={"A": "1/4 + 1/8", "B": "5/8 + 3/4", "C": "1/3 + 1/2"},
        key="B",
    )
    assert row["status"] == "declined"
    assert "compares what the choices come to" in row["message"]
    assert "`told:`" in row["message"]
