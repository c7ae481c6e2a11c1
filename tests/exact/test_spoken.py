"""Mathematics is read aloud as teachers read it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate.errors import ExactError
from narrate.exact.parser import parse
from narrate.exact.spoken import cardinal, fraction_words, ordinal, pieces_name, say, speak
from narrate.exact.tree import Frac, Op, Over, Whole, Writing
from tests.exact.trees import WRITINGS

# Sources of the rows, by their short names:
#   MathSpeak   MathSpeak core rules
#   NC DPI      North Carolina DPI, Rules for Recording, 2012-13
#   TEA         Texas Education Agency, read-aloud guidelines for STAAR paper tests
#   practice    common practice, no source
SPOKEN = [
    ("2/3", "two thirds", "MathSpeak"),
    ("1/2", "one half", "MathSpeak"),
    ("3/4", "three fourths", "practice"),
    ("1/4", "one fourth", "practice"),
    ("5/8", "five eighths", "MathSpeak"),
    ("11/12", "eleven twelfths", "MathSpeak"),
    ("13/12", "thirteen twelfths", "practice"),
    ("31/100", "thirty-one hundredths", "practice"),
    ("7/1000", "seven thousandths", "practice"),
    ("19/20", "nineteen twentieths", "practice"),
    ("29/30", "twenty-nine thirtieths", "practice"),
    ("0/5", "zero fifths", "MathSpeak"),
    ("2/2", "two halves", "practice"),
    ("7/25", "seven over twenty-five", "practice"),
    ("1/21", "one over twenty-one", "practice"),
    ("5/125", "five over one hundred twenty-five", "practice"),
    ("8/1", "eight over one", "practice"),
    ("2 3/4", "two and three fourths", "MathSpeak"),
    ("1 1/2", "one and one half", "MathSpeak"),
    ("3 7/25", "three and seven over twenty-five", "practice"),
    ("a/b", "a over b", "TEA"),
    ("x/4", "x over four", "TEA"),
    ("?/12", "blank over twelve", "practice"),
    ("□/12", "blank over twelve", "practice"),
    ("9/□", "nine over blank", "practice"),
    ("0", "zero", "MathSpeak"),
    ("0.5", "zero point five", "MathSpeak"),
    ("3.14", "three point one four", "MathSpeak"),
    ("0.305", "zero point three zero five", "MathSpeak"),
    ("2.50", "two point five zero", "MathSpeak"),
    ("1,204", "one thousand two hundred four", "practice"),
    ("2,000,000", "two million", "practice"),
    ("21", "twenty-one", "practice"),
    ("99", "ninety-nine", "practice"),
    ("3 + 4", "three plus four", "practice"),
    ("9 − 2", "nine minus two", "practice"),
    ("6 × 7", "six times seven", "practice"),
    ("6 · 7", "six times seven", "practice"),
    ("6(7)", "six times seven", "practice"),
    ("12 ÷ 3", "twelve divided by three", "practice"),
    ("4/8 = 1/2", "four eighths equals one half", "practice"),
    ("1 ≠ 2", "one is not equal to two", "NC DPI"),
    ("1 < 2", "one is less than two", "NC DPI"),
    ("2 > 1", "two is greater than one", "NC DPI"),
    ("1 ≤ 2", "one is less than or equal to two", "NC DPI"),
    ("2 ≥ 1", "two is greater than or equal to one", "NC DPI"),
    ("1/2 = 2/4 = 4/8", "one half equals two fourths equals four eighths", "practice"),
    ("−5", "negative five", "NC DPI"),
    ("3 − (−2)", "three minus negative two", "NC DPI"),
    ("−(−4)", "the opposite of negative four", "practice"),
    ("−(3 + 4)", "the opposite of the quantity three plus four", "practice"),
    ("−3/4", "negative three fourths", "practice"),
    ("3(x + 4)", "three times the quantity x plus four", "practice"),
    ("5/6 + 1/4", "five sixths plus one fourth", "practice"),
    ("3 + ? = 10", "three plus what number equals ten", "practice"),
    ("n − 1/5 = 3/4", "n minus one fifth equals three fourths", "TEA"),
]


@pytest.mark.parametrize(("written", "spoken", "source"), SPOKEN)
def test_a_writing_is_spoken(written: str, spoken: str, source: str) -> None:
    """Every row is read as its source, or common practice, reads it."""
    assert speak(parse(written)) == spoken, source


# Where brackets need words: common practice, no source.
GROUPED = [
    ("1 − (1/3 + 2/5)", "one minus the quantity one third plus two fifths"),
    ("1 − (1/3 + 2/5) = □", "one minus the quantity one third plus two fifths, equals what number"),
    ("10 − (3 + 4) + 1", "ten minus the quantity three plus four, plus one"),
    ("(3 + 4) × 2", "the quantity three plus four, times two"),
    ("12 ÷ (2 × 3)", "twelve divided by the quantity two times three"),
    ("(3/4 + 1/5) + 1/2", "three fourths plus one fifth plus one half"),
    ("1 + (2 + 3)", "one plus two plus three"),
    ("(3/4)", "three fourths"),
    ("(3 × 5)/(4 × 5)", "three times five, over four times five"),
    ("(3 × □)/(4 × 5)", "three times blank, over four times five"),
    (
        "3/4 = (3 × 5)/(4 × 5) = 15/20",
        "three fourths equals three times five, over four times five, equals fifteen twentieths",
    ),
    (
        "2 + (3 × 5)/(4 × 5)",
        "two plus the fraction three times five, over four times five",
    ),
    ("12 ÷ □/4", "twelve divided by the fraction blank over four"),
]


@pytest.mark.parametrize(("written", "spoken"), GROUPED)
def test_brackets_are_heard_where_the_meaning_needs_them(written: str, spoken: str) -> None:
    """A pause or "the quantity" tells apart what brackets tell apart."""
    assert speak(parse(written)) == spoken


def test_trees_that_no_text_writes_are_spoken_too() -> None:
    """Trees made by moves may lack brackets, or have whole numbers in an Over."""
    assert speak(Over(Whole(3), Whole(4))) == "three fourths"
    bare = Op("−", Whole(1), Op("+", Frac(1, 3), Frac(2, 5)))
    assert speak(bare) == "one minus the quantity one third plus two fifths"


@given(WRITINGS)
def test_no_digit_is_ever_spoken(tree: Writing) -> None:
    """What is spoken is words only."""
    said = speak(tree)
    assert said
    assert not any(character.isdigit() for character in said)
    assert "  " not in said


@given(WRITINGS)
def test_a_negative_number_is_never_called_minus(tree: Writing) -> None:
    """ "minus" is an operation: it never begins a sentence nor follows another sign."""
    said = speak(tree)
    for wrong in ("plus minus", "minus minus", "times minus", "by minus", "equals minus"):
        assert wrong not in said
    assert not said.startswith("minus")


@given(st.integers(0, 10**12 - 1))
def test_and_is_never_inside_a_whole_number(number: int) -> None:
    """American reading: "and" is kept for mixed numbers."""
    words = cardinal(number).replace("-", " ").split()
    assert words
    assert "and" not in words
    assert speak(Whole(number)) == cardinal(number)


@given(st.integers(21, 99).filter(lambda n: n % 10))
def test_twenty_one_to_ninety_nine_have_a_hyphen(number: int) -> None:
    """Common practice, no source."""
    tens, ones = cardinal(number).split("-")
    assert (tens, ones) == (cardinal(number - number % 10), cardinal(number % 10))


# CCSSM (2010) names these pieces in the standards 1.G.A.3, 2.G.A.3, 3.NF (denominators 2, 3, 4, 6,
# 8) and 4.NF (5, 10, 12, 100); the others are the ordinals, from memory.
PIECES = [
    (2, "half", "halves"),
    (3, "third", "thirds"),
    (4, "fourth", "fourths"),
    (5, "fifth", "fifths"),
    (6, "sixth", "sixths"),
    (7, "seventh", "sevenths"),
    (8, "eighth", "eighths"),
    (9, "ninth", "ninths"),
    (10, "tenth", "tenths"),
    (12, "twelfth", "twelfths"),
    (15, "fifteenth", "fifteenths"),
    (20, "twentieth", "twentieths"),
    (21, "twenty-first", "twenty-firsts"),
    (40, "fortieth", "fortieths"),
    (100, "hundredth", "hundredths"),
    (1000, "thousandth", "thousandths"),
    (1, "whole", "wholes"),
]


@pytest.mark.parametrize(("denominator", "one", "many"), PIECES)
def test_pieces_have_names(denominator: int, one: str, many: str) -> None:
    """Singular for one piece only."""
    assert pieces_name(denominator, 1) == one
    assert pieces_name(denominator) == pieces_name(denominator, 0) == many


def test_words_pass_through_and_mathematics_is_spoken() -> None:
    """Nothing is added between the pieces."""
    assert say(["Write ", Frac(3, 4), ", then ", Whole(1), "."]) == "Write three fourths, then one."
    assert say([]) == ""


def test_numbers_in_words() -> None:
    """The helpers that sentences use. Common practice, no source."""
    assert ordinal(3) == "third"
    assert ordinal(21) == "twenty-first"
    assert cardinal(-5) == "negative five"
    assert fraction_words(1, 8) == "one eighth"


def test_what_can_not_be_spoken_is_refused() -> None:
    """A zero denominator has no name, an unknown language no words."""
    with pytest.raises(ExactError, match="the denominator is zero"):
        fraction_words(3, 0)
    with pytest.raises(ExactError, match="can't be spoken in 'xx'"):
        speak(Whole(1), "xx")
