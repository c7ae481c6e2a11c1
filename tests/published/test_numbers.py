"""Whole numbers and decimals: printed exercises and examples of the standards, with their answers.

OpenStax, *Prealgebra 2e* (Marecek, Anthony-Smith and Mathis 2020), CC BY 4.0 at commit 77a933c6 of
its source, with its printed solutions; ids are those of the exercises. CCSSM (2010), by code, and
its glossary, Tables 1 and 2: the numbers are theirs, the stories are told in words of our own.
"""

from __future__ import annotations

import pytest

from tests.solving import NUMBER, solve_one

WHOLE = "m81244 to m81256: Whole Numbers"
DECIMALS = "m81295: Decimal Operations"

EXERCISES: list[tuple[str, str, str, str]] = [
    (WHOLE, "fs-id2165529", "45 + 33", "78"),
    (WHOLE, "fs-id1619766", "584 + 277", "861"),
    (WHOLE, "fs-idm326061088", "324 + 586", "910"),
    (WHOLE, "fs-id1736638", "2,150 − 964", "1186"),
    (WHOLE, "fs-idm353635184", "43 − 26", "17"),
    (WHOLE, "fs-idm344657232", "1,683 + 479", "2162"),
    (WHOLE, "fs-id1722422", "347 · 5", "1735"),
    (WHOLE, "fs-id1786990", "275 · 6", "1650"),
    (WHOLE, "fs-id2277379", "96 · 73", "7008"),
    (WHOLE, "fs-id2142813", "52(38)", "1976"),
    (WHOLE, "fs-id2467280", "1,000(88)", "88000"),
    (WHOLE, "fs-id2190471", "(104)(256)", "26624"),
    (WHOLE, "fs-id2284408", "15,382 + 1", "15383"),
    (WHOLE, "fs-idm325602928", "27 · 3", "81"),
    (WHOLE, "fs-id2327170", "18 ÷ 2", "9"),
    (WHOLE, "fs-id2472749", "19 ÷ 1", "19"),
    (WHOLE, "fs-id1512456", "72 ÷ 3", "24"),
    (WHOLE, "fs-id1383594", "924 ÷ 7", "132"),
    (WHOLE, "fs-id1535327", "3,624 × 517", "1873608"),
    (WHOLE, "fs-id1603354", "35(14)", "490"),
    (DECIMALS, "fs-id2661112", "10 − 9.58", "0.42"),
    (DECIMALS, "fs-id2687273", "0.56 ÷ 7", "0.08"),
    (DECIMALS, "fs-id2853305", "6 ÷ 0.03", "200"),
    (DECIMALS, "fs-id1919318", "(9.24)(10)", "92.4"),
    (DECIMALS, "fs-id2418764", "6(12.4 − 9.2)", "19.2"),
]


@pytest.mark.parametrize(("section", "name", "work", "printed"), EXERCISES)
def test_the_printed_answer(section: str, name: str, work: str, printed: str) -> None:
    row = solve_one(f"What is {work}?", boxes=NUMBER)
    assert row["status"] == "solved", row["message"]
    assert row["answer"] == printed


STANDARDS = [
    ("3.OA.A.1", "5 × 7", "35"),
    ("3.OA.A.2", "56 ÷ 8", "7"),
    ("3.OA.A.4", "8 × □ = 48", "6"),
    ("3.OA.A.4", "5 = □ ÷ 3", "15"),
    ("3.OA.A.4", "6 × 6 = □", "36"),
    ("3.OA.B.5", "3 × 5 × 2", "30"),
    ("3.OA.B.5", "8 × (5 + 2)", "56"),
    ("3.OA.B.6", "32 ÷ 8", "4"),
    ("3.NBT.A.3", "9 × 80", "720"),
    ("3.NBT.A.3", "5 × 60", "300"),
    ("4.NBT.A.1", "700 ÷ 70", "10"),
    ("5.OA.A.2", "2 × (8 + 7)", "30"),
]


@pytest.mark.parametrize(("code", "work", "answer"), STANDARDS)
def test_an_example_of_the_standards(code: str, work: str, answer: str) -> None:
    row = solve_one(f"Find {work}.", boxes=NUMBER)
    assert (row["status"], row["answer"]) == ("solved", answer), code


# Table, situation, a story of our own with the table's numbers, the answer.
TABLES = [
    ("1", "add to, result unknown",
     "2 rabbits sat in the clover. 3 more rabbits came. How many rabbits are in the clover now?",
     "5"),
    ("1", "add to, change unknown",
     "2 rabbits sat in the clover. Some more rabbits came. Then there were 5 rabbits. "
     "How many rabbits came?", "3"),
    ("1", "add to, start unknown",
     "Some rabbits sat in the clover. 3 more rabbits came. Now there are 5 rabbits. "
     "How many rabbits were in the clover at first?", "2"),
    ("1", "take from, result unknown",
     "Omar has 5 apples. He gives 2 apples to Ines. How many apples does Omar have now?", "3"),
    ("1", "take from, start unknown",
     "Kim had some apples. She gave 2 apples to Ali. Now she has 3 apples. "
     "How many apples did she have at first?", "5"),
    ("1", "put together, total unknown",
     "Wen picked 3 red apples and 2 green apples. How many apples did Wen pick in all?", "5"),
    ("2", "equal groups, product unknown",
     "Mara fills 3 bags with 6 plums each. How many plums is that in all?", "18"),
    ("2", "equal groups, group size unknown",
     "18 plums are shared equally among 3 bags. How many plums are in each bag?", "6"),
    ("2", "equal groups, number of groups unknown",
     "There are 18 plums. Each bag holds 6 plums. How many bags are needed?", "3"),
    ("2", "area, product unknown",
     "A rectangular tile is 3 centimeters wide and 6 centimeters long. What is its area?", "18"),
    ("2", "compare, product unknown",
     "Ana has 3 times as many plums as Ben. Ben has 6 plums. How many plums does Ana have?",
     "18"),
    ("2", "compare, group size unknown",
     "A hose is 18 feet long. That is 3 times as long as a rope. How long is the rope?", "6"),
    ("2", "compare, number of groups unknown",
     "A hose is 18 feet long and a rope is 6 feet long. "
     "How many times as long as the rope is the hose?", "3"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "situation", "story", "answer"), TABLES)
def test_a_situation_of_the_glossary(table: str, situation: str, story: str, answer: str) -> None:
    row = solve_one(story, boxes=NUMBER)
    assert row["status"] == "solved", (table, situation, row["message"])
    assert row["answer"] == answer
