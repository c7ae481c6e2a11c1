"""Which words of a story are marked on the page: amounts with their units, and what relates them.

The stories are of our own; boxes [ ] and dashed lines < > were set by hand from the words, as a
teacher marks a problem on the board (common practice, no source).
"""

from __future__ import annotations

import re

import pytest

from narrate.lesson.shown import stem_marks
from tests.solving import NUMBER, solved_one

_SIGNS = {"amount": ("[", "]"), "relationship": ("<", ">"), "condition": ("{", "}")}
_ROLES = re.compile(r"[\[\]<>{}]")


def marked(stem: str, **keys: object) -> str:
    """The stem with its boxes, dashed lines and conditions set as signs around the words."""
    solved = solved_one(stem, **keys)
    signs: list[tuple[int, int, str]] = []
    for mark in stem_marks(solved, ("amount", "relationship", "condition")):
        opens, closes = _SIGNS[mark.role]
        signs += [(mark.start, 1, opens), (mark.end, 0, closes)]
    for place, _, sign in sorted(signs, reverse=True):
        stem = stem[:place] + sign + stem[place:]
    return stem


@pytest.mark.parametrize(
    "story",
    [
        "How many more jars must the club fill to reach [120] if it has filled [84]?",
        "Wen had [$14.80] toward a trowel set. She got some money, and now she has [$22.00]. "
        "How much money did she get?",
        "A [6.3-meter] board is sawn into [7 pieces] of the same length. How long is each piece?",
        "In a box there are [50 light bulbs]. [44] work. How many do not work?",
        "Theo collected [15 acorns] in the park and [7] at home. How many fewer did he collect "
        "at home?",
        "[Six friends] share [48 plums] equally. How many plums does each friend get?",
        "[Two vases] hold [15 tulips] each. How many tulips do they hold in all?",
        "[Half] of the [10 eggs] in a box are brown. How many eggs are brown?",
        "There are [9 forks] on the tray. There are [twice] as many spoons as forks. How many "
        "spoons are there?",
        "[5 large red apples] and [4 small green apples] are on a plate. How many apples are there "
        "in all?",
    ],
)
def test_boxes_reach_as_far_as_the_unit(story: str) -> None:
    assert boxes(marked(_ROLES.sub("", story), boxes=NUMBER)) == boxes(story)


def boxes(story: str) -> list[str]:
    return re.findall(r"\[([^\]]*)\]", story)


@pytest.mark.parametrize(
    "story",
    [
        "A ribbon is [6 feet] long. Sef <cuts off> [2 feet] for a bow. How long is the ribbon now?",
        "A ribbon was [9 feet] long. Pavel <cut> [2 feet] <off> the ribbon. How long is it now?",
        "Mara has [24 seedlings]. She <gives away> [18]. How many seedlings does she have left?",
        "Rosa picked [7] <more> pumpkins on Sunday <than> on Saturday. She picked [9 pumpkins] on "
        "Saturday. How many pumpkins did she pick on Sunday?",
        "Uma is [8 years] old. Her cousin is [14 years] old. How many years <older> is her cousin "
        "<than> Uma?",
        "A tank had [80 liters] in it. After watering the beds there were [33 liters]. How much "
        "water was used?",
        "Of [12 eggs], [3] were brown and [5] were white. <The others> were speckled. How many "
        "eggs were speckled?",
        "[144 radishes] are <shared equally among> [6 baskets]. How many radishes are in each "
        "basket?",
        "Ana has [3] <times as many peas as> Ben. Ben has [24 peas]. How many peas does Ana have?",
        "<Each batch> of oat bars takes [3 cups] of honey. Tavi makes [5 batches]. How many cups "
        "of honey does he need?",
        "A pumpkin weighs [8 pounds]. A squash is [3 pounds] <lighter>. How many pounds does the "
        "squash weigh?",
    ],
)
def test_the_words_that_relate_the_amounts_are_marked(story: str) -> None:
    assert marked(_ROLES.sub("", story), boxes=NUMBER) == story


def test_a_comparison_of_parts_is_marked_at_its_own_words() -> None:
    story = (
        "Tulips cover [5/12] of a flower bed, and daisies cover [3/8] of it. By what fraction of "
        "the flower bed do the tulips cover <more than> the daisies?"
    )
    choices = {"A": "1/24", "B": "2/4", "C": "2/24", "D": "19/24"}
    assert marked(_ROLES.sub("", story), choices=choices) == story


@pytest.mark.parametrize(
    "story",
    [
        "The number of beans in a jar is {less than 45}, and is also {a multiple of 7}. How many "
        "beans could be in the jar?",
        "Which number is less than 45 and a multiple of 7?",
    ],
)
def test_conditions_told_before_the_question_are_marked(story: str) -> None:
    """Those of the question itself stand over its own line."""
    choices = {"A": "35", "B": "47", "C": "48", "D": "25"}
    assert marked(_ROLES.sub("", story), choices=choices) == story
