"""A line is offered only where the words of a story license it: a teacher pastes what is offered.

Each row is a story of our own for which no line is right, or none is certain, by size and units
alone; beside some of them stands a like story with the line that it does license.
"""

from __future__ import annotations

import pytest

from narrate.reading.words.declining import Unsure, unsure
from narrate.reading.words.offered_none import not_understood
from narrate.reading.words.offering import offered

NOT_LICENSED = [
    # what could have been
    "If Nora had sold 5 fewer jars, she would have sold 31 jars. How many jars did she sell?",
    "The club planned to sow 90 seeds. It sowed 52 of them on Friday. How many did it sow?",
    # some that nobody counted
    "Room 8 has 35 pots, and Room 10 has more than Room 8. How many pots do they have in all?",
    "Ivo bought 23 bags of peat and some of bark. In total he has 27 bags. How many of bark?",
    # another person's, another kind, another time
    "Mira had 21 bulbs. She gave 6 of them to Jon and has 15 left. How many bulbs has Jon now?",
    "There are 2 dogs and 1 hen in the yard. How many legs are there in all?",
    "Then 6 crates of beets and 48 onions came. How many beets and onions came altogether?",
    # what is moved or lent
    "The shed held 45 pots and the cellar 30. Pupils carried 8 pots from the shed to the cellar. "
    "How many pots are there in the two places altogether?",
    "Wes gave Pia 7 cards and Pia gave Wes 4. Now Wes has 25. How many had he before?",
    # nothing was there at first
    "Viktor measured 3/4 cup of sugar for a cake and 1/8 cup for icing. How much sugar is left?",
    "Lena paid back $4.25 in May and $3.50 in June. How much does she still owe?",
    # a whole, and not one of two
    "There were 133 pupils. There were 33 more girls than boys. How many girls were there?",
    "A hoe and a rake cost $48. The hoe costs 3 times as much as the rake. How much is the hoe?",
    # groups, a rate, a number that is left out
    "A farmer has 52 hens. Each hen lays 5 eggs a week. How many eggs do they lay in a month?",
    "Seven sacks of peat cost $21 and 4 sacks of bark cost $8. What do 3 sacks of peat cost?",
    "Pavel has 87 plums to put on 7 plates, the same on every plate. How many are left over?",
    "Two dozen rolls are on a tray. Mo eats a third of them. How many rolls does Mo leave?",
    # shared by more, with some left, told in another unit
    "A sack of grain lasts 8 hens 15 days. How many days would the same sack last 12 hens?",
    "Fatima shared cherries equally among 5 friends, and 3 were left. How many did each get?",
    "A bed is a rectangle 3 m long and 80 cm wide. What is its area in square metres?",
    "Pupils brought 3 jars each, 45 in all. Ten jars are empty. How many pupils brought jars?",
    "Of the 40 jars, 25 are full, and 9 of the full jars hold jam. How many jars are not full?",
    # a part of something else
    "A jug was 3/4 full. Sol drank 1/4 of what was in it. What fraction of the jug is full now?",
    "Of 48 pupils, 2/3 are girls and the rest are boys. Of the boys, 1/8 sit. How many boys sit?",
    "If 3/5 of the pupils are girls and there are 30 boys, how many girls are there?",
    "A bed is 9 feet long. It is 2/3 as wide as it is long. What is its area in square feet?",
    # a bag that is itself a part, the rest, a can that was full, a whole that is told first
    "Jo used 2/3 of a 3/4-pound bag of oats. How many pounds of oats are left in the bag?",
    "A cook had 9 cups of rice. She filled 4 bowls with 1 1/2 cups each and used the rest for "
    "soup. How many cups did she use for soup?",
    "Ida took 1 1/2 liters from a full 5-liter can and then poured in 1/2 liter. How many liters "
    "are in the can now?",
    "Of the 30 ducks, 8 more are white than brown. How many are white?",
    "A shelf has 5 boards. Each board is 9 inches wide. There is 1/2 inch between boards. How wide "
    "is the shelf?",
    # others do so too, a part of the rest, which one is asked, all who share
    "Ina plants 4 rows of 6 leeks, and so does Tom. How many leeks do they plant together?",
    "Of 40 jars, 9 are cracked, and 4 of the cracked ones are blue. How many are not cracked?",
    "Ria picked 41 plums and Leo picked 36. How many plums did Leo pick?",
    "A pack holds 12 pens, and 5 of them are red. How many pens in 4 packs are not red?",
    "Two cooks and one pupil share $60 equally. How much does each person get?",
    "A room seats 50 people. 34 people come, and 6 leave early. How many people are in the room?",
    "A coat cost $90. It was reduced by 20%. How much cheaper is it now?",
    "Uwe had 30 stamps. He lost 11 but later found 4 of them. How many stamps does he have now?",
    # kinds of lines of which too many are wrong where the story is not read, right ones too
    "Petra bought a bag for $4.29 and paid with a $10 bill. How much change did she get?",
    "On Monday 120 plums fell. On Friday 50 more plums fell than on Monday. How many fell on "
    "Friday?",
    "A bag of oats weighs 12 pounds. The cooks used 3/4 of the bag. How many pounds of oats did "
    "they use?",
    "A crate holds 35 figs. Twenty-one of the figs are ripe. What fraction of the figs are ripe?",
]  # fmt: skip


@pytest.mark.parametrize("story", NOT_LICENSED)
def test_no_line_is_offered_that_the_words_do_not_license(story: str) -> None:
    assert offered(story) == []


LICENSED = [
    ("Nora sold 31 jars, and Ben sold 5 fewer than Nora. How many jars did Ben sell?", "31 − 5"),
    ("Bo has $20. Bulbs cost $3 each. How many bulbs can he buy?", "20 ÷ 3"),
    ("A kitchen has 48 kg of potatoes and uses 6 kg a day. How many kilograms are left after "
     "5 days?", "48 − 5 × 6"),
    ("Of the 50 pots, 20 have a label. What fraction of the pots do not have a label?",
     "1 − 20/50"),
    ("Leeks cost $1.20 a bunch and beets cost $0.90 a bunch. How much do 2 bunches of leeks and 3 "
     "bunches of beets cost?", "2 × 1.20 + 3 × 0.90"),
    ("A jar of honey weighs 900 grams when full and 250 grams when empty. How many grams of honey "
     "are in the full jar?", "900 − 250"),
]  # fmt: skip


@pytest.mark.parametrize(("story", "line"), LICENSED)
def test_one_line_is_offered_where_the_words_decide(story: str, line: str) -> None:
    assert offered(story) == [line]


UNCLEAR = [
    ("Mo had 3 cups of milk. If he had 2 cups more, he could bake. How many more has he?", "",
     "If he had 2 cups more, he could bake."),
    ("Choir starts at 1:45 p.m. on the same day. How long is it?", "", "How long is it?"),
    ("Bo read 18 pages. On Sunday he read 24, and Di read 30. How many did Bo read?",
     "I cannot tell what “30” is for", "On Sunday he read 24, and Di read 30."),
]  # fmt: skip


@pytest.mark.parametrize(("story", "reason", "sentence"), UNCLEAR)
def test_the_sentence_that_is_not_clear_is_named(story: str, reason: str, sentence: str) -> None:
    assert not_understood(story, reason) == sentence


def test_words_that_were_left_out_in_reading_stand_in_the_sentence_that_is_named() -> None:
    found = unsure(
        "What did the spade cost            after both changes?  It cost 9 and 4.", "why"
    )
    assert isinstance(found, Unsure)
    found.said = "What did the spade cost in dollars after both changes? It cost 9 and 4."
    assert "say “What did the spade cost in dollars after both changes?” in plainer" in found.add
