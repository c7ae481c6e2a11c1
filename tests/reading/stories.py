"""Stories of our own, a school garden and its kitchen, each with its answer as a formula.

For every situation of CCSSM (2010), glossary Tables 1 and 2, with what is unknown in each, and for
fractions and decimals. `{a}`, `{b}`, `{c}` stand for numbers; `answer` works the answer out by hand
from the words, not from any reading.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

Numbers = tuple[Fraction, ...]


class Story(NamedTuple):
    """A story, its situation, its answer, and which numbers make sense in it."""

    situation: str
    text: str
    answer: Callable[..., Fraction]
    fits: Callable[..., bool] = lambda *n: True

    def told(self, *numbers: str) -> str:
        """The story with numbers put in."""
        return self.text.format(**dict(zip("abc", numbers, strict=False)))


def _less(a: Fraction, b: Fraction, *more: Fraction) -> bool:
    return a > b + sum(more, Fraction(0))


def _shared(a: Fraction, b: Fraction) -> bool:
    return a % b == 0 and a > b


STORIES: tuple[Story, ...] = (
    # Table 1: add to, take from
    Story("add to, result", "{a} bees sat on the lavender. {b} more bees came. "
          "How many bees are on the lavender now?", lambda a, b: a + b),
    Story("add to, change", "{b} bees sat on the lavender. Some more bees came. Then there "
          "were {a} bees. "
          "How many bees came?", lambda a, b: a - b, _less),
    Story("add to, start", "Some pupils were in the garden. {b} more pupils came. Now there "
          "are {a} pupils. "
          "How many pupils were in the garden at first?", lambda a, b: a - b, _less),
    Story("take from, result", "Omar has {a} seed packets. He gives {b} seed packets to Ines. "
          "How many seed packets does Omar have now?", lambda a, b: a - b, _less),
    Story("take from, change", "There were {a} birds in the pear tree. Some birds flew away. "
          "Now there are {b} birds in the tree. How many birds flew away?", lambda a, b: a - b,
          _less),
    Story("take from, start", "Lin had some labels. She gave {a} labels to Omar. Now she has "
          "{b} labels. "
          "How many labels did Lin have to begin with?", lambda a, b: a + b),
    Story("in and out", "The kitchen had {a} jars. The class filled {b} more jars and gave "
          "away {c} jars. "
          "How many jars does the kitchen have now?", lambda a, b, c: a + b - c,
          lambda a, b, c: a > c),
    Story("take from twice", "Kofi had {a} beans. He ate {b} beans on Monday and {c} beans on "
          "Tuesday. "
          "How many beans does he have left?", lambda a, b, c: a - b - c, _less),
    # Table 1: put together, take apart
    Story("put together, total", "{a} red tulips and {b} yellow tulips are in the pot. "
          "How many tulips are in the pot?", lambda a, b: a + b),
    Story("put together, owners", "Emre has {a} books. Ines has {b} books. "
          "How many books do they have altogether?", lambda a, b: a + b),
    Story("put together, days", "Tavi read {a} pages on Monday and {b} pages on Tuesday. "
          "How many pages did Tavi read in all?", lambda a, b: a + b),
    Story("take apart, part", "There are {a} plants in the greenhouse. {b} of them are tomato "
          "plants "
          "and the rest are pepper plants. How many pepper plants are there?",
          lambda a, b: a - b, _less),
    # Table 1: compare
    Story("compare, difference", "Omar picked {a} apples. Ines picked {b} apples. "
          "How many more apples did Omar pick than Ines?", lambda a, b: a - b, _less),
    Story("compare, difference (fewer)", "Omar picked {a} apples. Ines picked {b} apples. "
          "How many fewer apples did Ines pick than Omar?", lambda a, b: a - b, _less),
    Story("compare, larger", "Ben collected {a} leaves. Ana collected {b} more leaves than Ben. "
          "How many leaves did Ana collect?", lambda a, b: a + b),
    Story("compare, larger (fewer)", "Ben has {a} leaves. Ben has {b} fewer leaves than Ana. "
          "How many leaves does Ana have?", lambda a, b: a + b),
    Story("compare, smaller (more)", "Ana has {b} more leaves than Ben. Ana has {a} leaves. "
          "How many leaves does Ben have?", lambda a, b: a - b, _less),
    Story("compare, smaller", "Ana collected {a} leaves. Ben collected {b} fewer leaves than Ana. "
          "How many leaves did Ben collect?", lambda a, b: a - b, _less),
    Story("needed", "Noor needs {a} beads for a necklace. She has {b} beads. "
          "How many more beads does she need?", lambda a, b: a - b, _less),
    # Table 2: equal groups, arrays, areas
    Story("groups, product", "There are {a} bags with {b} plums in each bag. "
          "How many plums are there in all?", lambda a, b: a * b),
    Story("groups, product (a box holds)", "A box holds {b} eggs. How many eggs do {a} boxes hold?",
          lambda a, b: a * b),
    Story("groups, size", "Lin has {a} seeds. She plants the same number of seeds in each of "
          "{b} pots. "
          "How many seeds are in each pot?", lambda a, b: a / b, _shared),
    Story("groups, size (shared)", "Noor shares {a} berries equally among {b} friends. "
          "How many berries does each friend get?", lambda a, b: a / b, _shared),
    Story("groups, number", "There are {a} pupils in the garden club. They work in groups of {b}. "
          "How many groups are there?", lambda a, b: a / b, _shared),
    Story("groups, number (length)", "A rope {a} feet long is cut into pieces {b} feet long. "
          "How many pieces are there?", lambda a, b: a / b, _shared),
    Story("array, product", "A cold frame has {a} rows with {b} lettuces in each row. "
          "How many lettuces are in the cold frame?", lambda a, b: a * b),
    Story("area, product", "The bed is {a} meters long and {b} meters wide. What is the area "
          "of the bed?",
          lambda a, b: a * b),
    Story("rate", "A worker earns ${b} an hour. How much does he earn in {a} hours?", lambda a,
          b: a * b),
    Story("price", "A bag of soil costs ${b}. How much do {a} bags of soil cost?", lambda a,
          b: a * b),
    # Table 2: times as many
    Story("times, product", "Tariq has {a} times as many marbles as Mei. Mei has {b} marbles. "
          "How many marbles does Tariq have?", lambda a, b: a * b),
    Story("times, size", "A red ribbon is {a} inches long. It is {b} times as long as a blue "
          "ribbon. "
          "How long is the blue ribbon?", lambda a, b: a / b),
    Story("times, number", "Tariq has {a} marbles. Mei has {b} marbles. "
          "How many times as many marbles does Tariq have as Mei?", lambda a, b: a / b, _shared),
    # two steps
    Story("groups, then taken", "Ana bought {a} packs of seeds with {b} seeds in each pack. "
          "She gave away {c} seeds. How many seeds are left?",
          lambda a, b, c: a * b - c, lambda a, b, c: a * b > c),
    Story("groups and more", "There are {a} boxes of {b} pencils and {c} loose pencils. "
          "How many pencils are there in all?", lambda a, b, c: a * b + c),
    Story("times, together", "Emre has {a} times as many cards as Lin. Lin has {b} cards. "
          "How many cards do they have together?", lambda a, b: (a + 1) * b),
    Story("bought", "Wen has ${c}. He buys {a} notebooks for ${b} each. "
          "How much money does he have left?", lambda a, b, c: c - a * b,
          lambda a, b, c: c > a * b),
)  # fmt: skip

PARTS: tuple[Story, ...] = (
    Story("of a whole, added", "A rain barrel is {a} full. A shower adds another {b} of the "
          "barrel. "
          "What fraction of the barrel is full now?", lambda a, b: a + b),
    Story("of a whole, together", "Tulips cover {a} of a bed, and daisies cover {b} of it. "
          "What fraction of the bed do tulips and daisies cover together?", lambda a, b: a + b),
    Story("of a whole, the rest", "Parsley covers {a} of a bed and chives cover {b} of it. "
          "The rest of the bed is mint. What fraction of the bed is mint?",
          lambda a, b: 1 - a - b, lambda a, b: a + b < 1),
    Story("of a whole, difference", "Tulips cover {a} of a bed, and daisies cover {b} of it. "
          "By what fraction of the bed do the tulips cover more than the daisies?",
          lambda a, b: a - b, _less),
    Story("measures, left", "A hose is {a} meters long. Lin cuts off {b} meters. "
          "How many meters of hose are left?", lambda a, b: a - b, _less),
    Story("measures, both", "The first bed got {a} kilograms of compost. "
          "The second bed got {b} kilograms. How many kilograms of compost were used on both beds?",
          lambda a, b: a + b),
    Story("measures, more", "The first bed got {a} kilograms of compost. "
          "The second bed got {b} kilograms. "
          "How many more kilograms did the first bed get than the second bed?",
          lambda a, b: a - b, _less),
    Story("measures, longer", "The red rope is {a} meters long. The blue rope is {b} meters long. "
          "How much longer is the red rope than the blue rope?", lambda a, b: a - b, _less),
    Story("measures, weighed", "The pumpkin weighs {a} kilograms and the squash weighs {b} "
          "kilograms. "
          "How much do they weigh together?", lambda a, b: a + b),
)  # fmt: skip

WHOLE = [("24", "6", "5"), ("48", "8", "7"), ("63", "9", "4"), ("96", "12", "11"), ("150", "25",
          "20"),
         ("36", "3", "2"), ("1,200", "40", "30"), ("81", "27", "13"), ("8", "2", "3"), ("3", "5",
          "90"),
         ("4", "6", "80"), ("2", "9", "60"), ("5", "7", "45"), ("6", "3", "70")]  # fmt: skip
FRACTIONS = [("2/3", "1/4"), ("3/4", "1/5"), ("1/2", "1/3"), ("5/8", "1/4"), ("2/5", "3/10"),
             ("7/10", "1/6")]  # fmt: skip
DECIMALS = [
    ("4.5", "1.25"),
    ("0.9", "0.35"),
    ("12.40", "3.6"),
    ("2 3/4", "1 1/2"),
    ("5 1/4", "2 5/6"),
]


def cases(
    stories: tuple[Story, ...], numbers: list[tuple[str, ...]]
) -> Iterator[tuple[str, Fraction, str]]:
    """Every story with every row of numbers that makes sense in it: text, answer, situation."""
    for story in stories:
        count = sum(f"{{{letter}}}" in story.text for letter in "abc")
        for row in numbers:
            if len(row) < count:
                continue
            used = row[:count] if "{c}" in story.text or count == len(row) else row[:2]
            values = [_value(n) for n in used]
            if story.fits(*values):
                yield story.told(*used), story.answer(*values), story.situation


def _value(written: str) -> Fraction:
    return sum((Fraction(part) for part in written.replace(",", "").split()), Fraction(0))


CASTS = (
    "",
    "Omar:Sefa Ines:Ruta Lin:Pavo Kofi:Idris Emre:Jonna Tavi:Mirel Ben:Otto Ana:Yuki Noor:Sol "
    "Tariq:Anouk Mei:Ravi Wen:Lale bees:moths apples:pears plums:onions beans:peas books:aprons "
    "leaves:stones marbles:buttons cards:tickets kilograms:pounds meters:feet jars:pots",
    "Omar:Nilo Ines:Tova Lin:Amaya Kofi:Bram Emre:Zuri Tavi:Ezra Ben:Hana Ana:Ilja Noor:Malik "
    "Tariq:Saga Mei:Davi Wen:Runa bees:beetles apples:peaches plums:beets beans:cherries "
    "books:baskets leaves:shells marbles:pebbles cards:stamps kilograms:ounces meters:yards "
    "jars:trays seeds:bulbs",
    "Omar:Keita Ines:Oona Lin:Jarek Kofi:Selma Emre:Vito Tavi:Nadja Ben:Lars Ana:Priya Noor:Tomo "
    "Tariq:Esme Mei:Kalle Wen:Dunja bees:ants apples:figs plums:lemons beans:raisins books:gloves "
    "leaves:petals marbles:corks cards:badges kilograms:grams meters:inches jars:crates "
    "pages:letters eggs:radishes",
    "Omar:Ayla Ines:Pekka Lin:Rosa Kofi:Timo Emre:Nuri Tavi:Liv Ben:Safa Ana:Goran Noor:Mina "
    "Tariq:Ulla Mei:Oskar Wen:Farah bees:snails apples:quinces plums:turnips beans:nuts "
    "books:spoons leaves:acorns marbles:bottles cards:posters meters:centimeters jars:bowls "
    "birds:sparrows pupils:gardeners",
)
"""Five settings of every story: other names and things, none of them of real people."""


def cast(text: str, number: int) -> str:
    """A story with the names and things of another setting."""
    other = dict(pair.split(":") for pair in CASTS[number].split())
    return re.sub(r"[A-Za-z]+", lambda found: other.get(found[0], found[0]), text)
