"""The list of answers on a line: what is taken of it, and lines that are none.

Forms of lists: common practice, no source.
"""

from __future__ import annotations

import pytest

from narrate.pasting.answer_lists import without_answers

PAPER = ["1. What is 6 + 3?", "A. 8", "B. 9", "2. What is 6 + 4?", "3. What is 1/2 + 1/4?", ""]


def taken(line: str) -> list[tuple[int, str, str]]:
    kept, found = without_answers([*PAPER, line])
    return [] if line in kept else [(t.number, t.part, t.answer) for t in found.told]


@pytest.mark.parametrize(
    ("line", "answers"),
    [
        ("Answers: 1 B  2 A", [(1, "", "B"), (2, "", "A")]),
        ("Answers: 1 B 2 A 3 C", [(1, "", "B"), (2, "", "A"), (3, "", "C")]),
        ("Key: 1 B, 2 10", [(1, "", "B"), (2, "", "10")]),
        ("Key: 1 B, 2 10, 3 3/4", [(1, "", "B"), (2, "", "10"), (3, "", "3/4")]),
        ("Answers: 1 B 2 10 3 1 3/4", [(1, "", "B"), (2, "", "10"), (3, "", "1 3/4")]),
        ("Answers: 1 9, 2 10, 3 3/4", [(1, "", "9"), (2, "", "10"), (3, "", "3/4")]),
        ("1 B  2 B", [(1, "", "B"), (2, "", "B")]),
        ("1B 2A 3C", [(1, "", "B"), (2, "", "A"), (3, "", "C")]),
        ("Answers: 1b, 2a", [(1, "", "B"), (2, "", "A")]),
        (
            "Answers: 1 B  2 Part A B, Part B C  3 A",
            [(1, "", "B"), (2, "A", "B"), (2, "B", "C"), (3, "", "A")],
        ),
        (
            "Key: 1 B, 2A B, 2B 5, 3 5/12",
            [(1, "", "B"), (2, "A", "B"), (2, "B", "5"), (3, "", "5/12")],
        ),
        ("Key: 1 A, C, 2 B", [(1, "", "A, C"), (2, "", "B")]),
        ("Answers: 1 B  2 1, 2, 4, 8  3 A", [(1, "", "B"), (2, "", "1, 2, 4, 8"), (3, "", "A")]),
        ("ANSWERS 1 A 2 B 3 4", [(1, "", "A"), (2, "", "B"), (3, "", "4")]),
        ("2 Part A $12; Part B $8", [(2, "A", "$12"), (2, "B", "$8")]),
        ("Key: 1. B  2. $1,250  3. A", [(1, "", "B"), (2, "", "$1,250"), (3, "", "A")]),
    ],
)
def test_a_line_of_answers_is_parted(line: str, answers: list[tuple[int, str, str]]) -> None:
    assert taken(line) == answers


@pytest.mark.parametrize(
    "line",
    [
        "Key: 1 1/2, 2 3/4",  # of the last question alone: two mixed numbers in order
        "Answer: 1 1/2",
        "Key: 10",
        "Key: B",
        "1 3/4, 2 1/2",
        "2 B is the bed of beans",
        "A 1  B 2",
        "2 Part A: What is 3 + 4? Part B: What is 5 + 5?",
        "Answers 2 questions, 3 minutes each.",
        "She fills 1 bag, 2 boxes and 3 cans.",
    ],
)
def test_a_line_that_is_of_one_question_stays(line: str) -> None:
    assert taken(line) == []
