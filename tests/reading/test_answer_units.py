"""What an answer counts: units worked by hand from the words of stories of our own."""

from __future__ import annotations

import pytest

from narrate.reading.read import read
from tests.solving import NUMBER, load_one


def unit_said(stem: str) -> str:
    """The unit of the answer, "" where none is said."""
    item = load_one(stem, boxes=NUMBER)
    found = read(item, item.parts[0])
    return next((each.unit for each in found.counted if each.tree == found.expression), "")


@pytest.mark.parametrize(
    ("stem", "unit"),
    [
        (
            "A tin of paint covers 12 square meters. How many square meters do 4 tins cover?",
            "square meters",
        ),
        (
            "The carrot bed has an area of 18.6 square meters and is 4.75 square meters larger "
            "than the beet bed. What is the area of the beet bed?",
            "square meters",
        ),
        ("A triangle has a base of 12 inches and a height of 9 inches. What is its area?",
         "square inches"),
        ("What is the area of a triangle with a base of 12 cm and a height of 5 cm?",
         "square centimeters"),
        ("A planter box is 6 feet long, 2 feet wide and 3 feet deep. What is its volume?",
         "cubic feet"),
        ("Ray's garden has an area of 45 square feet. It is 5 feet wide. How long is it?", "feet"),
        (
            "A rectangular bed is 12 feet long and 7 feet wide. How many feet of fence are needed "
            "to go around the bed?",
            "feet",
        ),
    ],
)  # fmt: skip
def test_areas_are_counted_in_squares_and_sides_are_not(stem: str, unit: str) -> None:
    assert unit_said(stem) == unit


@pytest.mark.parametrize(
    ("stem", "unit"),
    [
        ("A class has 24 pupils. 13 are girls. How many are boys?", "boys"),
        ("A tray holds 30 eggs. 4 of the eggs are cracked. How many are whole?", "eggs"),
        ("There were 5 birds in the tree. Some more came, and then there were 12. How many came?",
         "birds"),
        (
            "Last year 81 pupils came to the harvest. That is 17 fewer than this year. How many "
            "came this year?",
            "pupils",
        ),
        ("Four friends share 64 marbles equally. How many does each get?", "marbles"),
        (
            "There are 9 forks on the tray. There are twice as many spoons as forks. How many "
            "spoons are there?",
            "spoons",
        ),
        ("Four boys ate 3 apples and 5 pears. How many pieces of fruit did they eat in all?",
         "pieces of fruit"),
        (
            "The ratio of red tulips to white tulips in a bed is 2 to 7. If there are 27 tulips in "
            "all, how many are white?",
            "white tulips",
        ),
        ("A bus travels at 48 miles per hour. How far does it go in 3 hours?", "miles"),
        ("Otto wants 30 shells. He has 13. How many more does he need?", "shells"),
    ],
)  # fmt: skip
def test_a_question_that_does_not_say_its_unit_has_one(stem: str, unit: str) -> None:
    assert unit_said(stem) == unit


@pytest.mark.parametrize(
    "stem",
    [
        "Olaf has 45 marbles and Pia has 9 marbles. How many times as many marbles does Olaf have "
        "as Pia?",
        "Jon scored 8, 7, 9 and 10 on four quizzes. What was his mean score?",
        "A bag holds 5 red beads, 3 green beads and 4 white beads. One bead is taken without "
        "looking. What is the probability that it is green?",
        "Nan painted 3/8 of a fence. How much of the fence is not painted yet?",
        "The kitchen offers 3 kinds of soup, 4 kinds of bread and 2 kinds of fruit. How many "
        "different lunches of one soup, one bread and one fruit are possible?",
    ],
)
def test_no_unit_is_made_up(stem: str) -> None:
    """Such answers are plain numbers, or what they count is not certain."""
    assert unit_said(stem) == ""
