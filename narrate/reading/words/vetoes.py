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
from narrate.reading.words.how_often import (
    counts_how_often,
    gives_a_side_for_the_area,
    gives_the_done_part,
    leaves_as_much_out,
    leaves_the_other_out,
    squares_all_sides,
    takes_every_other_for_every,
)
from narrate.reading.words.lacking import (
    adds_to_a_ratio,
    counts_a_label,
    takes_lack_for_having,
    takes_what_is_left_out,
)
from narrate.reading.words.left_out import (
    adds_more_than,
    compares_one_of_each,
    goes_half_round,
    takes_a_percent_for_so_many,
    takes_part_of_what_came,
    takes_pictures_away,
    turns_a_percent_round,
    turns_more_round,
)
from narrate.reading.words.lexicon import TIMES
from narrate.reading.words.moments import (
    counts_another_time,
    counts_what_was_meant,
    forgets_what_came_back,
    goes_on_the_same_way,
    trades_one_way,
)
from narrate.reading.words.not_joined import (
    adds_some_of_the_groups,
    adds_what_it_is_cut_from,
    multiplies_all,
    passes_over_a_crate,
    takes_a_part_of_the_part,
    takes_other_stuff,
)
from narrate.reading.words.parts_named import (
    adds_full_and_empty,
    counts_a_part_beside,
    counts_what_was_not_paid,
    counts_who_left_as_come,
    shares_once_only,
    takes_a_pair_for_one,
    takes_less_for_going,
    takes_sides_for_one,
)
from narrate.reading.words.plain import word_set
from narrate.reading.words.rooms import counts_room_in
from narrate.reading.words.summed import Term, sums, worth
from narrate.reading.words.times_told import takes_times_for_so_many
from narrate.reading.words.told_numbers import NUMBER, read_number
from narrate.reading.words.uncounted import (
    adds_those_with_both,
    counts_without_a_bag,
    takes_a_part_for_all,
    takes_from_the_full,
)
from narrate.reading.words.untold import counts_gaps, pays_for_more
from narrate.reading.words.which_ones import (
    asks_what_the_vessels_hold,
    counts_both_ways,
    counts_what_else_was_done,
    counts_what_others_did,
    pays_for_what_is_seen,
    takes_another_part,
)

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
    (takes_lack_for_having, "some have it and some do not, and the others are asked about"),
    (takes_what_is_left_out, "some are told only to be left out"),
    (counts_a_label, "a number only says which one it is"),
    (adds_to_a_ratio, "the numbers of a ratio count nothing"),
    (counts_another_time, "something is told of another time"),
    (
        counts_what_was_meant,
        "something is only planned or wanted, and I cannot tell whether it happened",
    ),
    (goes_on_the_same_way, "what comes after may go the other way"),
    (forgets_what_came_back, "some came back"),
    (trades_one_way, "a trade goes both ways"),
    (counts_a_part_beside, "a number is a part of what was just named"),
    (counts_what_was_not_paid, "something is told that was not paid"),
    (adds_full_and_empty, "full and empty are not put together"),
    (counts_who_left_as_come, "some went to another place"),
    (
        takes_less_for_going,
        "an amount tells how much more or less something is, and I cannot tell than what",
    ),
    (takes_sides_for_one, "early and late are on two sides"),
    (takes_a_pair_for_one, "a pair is two"),
    (shares_once_only, "a share is shared again"),
    (adds_those_with_both, "those who have both are some of each"),
    (counts_without_a_bag, "it is not told how many are in it"),
    (takes_from_the_full, "it is not told that it was full"),
    (takes_a_part_for_all, "what is told is only a part of what is asked"),
    (takes_times_for_so_many, "so many times as much is no amount"),
    (counts_how_often, "how often something is done counts nothing"),
    (leaves_as_much_out, "just as much again is told"),
    (takes_every_other_for_every, "not every day is meant"),
    (gives_the_done_part, "what is left of the whole is asked"),
    (gives_a_side_for_the_area, "an area takes both sides"),
    (squares_all_sides, "several squares are not a larger one"),
    (leaves_the_other_out, "both are asked about"),
    (counts_both_ways, "only those that went the one way are asked about"),
    (counts_what_else_was_done, "only some of what was done is asked about"),
    (counts_what_others_did, "somebody else did something with them"),
    (pays_for_what_is_seen, "something was only looked at"),
    (asks_what_the_vessels_hold, "what was filled is asked about"),
    (takes_another_part, "another part may be asked about"),
    (takes_a_percent_for_so_many, "a percent counts nothing"),
    (turns_a_percent_round, "what goes up by a percent is not made less"),
    (passes_over_a_crate, "what is in the container is weighed with it"),
    (adds_what_it_is_cut_from, "one amount is some of the other"),
    (adds_some_of_the_groups, "one amount is some of the other"),
    (takes_a_part_of_the_part, "the part itself is told"),
    (takes_other_stuff, "what went is something else than what was there"),
    (multiplies_all, "all of them together are so long"),
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
