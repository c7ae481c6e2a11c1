"""Exercises of OpenStax, *Prealgebra 2e*, with their printed solutions.

Marecek, Anthony-Smith and Mathis (2020), openstax.org, CC BY 4.0 at commit 77a933c6 of its source.
The ids are those of the exercises in that source. The book prints answers in simplest form.
"""

from __future__ import annotations

import pytest

from tests.solving import FRACTION, MIXED, NUMBER, solve_one

# Exercise, what is asked, the printed answer.
LIKE = "m81288: Add and Subtract Fractions with Common Denominators"
UNLIKE = "m81289: Add and Subtract Fractions with Different Denominators"
MIXED_NUMBERS = "m81290: Add and Subtract Mixed Numbers"

PRODUCTS = "m81286: Multiply and Divide Fractions"
MIXED_PRODUCTS = "m81287: Multiply and Divide Mixed Numbers and Complex Fractions"
"""Complex fractions are asked here with the sign ÷ between their parts."""

EXERCISES: list[tuple[str, str, str, str]] = [
    (LIKE, "fs-id3273886", "1/8 + 4/8", "5/8"),
    (LIKE, "fs-id1989058", "1/6 + 4/6", "5/6"),
    (LIKE, "fs-id4211742", "−5/21 + (−9/21)", "-2/3"),
    (LIKE, "fs-id1394714", "5/9 + (−4/9) − 7/9", "-2/3"),
    (LIKE, "fs-id1519645", "2/9 + 5/9", "7/9"),
    (LIKE, "fs-id2654762", "9/15 + 7/15", "16/15"),
    (LIKE, "fs-id2399354", "−1/8 + (−5/8)", "-3/4"),
    (LIKE, "fs-id1601863", "4/5 − 3/5", "1/5"),
    (LIKE, "fs-id1733005", "9/13 − 4/13", "5/13"),
    (LIKE, "fs-id1772038", "−8/9 − 16/9", "-8/3"),
    (LIKE, "fs-id2277965", "5/8 − 3/8", "1/4"),
    (UNLIKE, "fs-id2637969", "1/2 + 1/5", "7/10"),
    (UNLIKE, "fs-id3326333", "1/2 − (−1/8)", "5/8"),
    (UNLIKE, "fs-id2362973", "1/3 − (−1/6)", "1/2"),
    (UNLIKE, "fs-id2375300", "−19/24 + 17/32", "-25/96"),
    (UNLIKE, "fs-id1630988", "−9/20 + 17/30", "7/60"),
    (UNLIKE, "fs-id1977577", "−3/4 − (−4/5)", "1/20"),
    (MIXED_NUMBERS, "fs-id2940399", "1 2/5 + 3 3/5", "5"),
    (MIXED_NUMBERS, "fs-id1581382", "2 1/6 + 2 5/6", "5"),
    (MIXED_NUMBERS, "fs-id2052732", "1 5/8 + 1 7/8", "3 1/2"),
    (MIXED_NUMBERS, "fs-id1885824", "8 7/8 + 7 5/8", "16 1/2"),
    (MIXED_NUMBERS, "fs-id2579343", "1 − 1/4", "3/4"),
    (MIXED_NUMBERS, "fs-id1605987", "1 − 1/5", "4/5"),
    (MIXED_NUMBERS, "fs-id2629555", "2 − 1 1/4", "3/4"),
    (MIXED_NUMBERS, "fs-id2993035", "4 4/7 − 2 6/7", "1 5/7"),
    (MIXED_NUMBERS, "fs-id1787305", "1 5/6 + 4 3/4", "6 7/12"),
    (MIXED_NUMBERS, "fs-id2817966", "2 1/3 + 1 1/3", "3 2/3"),
    (MIXED_NUMBERS, "fs-id2171048", "7 9/10 + 3 1/10", "11"),
    (MIXED_NUMBERS, "fs-id1151892", "1 1/8 − 5/8", "1/2"),
    (MIXED_NUMBERS, "fs-id2269626", "19 13/15 − 13 7/15", "6 2/5"),
    (MIXED_NUMBERS, "fs-id1522774", "2 1/6 + 5 3/4", "7 11/12"),
    (MIXED_NUMBERS, "fs-id1356690", "15 5/8 − 6 7/8", "8 3/4"),
    (MIXED_NUMBERS, "fs-id2222872", "11/15 − 7/15", "4/15"),
    (MIXED_NUMBERS, "fs-id1973825", "6 − 2/5", "5 3/5"),
    (MIXED_NUMBERS, "fs-id2880449", "2 5/6 + 4 1/5", "7 1/30"),
    (MIXED_NUMBERS, "fs-id2819330", "6 5/9 − 4 2/5", "2 7/45"),
    (PRODUCTS, "fs-id1548744", "1/2 × 3/5", "3/10"),
    (PRODUCTS, "fs-id1608839", "1/2 × 5/6", "5/12"),
    (PRODUCTS, "fs-id1393940", "3 ÷ 1/2", "6"),
    (PRODUCTS, "fs-id1893304", "1/2 × 2/3", "1/3"),
    (PRODUCTS, "fs-id1578681", "3 ÷ 1/4", "12"),
    (MIXED_PRODUCTS, "fs-id1854628", "2 5/8 ÷ 3", "7/8"),
    (MIXED_PRODUCTS, "fs-id1723035", "13 1/2 ÷ 9", "3/2"),
    (MIXED_PRODUCTS, "fs-id1311735", "(4/5) ÷ (8/15)", "3/2"),
    (MIXED_PRODUCTS, "fs-id1842592", "(3/7) ÷ (6/11)", "11/14"),
    (MIXED_PRODUCTS, "fs-id3218785", "(5/7) ÷ (1 2/5)", "25/49"),
    (MIXED_PRODUCTS, "fs-id1583136", "(5/3) ÷ 10", "1/6"),
    (UNLIKE, "fs-id1823569", "1/3 + 2/5 × 3/4", "19/30"),
    (MIXED_NUMBERS, "fs-id2482150", "7/24 ÷ 14/3", "1/16"),
    ("m81295: Decimal Operations", "fs-idm345566752", "3/10 × 9/10", "27/100"),
    ("m81291: Solve Equations with Fractions", "fs-id2492055", "5 8/11 + 2 4/11", "8 1/11"),
]


def _boxes(printed: str) -> list[str]:
    if " " in printed:
        return MIXED
    return FRACTION if "/" in printed else NUMBER


@pytest.mark.parametrize(("section", "exercise", "asked", "printed"), EXERCISES)
def test_an_exercise_comes_out_as_its_solution_is_printed(
    section: str, exercise: str, asked: str, printed: str
) -> None:
    row = solve_one(f"Simplify: {asked}.", boxes=_boxes(printed), simplest=True)
    assert (row["status"], row["written"]) == ("solved", printed), (section, exercise)


# m81289 asks for the least common denominator of two fractions.
LEAST: list[tuple[str, str, str, int]] = [
    ("fs-id1377306", "7/12", "11/15", 60),
    ("fs-id2283824", "13/15", "17/5", 15),
    ("fs-id1822983", "23/30", "5/48", 240),
]


@pytest.mark.parametrize(("exercise", "first", "second", "least"), LEAST)
def test_the_size_reached_is_the_printed_least_common_denominator(
    exercise: str, first: str, second: str, least: int
) -> None:
    row = solve_one(f"What is {first} + {second}?", boxes=FRACTION)
    assert row["written"].split("/")[1] == str(least), exercise


# m81285, m81287 and m81290: a mixed number as an improper fraction, and back.
REWRITTEN: list[tuple[str, str, str, list[str]]] = [
    ("fs-id1826030", "Write 1 5/6 as an improper fraction.", "11/6", FRACTION),
    ("fs-id1910753", "Write 2 7/8 as an improper fraction.", "23/8", FRACTION),
    ("fs-id1566988", "Write 2 5/7 as an improper fraction.", "19/7", FRACTION),
    ("fs-idm325781984", "Write 2 3/5 as an improper fraction.", "13/5", FRACTION),
    ("fs-idm326411632", "Write 3 1/2 as an improper fraction.", "7/2", FRACTION),
    ("fs-id1546362", "Write 23/7 as a mixed number.", "3 2/7", MIXED),
]


@pytest.mark.parametrize(("exercise", "stem", "printed", "boxes"), REWRITTEN)
def test_a_number_is_rewritten_as_printed(
    exercise: str, stem: str, printed: str, boxes: list[str]
) -> None:
    assert solve_one(stem, boxes=boxes)["written"] == printed, exercise
