"""Products and quotients of fractions: answers and every line against sympy, printed answers.

sympy is a general reference library; an expression is handed to it as text and read by Python.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from narrate import pipeline
from narrate.exact.tree import Frac
from tests.solution.by_sympy import exact, sides
from tests.solving import FRACTION, MIXED, NUMBER, Row, solve_one, solved_one

COUNT = 1500
"""Generated problems, of one operation and of two."""


def _number(random: Random) -> str:
    kind, bottom = random.random(), random.randint(2, 12)
    top = random.randint(1, bottom - 1)
    if kind < 0.25:
        return str(random.randint(1, 12))
    if kind < 0.45:
        return f"{random.randint(1, 9)} {top}/{bottom}"
    return f"1/{bottom}" if kind < 0.55 else f"{top}/{bottom}"


def _expressions() -> Iterator[str]:
    random = Random(7)
    for number in range(COUNT):
        a, b, c = (_number(random) for _ in range(3))
        sign = random.choice("×÷")
        one = f"{a} {sign} {b}"
        other = random.choice("+−×÷")
        if number % 3:
            yield one
        else:
            yield random.choice(
                (f"{one} {other} {c}", f"{c} {other} ({one})", f"({c} {other} {a}) {sign} {b}")
            )


@pytest.fixture(scope="module")
def rows(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, bool, Row]]:
    """Every generated expression with whether simplest form is asked, and its row."""
    texts = list(_expressions())
    path: Path = tmp_path_factory.mktemp("made") / "made.jsonl"
    items = [
        {
            "id": f"x{k}",
            "stem": f"Find {text}.",
            "boxes": (NUMBER, FRACTION, MIXED)[k % 3],
            "simplest": k % 2 == 0,
            "way": ["reciprocal"] if k % 4 == 1 else [],
        }
        for k, text in enumerate(texts)
    ]
    path.write_text("\n".join(map(json.dumps, items)) + "\n", encoding="utf-8")
    made = zip(texts, items, pipeline.solve([path]), strict=True)
    return [(text, bool(item["simplest"]), row) for text, item, row in made]


def test_a_thousand_are_solved_and_agree_with_sympy(rows: list[tuple[str, bool, Row]]) -> None:
    solved = [(text, row) for text, _, row in rows if row["status"] == "solved"]
    assert len(solved) >= 1300
    for text, row in solved:
        assert exact(row["answer"]) == exact(row["written"]) == exact(text), text


def test_only_what_is_not_above_zero_is_declined(rows: list[tuple[str, bool, Row]]) -> None:
    declined = [text for text, _, row in rows if row["status"] != "solved"]
    for text in declined:
        inner = text[text.find("(") + 1 : text.rfind(")")] if "(" in text else text
        assert "−" in text
        assert min(exact(text), exact(inner)) <= 0, text


def test_every_line_is_true(rows: list[tuple[str, bool, Row]]) -> None:
    """Both sides of every equals sign, read by Python and worked out by sympy."""
    lines = 0
    for text, _, row in rows:
        for step in row["steps"]:
            shown = step["shows"]
            if "; " in shown or ": " in shown:
                continue  # lists of multiples
            values = {exact(side) for side in sides(shown) if side}
            assert len(values) <= 1, (text, shown)
            lines += len(values)
    assert lines > 5000


def test_simplest_form_is_simplest(rows: list[tuple[str, bool, Row]]) -> None:
    """Numerator and denominator as sympy has them, where simplest form is asked."""
    for text, simplest, row in rows:
        if simplest and row["status"] == "solved" and "/" in row["written"]:
            answer = exact(row["written"])
            top, bottom = row["written"].split()[-1].split("/")
            assert int(bottom) == answer.q or bottom == "1", text
            assert " " in row["written"] or int(top) == answer.p, text


def test_the_last_line_comes_to_what_is_written(rows: list[tuple[str, bool, Row]]) -> None:
    for text, _, row in rows:
        if row["status"] == "solved":
            before = [s for s in row["steps"] if s["move"] not in ("look back", "fit the boxes")]
            assert exact(sides(before[-1]["shows"])[-1]) == exact(text)


# What is asked, the boxes, what is written; worked out by hand.
WRITTEN = [
    ("8 × 3/4", NUMBER, "6"),
    ("2/3 × 5", MIXED, "3 1/3"),
    ("2/3 × 3/4", FRACTION, "6/12"),
    ("2 1/2 × 3 1/3", MIXED, "8 2/6"),
    ("1/2 ÷ 3", FRACTION, "1/6"),
    ("6/7 ÷ 3", FRACTION, "2/7"),
    ("4 ÷ 1/5", NUMBER, "20"),
    ("3 ÷ 3/4", NUMBER, "4"),
    ("2/3 ÷ 3/4", FRACTION, "8/9"),
    ("2 1/4 ÷ 1 1/2", MIXED, "1 3/6"),  # 9/4 ÷ 6/4 = 9/6
    ("1 − 2/3 × 3/4", FRACTION, "1/2"),
    ("1/2 × 3/6 + 5/12", FRACTION, "8/12"),
    ("(1/2 + 1/4) × 6", MIXED, "4 2/4"),
    ("(2/3) × (12)", NUMBER, "8"),
    ("(1/3 + 2/5 × 3/4)", FRACTION, "19/30"),
    ("((2/3)) × ((3/5))", FRACTION, "6/15"),
]


@pytest.mark.parametrize(("asked", "boxes", "written"), WRITTEN)
def test_what_goes_in_the_boxes(asked: str, boxes: list[str], written: str) -> None:
    assert solve_one(f"What is {asked}?", boxes=boxes)["written"] == written


@pytest.mark.parametrize(
    ("asked", "lines"),
    [
        # CCSSM (2010) 6.NS.A.1: (a/b) ÷ (c/d) = ad/bc.
        ("2/3 ÷ 3/4", ["1 ÷ 3/4 = 4/3", "2/3 ÷ 3/4 = 2/3 × 4/3 = 8/9"]),
        ("5 ÷ 2/3", ["1 ÷ 2/3 = 3/2", "5 ÷ 2/3 = 5 × 3/2 = 15/2"]),
        ("2/3 ÷ 1/5", ["1 ÷ 1/5 = 5", "2/3 ÷ 1/5 = 2/3 × 5 = 10/3"]),
    ],
)
def test_a_class_that_multiplies_by_the_reciprocal(asked: str, lines: list[str]) -> None:
    steps = solve_one(f"What is {asked}?", boxes=FRACTION, way=["reciprocal"])["steps"]
    shown = [step["shows"] for step in steps if step["move"] in ("reciprocal", "times reciprocal")]
    assert shown == lines


@pytest.mark.parametrize(
    "asked", ["3/4 × (−2)", "0 ÷ 2/3", "0.5 × 3/4", "1/2 × 2/3 × 3/4 × 4/5", "1/2 × 2/3 − 1"]
)
def test_what_is_not_worked_out_is_declined(asked: str) -> None:
    row = solve_one(f"What is {asked}?", boxes=FRACTION)
    assert row["status"] == "declined"
    assert "not worked out yet" in row["message"]


def test_a_part_is_taken_of_the_amount_wherever_the_story_puts_it() -> None:
    """2/3 as far as 3/4 mile is read as 3/4 × 2/3, and told as two thirds of three fourths."""
    part = solved_one(
        "Tavi ran 3/4 mile. Wen ran 2/3 as far as Tavi. How far did Wen run?", boxes=FRACTION
    )
    cut = next(step for step in part.solution.steps if step.move == "cut again")
    assert (cut.details["share"], cut.details["of"]) == (Frac(2, 3), Frac(3, 4))
    assert part.solution.written == "6/12"
