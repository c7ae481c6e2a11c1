"""Invariant 2: no wrong number. Everything solved agrees with sympy, read from the printed text.

Source of the expected values: sympy (sympy.org), exact rationals.
"""

from __future__ import annotations

from typing import Any

import pytest

from narrate.items.item import Item, Part
from narrate.lesson.wording import Words
from narrate.pipeline import solve_item
from narrate.report import solved_row
from tests.generated import Made, loaded, made
from tests.solution.by_sympy import exact, least_common, listed, sides

Row = dict[str, Any]
ENGLISH = Words("en")


@pytest.mark.parametrize("seed", range(4))
def test_every_number_of_a_solution_agrees_with_sympy(seed: int) -> None:
    """5,000 items in all, over four seeds."""
    assert _check(1_250, seed) > 1_250


@pytest.mark.long
def test_every_number_of_100_000_problems_agrees_with_sympy() -> None:
    assert _check(100_000, seed=99) > 100_000


def _check(count: int, seed: int) -> int:
    """Solves so many items and checks each part; the number of parts."""
    parts = 0
    for item, each in loaded(made(count, seed)):
        for outcome, asked in zip(solve_item(item), each.sums, strict=True):
            assert outcome.solved is not None, (each.source, outcome.declined)
            assert outcome.fault is None, outcome.fault
            _check_part(item, outcome.part, solved_row(outcome.solved, ENGLISH), each, asked)
            parts += 1
    return parts


def _check_part(item: Item, part: Part, row: Row, each: Made, asked: str) -> None:
    answer = exact(asked)
    if row["answer"] is not None:
        assert exact(row["answer"]) == answer, each.source
        assert exact(row["written"]) == answer, each.source
    for step in row["steps"]:
        _check_line(step["shows"], step["move"], answer, each)
    _check_choices(part, row, answer, each)


def _check_line(line: str, move: str, answer: object, each: Made) -> None:
    if move.startswith("multiples"):
        _check_lists(line, each)
    elif line:
        values = {exact(side, blank=answer) for side in sides(line)}
        assert len(values) == 1, (line, each.source)


def _check_lists(line: str, each: Made) -> None:
    """Multiples from the first on, up to the first that is common to all."""
    lists = listed(line)
    for number, values in lists:
        assert values == [number * k for k in range(1, len(values) + 1)], each.source
    ends = {values[-1] for _, values in lists}
    assert len(ends) == 1, each.source
    common = least_common([number for number, _ in lists])
    assert ends == {common} or len(lists) == 1, each.source


def _check_choices(part: Part, row: Row, answer: object, each: Made) -> None:
    for choice in part.choices:
        shown = row["choices"][choice.letter]["value"]
        assert exact(shown) == exact(choice.text), each.source
        if each.form in ("first-line", "simplest"):
            continue  # not decided by value alone
        right = choice.letter in row["key"]
        assert right == (exact(choice.text) == answer), each.source


@pytest.mark.parametrize(
    ("text", "top", "bottom"),
    [
        ("2 3/4", 11, 4),
        ("−1/2 + 1/3", -1, 6),
        ("(3 × 5)/(4 × 5)", 3, 4),
        ("12 ÷ 3/4", 16, 1),
        ("1 − (1/3 + 2/5)", 4, 15),
        ("−(2 1/4)", -9, 4),
        ("12,000/24,000", 1, 2),
    ],
)
def test_the_second_reading_of_a_text_is_right(text: str, top: int, bottom: int) -> None:
    """Worked by hand."""
    assert exact(text) == exact(f"{top}/{bottom}" if top > 0 else f"−{-top}/{bottom}")
    assert (exact(text).p, exact(text).q) == (top, bottom)
