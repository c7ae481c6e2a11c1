"""Numbers of the Common Core State Standards for Mathematics (2010), by code.

Rows hold what the text of the standard prints; "computed" marks values that it leaves to the
reader. National Governors Association Center for Best Practices, Council of Chief State School
Officers (2010), *Common Core State Standards for Mathematics*.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.solving import FRACTION, MIXED, NUMBER, Row, solve_one, solved_one

# Code, what is asked, boxes, the exact value, what goes in the boxes.
PRINTED: list[tuple[str, str, list[str], str, str]] = [
    ("3.NF.A.3.b", "1/2 = □/4", NUMBER, "2", "2"),
    ("3.NF.A.3.b", "4/6 = □/3", NUMBER, "2", "2"),
    ("3.NF.A.3.b", "4/6 = 2/□", NUMBER, "3", "3"),
    ("3.NF.A.3.c", "3 = □/1", NUMBER, "3", "3"),
    ("3.NF.A.3.c", "6/1 = □", NUMBER, "6", "6"),
    ("3.NF.A.3.c", "1 = □/4", NUMBER, "4", "4"),
    ("4.NF.B.3.b", "1/8 + 1/8 + 1/8", FRACTION, "3/8", "3/8"),
    ("4.NF.B.3.b", "1/8 + 2/8", FRACTION, "3/8", "3/8"),
    ("4.NF.B.3.b", "3/8 = 1/8 + □", FRACTION, "1/4", "2/8"),
    ("4.NF.B.3.b", "1 + 1 + 1/8", MIXED, "17/8", "2 1/8"),
    ("4.NF.B.3.b", "8/8 + 8/8 + 1/8", MIXED, "17/8", "2 1/8"),
    ("4.NF.B.3.b", "8/8 + 8/8 + 1/8", FRACTION, "17/8", "17/8"),
    ("4.NF.C.5", "3/10 = □/100", NUMBER, "30", "30"),
    ("4.NF.C.5", "3/10 + 4/100", FRACTION, "17/50", "34/100"),
    ("5.NF.A.1", "2/3 + 5/4", FRACTION, "23/12", "23/12"),
    ("5.NF.A.2, computed", "2/5 + 1/2", FRACTION, "9/10", "9/10"),
    ("5.NF.B.3", "(3/4) × 4", NUMBER, "3", "3"),
    ("5.NF.B.3, computed", "50 ÷ 9", MIXED, "50/9", "5 5/9"),
    ("5.NF.B.4.a", "(2/3) × 4", FRACTION, "8/3", "8/3"),
    ("5.NF.B.4.a", "(2/3) × (4/5)", FRACTION, "8/15", "8/15"),
    ("5.NF.B.7.a", "(1/3) ÷ 4", FRACTION, "1/12", "1/12"),
    ("5.NF.B.7.a", "(1/12) × 4", FRACTION, "1/3", "4/12"),
    ("5.NF.B.7.b", "4 ÷ (1/5)", NUMBER, "20", "20"),
    ("5.NF.B.7.b", "20 × (1/5)", NUMBER, "4", "4"),
    ("6.NS.A.1", "(2/3) ÷ (3/4)", FRACTION, "8/9", "8/9"),
    ("6.NS.A.1", "3/4 of 8/9", FRACTION, "2/3", "24/36"),
    ("glossary, additive inverses", "3/4 + (−3/4)", NUMBER, "0", "0"),
    ("glossary, within 10", "8 + 2", NUMBER, "10", "10"),
    ("glossary, within 20", "14 − 5", NUMBER, "9", "9"),
    ("glossary, within 100", "55 − 18", NUMBER, "37", "37"),
]


@pytest.mark.parametrize(("code", "asked", "boxes", "value", "written"), PRINTED)
def test_a_printed_example_is_solved(
    code: str, asked: str, boxes: list[str], value: str, written: str
) -> None:
    row = solve_one(f"Work out {asked}", boxes=boxes)
    assert (row["status"], row["answer"], row["written"]) == ("solved", value, written), code


# Code, the story as the standard tells it, boxes, the answer that it prints or leaves to compute.
STORIES: list[tuple[str, str, list[str], str]] = [
    ("5.NF.B.7.c", "How much chocolate will each person get if 3 people share 1/2 lb of chocolate "
     "equally?", FRACTION, "1/6"),
    ("5.NF.B.7.c", "How many 1/3-cup servings are in 2 cups of raisins?", NUMBER, "6"),
    ("6.NS.A.1", "How much chocolate will each person get if 3 people share 1/2 lb of chocolate "
     "equally?", FRACTION, "1/6"),
    ("6.NS.A.1", "How many 3/4-cup servings are in 2/3 of a cup of yogurt?", FRACTION, "8/9"),
    ("6.NS.A.1", "How wide is a rectangular strip of land with length 3/4 mi and area 1/2 square "
     "mi?", FRACTION, "2/3"),
    ("5.NF.B.3", "If 9 people want to share a 50-pound sack of rice equally by weight, how many "
     "pounds of rice should each person get?", MIXED, "50/9"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "story", "boxes", "value"), STORIES)
def test_a_printed_story_is_solved(code: str, story: str, boxes: list[str], value: str) -> None:
    row = solve_one(story, boxes=boxes)
    assert (row["status"], row["answer"]) == ("solved", value), code


def test_the_standards_own_reasons_are_the_looks_back() -> None:
    """5.NF.B.7: "(1/3) ÷ 4 = 1/12 because (1/12) × 4 = 1/3"; "4 ÷ (1/5) = 20 because 20 × (1/5) =
    4"; 6.NS.A.1: "because 3/4 of 8/9 is 2/3"."""
    for asked, because in (
        ("(1/3) ÷ 4", "1/12 × 4 = 1/3"),
        ("4 ÷ (1/5)", "20 × 1/5 = 4"),
        ("(2/3) ÷ (3/4)", "8/9 × 3/4 = 2/3"),
    ):
        steps = solve_one(f"What is {asked}?", boxes=NUMBER)["steps"]
        assert [s["shows"] for s in steps if s["move"] == "look back"] == [because]


def test_the_standards_own_first_line_is_the_first_line() -> None:
    """5.NF.A.1: "2/3 + 5/4 = 8/12 + 15/12 = 23/12"."""
    row = solve_one(
        "Which could be the first line of work for 2/3 + 5/4?",
        choices={"A": "7/12 + 7/12", "B": "8/12 + 15/12", "C": "(2 + 5)/(3 + 4)"},
    )
    assert row["key"] == "B"
    assert row["steps"][-1]["shows"] == "2/3 + 5/4 = 8/12 + 15/12"
    assert row["choices"]["C"]["slip"] == "adds across"


def _wrong_by_the_standard() -> Row:
    return solve_one(
        "What is 2/5 + 1/2?", choices={"A": "3/7", "B": "9/10", "C": "4/10", "D": "19/20"}
    )


def test_the_standards_wrong_answer_is_struck_by_its_size() -> None:
    """5.NF.A.2: "recognize an incorrect result 2/5 + 1/2 = 3/7, by observing that 3/7 < 1/2"."""
    row = _wrong_by_the_standard()
    wrong = row["choices"]["A"]
    facts = row["steps"][wrong["ruled_out_at"]]["facts"]
    assert [fact for fact in facts if fact["name"] == "above"] == [
        {"name": "above", "args": ["1/2"], "rests_on": ["amounts"]}
    ]
    assert wrong["value"] == "3/7"
    assert "1/2" in wrong["reason"]


def test_the_standards_wrong_answer_goes_before_any_work_and_carries_its_slip() -> None:
    row = _wrong_by_the_standard()
    moves = [step["move"] for step in row["steps"]]
    assert row["choices"]["A"]["ruled_out_at"] < moves.index("one size")
    assert row["choices"]["A"]["slip"] == "adds across"
    assert row["key"] == "B"


# Glossary, Table 1: the situation, its equation with the table's numbers (2, 3 and 5), the answer.
TABLE_1: list[tuple[str, str, str]] = [
    ("add to, result unknown", "2 + 3 = □", "5"),
    ("add to, change unknown", "2 + □ = 5", "3"),
    ("add to, start unknown", "□ + 3 = 5", "2"),
    ("take from, result unknown", "5 − 2 = □", "3"),
    ("take from, change unknown", "5 − □ = 3", "2"),
    ("take from, start unknown", "□ − 2 = 3", "5"),
    ("put together, total unknown", "3 + 2 = □", "5"),
    ("take apart, addend unknown", "3 + □ = 5", "2"),
    ("take apart, addend unknown", "5 − 3 = □", "2"),
    ("compare, difference unknown", "2 + □ = 5", "3"),
    ("compare, difference unknown", "5 − 2 = □", "3"),
    ("compare, bigger unknown", "2 + 3 = □", "5"),
    ("compare, bigger unknown", "3 + 2 = □", "5"),
    ("compare, smaller unknown", "5 − 3 = □", "2"),
    ("compare, smaller unknown", "□ + 3 = 5", "2"),
]


def _solve_by_model(model: str) -> Row:
    return solve_one("The class asks about its beds.", model=model, boxes=NUMBER)


@pytest.mark.parametrize(("situation", "equation", "answer"), TABLE_1)
def test_a_situation_of_glossary_table_1_is_solved(
    situation: str, equation: str, answer: str
) -> None:
    row = _solve_by_model(equation)
    assert (row["status"], row["answer"]) == ("solved", answer), situation


# The same situations told in the project's own scenario, read as the table names them.
TOLD: list[tuple[str, str, str, dict[str, Any]]] = [
    (
        "add to, result unknown",
        "add to",
        "Two bags of soil stood in the shed. Noor put three more there. How many are there now?",
        {"model": "2 + 3"},
    ),
    (
        "take from, result unknown",
        "take from",
        "There were five beets. Wen ate two of them. How many are left?",
        {"model": "5 − 2"},
    ),
    (
        "put together, total unknown",
        "put together",
        "Three red and two green peppers lie on the table. How many is that altogether?",
        {"model": "3 + 2"},
    ),
    (
        "take apart, addend unknown",
        "take apart",
        "Of five pots three hold mint, and the rest hold dill. How many hold dill?",
        {"model": "5 − 3"},
    ),
    (
        "compare, difference unknown (more)",
        "difference",
        "Noor has two seed bags and Wen has five. How many more has Wen than Noor?",
        {"model": "5 − 2"},
    ),
    (
        "compare, difference unknown (fewer)",
        "difference",
        "Noor has two seed bags and Wen has five. How many fewer has Noor than Wen?",
        {"model": "5 − 2"},
    ),
    (
        "compare, bigger unknown (more)",
        "larger",
        "Wen has 3 more seed bags than Noor. Noor has two. How many has Wen?",
        {"model": "2 + 3"},
    ),
    (
        "compare, smaller unknown (fewer)",
        "smaller",
        "Noor has 3 fewer seed bags than Wen. Wen has five. How many has Noor?",
        {"model": "5 − 3"},
    ),
]


@pytest.mark.parametrize(("row", "situation", "stem", "keys"), TOLD)
def test_a_told_situation_is_named_as_the_table_names_it(
    row: str, situation: str, stem: str, keys: dict[str, Any]
) -> None:
    assert solved_one(stem, boxes=NUMBER, **keys).reading.situation == situation, row
    assert solve_one(stem, boxes=NUMBER, **keys)["status"] == "solved"


def test_words_that_mislead_in_table_1_are_named() -> None:
    """Table 1's footnoted compare rows: "fewer" where adding is right, "more" where taking is."""
    fewer = "Noor has 3 fewer seed bags than Wen. Noor has two. How many has Wen?"
    more = "Wen has 3 more seed bags than Noor. Wen has five. How many has Noor?"
    assert solved_one(fewer, model="2 + 3", boxes=NUMBER).reading.misleading == "fewer"
    assert solved_one(more, model="5 − 3", boxes=NUMBER).reading.misleading == "more"
