"""Mathematics is found in an item's own words, and words are left alone."""

from __future__ import annotations

import re
import sys

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from narrate.exact.parser import parse
from narrate.exact.prose import Run, caption_prose, pieces, read, say_prose, sentences
from narrate.exact.tree import Frac, Whole

# A text, and the stretches of it that are mathematics. Common practice, no source.
FOUND = [
    ("A rain barrel is 3/4 full.", ["3/4"]),
    ("It got 2 1/5 kilograms and 7/10 kilogram.", ["2 1/5", "7/10"]),
    ("2¾ cups, 1,204 seeds, 0.75 of it, .5 of it.", ["2¾", "1,204", "0.75", ".5"]),
    ("What is 3/4 + 1/5?", ["3/4 + 1/5"]),
    ("What number makes 3/4 + □ = 19/20 true?", ["3/4 + □ = 19/20"]),
    ("Solve 3 + ? = 10.", ["3 + ? = 10"]),
    ("3/4 + 1/5 = ?", ["3/4 + 1/5 = ?"]),
    ("3/4 = □/20 and ?/12 = 1/2", ["3/4 = □/20", "?/12 = 1/2"]),
    ("Solve n + 1/5 = 3/4 for n.", ["n + 1/5 = 3/4"]),
    ("1 − (1/3 + 2/5)", ["1 − (1/3 + 2/5)"]),
    ("(3 × 5)/(4 × 5) = 15/20.", ["(3 × 5)/(4 × 5) = 15/20"]),
    ("Beds of 3 x 4 feet", ["3 x 4"]),
    ("It fell to -5 degrees.", ["-5"]),
    ("Ann has 3, 4, and 5 (or 12).", ["3", "4", "5", "12"]),
    ("a 12-inch pot, a 3/4-inch pipe", ["12", "3/4"]),
    ("What goes in the □? What in ____?", ["□", "____"]),
    ("$2.50 for 45% of it", ["2.50", "45"]),
    ("5cm, 90°", ["5", "90"]),
    # words
    ("I ate a bit. Is a big one a lot?", []),
    ("two-thirds of a well-known x-axis", []),
    ("What? Why?", []),
    ("from 12:30 to 3:05", []),
    ("on 3/4/2024 or 2024-05-01", []),
    ("grades 3-8, pages 12–15", []),
    ("the 2nd, 3D, A4, B12, 5², 007, v1.2.3", []),
    ("3/0 is none", []),
    ("1234567890123 seeds", []),
    ("2 □/5 = 1", []),
    # half words, half mathematics
    ("a 3/4 cup", ["3/4"]),
    ("Take a 3 + 4 bed", ["3 + 4"]),
    ("- 3 cups", ["3"]),
    ("5 m - 3 m", ["5", "3"]),
    ("3/4 h + 1/2 h", ["3/4", "1/2"]),
    ("<b>3</b> pots", ["3"]),
    ("(a) 3 + 4", ["3 + 4"]),
    ("3/4 + 1/5 = 19/20 = □", ["3/4 + 1/5 = 19/20 = □"]),
    ("1. 3/4 + 1/5", ["1", "3/4 + 1/5"]),
]


@pytest.mark.parametrize(("text", "stretches"), FOUND)
def test_mathematics_is_found_and_words_are_left(text: str, stretches: list[str]) -> None:
    """Each stretch is found whole, with the tree the parser makes of it."""
    found = [run for run in read(text) if not isinstance(run.piece, str)]
    assert [text[run.start : run.end] for run in found] == stretches
    assert [run.piece for run in found] == [parse(stretch) for stretch in stretches]


def test_runs_have_the_places_of_the_text() -> None:
    """Places are character offsets of the source."""
    assert read("A 3/4 cup.") == (Run(0, 2, "A "), Run(2, 5, Frac(3, 4)), Run(5, 10, " cup."))
    assert pieces("12 pots") == (Whole(12), " pots")
    assert read("") == ()


# Sources as in test_spoken: TEA (abbreviations as words), practice (common practice, no source).
SAID = [
    ("Question 1", "Question one"),
    ("A rain barrel is 3/4 full.", "A rain barrel is three fourths full."),
    ("What is 3/4 + 1/5?", "What is three fourths plus one fifth?"),
    ("3 + ? = 10", "three plus question mark equals ten"),
    ("3/4 + □ = 1", "three fourths plus blank equals one"),
    ("?/12 = 1/2", "blank over twelve equals one half"),
    # A unit of which there is less than one (row 60 of the trade's table, from memory).
    ("3/4 cup", "three fourths of a cup"),
    ("7/10 kilogram.", "seven tenths of a kilogram."),
    ("1/2 inch of rain", "one half of an inch of rain"),
    ("She took 3/4 kilograms more.", "She took three fourths of a kilogram more."),
    ("the 3/4 cup of oats", "the three fourths of a cup of oats"),
    ("2 1/5 kilograms and 5/4 cups", "two and one fifth kilograms and five fourths cups"),
    ("a 3/4 cup measure", "a three fourths cup measure"),
    ("a 1/2 liter jug", "a one half liter jug"),
    ("1/3 full, 1/4 cup-sized", "one third full, one fourth cup-sized"),
    ("$2.50", "two dollars and fifty cents"),
    ("$0.75", "seventy-five cents"),
    ("$12", "twelve dollars"),
    ("$1 or $1.01 or $0.00", "one dollar or one dollar and one cent or zero dollars"),
    ("$3/4 or $2.5", "three fourths of a dollar or two point five dollars"),
    ("$1,204.50.", "one thousand two hundred four dollars and fifty cents."),
    ("45%", "forty-five percent"),
    ("1/2% of it", "one half percent of it"),
    ("1,204", "one thousand two hundred four"),
    ("at 12:30", "at twelve thirty"),
    ("at 3:05", "at three oh five"),
    ("at 2:00", "at two o'clock"),
    ("at 2:00 p.m.", "at two P M."),
    ("at 2:00 p.m. on Monday", "at two P M on Monday"),
    ("at 2 a.m. on Monday", "at two A M on Monday"),
    ("in the ratio 3:5", "in the ratio three to five"),
    ("6 cm", "six centimeters"),
    ("1 cm", "one centimeter"),
    ("0.5 cm", "zero point five centimeters"),
    ("3/4 cm", "three fourths of a centimeter"),
    ("1/2 in. of rain", "one half of an inch of rain"),
    ("1/2 h", "one half of an hour"),
    ("5/4 km", "five fourths kilometers"),
    ("2 1/5 kg", "two and one fifth kilograms"),
    ("1 1/2 in.", "one and one half inches."),
    ("12 in.²", "twelve square inches"),
    ("8 ft 3 in.", "eight feet three inches."),
    ("8 ft. 3 in. tall", "eight feet three inches tall"),
    ("60 mi/h", "sixty miles per hour"),
    ("90°", "ninety degrees"),
    ("20°C and 1°", "twenty degrees Celsius and one degree"),
    ("5 mL, 2 L, 3 mm, 4 m, 7 g, 8 mg", "five milliliters, two liters, three millimeters, "
     "four meters, seven grams, eight milligrams"),
    ("2 yd, 1 mi, 5 lb, 8 oz, 10 min, 30 s", "two yards, one mile, five pounds, eight ounces, "
     "ten minutes, thirty seconds"),
    ("3 in the box", "three in the box"),
    ("6 m-long beds", "six m-long beds"),
    ("a 12-inch pot", "a twelve-inch pot"),
    ("the 2nd and 3rd pot", "the second and third pot"),
    ("grades 3-8, pages 12–15", "grades three to eight, pages twelve to fifteen"),
    ("3D, A4, 5², 007", "three D, A four, five squared, zero zero seven"),
    ("1234567890123", "one two three four five six seven eight nine zero one two three"),
    ("3/4/2024", "three slash four slash two thousand twenty-four"),
    ("1.2.3", "one point two point three"),
    ("x ≈ 5 and y < z", "x is approximately equal to five and y is less than z"),
    ("2 □/5 = 1", "two blank over five equals one"),
    ("alert(1) and box(3/4)cups", "alert one and box three fourths cups"),
    ("(1)Add(1/2)+(1/3)", "one Add one half plus one third"),
    ("(a)1/2 or 5(five)", "(a) one half or five (five)"),
    ("<b>3</b>", "<b>three</b>"),
    ("It fell to -5.", "It fell to negative five."),
    ("٣ ① ", "three one "),
]  # fmt: skip


@pytest.mark.parametrize(("text", "said"), SAID)
def test_an_item_is_read_aloud(text: str, said: str) -> None:
    """Numbers, money, times and units are said in words; the rest stays as written."""
    assert say_prose(text) == said


CAPTIONED = [
    ("What is 3/4-1/5?", "What is 3/4 − 1/5?"),
    ("3 x 4 and 3 * 4", "3 × 4 and 3 × 4"),
    ("2¾ cups", "2 3/4 cups"),
    ("3 + ? = 10", "3 + □ = 10"),
    ("a well-known pot of 12 in. for $2.50 - at 12:30", "a well-known pot of 12 in. for $2.50 - "
     "at 12:30"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "captioned"), CAPTIONED)
def test_an_item_is_captioned(text: str, captioned: str) -> None:
    """Mathematics is in one style, words are as they were."""
    assert caption_prose(text) == captioned


SENTENCES = [
    (
        "A barrel is 3/4 full. A shower adds 1/5. How full is it now?",
        ["A barrel is 3/4 full.", "A shower adds 1/5.", "How full is it now?"],
    ),
    ("It has 0.75 kg. It grew 2.5 cm!", ["It has 0.75 kg.", "It grew 2.5 cm!"]),
    ("It is 6 in. wide. It is 3 ft. long.", ["It is 6 in. wide.", "It is 3 ft. long."]),
    ("It is 6 in. Then it grew.", ["It is 6 in.", "Then it grew."]),
    ("At 2:00 p.m. we left. Mr. Oak came.", ["At 2:00 p.m. we left.", "Mr. Oak came."]),
    ("Solve 3 + ? = 10. Show how.", ["Solve 3 + ? = 10.", "Show how."]),
    ("1. Add 3/4 and 1/5.", ["1. Add 3/4 and 1/5."]),
    ('"Is it?" she asked. "Yes." Then', ['"Is it?"', "she asked.", '"Yes."', "Then"]),
    ("No end", ["No end"]),
    ("", []),
]


@pytest.mark.parametrize(("text", "expected"), SENTENCES)
def test_a_text_is_split_into_sentences(text: str, expected: list[str]) -> None:
    """At full stops, question and exclamation marks that end one."""
    assert list(sentences(text)) == expected


# Texts as unlike an item as can be: digits of every script, signs, units and markup in a heap.
_PARTS = """
    3 12 0 1,204 0.5 .5 007 3/4 2¾ ½ ² ³ ٣ ① □ ? _ ___ + - − – × * ÷ / = < > ≤ ( ) a n x I
    cm in. m/s ° % $ : , . ; 12:30 p.m. 2nd <b> </b> two-thirds \x00 \ufffe
"""
_SOUP = st.lists(st.sampled_from([*_PARTS.split(), " ", "\n"]), max_size=30).flatmap(
    lambda parts: st.sampled_from(("", " ")).map(lambda space: space.join(parts))
)
_TEXTS = _SOUP | st.text(max_size=80)


@given(_TEXTS)
def test_runs_cover_the_text_in_order(text: str) -> None:
    """No character is lost or told twice, and words are as they were."""
    runs = read(text)
    assert [run.start for run in runs] == [0, *(run.end for run in runs)][: len(runs)]
    assert not runs or runs[-1].end == len(text)
    for run in runs:
        source = text[run.start : run.end]
        assert source
        assert run.piece == (source if isinstance(run.piece, str) else parse(source))


@given(_TEXTS)
@example("9" * 500)
@example("२०२४/५")
@example("³/₄ and 5⁴")
def test_no_digit_is_left_in_what_is_said(text: str) -> None:
    """Whatever the text, everything is in words."""
    assert not re.search(r"\d", say_prose(text))
    assert not any(character.isdigit() for character in say_prose(text))


# No digit, box or sign; no m either, so that no a.m. and p.m. come about.
_WORDS = st.text("abcdeghInopqrsxyz AEIOT.,;:!?'-\"\n", max_size=80)


@given(_WORDS)
def test_words_alone_come_through_unchanged(text: str) -> None:
    """A text without a number has no mathematics: neither reading changes it."""
    assert caption_prose(text) == text
    assert say_prose(text) == text


@given(_TEXTS)
def test_sentences_lose_nothing(text: str) -> None:
    """Put together they are the text, but for the space between."""
    assert "".join("".join(sentences(text)).split()) == "".join(text.split())


def test_long_texts_take_work_in_proportion() -> None:
    """Ten times the text takes about ten times the calls, even where nothing parses."""
    for heap in ("((((((3 + ", "1 + + ", "9/", "<", "? ", "n + ", "<a "):
        short, long = (_calls(heap * count) for count in (60, 600))
        assert long < 20 * short, heap


def _calls(text: str) -> int:
    """How many functions are called to read a text: the same on every machine."""
    count = 0

    def noted(frame: object, event: str, arg: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(noted)
    try:
        read(text)
    finally:
        sys.setprofile(None)
    return count


# Chicago Manual of Style 9.29, from memory: years are said in two halves. Commas: test_caption.py.
YEARS = [
    (
        "In 2026 the class picked 3,250 beans.",
        "twenty twenty-six",
        "In 2026 the class picked 3,250",
    ),
    ("Since 1998, 1027 jars came.", "nineteen ninety-eight", "Since 1998, 1027 jars"),
    ("How many came in the year 2005?", "two thousand five", "the year 2005?"),
    ("In 1548, which digit is in the tens place?", "one thousand five hundred", "In 1548, which"),
    ("In 1500 jars are 3 beans.", "one thousand five hundred jars", "In 1500 jars"),
    ("The harvest of 1998 gave 1,200 pounds.", "one thousand two hundred", "of 1998 gave 1,200"),
]


@pytest.mark.parametrize(("text", "said", "shown"), YEARS)
def test_a_year_is_no_amount(text: str, said: str, shown: str) -> None:
    assert said in say_prose(text)
    assert shown in caption_prose(text)
