"""Stories that are read are told truly: the unit of what was measured, ages, goals, single steps.

The items are of our own. Each was built and its transcript read; what was said wrongly then stands
as what may not be said, and what is true of the story as what must be.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.lesson.told import review_of, told_review


@cache
def said(stem: str, *choices: str, key: str = "A") -> str:
    """All that is said of a question in a review of its own, without its own words."""
    item: dict[str, object] = {"id": "q", "label": "Question 1", "stem": stem}
    if choices:
        item["choices"] = dict(zip("ABCD", choices, strict=False))
    else:
        item["boxes"] = ["number"]
    with TemporaryDirectory() as folder:
        path = Path(folder) / "told.json"
        path.write_text(json.dumps({"review": "Told", "grade": 5, "items": [item]}), "utf-8")
        (part,) = told_review(review_of(path)).parts
    if choices:
        assert part.solved.solution.key == (key,), stem
    told = [sentence.caption for sentence in part.narration]
    return "\n".join(sentence for sentence in told if sentence not in stem)


@pytest.mark.parametrize(
    ("stem", "says", "never"),
    [
        (
            "A jug holds 3 litres. It contains 1.75 litres of milk. How much milk must be poured "
            "in to fill the jug?",
            "1.25 litres",
            "1.25 milk",
        ),
        (
            "A cook uses 3 liters of water on each tray. How much water does she use on 14 trays?",
            "42 liters",
            "42 water",
        ),
        (
            "A tin holds 3/8 kilogram of tea. How much tea is in 5 tins?",
            "15/8 of a kilogram",
            "of a tea",
        ),
        (
            "A recipe uses 1 1/4 cups of flour. Tomo makes it twice. How much flour does he use?",
            "10/4 of a cup",
            "of a flour",
        ),
        (
            "Mina buys 3 pots for $2.30 each. She pays with a $10 bill. How much change does she "
            "get?",
            "$3.10",
            "3.1 change",
        ),
        (
            "Tess walks 4.5 miles in 1.5 hours. What is her average speed?",
            "3 miles per hour",
            "3 miles.",
        ),
        (
            "A rectangular bed measures 9 m by 4 m. What is the area of the bed?",
            "36 square meters",
            "36 m",
        ),
    ],
)
def test_the_answer_has_the_unit_of_what_was_measured(stem: str, says: str, never: str) -> None:
    """What fills a jug is measured, not counted; a speed has no unit of length."""
    text = said(stem)
    assert says in text
    assert never not in text


@pytest.mark.parametrize(
    ("stem", "says"),
    [
        ("Otis is 11. How old will Otis be in 5 years?", "age"),
        ("Lena was 6 three years ago. How old is Lena now?", "age"),
        ("Four years from now Otis will be 17. How old is Otis now?", "age"),
        ("Pia is 4 years older than Sam. Pia is 15. How old will Sam be in 3 years?", "15 − 4 + 3"),
    ],
)
def test_years_are_no_things_that_come_and_go(stem: str, says: str) -> None:
    text = said(stem)
    assert says in text
    for absurd in ("taken away", "left at the end", "comes in", "on top", "what came", "new part"):
        assert absurd not in text
    assert "stays" not in text


@pytest.mark.parametrize(
    ("stem", "answer"),
    [
        ("Rosa wants to buy a rake for $62. She is $18 short. How much money does she have?", "44"),
        (
            "Tom needs 45 tiles for the path. He is 8 tiles short. How many tiles does he have?",
            "37",
        ),
    ],
)
def test_who_is_short_is_not_asked_what_is_missing(stem: str, answer: str) -> None:
    """What is missing is told; what there is, is asked for."""
    text = said(stem)
    assert answer in text
    assert "missing" not in text


def test_a_hose_has_no_length_of_time() -> None:
    """ "A second hose" is no time; a class that begins and ends is."""
    hose = said(
        "A hose is 8.4 m long and a second hose is 4.5 m long. How long are the two together?"
    )
    assert "length of time" not in hose
    class_ = said(
        "A cooking class starts at 9:50 a.m. and ends at 11:25 a.m. How many minutes long is the "
        "class?"
    )
    assert "minutes long it" not in class_


@pytest.mark.parametrize(
    "stem",
    [
        "How long will it take to drive 210 miles at 60 miles per hour?",
        "On a plan of the garden, 1 centimeter stands for 4 meters. The path is 6.5 centimeters "
        "long on the plan. How long is the real path?",
    ],
)
def test_a_single_step_is_not_told_as_several(stem: str) -> None:
    text = said(stem)
    for false in ("than a single step", "on the way", "step by step"):
        assert false not in text


def test_the_last_step_alone_is_what_is_left_to_do() -> None:
    """The scores of a mean are added one after the other, and then there is still the dividing."""
    text = said("Lin's scores on four spelling tests were 8, 9, 7 and 12. What was her mean score?")
    before, _ = text.split("36 ÷ 4", 1)
    assert "left to do" not in before.rpartition("\n")[0]


def test_a_percent_off_is_told_as_hundredths() -> None:
    text = said("A rake costs $24 and is on sale for 25% off. What is the sale price?")
    assert "24 − 25/100 × 24" in text
    assert "percent" in text.split("24 − 25/100 × 24", 1)[1]


def test_a_half_of_a_recipe_is_no_groups() -> None:
    text = said(
        "A recipe uses 1 3/4 cups of flour. Tavi makes half of the recipe. How much flour does he "
        "use?"
    )
    assert "group" not in text
    assert "again and again" not in text


def test_what_is_earned_is_no_price() -> None:
    text = said("Ivo earns $9 an hour. Last week he worked 6 hours. How much did he earn?")
    assert "cost" not in text
    assert "price" not in text
    rice = said("Rice costs $2.50 a kilogram. What do 3 kilograms cost?")
    assert "cost" in rice


def test_pupils_hold_no_cans() -> None:
    """The question that comes before the groups is true of people too."""
    for count in (3, 4, 5):
        stem = f"Each of 7 pupils brought {count} cans, and the cook brought 5 cans."
        assert "in all the pupils" not in said(f"{stem} How many cans were brought?")


def test_a_choice_is_told_as_it_is_written() -> None:
    """Choice A says 4/6, though it is 2/3; and 35% is told with its percent."""
    assert "choice A, 4/6" in said("2/3 is equal to", "4/6", "3/4", "1/2", "5/8")
    assert "2/3." not in said("2/3 is equal to", "4/6", "3/4", "1/2", "5/8").rpartition("So the")[2]
    percent = said("What percent is equal to 7/20?", "35%", "70%", "7%", "27%")
    assert "35 percent" in percent


@pytest.mark.parametrize("stem", ["(-6) - (-9) = ?", "What is -7 + 4?", "6 - 9 = ?"])
def test_numbers_below_zero_are_no_whole_numbers_in_pieces(stem: str) -> None:
    """CCSSM 2010, 7.NS.A.1: no word of pieces or denominators, and -6 is no whole number."""
    text = said(stem)
    assert "denominator" not in text
    assert "pieces of one size" not in text
    assert "whole number" not in text or stem == "6 - 9 = ?"
