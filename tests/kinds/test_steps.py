"""The steps of one problem of each sort, as `narrate solve --json` prints them.

Every line of every table was worked by hand; that lines are true is checked against sympy in
`tests/solution/test_against_sympy.py`. A row is a move and what it writes on the board.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import pytest

from narrate import pipeline
from narrate.lesson.wording import Words
from narrate.report import solved_row
from tests.solving import FRACTION, MIXED, NUMBER, load_one, solve_one


class Case(NamedTuple):
    """`table` has a step a line: its move, then `|`, then what it shows."""

    name: str
    stem: str
    keys: dict[str, Any]
    table: str


def strip(parts: int) -> dict[str, Any]:
    diagram = {"strip": {"wholes": 1, "parts": parts}}
    return {"boxes": FRACTION, "stimulus": {"text": "Here is the bed.", "diagram": diagram}}


CASES = [
    Case("like", "2/7 + 3/7", {"boxes": FRACTION}, """
        set up        | 2/7 + 3/7
        like size     |
        join          | 2/7 + 3/7 = 5/7
        fit the boxes |
        look back     | 5/7 − 3/7 = 2/7
    """),
    Case("unlike", "3/4 + 1/5", {"boxes": FRACTION}, """
        set up        | 3/4 + 1/5
        one size      |
        multiples     | 5: 5, 10, 15, 20; 4: 4, 8, 12, 16, 20
        rewrite       | 3/4 = 15/20
        rewrite       | 1/5 = 4/20
        join          | 15/20 + 4/20 = 19/20
        fit the boxes |
        look back     | 19/20 − 4/20 = 15/20
    """),
    Case("past one whole", "5/6 + 3/4", {"boxes": MIXED}, """
        set up        | 5/6 + 3/4
        one size      |
        multiples     | 6: 6, 12; 4: 4, 8, 12
        rewrite       | 5/6 = 10/12
        rewrite       | 3/4 = 9/12
        join          | 10/12 + 9/12 = 19/12
        mixed         | 19/12 = 1 7/12
        fit the boxes |
        look back     | 19/12 − 9/12 = 10/12
    """),
    Case("mixed, regrouped", "4 1/4 - 1 2/3", {"boxes": MIXED}, """
        set up        | 4 1/4 − 1 2/3
        one size      |
        multiples     | 4: 4, 8, 12; 3: 3, 6, 9, 12
        rewrite       | 4 1/4 = 4 3/12
        rewrite       | 1 2/3 = 1 8/12
        regroup       | 4 3/12 = 3 15/12
        join          | 3 15/12 − 1 8/12 = 2 7/12
        fit the boxes |
        look back     | 2 7/12 + 1 8/12 = 3 15/12
    """),
    Case("whole minus fraction", "3 - 2/5", {"boxes": MIXED}, """
        set up        | 3 − 2/5
        like size     |
        regroup       | 3 = 2 5/5
        join          | 2 5/5 − 2/5 = 2 3/5
        fit the boxes |
        look back     | 2 3/5 + 2/5 = 2 5/5
    """),
    Case("improper way", "4 1/4 - 1 2/3", {"boxes": MIXED, "way": "improper"}, """
        set up        | 4 1/4 − 1 2/3
        one size      |
        multiples     | 4: 4, 8, 12; 3: 3, 6, 9, 12
        improper      | 4 1/4 = 17/4
        rewrite       | 17/4 = 51/12
        improper      | 1 2/3 = 5/3
        rewrite       | 5/3 = 20/12
        join          | 51/12 − 20/12 = 31/12
        mixed         | 31/12 = 2 7/12
        fit the boxes |
        look back     | 31/12 + 20/12 = 51/12
    """),
    Case("product way", "1/4 + 5/6", {"boxes": FRACTION, "way": "product"}, """
        set up        | 1/4 + 5/6
        one size      |
        product       | 4 × 6 = 24
        rewrite       | 1/4 = 6/24
        rewrite       | 5/6 = 20/24
        join          | 6/24 + 20/24 = 26/24
        fit the boxes |
        look back     | 26/24 − 20/24 = 6/24
    """),
    Case("larger way", "2/3 + 1/6", {"boxes": FRACTION, "way": "larger"}, """
        set up        | 2/3 + 1/6
        one size      |
        larger        |
        rewrite       | 2/3 = 4/6
        join          | 4/6 + 1/6 = 5/6
        fit the boxes |
        look back     | 5/6 − 1/6 = 4/6
    """),
    Case("strip used", "1/2 + 1/3", strip(6), """
        set up        | 1/2 + 1/3
        one size      |
        read strip    |
        rewrite       | 1/2 = 3/6
        rewrite       | 1/3 = 2/6
        shade strip   |
        join          | 3/6 + 2/6 = 5/6
        fit the boxes |
        look back     | 5/6 − 2/6 = 3/6
    """),
    Case("strip finer than needed", "1/2 + 1/3", strip(12), """
        set up        | 1/2 + 1/3
        one size      |
        read strip    |
        rewrite       | 1/2 = 6/12
        rewrite       | 1/3 = 4/12
        shade strip   |
        join          | 6/12 + 4/12 = 10/12
        fit the boxes |
        look back     | 10/12 − 4/12 = 6/12
    """),
    Case("strip re-cut", "1/2 + 1/3", strip(3), """
        set up        | 1/2 + 1/3
        one size      |
        multiples     | 3: 3, 6; 2: 2, 4, 6
        recut strip   |
        rewrite       | 1/2 = 3/6
        rewrite       | 1/3 = 2/6
        shade strip   |
        join          | 3/6 + 2/6 = 5/6
        fit the boxes |
        look back     | 5/6 − 2/6 = 3/6
    """),
    Case("strip left aside", "1/2 + 1/3", strip(5), """
        set up        | 1/2 + 1/3
        one size      |
        multiples     | 3: 3, 6; 2: 2, 4, 6
        leave strip   |
        rewrite       | 1/2 = 3/6
        rewrite       | 1/3 = 2/6
        join          | 3/6 + 2/6 = 5/6
        fit the boxes |
        look back     | 5/6 − 2/6 = 3/6
    """),
    Case("below zero", "1/2 - 3/4", {"boxes": FRACTION}, """
        set up        | 1/2 − 3/4
        one size      |
        multiples     | 4: 4; 2: 2, 4
        rewrite       | 1/2 = 2/4
        join          | 2/4 − 3/4 = −1/4
        fit the boxes |
    """),
    Case("missing number", "3/4 + □ = 19/20", {"boxes": FRACTION}, """
        undo           | 19/20 − 3/4
        one size       |
        multiples      | 20: 20; 4: 4, 8, 12, 16, 20
        rewrite        | 3/4 = 15/20
        join           | 19/20 − 15/20 = 4/20
        fit the boxes  |
        fill the blank | 3/4 + 4/20 = 19/20
    """),
    Case("missing numerator", "3/4 = □/20", {"boxes": NUMBER}, """
        equal amounts  | 3/4 = □/20
        same amount    |
        rename         | 3/4 = 15/20
        fit the boxes  |
        fill the blank | 3/4 = 15/20
    """),
    Case("three amounts", "1/2 + 1/3 + 1/4", {"boxes": MIXED}, """
        set up        | 1/2 + 1/3 + 1/4
        one size      |
        multiples     | 4: 4, 8, 12; 3: 3, 6, 9, 12; 2: 2, 4, 6, 8, 10, 12
        rewrite       | 1/2 = 6/12
        rewrite       | 1/3 = 4/12
        rewrite       | 1/4 = 3/12
        join          | 6/12 + 4/12 + 3/12 = 13/12
        mixed         | 13/12 = 1 1/12
        fit the boxes |
        look back     | 13/12 − 4/12 − 3/12 = 6/12
    """),
    Case("two taken from one whole", "1 - 1/3 - 2/5", {"boxes": FRACTION}, """
        set up          | 1 − 1/3 − 2/5
        one size        |
        multiples       | 5: 5, 10, 15; 3: 3, 6, 9, 12, 15
        whole as pieces | 1 = 15/15
        rewrite         | 1/3 = 5/15
        rewrite         | 2/5 = 6/15
        join            | 15/15 − 5/15 − 6/15 = 4/15
        fit the boxes   |
        look back       | 4/15 + 5/15 + 6/15 = 15/15
    """),
    Case("large denominators", "5/36 + 7/48", {"boxes": FRACTION}, """
        set up        | 5/36 + 7/48
        one size      |
        multiples     | 48: 48, 96, 144; 36: 36, 72, 108, 144
        rewrite       | 5/36 = 20/144
        rewrite       | 7/48 = 21/144
        join          | 20/144 + 21/144 = 41/144
        fit the boxes |
        look back     | 41/144 − 21/144 = 20/144
    """),
    Case("too large to list", "1/89 + 1/97", {"boxes": FRACTION}, """
        set up        | 1/89 + 1/97
        one size      |
        product       | 89 × 97 = 8,633
        rewrite       | 1/89 = 97/8,633
        rewrite       | 1/97 = 89/8,633
        join          | 97/8,633 + 89/8,633 = 186/8,633
        fit the boxes |
        look back     | 186/8,633 − 89/8,633 = 97/8,633
    """),
    Case("too large to list, with a common factor", "1/82 + 1/86", {"boxes": FRACTION}, """
        set up        | 1/82 + 1/86
        one size      |
        multiple of the largest | 86 × 41 = 3,526
        rewrite       | 1/82 = 43/3,526
        rewrite       | 1/86 = 41/3,526
        join          | 43/3,526 + 41/3,526 = 84/3,526
        fit the boxes |
        look back     | 84/3,526 − 41/3,526 = 43/3,526
    """),
    Case("simplest form", "1/6 + 1/2", {"boxes": FRACTION, "simplest": True}, """
        set up        | 1/6 + 1/2
        one size      |
        multiples     | 6: 6; 2: 2, 4, 6
        rewrite       | 1/2 = 3/6
        join          | 1/6 + 3/6 = 4/6
        simplify      | 4/6 = 2/3
        fit the boxes |
        look back     | 4/6 − 3/6 = 1/6
    """),
]  # fmt: skip

Steps = list[tuple[str, str]]


def rows(table: str) -> Steps:
    cells = [line.split("|") for line in table.strip().splitlines()]
    return [(move.strip(), shows.strip()) for move, shows in cells]


def told(steps: list[dict[str, Any]]) -> Steps:
    return [(step["move"], step["shows"]) for step in steps]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_the_steps_of_a_problem(case: Case) -> None:
    row = solve_one(case.stem, **case.keys)
    assert row["status"] == "solved", row["message"]
    assert told(row["steps"]) == rows(case.table)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_what_goes_in_the_boxes_stands_on_the_board(case: Case) -> None:
    row = solve_one(case.stem, **case.keys)
    lines = " ".join(step["shows"] for step in row["steps"]).replace("−", "-").replace(",", "")
    assert re.search(rf"(?<![\d/]){re.escape(row['written'])}(?!\d)", lines)


def test_a_part_uses_what_an_earlier_part_left_on_the_board() -> None:
    """3/4 = 15/20 and 1/5 = 4/20 are found once."""
    item = load_one(
        stimulus={"text": "One bed got 3/4 of a bag of compost, the other 1/5 of a bag."},
        parts=[
            {"ask": "How much is that in all?", "model": "3/4 + 1/5", "boxes": FRACTION},
            {"ask": "How much more did one get?", "model": "3/4 - 1/5", "boxes": FRACTION},
        ],
    )
    solved = [outcome.solved for outcome in pipeline.solve_item(item)]
    assert solved[1] is not None
    assert told(solved_row(solved[1], Words("en"))["steps"]) == rows("""
        set up        | 3/4 − 1/5
        one size      |
        carried       | 3/4 = 15/20
        join          | 15/20 − 4/20 = 11/20
        fit the boxes |
        look back     | 11/20 + 4/20 = 15/20
    """)


def test_a_part_with_another_fraction_finds_its_size_anew() -> None:
    item = load_one(
        stimulus={"text": "The beds got 3/4, 1/5 and 1/3 of a bag of compost."},
        parts=[
            {"ask": "How much did the first two get?", "model": "3/4 + 1/5", "boxes": FRACTION},
            {"ask": "How much did the outer two get?", "model": "3/4 + 1/3", "boxes": MIXED},
        ],
    )
    solved = [outcome.solved for outcome in pipeline.solve_item(item)]
    assert solved[1] is not None
    found = told(solved_row(solved[1], Words("en"))["steps"])
    assert ("multiples", "4: 4, 8, 12; 3: 3, 6, 9, 12") in found
    assert ("join", "9/12 + 4/12 = 13/12") in found
