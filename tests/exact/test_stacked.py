"""The row of tokens a page draws."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given

from narrate.exact.parser import parse
from narrate.exact.stacked import Empty, Number, Sign, Stacked, Token, stack
from narrate.exact.tree import Writing
from tests.exact.trees import WRITINGS, values

PLUS, MINUS, TIMES = Sign("+", "operation"), Sign("−", "operation"), Sign("×", "operation")
EQUALS = Sign("=", "relation")
OPEN, CLOSE = Sign("(", "open"), Sign(")", "close")

ROWS: list[tuple[str, list[Token]]] = [
    ("12,040", [Number("12,040")]),
    ("0.75", [Number("0.75")]),
    ("n", [Number("n")]),
    ("□", [Empty()]),
    ("3/4", [Stacked("3", "4")]),
    ("2 1/5", [Number("2"), Stacked("1", "5", tight=True)]),
    ("□/20", [Stacked("□", "20")]),
    ("(3 × 5)/(4 × 5)", [Stacked("3 × 5", "4 × 5")]),
    ("3/4 + 1/5 = □", [Stacked("3", "4"), PLUS, Stacked("1", "5"), EQUALS, Empty()]),
    ("2 × (1 − 3/4)", [Number("2"), TIMES, OPEN, Number("1"), MINUS, Stacked("3", "4"), CLOSE]),
    ("−5", [Sign("−", "prefix"), Number("5")]),
    ("3 − −2", [Number("3"), MINUS, OPEN, Sign("−", "prefix"), Number("2"), CLOSE]),
]


@pytest.mark.parametrize(("text", "row"), ROWS)
def test_a_writing_is_a_row_of_tokens(text: str, row: list[Token]) -> None:
    """Fractions are stacked, all else stands in the row."""
    assert stack(parse(text)) == tuple(row)


@given(WRITINGS)
def test_the_row_says_the_same_as_the_tree(tree: Writing) -> None:
    """Written back on one line and parsed, it has the value of the tree."""
    assert values(parse(_on_one_line(stack(tree)))) == values(tree)


def _on_one_line(row: Sequence[Token]) -> str:
    return "".join(_text(token) for token in row)


def _text(token: Token) -> str:
    match token:
        case Stacked(top, bottom, tight=True):
            return f" {top}/{bottom}"
        case Stacked(top, bottom):
            plain = top.replace(",", "").isdigit() and bottom.replace(",", "").isdigit()
            return f"{top}/{bottom}" if plain else f"(({top})/({bottom}))"
        case Empty():
            return "□"
        case Sign(text, "operation" | "relation"):
            return f" {text} "
        case Sign(text) | Number(text):
            return text
