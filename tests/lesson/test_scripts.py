"""Whole scripts, one for each kind of item, as a teacher would read them aloud.

The texts in `scripts/` were read sentence by sentence, as the teacher who says them and as the
pupil who hears them; they hold what reading cannot recompute: whether the words that are true one
by one also make a telling. Every answer stands beside its item below, worked out by hand.

After a change of wording run `NARRATE_WRITE_SCRIPTS=1 pytest tests/lesson/test_scripts.py`, which
writes the scripts anew, and read the difference before keeping it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from narrate.lesson.telling import tell_part
from narrate.lesson.timeline import beat_ms, pace
from narrate.lesson.view import Told
from narrate.lesson.wording import Words
from narrate.pipeline import solve_item
from tests.lesson.told import review_of

SCRIPTS = Path(__file__).parent / "scripts"
GRADE = 5
WRITE = os.environ.get("NARRATE_WRITE_SCRIPTS") == "1"

FRACTION_BOXES = ["numerator", "denominator"]
MIXED_BOXES = ["whole", "numerator", "denominator"]


@dataclass(frozen=True, slots=True)
class Kind:
    """An item as its file would hold it, and what its script has to say: the answer, in words."""

    item: dict[str, Any]
    answers: tuple[str, ...]


KINDS = {
    "add-to": Kind(
        {
            "stem": "A rain barrel is 3/4 full. A shower adds another 1/5 of the barrel. "
            "What fraction of the barrel is full now?",
            "choices": {"A": "4/9", "B": "9/10", "C": "19/20", "D": "4/20"},
            "model": "3/4 + 1/5",
        },
        ("nineteen twentieths",),  # 15/20 + 4/20
    ),
    "take-from": Kind(
        {
            "stem": "A garden hose is 5 1/4 meters long. Lin cuts off 2 5/6 meters. "
            "How many meters of hose are left?",
            "boxes": [*MIXED_BOXES, "meters"],
            "model": "5 1/4 - 2 5/6",
        },
        ("two and five twelfths",),  # 5 3/12 - 2 10/12 = 4 15/12 - 2 10/12
    ),
    "compare": Kind(
        {
            "stem": "The squash vine is 11/12 meter long and the bean vine is 5/8 meter long. "
            "How much longer is the squash vine than the bean vine?",
            "choices": {"A": "6/4", "B": "7/24", "C": "6/24", "D": "37/24"},
            "model": "11/12 - 5/8",
        },
        ("seven over twenty-four",),  # 22/24 - 15/24
    ),
    "take-apart": Kind(
        {
            "stem": "Parsley covers 1/3 of a herb bed and chives cover 2/5 of it. "
            "The rest of the bed is mint. What fraction of the bed is mint?",
            "choices": {"A": "11/15", "B": "2/3", "C": "4/15", "D": "3/8"},
            "model": "1 - 1/3 - 2/5",
        },
        ("four fifteenths",),  # 15/15 - 5/15 - 6/15
    ),
    "put-together": Kind(
        {
            "stem": "For one pot of soup, Emre chops 1/2 kilogram of carrots, 2/3 kilogram of "
            "leeks and 3/4 kilogram of potatoes. How many kilograms of vegetables is that "
            "altogether?",
            "boxes": [*FRACTION_BOXES, "kilograms"],
            "model": "1/2 + 2/3 + 3/4",
        },
        ("twenty-three twelfths",),  # 6/12 + 8/12 + 9/12
    ),
    "bare-like": Kind(
        {"stem": "3/8 + 2/8 = □", "boxes": FRACTION_BOXES},
        ("five eighths",),
    ),
    "bare-unlike": Kind(
        {"stem": "What is 7/8 - 1/6?", "boxes": FRACTION_BOXES},
        ("seventeen over twenty-four",),  # 21/24 - 4/24
    ),
    "mixed-regroup": Kind(
        {"stem": "Find 4 1/3 - 1 3/4.", "boxes": MIXED_BOXES},
        ("two and seven twelfths",),  # 4 4/12 - 1 9/12 = 3 16/12 - 1 9/12
    ),
    "whole-as-pieces": Kind(
        {
            "stem": "The kitchen made 6 liters of lemonade. The class drank 4 2/5 liters. "
            "How many liters of lemonade are left?",
            "boxes": [*MIXED_BOXES, "liters"],
            "model": "6 - 4 2/5",
        },
        ("one and three fifths",),  # 5 5/5 - 4 2/5
    ),
    "first-line": Kind(
        {
            "stem": "Noor wants to find 5/6 + 3/8. Which could be the first line of her work?",
            "choices": {
                "A": "(5 + 3)/(6 + 8)",
                "B": "5/24 + 3/24",
                "C": "20/24 + 9/24",
                "D": "20/24 - 9/24",
            },
        },
        ("twenty over twenty-four plus nine over twenty-four",),
    ),
    "select-all": Kind(
        {
            "stem": "Select all the expressions that are equal to 2/3 + 1/4.",
            "select": "all",
            "choices": {
                "A": "8/12 + 3/12",
                "B": "3/7",
                "C": "1 - 1/12",
                "D": "2/12 + 1/12",
                "E": "16/24 + 6/24",
            },
        },
        ("A, C and E",),  # 11/12 = 12/12 - 1/12 = 22/24
    ),
    "missing-number": Kind(
        {
            "stem": "What number makes the equation 3/5 + □ = 9/10 true?",
            "boxes": FRACTION_BOXES,
        },
        ("three tenths",),  # 9/10 - 6/10
    ),
    "claim": Kind(
        {
            "stem": "Tavi worked out 1/2 + 3/10 and wrote 4/12. "
            "What went wrong, and what is the right sum?",
            "claim": "4/12",
            "boxes": FRACTION_BOXES,
            "model": "1/2 + 3/10",
        },
        ("eight tenths",),  # 5/10 + 3/10
    ),
    "simplest": Kind(
        {
            "stem": "A recipe takes 5/12 cup of oats for the bars and 1/4 cup of oats for the "
            "topping. How many cups of oats are needed in all? Give the answer in simplest form.",
            "choices": {"A": "8/12 cup", "B": "2/3 cup", "C": "6/16 cup", "D": "6/12 cup"},
            "model": "5/12 + 1/4",
        },
        ("two thirds",),  # 5/12 + 3/12 = 8/12
    ),
    "equal-fraction": Kind(
        {
            "stem": "Which number goes in the box to make 3/4 = □/20 true?",
            "choices": {"A": "3", "B": "15", "C": "19", "D": "5"},
        },
        ("fifteen",),
    ),
    "strip-in-two-parts": Kind(
        {
            "stimulus": {
                "text": "The first bed got 2 1/5 kilograms of compost. "
                "The second bed got 7/10 kilogram.",
                "diagram": {"strip": {"wholes": 3, "parts": 10}},
            },
            "parts": [
                {
                    "ask": "How many kilograms of compost were used on both beds?",
                    "boxes": [*MIXED_BOXES, "kilograms"],
                    "model": "2 1/5 + 7/10",
                },
                {
                    "ask": "How many more kilograms did the first bed get than the second bed?",
                    "boxes": [*FRACTION_BOXES, "kilograms"],
                    "model": "2 1/5 - 7/10",
                },
            ],
        },
        ("two and nine tenths", "fifteen tenths"),  # 2 2/10 + 7/10; 22/10 - 7/10
    ),
    "two-steps": Kind(
        {
            "stem": "Mara fills 6 trays with 24 seedlings each. She gives away 18 seedlings. "
            "How many seedlings does she have left?",
            "choices": {"A": "126", "B": "144", "C": "162", "D": "48"},
        },
        ("one hundred twenty-six seedlings",),  # 6 × 24 = 144, 144 - 18
    ),
    "remainder-up": Kind(
        {
            "stem": "Each bus holds 36 pupils. 164 pupils go to the farm. "
            "How many buses are needed?",
            "choices": {"A": "4", "B": "5", "C": "20", "D": "4.5"},
        },
        ("five buses",),  # 36 × 4 = 144, 20 are left
    ),
    "money": Kind(
        {
            "stem": "Each jar of honey costs $4.75. Noor buys 3 jars. How much does she pay?",
            "boxes": ["number", "dollars"],
        },
        ("fourteen dollars and twenty-five cents",),  # 475 × 3 = 1425
    ),
    "bare-decimals": Kind(
        {"stem": "What is 4.6 - 1.85?", "choices": {"A": "2.75", "B": "3.25", "C": "6.45"}},
        ("two point seven five",),  # 4.60 - 1.85
    ),
    "which-expression": Kind(
        {
            "stem": "Noor has 20 cups of flour. She uses 6 cups for bread. "
            "Which expression shows how much flour is left?",
            "choices": {"A": "20 + 6", "B": "6 - 20", "C": "20 - 6", "D": "20 × 6"},
        },
        ("choice C, twenty minus six",),
    ),
    "which-equation": Kind(
        {
            "stem": "Ines picked some beans. She ate 6 of them. Now she has 14 beans. Which "
            "equation can be used to find b, the number of beans Ines picked?",
            "choices": {"A": "14 - 6 = b", "B": "b - 6 = 14", "C": "b + 6 = 14", "D": "6 × b = 14"},
        },
        ("choice B, b minus six equals fourteen",),  # 14 + 6 were picked
    ),
    "which-expression-with-a-letter": Kind(
        {
            "stem": "Omar has 120 seeds. He puts n seeds in each pot. "
            "Which expression shows the number of pots Omar needs?",
            "choices": {"A": "120 + n", "B": "n ÷ 120", "C": "120 × n", "D": "120 ÷ n"},
        },
        ("choice D, one hundred twenty divided by n",),
    ),
    "order-of-operations": Kind(
        {"stem": "Find (36 − 12) ÷ 4 + 5.", "boxes": ["number"]},
        ("eleven",),  # 24 ÷ 4 = 6, 6 + 5
    ),
    "pieces-of-pieces": Kind(
        {
            "stem": "Wen has 4/5 liter of juice. She uses 2/3 of it for the punch. "
            "How many liters of juice does she use?",
            "choices": {"A": "6/8", "B": "8/15", "C": "10/12", "D": "6/15"},
        },
        ("eight fifteenths of a liter",),  # 2/3 × 4/5 = (2 × 4)/(3 × 5)
    ),
    "fraction-shared": Kind(
        {
            "stem": "Nadia shares 1/2 pound of seeds equally among 3 beds. "
            "How many pounds of seeds does each bed get?",
            "boxes": [*FRACTION_BOXES, "pound"],
        },
        ("one sixth of a pound",),  # 6 such pieces make a pound
    ),
    "unit-fractions-in-wholes": Kind(
        {
            "stem": "How many 1/3-cup servings are in 4 cups of soup?",
            "choices": {"A": "4/3", "B": "7", "C": "12", "D": "1/12"},
        },
        ("twelve servings",),  # 3 in each cup
    ),
    "full-groups-of-fractions": Kind(
        {
            "stem": "Each loaf of bread takes 3/4 kilogram of flour. A sack holds 5 kilograms of "
            "flour. How many full loaves can be made from the sack?",
            "choices": {"A": "7", "B": "6 2/3", "C": "6", "D": "3 3/4"},
        },
        ("six loaves",),  # 20 fourths, 3 to a loaf, 2 are left
    ),
    "mixed-quotient": Kind(
        {
            "stem": "What is 2 1/4 ÷ 1 1/2 in simplest form?",
            "choices": {"A": "1 1/2", "B": "1 3/6", "C": "3 3/8", "D": "2/3"},
        },
        ("one and one half",),  # 9/4 ÷ 6/4 = 9/6
    ),
    "by-the-reciprocal": Kind(
        {
            "stem": "How wide is a rectangular strip of beans with length 3/4 mile and area 1/2 "
            "square mile?",
            "boxes": [*FRACTION_BOXES, "mile"],
            "way": ["reciprocal"],
        },
        ("four sixths of a mile",),  # 1/2 × 4/3
    ),
    "area-in-two-parts": Kind(
        {
            "stimulus": {"text": "A rectangular mint bed is 2 1/2 meters long and 3/4 meter wide."},
            "parts": [
                {
                    "ask": "What is its area in square meters?",
                    "boxes": [*MIXED_BOXES, "square meters"],
                },
                {"ask": "What is its perimeter in meters?", "boxes": [*MIXED_BOXES, "meters"]},
            ],
        },
        # 5/2 × 3/4 = 15/8; 10/4 + 3/4 = 13/4, twice is 26/4
        ("one and seven eighths square meters", "six and two fourths meters"),
    ),
    "product-in-a-difference": Kind(
        {
            "stem": "Find 1 − 2/3 × 3/4.",
            "choices": {"A": "1/4", "B": "1/2", "C": "7/12", "D": "2/5"},
        },
        ("one half",),  # 6/12 is 1/2, and 2/2 − 1/2
    ),
    "rounding": Kind(
        {
            "stem": "Round 3.456 to the nearest tenth.",
            "choices": {"A": "3.4", "B": "3.5", "C": "3.46", "D": "3.556"},
        },
        ("three point five",),  # 3.45 < 3.456 < 3.5
    ),
    "quotient-with-remainder": Kind(
        {
            "stem": "What is 123 ÷ 8?",
            "choices": {
                "A": "15 remainder 7",
                "B": "14 remainder 11",
                "C": "15 remainder 3",
                "D": "3 remainder 15",
            },
        },
        ("fifteen remainder three",),  # 8 × 15 + 3 = 123
    ),
    "two-units": Kind(
        {
            "stem": "A sack of peas weighs 7 pounds 2 ounces and a sack of oats 4 pounds 11 "
            "ounces. How much more does the sack of peas weigh than the sack of oats?",
            "choices": {
                "A": "2 pounds 7 ounces",
                "B": "3 pounds 9 ounces",
                "C": "2 pounds 1 ounce",
                "D": "2 pounds 23 ounces",
            },
        },
        ("two pounds seven ounces",),  # 114 − 75 = 39 = 2 × 16 + 7
    ),
    "time-of-day": Kind(
        {
            "stem": "The garden tour starts at 10:50 a.m. and lasts 1 hour 25 minutes. "
            "When does it end?",
            "choices": {"A": "11:75 a.m.", "B": "12:15 p.m.", "C": "12:15 a.m.", "D": "9:25 a.m."},
        },
        ("twelve fifteen P M",),  # 11:50, and 25 minutes
    ),
    "ratio": Kind(
        {
            "stem": "A bed has 14 bean plants and 21 pea plants. What is the ratio of bean plants "
            "to the total number of plants?",
            "choices": {"A": "2 to 3", "B": "3 to 5", "C": "2 to 5", "D": "5 to 2"},
        },
        ("two to five",),  # 14 to 35
    ),
    "step": Kind(
        {
            "stem": "Which step shows how to find the value of k in 7k = 63?",
            "choices": {
                "A": "Add 7 to both sides",
                "B": "Divide both sides by 7",
                "C": "Multiply both sides by 7",
            },
        },
        ("choice B",),  # 63 ÷ 7 = 9
    ),
    "which-is-greater": Kind(
        {
            "stem": "Which fraction is greater than 2/5?",
            "choices": {"A": "3/8", "B": "1/4", "C": "2/7", "D": "4/9"},
        },
        ("four ninths",),  # 20/45, and 2/5 is 18/45; 15/40 < 16/40, 5/20 < 8/20, 2/7 < 2/5
    ),
    "which-of-two-conditions": Kind(
        {
            "stem": "The number of beans in a jar is less than 45, and is also a multiple of 7. "
            "How many beans could be in the jar?",
            "choices": {"A": "35", "B": "47", "C": "48", "D": "25"},
        },
        ("thirty-five",),  # 7 × 5; 47 and 48 are more than 45, 25 lies between 21 and 28
    ),
    "another-unit": Kind(
        {
            "stem": "How many inches are in 3 1/2 feet?",
            "choices": {"A": "42", "B": "36", "C": "35", "D": "15.5"},
        },
        ("forty-two",),  # 36 + 6
    ),
    "rounded-story": Kind(
        {
            "stem": "100 grams of lentils are shared equally among 7 bowls. How many grams are in "
            "each bowl, to the nearest tenth of a gram?",
            "choices": {"A": "14.2", "B": "14.3", "C": "14.28", "D": "14"},
        },
        ("fourteen point three",),  # 7 × 14.25 = 99.75, less than 100
    ),
}

EVERY_KIND = pytest.mark.parametrize("kind", KINDS)


@EVERY_KIND
def test_the_script_is_the_one_that_was_read(kind: str, tmp_path: Path) -> None:
    path = SCRIPTS / f"{kind}.txt"
    script = "\n".join(line for told in told_parts(kind, tmp_path) for line in lines(told))
    if WRITE:
        path.parent.mkdir(exist_ok=True)
        path.write_text(script, encoding="utf-8")
    assert path.read_text("utf-8") == script


@EVERY_KIND
def test_the_script_says_the_answer(kind: str, tmp_path: Path) -> None:
    """The answers worked out by hand, said after the item has been read and tried."""
    answers = KINDS[kind].answers
    for told, answer in zip(told_parts(kind, tmp_path), answers, strict=True):
        said = " ".join(each.beat.say for each in told if each.beat.move != "read")
        assert answer in said


def test_every_script_belongs_to_a_kind() -> None:
    assert {path.stem for path in SCRIPTS.glob("*.txt")} == set(KINDS)


# -- how a script is made and written


def told_parts(kind: str, folder: Path) -> list[tuple[Told, ...]]:
    """The parts of an item, told alone but late in a review: every term has been explained."""
    path = folder / f"{kind}.json"
    items = [{"id": kind, "label": "Question 1", **KINDS[kind].item}]
    path.write_text(json.dumps({"review": "Garden week", "grade": GRADE, "items": items}), "utf-8")
    words = Words("en")
    outcomes = solve_item(review_of(path).items[0])
    solved = [outcome.solved for outcome in outcomes if outcome.solved and not outcome.fault]
    return [tell_part(words, part, set(words.terms)) for part in solved]


def lines(told: tuple[Told, ...]) -> Iterator[str]:
    """Beat by beat: its name and seconds, what is said, what appears; the length at the end."""
    times = [beat_ms(each.beat, pace(GRADE)) for each in told]
    for each, ms in zip(told, times, strict=True):
        yield f"{each.beat.move} ({ms / 1000:.1f} s)"
        yield from (f"  {sentence.say}" for sentence in each.beat.sentences)
        yield from (f"  > {shown}" for shown in each.beat.appears)
        yield ""
    yield f"{sum(times) / 1000:.1f} s\n"
