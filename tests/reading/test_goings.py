"""Whether an amount came or went is read as the words beside it say, or declined.

Stories of our own, answers by hand from the words; `None` where no answer is certain. Each first
row of a kind was read the other way round; the rest are of the same kind in other words.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

SAID_OF_AN_AMOUNT = [
    # 5 of them are none of those that come
    ("7", "Mira had 12 buttons. She sewed 5 of the buttons onto a coat.", "buttons does Mira have"),
    ("7", "Mira had 12 patches. She sewed 5 patches onto a quilt.", "patches does Mira have"),
    (None, "Mira had 12 hens. She bought 5 of the hens.", "hens does Mira have"),
    # where to, where from
    ("7", "There were 12 cups in the jug. Mira poured 5 cups into a pot.", "cups are in the jug"),
    (
        "7",
        "There were 12 bulbs in the shed. Mira planted 5 bulbs in a bed.",
        "bulbs are in the shed",
    ),
    (
        "17",
        "There were 12 crates in the shed. 5 crates were sent to the shed.",
        "crates are in the shed",
    ),
    (
        None,
        "There were 12 crates in the shed. Mira took 5 crates from the barn.",
        "crates are in the shed",
    ),
    (
        None,
        "The club had 12 crates. The cook borrowed 5 crates from the shop.",
        "crates does the club have",
    ),
    ("17", "The club had 12 rugs. Pupils left 5 rugs at the club.", "rugs does the club have"),
    # who it goes to
    ("17", "Ivo had 12 pins. Otto returned 5 pins to him.", "pins does Ivo have"),
    ("17", "Ivo had 12 pins. Otto sold him 5 pins.", "pins does Ivo have"),
    ("17", "Ivo had 12 pins. 5 pins were given to him.", "pins does Ivo have"),
    ("17", "The shop had 12 rakes. A farmer sold the shop 5 rakes.", "rakes does the shop have"),
    ("17", "The school had 12 rugs. 5 rugs were donated.", "rugs does the school have"),
    ("17", "The school had 12 rugs. Pupils returned 5 rugs.", "rugs does the school have"),
    # the little word of a verb
    ("12", "Mira had 12 crates. She put 5 crates away.", "crates does Mira have"),
    ("12", "There were 12 plants in the shed. Mira cut 5 plants back.", "plants are in the shed"),
    ("7", "There were 12 pears in the tub. Mira picked 5 more pears off.", "pears are in the tub"),
    ("17", "There were 12 bees on the lavender. 5 bees flew in.", "bees are on the lavender"),
    ("17", "The school had 12 rugs. Pupils handed in 5 rugs.", "rugs does the school have"),
    ("7", "There were 12 coats on the hooks. Pupils put on 5 coats.", "coats are on the hooks"),
    ("7", "There were 12 ducks on the pond. 5 ducks came ashore.", "ducks are on the pond"),
    ("12", "There were 12 lamps in the hall. 5 lamps went out.", "lamps are in the hall"),
    ("17", "Ivo had $12 in a tin. He paid in $5.", "dollars does Ivo have in the tin"),
    # verbs that make nothing more
    ("12", "Mira had 12 crates. She filled 5 crates.", "crates does Mira have"),
    ("12", "Mira had 12 crates. She checked 5 more crates.", "crates does Mira have"),
    ("7", "Mira had 12 bulbs. She sowed 5 more bulbs.", "bulbs does Mira have"),
    ("7", "Mira had 12 apples. She baked 5 apples.", "apples does Mira have"),
    ("7", "There were 12 carp in the pond. Otto caught 5 carp.", "carp are in the pond"),
    (None, "Mira had 12 hens. 5 more hens were bought.", "hens does Mira have"),
]


@pytest.mark.parametrize(("answer", "told", "asked"), SAID_OF_AN_AMOUNT)
def test_an_amount_goes_where_its_words_say(answer: str | None, told: str, asked: str) -> None:
    try:
        found = read_words(f"{told} How many {asked} now?").value
    except Declined:
        return
    assert answer is not None
    assert found == Fraction(answer)


STILL_READ = [
    ("17", "Ivo had 12 pins. Otto gave him 5 pins.", "pins does Ivo have"),
    ("7", "Ivo had 12 pins. He gave 5 pins to Otto.", "pins does Ivo have"),
    ("17", "Mira had 12 jars. She bought 5 jars from the shop.", "jars does Mira have"),
    ("17", "There were 12 jars in the shed. Mira put 5 jars in the shed.", "jars are in the shed"),
    ("7", "There were 12 hens in the run. 5 hens ran away.", "hens are in the run"),
    ("7", "There were 12 pears in the tub. Mira took out 5 pears.", "pears are in the tub"),
    ("17", "There were 12 pupils on the bus. 5 more pupils got on.", "pupils are on the bus"),
    ("7", "Mira had 12 patches. She gave 5 of the patches away.", "patches does Mira have"),
]


@pytest.mark.parametrize(("answer", "told", "asked"), STILL_READ)
def test_plain_comings_and_goings_are_read(answer: str, told: str, asked: str) -> None:
    assert read_words(f"{told} How many {asked} now?").value == Fraction(answer)
