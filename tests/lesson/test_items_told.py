"""What is said of whole items, read by us as pupil and teacher: what fits them, and what does not.

Slips S042 and the singular of units are those of the project's list; the answers were worked by
hand. That a check undoes the work, and that what is not needed is named, is common practice.
"""

from __future__ import annotations

import pytest

from narrate.exact import prose
from narrate.exact.caption import write
from narrate.lesson.shows import StemMark
from narrate.lesson.telling import tell_part
from narrate.lesson.view import Told
from narrate.lesson.wording import Words
from tests.solving import solve_one, solved_one


def told(stem: str, *choices: str, **keys: str) -> tuple[Told, ...]:
    solved = solved_one(stem, choices=dict(zip("ABCD", choices, strict=False)), **keys)
    return tell_part(Words("en"), solved, set())


def said(beats: tuple[Told, ...], move: str = "") -> str:
    lines = (s.caption for b in beats if move in ("", b.beat.move) for s in b.beat.sentences)
    return "\n".join(lines)


EGGS = (
    "A box holds 24 eggs and costs $6. The kitchen needs 120 eggs. How many boxes must it buy?",
    "4", "5", "6", "20",
)  # fmt: skip
FLOUR = (
    "Oddny has 250 grams of flour, 2 eggs and 90 grams of sugar. How many more grams of flour than "
    "sugar does she have?",
    "160", "340", "158", "248",
)  # fmt: skip


@pytest.mark.parametrize(("item", "phrase"), [(EGGS, "$6"), (FLOUR, "2 eggs")])
def test_a_number_that_is_not_needed_is_named_and_struck(
    item: tuple[str, ...], phrase: str
) -> None:
    beats = told(*item)
    [beat] = [each for each in beats if each.beat.move == "not needed"]
    assert f"“{phrase}”" in said((beat,))
    marks = [show for show in beat.shows if isinstance(show, StemMark)]
    assert [item[0][m.start : m.end] for m in marks] == [phrase]
    assert {m.role for m in marks} == {"extra"}


def test_where_every_number_is_used_none_is_struck() -> None:
    beats = told("A bag holds 6 bulbs. How many bulbs are in 4 bags?", "24", "10", "2", "28")
    assert not [each for each in beats if each.beat.move == "not needed"]


def test_no_slip_with_the_parts_of_a_fraction_where_there_is_none() -> None:
    """30 ÷ 4 is 7.5, which is also 30 × 2 over 4 × 2: but no fraction is told."""
    stem, choices = "Four sacks cost $30.", ("$15.00", "$7.50", "$60.00", "$3.75")
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=True)), model="30 ÷ 4 × 2")
    assert row["choices"]["B"]["slip"] == "first step only"


@pytest.mark.parametrize(
    ("model", "line"),
    [("4 1/2 × 8", "32 + 4 = 36"), ("3 1/2 × 2", "6 + 1 = 7"), ("2 2/3 × 6", "12 + 4 = 16")],
)
def test_so_many_times_and_a_part_are_checked_apart(model: str, line: str) -> None:
    text = said(told("A bed.", line.split(" = ")[1], "99", model=model), "look back")
    assert line in text
    assert "has to be" not in text


LETTER = ("What value of n makes 5n + 3 = 38 true?", "5", "7", "8", "41")


def test_the_number_for_a_letter_is_put_back_in() -> None:
    beats = told(*LETTER)
    assert "5 × 7 + 3 = 38" in said(beats, "look back")
    assert "letter" in said(beats, "asked") or "equation" in said(beats, "asked")


def test_a_letter_is_written_as_the_item_writes_it() -> None:
    stem = "There are n rows with 5 plants in each row. Mirela adds 3 more plants. "
    close = told(
        f"{stem}Which expression shows how many plants there are?",
        "5n + 3",
        "8n",
        "5 + n + 3",
        "5n − 3",
    )
    assert "5n + 3" in said(close, "choose")
    assert "five n plus three" in " ".join(s.say for b in close for s in b.beat.sentences)
    signed = told(
        f"{stem}Which expression shows how many plants there are?",
        "5 × n + 3",
        "8 × n",
        "5 + n",
        "n − 3",
    )
    assert "5 × n + 3" in said(signed, "choose")


@pytest.mark.parametrize(
    ("stem", "choices", "word"),
    [
        ("What is the value of the digit 7 in 4,732?", ("7", "70", "700", "7,000"), "place"),
        ("What is the median of 12, 7, 9, 15, 10?", ("9", "10", "11", "8"), "order"),
        ("What is the greatest common factor of 18 and 24?", ("2", "3", "6", "72"), "factors"),
    ],
)
def test_what_is_taken_along_fits_what_was_asked(
    stem: str, choices: tuple[str, ...], word: str
) -> None:
    assert word in said(told(stem, *choices), "take along")


def test_a_time_is_earlier_or_later_and_written_as_one() -> None:
    stem = "The garden tour starts at 3:35 p.m. and lasts 45 minutes. When does it end?"
    choices = {"A": "4:05 p.m.", "B": "4:20 p.m.", "C": "4:45 p.m."}
    row = solve_one(stem, choices=choices)
    assert (row["key"], row["written"]) == ("B", "4:20 p.m.")
    assert [row["choices"][n]["reason"] for n in "AC"] == [
        "earlier than 4:20 p.m.",
        "later than 4:20 p.m.",
    ]


def test_more_than_one_measure_is_several() -> None:
    stem = "A recipe for one loaf needs 3/4 cup of milk. How much milk do 5 loaves need?"
    text = said(told(stem, "3 3/4 cups", "5 3/4 cups", "15/20 cup", "1 1/4 cups"))
    assert "3 3/4 cups" in text
    assert "3 3/4 cup." not in text


@pytest.mark.parametrize(
    ("text", "spoken"),
    [
        ("He pays with a $50 note.", "He pays with a fifty-dollar note."),
        ("She buys a $12 book for $3.", "She buys a twelve-dollar book for three dollars."),
        ("It costs $5 more.", "It costs five dollars more."),
    ],
)
def test_what_a_thing_is_worth_stands_before_it(text: str, spoken: str) -> None:
    assert prose.say_prose(text) == spoken


def test_a_product_is_close_only_as_it_was_written() -> None:
    assert write(solved_one("5 × 3", boxes=["number"]).reading.expression) == "5 × 3"


@pytest.mark.parametrize(
    ("stem", "choices", "slips"),
    [
        ("What is the median of 12, 7, 9, 15, 10?", ("9", "10", "10.6", "8"),
         ("not in order", None, "mean for median", None)),
        ("What is the mean of 6, 9, 10 and 15?", ("9.5", "10", "40", "9"),
         ("median for mean", None, "not shared", None)),
        ("What is the greatest common factor of 18 and 24?", ("3", "6", "72", "42"),
         ("not the greatest", None, "multiple for factor", None)),
        ("What is the least common multiple of 6 and 8?", ("2", "24", "48", "14"),
         ("factor for multiple", None, "not the least", None)),
        ("What is the value of the digit 7 in 4,732?", ("7", "70", "700", "7,000"),
         ("digit itself", "next place", None, "next place")),
    ],
)  # fmt: skip
def test_slips_with_numbers_asked_for_by_name(
    stem: str, choices: tuple[str, ...], slips: tuple[str | None, ...]
) -> None:
    """S106 of the list of slips; the others are common practice, no source."""
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=True)))
    assert tuple(row["choices"][letter]["slip"] for letter in "ABCD") == slips
