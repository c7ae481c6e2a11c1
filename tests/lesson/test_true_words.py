"""What is said fits the story: no step by one, no unit that is not sure, no word of another story.

The items are of our own; what may and may not be said of each was read, and the first choice is
the answer, worked by hand.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.lesson.told import ToldPart, review_of, told_review


@cache
def told(stem: str, *choices: str) -> ToldPart:
    """A question told in a review of its own; the first choice is right."""
    item = {"id": "q", "label": "Question 1", "stem": stem}
    file = {"review": "Words", "grade": 5}
    row = item | {"choices": dict(zip("ABCD", choices, strict=False))}
    with TemporaryDirectory() as folder:
        path = Path(folder) / "words.json"
        path.write_text(json.dumps(file | {"items": [row]}), "utf-8")
        (part,) = told_review(review_of(path)).parts
    assert part.solved.solution.key == ("A",), stem
    return part


def said(part: ToldPart) -> str:
    return "\n".join(sentence.caption for sentence in part.narration)


POTATOES = (
    "6 pounds of potatoes cost $7.50. What is the cost of one pound?",
    *("$1.25", "$45.00", "$1.50", "$0.80"),
)
EGGS = ("A dozen eggs costs $3.60. What is the cost of one egg?", *("$0.30", "$0.36", "$43.20"))
BEDS = (
    "It takes 3/4 hour to weed one bed. How long does it take to weed 6 beds?",
    *("4 1/2 hours", "6 3/4 hours", "8 hours"),
)
WEEDS = (
    "45 pupils work in the garden. 18 pupils water plants and the rest pull weeds. "
    "How many pull weeds?",
    *("27", "63", "33", "37"),
)
CORKS = (
    "Tomo has 3 times as many corks as Esme. They have 48 corks in all. "
    "How many corks does Esme have?",
    *("12", "16", "36", "144"),
)
POTS = (
    "Jon plants 75 bulbs equally in 8 pots. How many bulbs are left over?",
    *("3", "9", "11", "4"),
)
TO_A_POT = ("75 bulbs are planted 8 to a pot. How many bulbs are left over?", *("3", "9", "11"))
MELON = (
    "A pumpkin weighs 3/4 as much as a melon. The pumpkin weighs 12 pounds. "
    "How much does the melon weigh?",
    *("16 pounds", "9 pounds", "15 pounds"),
)
JARS = (
    "A shelf holds 100 jars. 24 jars are sold and the rest are packed equally into 4 boxes. "
    "How many jars are in each box?",
    *("19", "25", "76", "31"),
)
SEEDS = ("Of 90 seeds, 40 percent sprout. How many seeds sprout?", *("36", "40", "50", "54"))
FIFTHS = ("Which mixed number is equal to 17/5?", *("3 2/5", "2 3/5", "5 2/3", "3 1/5"))
LETTUCES = (
    "Mia's garden has 6 rows of 8 lettuces. Rabbits ate a quarter of them. How many are left?",
    *("36", "12", "48", "44"),
)
PLUMS = (
    "Ana picked 14 plums, Ben picked 9 plums and Cleo picked 10 plums. "
    "What is the average number of plums they picked?",
    *("11", "33", "10", "12"),
)
BAGS = (
    "48 plums are packed with 6 plums in each bag. Which expression shows the number of bags?",
    *("48 ÷ 6", "6 + 48", "48 − 6", "48 × 6"),
)

TENTHS = ("What is 0.4 × 6?", *("2.4", "24", "0.24", "10"))
BY_TENTHS = ("What is 0.25 × 0.3?", *("0.075", "7.5", "0.75", "75"))
THOUSANDTHS = ("0.8 × 0.35 = ____", *("0.28", "2.8", "0.028", "28"))
EGGS_OF_THREE = (
    "The red hen laid 12 eggs. The white hen laid 5 more eggs than the red hen. "
    "The gray hen laid 7 fewer eggs than the white hen. How many eggs did the gray hen lay?",
    *("10", "24", "14", "0"),
)
EGGS_TAKEN = (
    "There were 12 eggs in the bowl. Ada put in 5 more eggs. Then she took out 7 eggs. "
    "How many eggs are in the bowl now?",
    *("10", "24", "14", "0"),
)
SOLD_FEWER = (
    "Jun sold 8 more bulbs than Ari, and Ari sold 5 fewer bulbs than Lou. Lou sold 20 bulbs. "
    "How many bulbs did Jun sell?",
    *("23", "33", "15", "7"),
)
OLE = (
    "Ole is 4 years older than Tia. Tia is 8 years old. How old will Ole be in 6 years?",
    *("18", "12", "10", "14"),
)
COUSINS = (
    "Mira had $50. She gave $6 to each of her 4 cousins. How much money does she have left?",
    *("$26", "$24", "$44", "$74"),
)
BOUGHT = (
    "Bo bought 4 pots for $3 each and paid with a $20 bill. How much change did he get?",
    *("$8", "$12", "$17", "$13"),
)
RAKES = ("6 rakes cost $54. How much do 4 rakes cost?", *("$36", "$9", "$54", "$81"))
BELOW = ("What is 2 − (−6)?", *("8", "−4", "−8", "4"))
ROLLS = (
    "12 rolls take 3/4 cup of oil. How many cups of oil do 6 rolls take?",
    *("3/8", "1/16", "9", "3/2"),
)
BOX = (
    "A planter box is 6 feet long, 2 feet wide and 3 feet high. What is its volume in cubic feet?",
    *("36", "11", "12", "72"),
)
SQUARE = (
    "A square bed has a perimeter of 20 meters. What is its area in square meters?",
    *("25", "20", "10", "5"),
)
LARGE = ("What is 5/2 × 7/3?", *("35/6", "12/5", "35/5", "7/6"))
LEFT_OVER = ("50 beans are planted 6 to a pot. How many beans are left over?", *("2", "8", "9"))


@pytest.mark.parametrize(
    ("item", "words", "never"),
    [
        (TENTHS, ["without the decimal point"], ["as for adding"]),
        (BY_TENTHS, ["0.75 is to keep as many"], ["7.5 is to keep", "7.5 comes from"]),
        (THOUSANDTHS, ["0.280, which is the same as 0.28"], ["□", "28 is to keep"]),
        (EGGS_OF_THREE, ["12 + 5 − 7", "compares"], ["come and gone", "changes", "goes out"]),
        (EGGS_TAKEN, ["12 + 5 − 7"], ["compare", "than another"]),
        (SOLD_FEWER, ["20 − 5 + 8", "compares"], ["come and gone", "changes", "goes out"]),
        (OLE, ["8 + 4 + 6", "the age that is told by comparing"], ["years that pass"]),
        (COUSINS, ["comes 4 times"], ["cost"]),
        (BOUGHT, ["the change", "has to be paid"], ["comes to at the end"]),
        (RAKES, ["54 ÷ 6 × 4"], ["what each of them costs", "all cost the same"]),
        (BELOW, ["the difference"], ["the sum"]),
        (ROLLS, ["6/16 becomes 3/8"], ["6/16 of a cup"]),
        (BOX, ["the volume", "layer"], ["this story", "step by step"]),
        (SQUARE, ["a single side", "the area"], ["comes to at the end"]),
        (LARGE, ["35/6"], ["we take 5 of the small pieces", "a piece of a piece is smaller"]),
        (LEFT_OVER, ["8 says how many groups"], ["9 says how many", "groups gets 9"]),
        (POTATOES, ["7.50 ÷ 6", "each"], ["÷ 6 × 1", "125 × 1", "1.25 ÷ 1", "for all"]),
        (EGGS, ["3.60 ÷ 12"], ["÷ 12 × 1", "÷ 1 =", "for all"]),
        (BEDS, ["6 × 3/4"], ["÷ 1", "step by step"]),
        (WEEDS, ["45 − 18 = 27"], ["27 weeds", "27 plants"]),
        (CORKS, ["3 such parts", "we can divide"], ["join", "in all the amounts", "16 comes from"]),
        (POTS, ["share", "So each gets 9"], ["full groups", "another group"]),
        (TO_A_POT, ["full groups"], ["each gets"]),
        (MELON, ["a fraction of the amount"], ["larger amount", "smaller"]),
        (JARS, ["first we have to subtract"], ["hidden", "began with", "for the rest"]),
        (SEEDS, ["40 percent is 40 of every 100"], ["those parts", "dividing and then"]),
        (FIFTHS, ["only written in another way"], ["cut", "Cutting"]),
        (PLUMS, ["shared equally", "put everything together"], ["group"]),
        (BAGS, ["split into equal groups"], ["groups are made"]),
    ],
)
def test_the_words_fit_the_story(item: tuple[str, ...], words: list[str], never: list[str]) -> None:
    text = said(told(*item))
    assert all(each in text for each in words), text
    assert not any(each in text for each in never), text


def test_the_same_work_is_told_once() -> None:
    """6 × 8 stands twice in 6 × 8 − 1/4 × (6 × 8)."""
    part = told(*LETTUCES)
    lines = [step.line for step in part.solved.solution.steps if step.move == "work"]
    assert len(lines) == len(set(lines)) == len(("6 × 8", "48 ÷ 4", "48 − 12"))
    assert said(part).count("6 × 8 = 48") == 1


def test_a_look_back_over_the_last_step_does_not_say_it_is_the_start() -> None:
    """By the third part of a review each wording has had its turn."""
    stems = (JARS, CORKS, PLUMS, LETTUCES)
    items = [
        {"id": f"q{n}", "label": f"Question {n}", "stem": stem, "choices": {"A": right, "B": wrong}}
        for n, (stem, right, wrong, *_) in enumerate(stems, 1)
    ]
    with TemporaryDirectory() as folder:
        path = Path(folder) / "words.json"
        path.write_text(json.dumps({"review": "W", "grade": 5, "items": items}), "utf-8")
        parts = told_review(review_of(path)).parts
    text = "\n".join(said(part) for part in parts)
    assert "That's what we had before the last step" in text
    assert "what we began with" not in text


def test_adding_above_and_below_is_named_only_as_it_is_written() -> None:
    """4/6 is 2/3, and 5/6 is 2/3 with 3 added above and below; 10/12 has another way behind it."""
    part = told("Which fraction is equal to 2/3?", "4/6", "5/6", "10/12", "3/6")
    slips = part.solved.solution.slips
    assert slips["B"] == "changed by adding"
    assert slips.get("C") != "changed by adding"


def test_another_operation_is_named_only_where_a_step_has_its_numbers() -> None:
    """48 ÷ (3 + 1): 16 is 48 ÷ 3, which divides too; 44 is 48 − 4, by the numbers of a step."""
    part = told(CORKS[0], "12", "16", "44", "60")
    slips = part.solved.solution.slips
    assert slips.get("B") != "another operation"
    assert slips.get("C") == "another operation"
