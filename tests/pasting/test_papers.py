"""Whole papers as they are pasted: what is drafted of each, read by hand; and no word is lost.

Layouts (columns, running heads, bullets, lists of answers, points): common practice, no source.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate import pipeline
from narrate.draft import END, draft_lines
from narrate.pasting.characters import plain_lines
from narrate.settling import draft

PAPERS = sorted((Path(__file__).parent / "papers").glob("*.txt"))


@pytest.mark.parametrize("path", PAPERS, ids=lambda path: path.stem)
def test_what_is_drafted_of_a_paper(path: Path) -> None:
    """As it is before `check` has its say in it."""
    assert _drafted(path) == path.with_suffix(".yaml").read_text("utf-8")


def _drafted(path: Path) -> str:
    lines = draft_lines(path.read_bytes().decode("utf-8"), path.stem)
    return "\n".join(line for line in lines if line != END) + "\n"


@pytest.mark.parametrize("path", PAPERS, ids=lambda path: path.stem)
def test_no_word_of_a_paper_is_lost(path: Path) -> None:
    text = path.read_bytes().decode("utf-8")
    made = "\n".join(line for line in draft_lines(text, path.stem) if line != END)
    assert _missing(text, made) == set()


_FORM = {"question", "item", "problem", "exercise", "answer", "answers", "key", "part", "q", "of"}
"""Words that a review file has its own way to say."""


def _missing(text: str, made: str) -> set[str]:
    plain = "\n".join(plain_lines(text)[0]).lower()
    said = Counter(re.findall(r"[^\W\d_]+|\d+", plain))
    kept = Counter(re.findall(r"[^\W\d_]+|\d+", made.lower()))
    # a list of answers names the numbers and letters of items a second time
    words = [w for w in said if w not in _FORM and (len(w) > 1 or w.isdigit())]
    return {w for w in words if (not kept[w] if len(w) < 3 else kept[w] < said[w])}


ANSWERS = {
    "columns": ["B", "A", "A", "B", "B"],
    "nopoints": ["A", "A", "B", "B"],
    "answerkey": ["C", "A", "B", "11/2"],
    "keytable": ["B", "A", "B"],
    "windows": ["A", "A", "4", "A"],
    "teacher": ["B", "D", "A"],
    "wide": ["B", "B", "B", "B"],
    "typed": ["B", "B"],
    "passage": ["F", "A", "A"],
    "letters-alone": ["B", "A", "B", "B", "B"],
    "sections": ["A", "A", "A"],
}
"""Worked by hand: 3/8 + 2/8 = 5/8 is B; 9 − 3 1/2 = 5 1/2; 6 × 2/3 = 4; and so on."""


@pytest.mark.parametrize("name", ANSWERS)
def test_a_drafted_paper_is_solved(name: str, tmp_path: Path) -> None:
    text = (Path(__file__).parent / "papers" / f"{name}.txt").read_bytes().decode("utf-8")
    path = tmp_path / f"{name}.yaml"
    path.write_text(draft(text, name).text, encoding="utf-8")
    rows = [row["key"] or row["answer"] for row in pipeline.solve([path])]
    assert rows == ANSWERS[name]


_PRINTED = st.sampled_from(
    [line for path in PAPERS for line in path.read_bytes().decode("utf-8").splitlines()]
)


@given(st.lists(_PRINTED, max_size=20))
def test_no_printed_line_is_lost_in_any_order(lines: list[str]) -> None:
    made = "\n".join(line for line in draft_lines("\n".join(lines), "w") if line != END)
    assert _missing("\n".join(lines), made) == set()


@pytest.mark.parametrize(
    "text", ["A. 1\n" * 39_999, "(A) " * 49_999, "1 " * 99_999, "1. C  " * 33_000]
)
def test_a_long_text_of_one_thing_ends(text: str) -> None:
    assert draft_lines(text, "w")


def test_choices_that_are_words_are_told_as_one() -> None:
    made = draft("1. What came of it?\nA. $15 profit\nB. a loss of $4\nC. $9 profit\n", "w").text
    assert made.count("# to settle") == 1
    assert 'choices A, B, C are no numbers or expressions, such as "$15 profit"' in made


_LINES = st.sampled_from(
    [
        *(
            "1. What is 2 + 3?",
            "2. How many?",
            "4) Ana has 12 plums.",
            "7",
            "8 Noor buys 3 bags",
            "",
        ),
        *("A. 3/4", "B 1/2", "A 3   B 4", "(C) 5", "C", "D. 7 pounds", "• 9", "- 10", "3/4", "---"),
        *("Part A", "Part B How many?", "Key: B", "Answer: ____ cups", "Answer Key", "1. C  2. A"),
        *("Use the table for questions 2 and 4.", "Day\tPounds", "Monday\t3 1/2", "Page 2 of 3"),
        *(
            "Garden quiz",
            "frac-",
            "tion of a bed",
            "Go on",
            "and 5 more plums",
            "3",
            "4",
            "| 1 | C |",
        ),
    ]
)


@given(st.lists(_LINES, max_size=14))
def test_no_line_is_lost_however_lines_follow_each_other(lines: list[str]) -> None:
    text = "\n".join(lines)
    made = "\n".join(line for line in draft_lines(text, "w") if line != END)
    assert _missing(text, made) == set()


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("Question 1 (2 points)\nWhat is 6 + 3?\n\nQuestion 2 (2 points)\nWhat is 9 - 2?", "1 2"),
        ("Item 1 [1 mark]\nWhat is 6 + 3?\nItem 2 [1 mark]\nWhat is 9 - 2?", "1 2"),
        ("Problem 1 - 3 pts\nWhat is 6 + 3?\nProblem 2 - 3 pts\nWhat is 9 - 2?", "1 2"),
        ("1 6 + 3\nA 9  B 3\n2 7 × 2\nA 14  B 9\n3 8 − 1\nA 7  B 9", "1 2 3"),
        ("1 What is 6 + 3?\nA 9  B 3\n2 7/8\nA\n3 4/7\nB\n3 2/7", "1 2"),
        ("1. Ada has 4 pots.\nQuestion 1 earned 3 points for her. How many are left of 9?", "1"),
        ("1. Ada has 4 pots and 2 points\nfor question 3 points are lost. What is 4 + 2?", "1"),
    ],
)
def test_where_items_begin(text: str, numbers: str) -> None:
    made = "\n".join(draft_lines(text, "w"))
    assert re.findall(r"id: question-(\d+)\n", made) == numbers.split()


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1. Use this to answer Part A and\nPart B.\nAda has 5 figs.\nPart A\nHow many?", 1),
        ("1. Ada has 5 figs.\nPart A\nHow many?\nPart B\nShe eats the fruits of\nPart A. Left?", 2),
        ("1. Ada has 5 figs. Answer\nPart A and Part B.\nPart A\nHow many?\nPart B\nIs it?", 2),
        ("1. Ada has 5 figs\nPart A\nHow many figs?\nPart B\nHow many are left of 7?", 2),
        ("1. Ada has 5 figs.\nPart A: How many?\nPart B: Add 3 to it. How many now?", 2),
    ],
)
def test_a_part_that_is_only_named_begins_none(text: str, parts: int) -> None:
    assert sum("ask:" in line for line in draft_lines(text, "w")) == parts


@pytest.mark.parametrize(
    ("text", "stem"),
    [
        ("- 2 cups for bread\n- 1 cup for tea", "2 cups for bread; 1 cup for tea."),
        ("Needed:\n- 2 cups for bread", "Needed: 2 cups for bread."),
        ("- 5\n- 3", "- 5 - 3"),
        ("What is 5\n- 3 of it", "What is 5 - 3 of it"),
        ("-2 degrees\n-3 degrees", "-2 degrees -3 degrees"),
    ],
)
def test_dashes_of_a_list_are_no_minus(text: str, stem: str) -> None:
    assert f'stem: "{stem}"' in "\n".join(draft_lines(f"1.\n{text}", "w"))
