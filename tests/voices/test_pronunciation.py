"""Said as people say it: fractions, units, letters of choices, checked by phonemes.

What is spoken is "Mathematics aloud" (MathSpeak core rules and two states' read-aloud guidelines);
how a word sounds is what the CMU Pronouncing Dictionary says (Debian's `festlex-cmu`).
"""

from __future__ import annotations

import re

import pytest

from narrate.exact.parser import parse
from narrate.exact.spoken import speak
from narrate.lesson.lesson import Lesson
from narrate.voices import espeak_ng, festival
from tests.outputs.test_deck_plays import demo
from tests.voices.spelled_out import by_dictionary, by_espeak, by_festival, said_by_espeak, same
from tests.voices.test_voices import need

NUMBERS = """zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen
fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety
hundred thousand million"""
PIECES = """half halves third thirds fourth fourths quarter quarters fifth fifths sixth sixths
seventh sevenths eighth eighths ninth ninths tenth tenths eleventh hundredth hundredths thousandth
thousandths"""
UNITS = """centimeter centimeters meter meters kilometer kilometers gram grams kilogram kilograms
liter liters milliliter milliliters inch inches foot feet yard yards mile miles ounce ounces pound
pounds cup cups pint pints quart quarts gallon gallons dollar dollars cent cents hour hours minute
minutes second seconds degree degrees percent square"""
TERMS = """numerator denominator fraction fractions mixed whole equal equals equivalent multiple
multiples common least product sum divided times plus minus over point negative blank
choice question estimate simplest regroup remainder quotient decimal line strip"""

LONG = {
    "twelfths": "t w eh l f th s",
    "fifteenths": "f ih f t iy n th s",
    "twentieths": "t w eh n t * * th s",
    "numerators": "n uw m * r ey t * r z",
    "denominators": "t * n aa m * n ey t * r z",
    "difference": "t ih f r * n s",
}
"""Words that the dictionary has not, as it has "twelfth", "fifteenth" and so on; and its second
entry for one that the package has not taken over (from memory)."""


@pytest.fixture(autouse=True)
def _voices() -> None:
    need("espeak-ng")
    need("festival")


@pytest.mark.parametrize("words", [NUMBERS, PIECES, UNITS, TERMS])
def test_the_words_of_mathematics_sound_as_in_the_dictionary(words: str) -> None:
    names = words.split()
    listed = by_dictionary(names)
    assert sum(map(bool, listed)) >= len(names) * 9 // 10
    wrong = {
        name: (said, entries)
        for name, said, entries in zip(names, by_espeak(names), listed, strict=True)
        if entries and not any(same(said, entry) for entry in entries)
    }
    assert wrong == {}


def test_the_check_hears_another_word() -> None:
    """It would tell fourths from forths of another kind: force, sixths from sixes, A from uh."""
    ((fourths,), (tenths,), (liter,)) = by_dictionary(["fourths", "tenths", "liter"])
    force, tents, later, fine = by_espeak(["force", "tents", "later", "fourths"])
    assert same(fine, fourths)
    assert not any((same(force, fourths), same(tents, tenths), same(later, liter)))


def test_words_that_are_not_in_it() -> None:
    for word, said in zip(LONG, by_espeak(list(LONG)), strict=True):
        assert same(said, LONG[word]), (word, said)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("2/3", "two thirds"),
        ("1/2", "one half"),
        ("3/4", "three fourths"),
        ("5/8", "five eighths"),
        ("11/12", "eleven twelfths"),
        ("13/12", "thirteen twelfths"),
        ("19/20", "nineteen twentieths"),
        ("2 3/4", "two and three fourths"),
        ("1 1/2", "one and one half"),
        ("31/100", "thirty-one hundredths"),
        ("0.305", "zero point three zero five"),
        ("3/4 + 1/5", "three fourths plus one fifth"),
    ],
)
def test_what_is_written_is_said_in_these_words(written: str, words: str) -> None:
    """ "Mathematics aloud", rows 1 to 18 and 73; and the words sound as each does alone."""
    assert speak(parse(written)) == words
    (said,) = by_espeak([words])
    alone = " ".join(by_espeak(re.split("[ -]", words)))
    assert same(said, alone)


LETTER = [
    "Choice A.",
    "The answer is choice A.",
    "A is too large.",
    "So A is right.",
    "A: two thirds.",
    "A, B and C are wrong.",
    "Choices A and B are out.",
    "So A and D are out.",
    "A isn't a sum.",
    "The one at A has it.",
    "Which is it, A or B?",
]
ARTICLE = [
    "A rain barrel is full.",
    "A shower adds more.",
    "A garden is in a school.",
    "A number is a number.",
    "Is that a sum?",
    "A half and a third.",
]


@pytest.mark.parametrize("name", ["espeak-ng", "festival"])
@pytest.mark.parametrize("text", LETTER)
def test_the_letter_a_is_called_by_its_name(text: str, name: str) -> None:
    """EY1, as in "say"; row 69: "choice A"."""
    assert "ey" in first_a(text, name), text


@pytest.mark.parametrize("name", ["espeak-ng", "festival"])
@pytest.mark.parametrize("text", ARTICLE)
def test_the_article_is_not(text: str, name: str) -> None:
    """AH0, as in "about"."""
    assert "ey" not in first_a(text, name), text


def first_a(text: str, name: str) -> list[str]:
    """The phones of a text up to its first A and that one, but not those of later words."""
    before, _, _ = re.split(r"(\b[Aa]\b)", text, maxsplit=1)
    if name == "festival":
        left = by_festival(festival.respelt(before)) if before.strip() else []
        return by_festival(festival.respelt(text))[: len(left) + 1]
    found = said_by_espeak(text)
    return found[: len(said_by_espeak(before)) + 1]


@pytest.mark.parametrize("letter", "BCDEFGH")
def test_other_letters_too(letter: str) -> None:
    """The dictionary has the names of letters."""
    (name,), *_ = [by_dictionary([letter.lower()])[0][:1]]
    (said,) = by_espeak([f"choice {letter}"])
    assert same(said.split(" s ", 1)[1], name)


def test_every_letter_a_of_the_demo_is_told_from_the_article() -> None:
    """Read: where a capital A begins a sentence and is no letter, a thing follows it."""
    lesson: Lesson = demo()
    texts = [s.say for beat in lesson.beats for s in beat.sentences]
    articles = {
        match[0] for text in texts for match in re.finditer(r"\bA \w+", espeak_ng.respelt(text))
    }
    letters = [text for text in texts if "[['eI]]" in espeak_ng.respelt(text)]
    assert articles <= {
        "A rain", "A shower", "A common", "A garden", "A recipe", "A fraction", "A number",
        "A multiple", "A denominator", "A numerator", "A mixed", "A watering", "A second",
    }  # fmt: skip
    assert len(letters) > 5
