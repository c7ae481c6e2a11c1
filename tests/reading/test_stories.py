"""Stories read from their words: right whatever their numbers, names and order; else declined."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time
from collections import Counter
from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.reading.words.understand import read_words
from tests.reading.stories import (
    CASTS,
    DECIMALS,
    FRACTIONS,
    PARTS,
    STORIES,
    WHOLE,
    Story,
    cases,
    cast,
)

ALL = [
    *cases(STORIES, [*WHOLE]),
    *cases(PARTS[:4], [*FRACTIONS]),
    *cases(PARTS[4:], [*FRACTIONS[:2], *DECIMALS]),
]
FIRST = {situation: (text, answer) for text, answer, situation in reversed(ALL)}


def value(text: str, *choices: str) -> Fraction | None:
    """The value read, None where it is declined."""
    try:
        return read_words(text, choices).value
    except Declined:
        return None


def test_there_are_enough_of_them() -> None:
    assert len(ALL) > 300
    assert {story.situation for story in (*STORIES, *PARTS)} == set(FIRST)


@pytest.mark.parametrize("situation", FIRST)
def test_the_answer_follows_the_numbers(situation: str) -> None:
    """The story stays, its numbers change: the answer is the formula's (worked by hand)."""
    for text, answer, told in ALL:
        if told == situation:
            assert value(text) == answer, text


def test_two_hundred_stories_are_told_with_five_numbers_each() -> None:
    """What the issue asks for: the stories in their settings, each at least five times."""
    told = Counter(situation for _, _, situation in ALL)
    assert len(told) * len(CASTS) >= 200
    assert min(told.values()) >= 5


@pytest.mark.parametrize("setting", range(1, len(CASTS)))
def test_the_answer_follows_the_numbers_in_every_setting(setting: int) -> None:
    """Other names, other things, other numbers: the answer is still the formula's."""
    wrong = [text for text, answer, _ in ALL if value(cast(text, setting)) != answer]
    assert wrong == []


@pytest.mark.parametrize("situation", FIRST)
def test_without_its_question_a_story_is_declined(situation: str) -> None:
    text, _ = FIRST[situation]
    kept = [s for s in re.split(r"(?<=[.?]) ", text) if not s.endswith("?")]
    assert value(" ".join(kept)) is None


@pytest.mark.parametrize("situation", FIRST)
@pytest.mark.parametrize(
    "question",
    [
        "How many wheelbarrows does Zora have?",
        "How old is the gardener?",
        "What time is it now?",
        "How much do 3 lanterns cost?",
        "How many fewer candles did Zora light than Pim?",
    ],
)
def test_what_the_story_does_not_give_is_declined(situation: str, question: str) -> None:
    text, _ = FIRST[situation]
    kept = [s for s in re.split(r"(?<=[.?]) ", text) if not s.endswith("?")]
    assert value(" ".join([*kept, question])) is None


_NAMES = {"Omar": "Sefa", "Ines": "Ruta", "Lin": "Pavo", "Kofi": "Idris", "Emre": "Jonna",
          "Tavi": "Mirel", "Ben": "Otto", "Ana": "Yuki", "Noor": "Sol", "Tariq": "Anouk",
          "Mei": "Ravi", "Wen": "Lale"}  # fmt: skip


@pytest.mark.parametrize("situation", FIRST)
def test_other_names_change_nothing(situation: str) -> None:
    text, answer = FIRST[situation]
    other = re.sub(r"\b(" + "|".join(_NAMES) + r")\b", lambda m: _NAMES[m[1]], text)
    assert value(other) == answer


_ANY_ORDER = (
    "compare", "put together, owners", "times, product", "times, number", "measures, more",
    "measures, longer", "measures, both",
)  # fmt: skip


@pytest.mark.parametrize("situation", [s for s in FIRST if s.startswith(_ANY_ORDER)])
def test_the_order_of_sentences_changes_nothing(situation: str) -> None:
    """Where nothing happens one after the other, and no pronoun points back."""
    text, answer = FIRST[situation]
    first, second, question = re.split(r"(?<=[.?]) ", text)
    assert value(f"{second} {first} {question}") == answer


# Words that look like one operation and go with another: the examples of our own in the facts about
# the trade, section 4. Linking key words to operations has no evidence (Powell & Fuchs 2018).
MISLEADING = [
    ("more", "Ana has 75 stickers after getting 18 more. How many stickers did she have at "
          "the start?",
     57),
    ("altogether", "There are 6 trays with 9 seedlings on each tray. How many seedlings are "
          "there altogether?",
     54),
    ("left", "The garden sold 40 kilograms of potatoes. 25 kilograms are left. "
     "How many kilograms of potatoes were there at first?", 65),
    ("fewer", "Ben has 14 beans. He has 6 fewer than Cai. How many beans does Cai have?", 20),
    ("each", "48 beans are shared so that each of 6 pupils gets the same number. "
     "How many beans does each pupil get?", 8),
    ("share", "Ana has 10 plums and shares 3 of them with Ben. How many plums does she have "
          "left?", 7),
    ("of", "12 of the 30 flowers are red. What fraction of the flowers is red?", Fraction(2, 5)),
    ("total", "A total of 72 eggs are packed in 8 equal boxes. How many eggs are in each box?", 9),
    ("times", "A red ribbon is 36 inches long. It is 4 times as long as a blue ribbon. "
     "How long is the blue ribbon?", 9),
    ("difference", "The difference between two numbers is 9. The smaller number is 5. "
     "What is the larger number?", 14),
    ("per", "There are 6 eggs per box. How many eggs are in 7 boxes?", 42),
    ("half", "15 is half of what number?", 30),
]  # fmt: skip


@pytest.mark.parametrize(("word", "text", "answer"), MISLEADING)
def test_a_misleading_word_misleads_nobody(word: str, text: str, answer: Fraction) -> None:
    assert value(text) == answer


EXTRA = [
    ("Omar had 26 red beans and 17 white beans. He ate 14 white beans and 9 red beans. "
     "How many red beans did Omar have left?", 17, ["17 white beans", "14 white beans"]),
    ("Wen got 10 letters in the morning, 5 letters in the afternoon and 4 letters in the evening. "
     "How many more letters did Wen get in the afternoon than in the evening?", 1,
     ["10 letters"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "answer", "extra"), EXTRA)
def test_numbers_that_are_not_needed_are_named(text: str, answer: int, extra: list[str]) -> None:
    found = read_words(text)
    assert found.value == answer
    assert [m.text for m in found.marks if m.role == "extra"] == extra
    assert "not needed" in found.why


DECLINED = [
    "Grandma has five flowers. How many can she put in her red vase and how many in her blue vase?",
    "Ana has 3 apples and Ben has 4 pears. How many plums does Cai have?",
    "Ana has 12 plums and Ben doubles that. How many plums do they have together?",
    "Tickets are 5 dollars, 20% off today. How much do 3 tickets cost?",
    "Emre has three times more cards than Lin. Lin has 4 cards. How many cards does Emre have?",
    "Ana ran 3 miles a day. How far did she run in two weeks?",
    "A pole is 2 feet long. A stick is 16 inches long. How many inches are they together?",
    "Lin had 9 pears. Some pears rolled away. How many pears does Lin have now?",
    "There were 9 pears and 5 plums. How many were not ripe?",
    "Yuki has 10 more labels than Otto. Together they spend 40 dollars. How many has Otto got?",
    "Marin and Nola each eat 4 plums a day. How many plums do they eat in 30 days?",
    "Idris had 18 pebbles. He skipped half of them, and Sol gave him 30. How many has he now?",
    "There are 20 labels on a page. Ana has 12 pages but loses one. How many labels are left?",
    "Zane buys 2 hoes from the 40% off rack. A hoe costs $50. How much did he pay for the hoes?",
    "About how many seeds are in 3 bags if each bag holds 48 seeds?",
    "A rectangular garden is 5 meters long and 3 meters wide. How many meters of edging go around "
    "three sides of it?",
]


@pytest.mark.parametrize("text", DECLINED)
def test_what_could_be_read_in_two_ways_or_none_is_declined(text: str) -> None:
    with pytest.raises(Declined) as caught:
        read_words(text)
    assert "`model:" in caught.value.add


def test_choices_that_do_not_hold_the_value_cast_doubt() -> None:
    text = "Omar has 17 seed packets. He gives 5 seed packets to Ines. How many does Omar have now?"
    assert value(text, "12", "22", "5") == 12
    with pytest.raises(Declined) as caught:
        read_words(text, ("22 packets", "5 packets"))
    assert caught.value.understood == "I read 17 − 5, which is 12, but no choice is 12"


def test_a_remainder_is_read_by_what_is_asked() -> None:
    assert value("23 pupils ride in vans. Each van holds 6 pupils. How many vans are needed?") == 4
    assert value("There are 29 apples. 4 apples fit in a bag. How many apples are left over?") == 1
    full = "There are 29 apples. Each bag holds 4 apples. How many full bags can be made?"
    assert value(full) in (7, None)


FRACTION_STORIES = [
    ("After using 2 1/3 cups of sugar, Kofi had 1 1/2 cups of sugar left. "
     "How much sugar did he have at first?", "23/6"),
    ("Noor had 3/4 of a liter of paint. She used 2/5 of a liter. "
     "How much paint does she have left?", "7/20"),
    ("1/3 of the pupils are in grade 4 and 1/2 are in grade 5. The rest are in grade 6. "
     "What fraction of the pupils is in grade 6?", "1/6"),
    ("Ben ran 3/4 mile. Cai ran 1/8 mile less than Ben. How far did Cai run?", "5/8"),
    ("The soup needs 5/6 cup of cream. Emre has 1/2 cup. "
     "How much more cream does he need?", "1/3"),
    ("Lale read 1/4 of her book on Monday and 3/8 of it on Tuesday. "
     "What fraction of the book is left to read?", "3/8"),
    ("The pitcher had 1 3/4 quarts of juice. Sefa poured in 1/2 quart more. "
     "How many quarts are in the pitcher now?", "9/4"),
    ("A bread was cut into 8 slices. Otto ate 3 slices. "
     "What fraction of the bread is left?", "5/8"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "answer"), FRACTION_STORIES)
def test_fractions_in_other_words(text: str, answer: str) -> None:
    assert value(text) == Fraction(answer)


SHORTER_TELLINGS = [
    # verbs left out, and what "that" points at
    ("Wen picked 5/6 kilogram of plums and Tavi 1/4 kilogram. How much more did Wen pick?", "7/12"),
    ("On Tuesday Lin ran 7/6 kilometers. That is 2/3 kilometer more than on Monday. "
     "How far did she run on Monday?", "1/2"),
    ("Lin ran 1/2 kilometer on Monday. On Tuesday she ran 7/6 kilometers. "
     "That is 2/3 kilometer more than on Monday. How far did she run in all?", "5/3"),
    ("A blue pot costs $4. A red pot costs 3 times as much. How much does the red pot cost?", "12"),
    ("A rope is 3/4 meter long. After a piece is cut off, 1/3 meter is left. "
     "How long is the piece?", "5/12"),
    ("Noor sowed 1/4 of the bed. In the afternoon she sowed another 3/8 of the bed. "
     "What fraction of the bed is sown now?", "5/8"),
    ("50 seedlings are planted in trays of 8. How many trays are needed to hold them all?", "7"),
    ("A jar costs $4.75. How much do 3 jars cost?", "57/4"),
    ("Emre had 100 beads. He kept 20 beads and shared the rest evenly among his 5 friends. "
     "How many beads did each friend get?", "16"),
    ("Ana got 4, 6 and 5 points in three games. What is her average score?", "5"),
    ("Yuki has 10 more labels than Otto. Together they have 40 labels. How many has Otto got?",
     "15"),
    ("Tomo has 3 times as many corks as Esme. They have 48 corks in all. "
     "How many corks does Esme have?", "12"),
    ("A sack holds 250 beans. What is 250 rounded to the nearest hundred?", "300"),
    # in notes
    ("24 bulbs set 6 to a pot; pots needed?", "4"),
    ("24 bulbs shared equally among 6 pots; in each pot?", "4"),
    ("24 bulbs in 6 equal rows; in each row?", "4"),
    ("4 pupils share 3 pies equally: each gets", "3/4"),
    ("each of 5 pupils uses 3/8 pound of flour; pounds needed", "15/8"),
    ("Mei has 9 figs, Ravi 4; how many more has Mei?", "5"),
    ("Mei has 5 more than Ravi; Ravi has 4; Mei?", "9"),
    ("nine figs; Sol ate some; then four; how many eaten?", "5"),
    ("green pot $5, brown pot costs 4 times as much; brown pot?", "20"),
    ("brown pot $20, that is 4 times as much as a green pot; green pot?", "5"),
    ("area 24 square feet, one side 4 feet; the other side?", "6"),
    ("area of a 4 foot by 6 foot bed", "24"),
    ("number of 1/4-cup scoops in 3 cups of rice", "12"),
    # equalities and other writings of a number
    ("5/6 = 1/6 + 4/6", "5/6"),
    ("wrong result 1/4 + 1/3 = 2/7", "7/12"),
    ("2 × (3/4) as 6 × (1/4)", "3/2"),
    ("Write 0.35 as a fraction.", "7/20"),
    ("7/10 as hundredths", "7/10"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "answer"), SHORTER_TELLINGS)
def test_what_is_told_shortly_is_read(text: str, answer: str) -> None:
    assert value(text) == Fraction(answer)


AS_SHORT_AND_NOT_READ = [
    "A jug held 2 liters of water and 1/2 liter of it was poured into a glass. "
    "How much water is in the glass?",
    "1/4 + 1/3 = 2/7",  # an equality that does not hold, and is not said to be wrong
    "The number of beds of each gardener: 2, 0, 3, 2, 4",
    "24 bulbs, 6 pots; tulips?",
    "24 bulbs; needed?",
    "Tomo has 3 times as many corks as Esme. They have 70 cents in all. "
    "How many corks does Esme have?",
    "The class bought 16 tins of paint to cover the four walls. They used 1 tin of paint on a gate "
    "instead. How many tins of paint are left?",
    "Ravi pays 15 dollars a month for 11 months, with an additional 10% of the money. "
    "How much money does he pay?",
    "Sol has 20 dollars worth of corks less than Ulla. Ulla has 60 corks worth 4 dollars each. "
    "How many corks does Sol have?",
]  # fmt: skip


@pytest.mark.parametrize("text", AS_SHORT_AND_NOT_READ)
def test_what_is_told_shortly_and_unsurely_is_declined(text: str) -> None:
    assert value(text) is None


@pytest.mark.parametrize("seed", ["1", "2", "3"])
def test_a_reading_does_not_hang_on_the_order_of_sets(seed: str) -> None:
    """The same text gives the same reading in every run of Python."""
    text = " | ".join(text for text, _ in SHORTER_TELLINGS[1:6])
    code = (
        "import sys\n"
        "from narrate.reading.words.understand import read_words\n"
        "for text in sys.argv[1].split(' | '): print(read_words(text))"
    )
    done = [
        subprocess.run(
            [sys.executable, "-c", code, text],
            env={**os.environ, "PYTHONHASHSEED": each, "PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            check=True,
        ).stdout
        for each in ("0", seed)
    ]
    assert done[0] == done[1] != b""


def test_new_and_old_are_told_apart() -> None:
    text = "Lale had 8 new pots and 6 old pots. Her sister had 4 new pots. {}"
    assert value(text.format("How many new pots do they have together?")) == 12


def test_a_reading_names_what_it_read() -> None:
    """As the issue's example: two amounts with their owners, the situation, what to work out."""
    text = (
        "The first bed got 2 1/5 kilograms of compost. The second bed got 7/10 kilogram. "
        "How many more kilograms did the first bed get than the second bed?"
    )
    found = read_words(text)
    assert found.expression is not None
    assert write(found.expression) == "2 1/5 − 7/10"
    assert (found.situation, found.unknown, found.unit) == ("difference", "difference", "kilogram")
    assert [(m.role, m.of) for m in found.marks if m.role == "amount"] == [
        ("amount", "first bed"),
        ("amount", "bed second"),
    ]
    assert all(text[m.start : m.end] == m.text for m in found.marks)


HOSTILE = ["1 and ", "((((", "- ", "each of ", "3 more than ", "1/2 ", "How many ", "? ", "|", "2^",
           "$ ", "‮", "\x00", "😀", "{{ x }} ", "<b>", "{% raw %}", "x = ", "3, ", "a third of ",
           "rounded to the nearest ", "one hundred and "]  # fmt: skip


@pytest.mark.parametrize("piece", HOSTILE)
@pytest.mark.parametrize("start", ["", "What is ", "How many apples does Ana have? "])
def test_hostile_text_is_answered_or_declined_in_time(piece: str, start: str) -> None:
    """Ten times the text takes no more than about ten times as long, and never an error."""
    times = []
    for length in (10_000, 100_000):
        text = (start + piece * length)[:length]
        begun = time.perf_counter()
        value(text)
        times.append(time.perf_counter() - begun)
    assert times[1] < 2
    assert value((start + piece * 500)[:1_900]) is None or start.startswith("What")


def test_one_reading_takes_less_than_twenty_milliseconds() -> None:
    """On average, of the time of this process: a machine may pause, or do other work."""
    for text, _ in FIRST.values():
        value(text)
    begun = time.process_time()
    for text, _ in FIRST.values():
        value(text)
    assert (time.process_time() - begun) / len(FIRST) < 0.02


def test_a_story_is_told_with_its_numbers() -> None:
    story = Story("x", "{a} and {b}", lambda a, b: a + b)
    assert story.told("1/2", "3") == "1/2 and 3"
