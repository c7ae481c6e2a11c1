"""Whole numbers and decimals: answers and every line against sympy, remainders, what is declined.

sympy is a general reference library; an expression is handed to it as text and read by Python.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest

from narrate import pipeline
from tests.solution.by_sympy import exact, sides
from tests.solving import NUMBER, Row, solve_one

COUNT = 1500
"""Generated problems; those that stay in whole numbers and decimals of 0 or more are kept."""


def _number(random: Random) -> str:
    kind = random.random()
    if kind < 0.5:
        return str(random.choice([random.randint(1, 12), random.randint(10, 99)]))
    if kind < 0.65:
        return str(random.randint(100, 9999))
    places = random.choice((1, 1, 2, 2, 3))
    return f"{random.randint(0, 60)}.{random.randint(1, 10**places - 1):0{places}}"


def _operation(random: Random, left: str, right: str) -> str:
    sign = random.choice("+−×÷")
    if sign == "÷" and random.random() < 0.8:  # a quotient that comes out
        return f"{_plain(exact(f'({left}) × ({right})'))} ÷ {right}"
    return f"{left} {sign} {right}"


def _plain(number: Any) -> str:
    """A sympy number as a whole number or a decimal."""
    top, bottom = int(number.p), int(number.q)
    if bottom == 1:
        return str(top)
    places = next(k for k in range(1, 12) if 10**k % bottom == 0)
    digits = f"{top * 10**places // bottom:0{places + 1}}"
    return f"{digits[:-places]}.{digits[-places:]}"


def _expressions() -> Iterator[str]:
    random = Random(5)
    for number in range(COUNT):
        one = _operation(random, _number(random), _number(random))
        if number % 3 == 0:
            yield one
        elif number % 3 == 1:
            yield f"{one} {random.choice('+−×')} {_number(random)}"
        else:
            yield f"{_number(random)} {random.choice('+−×')} ({one})"


@pytest.fixture(scope="module")
def rows(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, Row]]:
    """Every generated expression with its row."""
    texts = list(_expressions())
    path: Path = tmp_path_factory.mktemp("made") / "made.jsonl"
    items = [{"id": f"x{k}", "stem": f"Find {t}.", "boxes": NUMBER} for k, t in enumerate(texts)]
    path.write_text("\n".join(map(json.dumps, items)) + "\n", encoding="utf-8")
    return list(zip(texts, pipeline.solve([path]), strict=True))


def test_a_thousand_are_solved_and_agree_with_sympy(rows: list[tuple[str, Row]]) -> None:
    solved = [(text, row) for text, row in rows if row["status"] == "solved"]
    assert len(solved) >= 1000
    for text, row in solved:
        assert exact(row["answer"]) == exact(text), text


def test_every_line_is_true(rows: list[tuple[str, Row]]) -> None:
    """Both sides of every equals sign, read by Python and worked out by sympy."""
    lines = 0
    for text, row in rows:
        for step in row["steps"]:
            values = {exact(side) for side in sides(step["shows"]) if side}
            assert len(values) <= 1, (text, step["shows"])
            lines += len(values)
    assert lines > 3000


def test_the_work_has_one_line_an_operation_in_its_order(rows: list[tuple[str, Row]]) -> None:
    for text, row in rows:
        work = [step["shows"] for step in row["steps"] if step["move"] == "work"]
        if work and not any("/" in line for line in work):
            assert len(work) == sum(text.count(sign) for sign in "+−×÷"), text
            assert exact(sides(work[-1])[-1]) == exact(text)


def test_what_is_declined_leaves_whole_numbers_and_decimals(rows: list[tuple[str, Row]]) -> None:
    """A step below zero, or a quotient without an end."""
    for text, row in rows:
        if row["status"] != "declined":
            continue
        inner = text[text.find("(") + 1 : text.rfind(")")] if "(" in text else text
        parts = {exact(text), exact(inner)}
        left = inner.rsplit(" ", 2)[0]
        if left.count(" ") == 2:
            parts.add(exact(left))
        ends = all(10**9 % int(v.q) == 0 for v in parts)
        assert not ends or min(parts) < 0 or "÷" in text, text


# What is asked, the answer worked out by hand, the line of the remainder.
REMAINDERS = [
    # 1,128 riders, 36 to a bus: NAEP 1983 as told in Silver, Shapiro & Deutsch 1993, from memory.
    ("Each bus holds 36 pupils. There are 1128 pupils. How many buses are needed?", "32",
     "1,128 = 36 × 31 + 12"),
    ("There are 50 beans. Each pot gets 7 beans. How many beans are left over?", "1",
     "50 = 7 × 7 + 1"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "answer", "line"), REMAINDERS)
def test_a_remainder_is_read_by_what_is_asked(stem: str, answer: str, line: str) -> None:
    row = solve_one(stem, boxes=NUMBER)
    assert row["answer"] == answer
    assert line in [step["shows"] for step in row["steps"]]


# Each answer worked out by hand: 3 = 0.4 × 7 + 0.2, 12 = 2.5 × 4 + 2, 10 = 3/4 × 13 + 1/4.
OF_DECIMALS = [
    ("How many 0.4-liter cups can be filled from a 3-liter jug?", None, "7"),
    ("How many hooks can Bo cut from 3.5 meters of wire?", "3.5 ÷ 0.4", "8"),
    ("A jug holds 2.5 liters. How many jugs are needed for 12 liters of soup?", "12 ÷ 2.5", "5"),
    ("A hook takes 0.4 meter. How many meters of wire are left?", "3.5 ÷ 0.4", "0.3"),
    ("How many 3/4-foot stakes can Ana cut from a 10-foot board?", None, "13"),
    ("How many 3/4-cup servings are in 2/3 cup of yogurt?", None, "8/9"),  # CCSSM 6.NS.A.1
]  # fmt: skip


@pytest.mark.parametrize(("stem", "model", "answer"), OF_DECIMALS)
def test_what_can_be_made_is_whole(stem: str, model: str | None, answer: str) -> None:
    row = solve_one(stem, boxes=NUMBER, **({"model": model} if model else {}))
    assert row["answer"] == answer, row["message"]


def test_batches_may_be_made_in_part_so_it_is_asked() -> None:
    row = solve_one("How many batches can Lio make?", model="10 ÷ 3/4", boxes=NUMBER)
    assert "which leaves a remainder" in row["message"]


JARS = "The kitchen has 86 jars of jam. A crate holds 8 jars."


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("How many crates are needed for all the jars?", "11"),
        ("How many full crates can be packed?", "10"),
        ("How many jars are left over?", "6"),
    ],
)
def test_one_story_has_three_answers(question: str, answer: str) -> None:
    """86 = 8 × 10 + 6, by hand; with `model:` the question alone says how it is read."""
    row = solve_one(f"{JARS} {question}", model="86 ÷ 8", boxes=NUMBER)
    assert row["answer"] == answer, row["message"]


def test_whole_things_are_never_answered_in_parts() -> None:
    row = solve_one(f"{JARS} How many crates does Wen stack?", model="86 ÷ 8", boxes=NUMBER)
    assert row["status"] == "declined"
    assert "which leaves a remainder" in row["message"]


def test_a_measure_may_have_parts() -> None:
    row = solve_one("Emre walks 9 miles in 4 hours. How many miles is that in an hour?",
                    model="9 ÷ 4", boxes=NUMBER)  # fmt: skip
    assert row["answer"] == "9/4"


@pytest.mark.parametrize(
    ("stem", "answer", "written"),
    [
        ("What is 17 ÷ 4?", "17/4", "17/4"),  # CCSSM 5.NF.B.3: a/b = a ÷ b
        ("What is 17 ÷ 4 as a decimal?", "4.25", "4.25"),
        ("Find 2.5 + 1.5.", "4", "4"),
        ("Find 1.25 × 4.", "5", "5"),
        ("Find 8 × □ = 48.", "6", "6"),  # CCSSM 3.OA.A.4
        ("Find 5 = □ ÷ 3.", "15", "15"),  # CCSSM 3.OA.A.4
        ("Find 3/4 × 24.", "18", "18"),
    ],
)
def test_the_answer_is_exact_and_in_its_form(stem: str, answer: str, written: str) -> None:
    row = solve_one(stem, boxes=NUMBER)
    assert (row["answer"], row["written"]) == (answer, written)


def test_dollars_are_written_with_two_places() -> None:
    row = solve_one("A jar of honey costs $4.75 and a comb costs $3.75. "
                    "How much do they cost together?", boxes=NUMBER)  # fmt: skip
    assert (row["answer"], row["written"]) == ("8.5", "8.50")


def test_dollars_that_do_not_come_out_in_cents_are_declined() -> None:
    """8.49 ÷ 12 = 0.7075: it would have to be rounded, and nothing says how."""
    assert solve_one("$8.49 ÷ 12", boxes=NUMBER)["status"] == "declined"


@pytest.mark.parametrize("work", ["0.5 × 1/4", "2/3 ÷ 0.5", "0.1 ÷ 3"])
def test_other_work_is_declined(work: str) -> None:
    assert solve_one(f"What is {work}?", boxes=NUMBER)["status"] == "declined"


def test_values_of_choices_are_decimals() -> None:
    row = solve_one("What is 3.75 + 0.6?", choices={"A": "3.81", "B": "4.35", "C": "9.75"})
    assert {letter: each["value"] for letter, each in row["choices"].items()} == {
        "A": "3.81", "B": "4.35", "C": "9.75"
    }  # fmt: skip
    assert row["key"] == "B"
    assert Fraction(row["answer"]) == Fraction(87, 20)


@pytest.mark.parametrize("stem", ["428", "Write 11/8.", "What is 7%?"])
def test_a_number_with_nothing_to_do_is_declined(stem: str) -> None:
    """A printed list of numbers has its question somewhere else (to round, to write as ...)."""
    assert solve_one(stem, boxes=NUMBER)["status"] == "declined"


def test_a_part_taken_as_an_amount_is_named() -> None:
    """48 − 3/8 = 47 5/8, by hand: the part told as if it were an amount of its own."""
    stem = "Of the 48 pupils, 3/8 chop onions and the rest wash lettuce. How many wash lettuce?"
    row = solve_one(stem, model="48 − 3/8 × 48", choices={"A": "30", "B": "47 5/8"})
    assert row["choices"]["B"]["slip"] == "part taken as amount"
