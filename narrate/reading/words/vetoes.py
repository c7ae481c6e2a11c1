"""What no reading may do, whoever made it: pool two places, count a move, multiply time by workers.

Looked at in the words alone, beside the tree of the work (see also `bare_parts`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import permutations

from narrate.exact.tree import Expr, Op
from narrate.reading.words.and_others import forgets_the_second, leaves_one_out
from narrate.reading.words.at_work import more_take_longer
from narrate.reading.words.bare_parts import joins_a_bare_part
from narrate.reading.words.left_out import (
    adds_more_than,
    compares_one_of_each,
    goes_half_round,
    takes_part_of_what_came,
    takes_pictures_away,
    turns_a_percent_round,
    turns_more_round,
)
from narrate.reading.words.lexicon import TIMES
from narrate.reading.words.plain import word_set
from narrate.reading.words.rooms import counts_room_in
from narrate.reading.words.summed import Term, sums, worth
from narrate.reading.words.told_numbers import NUMBER, read_number
from narrate.reading.words.untold import counts_gaps, pays_for_more

Veto = Callable[[str, str, Expr | None], bool]

ROWS: tuple[tuple[Veto, str], ...] = (
    (more_take_longer, "more of them at work do not take more time"),
    (counts_room_in, "what there is room for, or is still to be done, is not there yet"),
    (leaves_one_out, "somebody is there beside the others"),
    (forgets_the_second, "somebody else does the same, or has the same"),
    (pays_for_more, "a price is not told"),
    (counts_gaps, "I cannot tell whether there is one at each end"),
    (compares_one_of_each, "so many of them are compared, not one of each"),
    (takes_part_of_what_came, "the part is of all there were, and that is not known"),
    (goes_half_round, "the sides go all the way round"),
    (turns_more_round, "so many more go the same way"),
    (adds_more_than, "an amount is told as so much more than another"),
    (takes_pictures_away, "a picture that is taken is one more"),
    (turns_a_percent_round, "what goes up by a percent is not made less"),
)
"""What speaks against work: from the story and the question in small letters, and the work."""


def vetoed(text: str, tree: Expr | None) -> str:
    """Why a reading of a text by this tree is none, "" where nothing speaks against it."""
    low = text.lower()
    story, question = _parted(low)
    if joins_a_bare_part(text, tree):
        return "a part is not added to what it is a part of"
    if isinstance(tree, Op) and _moved_in_all(low, question):
        return "what is moved neither comes nor goes"
    if any(_pools(story, question, terms) for terms in sums(tree)):
        return "what is in one place is not what is in another"
    return next((why for veto, why in ROWS if veto(story, question, tree)), "")


def _parted(text: str) -> tuple[str, str]:
    """What is told, and the question: the last sentence that asks, else the last."""
    found = [*re.finditer(r"[^.?!]*(?:[.?!](?!\s|$)[^.?!]*)*[.?!]*\s*", text)]
    sentences = [each[0] for each in found if each[0].strip()]
    asking = [at for at, each in enumerate(sentences) if "?" in each] or [len(sentences) - 1]
    if not sentences:
        return "", ""
    return "".join(sentences[: asking[-1]] + sentences[asking[-1] + 1 :]), sentences[asking[-1]]


_MOVED = re.compile(r"\b(?:moves?|moved|transfers?|transferred|shifts?|shifted)\b[^.?!]*\bfrom\b")
_IN_ALL = re.compile(r"\b(?:in all|altogether|in total|total)\b")


def _moved_in_all(text: str, question: str) -> bool:
    """Whether some were moved from place to place, and all are asked for, or one of two places."""
    moved = _MOVED.search(text)
    if moved is None:
        return False
    before = re.findall(NUMBER, text[: moved.start()])
    return _IN_ALL.search(question) is not None or len(before) > 1


_PLACE = re.compile(
    r"\b(?:in|on|at|inside) (?:the|an?|his|her|their|another|one) ((?:[a-z]+ )?[a-z]+)"
)
_NO_PLACE = TIMES | word_set("end start beginning first same other way total all store shop market")
_ADDED = re.compile(rf"{NUMBER} (?:[a-z]+ )?(?:more|fewer|less|extra|additional|other)\b")


def _pools(story: str, question: str, terms: Sequence[Term]) -> bool:
    """Whether amounts of two places are joined where the question names only one of the places."""
    worths = {worth(term) for _, term in terms}
    found = [*re.finditer(NUMBER, story)]
    places: list[frozenset[str]] = []
    for at, number in enumerate(found):
        end = found[at + 1].start() if at + 1 < len(found) else len(story)
        told = re.split(r"[.?!;]\s", story[number.start() : end])[0]
        named = _places(told)
        if named and read_number(number[0]) in worths and not _ADDED.match(told):
            places.append(named)
    asked = _places(question)
    return any((a - b) & asked and not (b - a) & asked for a, b in permutations(places, 2))


def _places(text: str) -> frozenset[str]:
    words = {word for found in _PLACE.finditer(text) for word in found[1].split()}
    return frozenset(words) - _NO_PLACE
