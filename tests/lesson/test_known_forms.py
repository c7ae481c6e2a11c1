"""Stories of a known form say why they are worked out so, each in the words of its form.

The items are of our own; the answers were worked out by hand. Where a form's words stand in a story
of other work, the form says nothing.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from narrate.lesson.readaloud import read_aloud
from narrate.lesson.wording import Words
from tests.lesson.test_read_and_told import said
from tests.lesson.told import DEMO, review_of

_FORMS = [
    ("The bill for seedlings was $48. If Ada leaves a 20% tip, how much is the tip?",
     "hundredths", "$9.60"),
    ("A sack of soil costs $15. The tax is 6%. What is the total cost?",
     "The percent is taken of $15, and what it makes is added", "$15.90"),
    ("A $45 kettle is on sale for 20% off. What is the sale price?",
     "The percent is taken of $45, and what it makes comes off", "$36"),
    ("Tess walks 4.5 miles in 1.5 hours. What is her average speed?",
     "The speed tells the distance for each unit of time", "3 miles per hour"),
    ("On a plan of the garden, 1 centimeter stands for 4 meters. The path is 6.5 centimeters long "
     "on the plan. How long is the real path?",
     "Each unit on paper stands for the same real size", "26"),
    ("The kitchen offers 3 kinds of soup, 4 kinds of bread and 2 kinds of fruit. How many "
     "different lunches of one soup, one bread and one fruit are possible?",
     "Each choice can go with every other choice", "24"),
    ("A bag holds 5 red beads, 3 green beads and 4 white beads. One bead is taken without looking. "
     "What is the probability that it is green?",
     "Those that fit are divided by all there are", "3/12"),
    ("The ratio of red tulips to white tulips in a bed is 2 to 7. If there are 27 tulips in all, "
     "how many are white?",
     "All the parts together make the total", "21"),
    ("Five gardeners bought a cart for $42 and a hose for $18.50. They split the cost equally. How "
     "much did each of them pay?",
     "First we put together what they share", "$12.10"),
    ("There are 48 pupils in the kitchen. Of these pupils, 3/8 chop onions and the rest wash "
     "lettuce. How many pupils wash lettuce?",
     "The rest is the whole without that part", "30 pupils"),
    ("A triangle has a base of 12 inches and a height of 9 inches. What is its area?",
     "A triangle fills as much of the rectangle around it as it leaves empty", "54"),
    ("A square bed has a perimeter of 20 feet. What is the length of one side?",
     "The way around is shared equally among the sides", "5 feet"),
    ("The average of three numbers is 14. Two of the numbers are 10 and 17. What is the third "
     "number?",
     "The mean tells the total, and what we know comes off", "15"),
    ("A cooking class starts at 11:40 a.m. and ends at 1:05 p.m. How many minutes long is the "
     "class?",
     "We count from full hour to full hour", "85 minutes"),
    ("There are 18 lupins and half as many poppies in the bed. How many poppies are in the bed?",
     "What we want is that fraction of the other amount", "9 poppies"),
    ("Miss Oduya's border has 53 asters. It has 24 fewer dahlias than asters. How many dahlias are "
     "in the border?",
     "The smaller amount is the larger without the difference", "29 dahlias"),
    ("Ilja picked 36 quinces and 25 more apples than quinces. How many apples did he pick?",
     "The larger amount is the smaller and the difference together", "61 apples"),
    ("The perimeter of a rectangle is 38 cm. Its length is 11 cm. What is its width?",
     "Halfway around is a length and a width", "8 cm"),
    ("Mona had some seeds. She planted 15 of them, found 5 more, and now has 30 seeds. How many "
     "seeds did she have at the beginning?",
     "what went is put back, and what came is taken off", "40 seeds"),
    ("A pump fills 84 buckets in 7 hours. At that rate, how many buckets does it fill in 5 hours?",
     "We find how much it is for each", "60 buckets"),
    ("A batch of dough is made with 2/3 cup of bran. Runa wants to make only 1/2 of a batch. How "
     "many cups of bran should she use?",
     "A part of an amount is so many of its equal parts", "2/6"),
    ("The rack has 16 forks. It has 3 times as many spoons as forks. How many spoons are in the "
     "rack?",
     "The larger amount is the smaller taken that many times", "48 spoons"),
    ("Five more than twice a number is 21. What is the number?",
     "We undo what was done, the last thing first", "8"),
    ("What is the next term in the sequence 7, 13, 19, 25, ...?",
     "From each number to the next it's the same step", "31"),
    ("What is 6 less than the product of 9 and 7?",
     "In numbers and signs, that's (9 × 7) − 6", "57"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "says", "answer"), _FORMS)
def test_a_known_form_says_why(stem: str, says: str, answer: str) -> None:
    told = said(stem)
    assert says in told
    assert answer in told
    for empty in ("the story is", "All of it on a single line", "just as it stands"):
        assert empty not in told


@pytest.mark.parametrize(
    ("stem", "choices", "says"),
    [
        (
            "If 4x + 5 = 33, then x =",
            ("7", "28", "9.5", "8"),
            "We undo what was done, the last thing first",
        ),
        (
            "What percent is equal to 7/20?",
            ("35%", "70%", "7%", "27%"),
            "A percent is so many of every 100",
        ),
        (
            "5/8 written as a decimal is",
            ("0.625", "0.58", "1.6", "0.85"),
            "A fraction is its numerator divided by its denominator",
        ),
        ("Which is equal to 4³?", ("64", "12", "81", "43"), "how often 4 is a factor"),
        ("(-6) - (-9) equals which of these?", ("3", "-15", "-3", "15"), "to add its opposite"),
        ("Which is equal to 45%?", ("9/20", "4/5", "1/45", "5/9"), "45 percent means 0.45."),
        (
            "Which of these is NOT equal to 3/5?",
            ("0.35", "60%", "0.6", "12/20"),
            "60 percent means 0.60.",
        ),
        ("Which decimal is equal to 9/20?", ("0.45", "0.920", "0.29", "4.5"), "both make 45/100"),
    ],
)
def test_what_is_no_story_says_why(stem: str, choices: tuple[str, ...], says: str) -> None:
    assert says in said(stem, *choices)


@pytest.mark.parametrize(
    ("stem", "never"),
    [
        (
            "A cart goes at a speed of 4 miles in an hour. How far does it go in 3 hours?",
            "The speed tells",
        ),
        ("A rectangle is 8 feet long and 5 feet wide. What is its area?", "triangle"),
        (
            "Mara fills 6 trays with 24 seedlings each. She gives away 18. How many are left?",
            "than",
        ),
        (
            "A cart covers 156 meters in 3 minutes. At the same speed, how far will it travel in 5 "
            "minutes?",
            "The speed tells",
        ),
        (
            "Ed buys 3 T-shirts at $12 each. He pays with a $50 bill. How much change does he get?",
            "the last thing first",
        ),
        (
            "Mona had 40 seeds. She planted 15 of them and found 5 more. How many seeds does she "
            "have now?",
            "put back",
        ),
        ("What is 3/8 + 2/8?", "In numbers and signs"),
    ],
)
def test_other_work_is_not_told_by_the_form(stem: str, never: str) -> None:
    assert never not in said(stem)


_ITEM = review_of(DEMO).items[0]


def test_only_the_end_of_a_percent_is_dollars() -> None:
    """25 × 24 = 600 is on the way: nobody saves $600."""
    told = said("A rake costs $24 and is on sale for 25% off. How much do you save?")
    assert "$600" not in told
    assert "$6." in told


def test_an_open_sentence_is_read_as_a_question() -> None:
    """A stem that its choices end is no statement; a request stays one."""
    for stem, read in (
        ("The product of 36 and 305 is", "The product of 36 and 305 is what?"),
        ("If 4x + 5 = 33, then x =", "If 4x + 5 = 33, then x = what?"),
        ("Find 3/8 + 2/8", "Find 3/8 + 2/8."),
    ):
        item = replace(_ITEM, parts=(replace(_ITEM.parts[0], ask=stem),))
        assert read_aloud(Words("en"), item, item.parts[0])[-1].caption == read


def test_wide_round_numbers_are_not_told() -> None:
    """12 − 7 lies between 10 − 7 and 20 − 7: that helps nobody."""
    wide = said(
        "Jack wants to buy a pot that costs $12. He has saved $7. How much more does he need?"
    )
    assert "How big" not in wide
    assert "That's $5" in wide.replace("So it's", "That's").replace("In dollars, that's", "That's")
    assert "How big" in said("There were 75 pots. 48 were sold. How many pots are left?")
