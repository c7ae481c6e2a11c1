"""What no reading may do, whoever made it: pool two places, count a move, multiply time by workers.

Looked at in the words alone, beside the tree of the work (see also `bare_parts`).
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import permutations

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Op, value
from narrate.reading.words.bare_parts import joins_a_bare_part, sums
from narrate.reading.words.lexicon import TIMES
from narrate.reading.words.plain import word_set
from narrate.reading.words.untold import left_untold

_NUMBER = r"(?:\d[\d,]*(?:\.\d+)?(?: \d+/\d+|/\d+)?|\.\d+)"
_COUNT = rf"(?:{_NUMBER}|one|two|three|four|five|six|seven|eight|nine|ten|twelve|an?)"
_SPAN = r"(?:seconds?|minutes?|hours?|days?|weeks?|months?)"
_THEM = rf"{_COUNT} (?!{_SPAN}\b)(?:[a-z]+ )?[a-z]+"


def vetoed(text: str, tree: Expr | None) -> str:
    """Why a reading of a text by this tree is none, "" where nothing speaks against it."""
    low = text.lower()
    story, question = _parted(low)
    if joins_a_bare_part(text, tree):
        return "a part is not added to what it is a part of"
    if isinstance(tree, Op) and _is_shared_work(low, question):
        return "more of them at work do not take more time"
    if isinstance(tree, Op) and _moved_in_all(low, question):
        return "what is moved neither comes nor goes"
    if any(_pools(story, question, terms) for terms in sums(tree)):
        return "what is in one place is not what is in another"
    return left_untold(story, question, tree)


def _parted(text: str) -> tuple[str, str]:
    """What is told, and the question at the end."""
    start = max((m.end() for m in re.finditer(r"[.?!]\s+", text)), default=0)
    return text[:start], text[start:]


_WORK = re.compile(
    rf"\b(?:takes?|took|needs?) {_THEM} {_COUNT} {_SPAN}\b"
    rf"|\b{_THEM} (?:can|could|will) [^.?!]*\bin {_COUNT} {_SPAN}\b"
    rf"|\blasts? {_COUNT} {_SPAN} for {_THEM}\b|\blasts? {_THEM} {_COUNT} {_SPAN}\b"
    rf"|\bfeeds? {_THEM} for {_COUNT} {_SPAN}\b"
    rf"|\bwith {_THEM},? it (?:takes?|took) {_COUNT} {_SPAN}\b"
)
_TIME_ASKED = re.compile(rf"\bhow (?:long|many {_SPAN})\b|\bhow much time\b")
_AT_WORK = re.compile(
    rf"(?:^|[.?!]\s+|\b(?:if|when) ){_COUNT} ((?:[a-z]+ )??[a-z]+)\b([^.?!]*)"
    rf"\bin {_COUNT} {_SPAN}\b"
)
_DONE_TO = re.compile(r"^ (?:are|were|is|was|can be|could be) ")
_AT_ONCE = re.compile(r"\bat (?:once|the same time)\b|\bin the same (?:pot|pan|oven|tray)\b")


def _is_shared_work(text: str, question: str) -> bool:
    """Whether a time is asked of others at the same work, or of several done at once."""
    if _TIME_ASKED.search(question) is None:
        return False
    if _AT_ONCE.search(question) or (_WORK.search(text) and re.search(_COUNT, question)):
        return True
    work = _AT_WORK.search(text)
    if work is None or _DONE_TO.match(work[2]):
        return False
    names = "|".join(map(re.escape, work[1].split()))
    return (
        re.search(rf"\b{_COUNT} (?:such |more |other |of )?(?:{names}|them)\b", question)
        is not None
    )


_MOVED = re.compile(r"\b(?:moves?|moved|transfers?|transferred|shifts?|shifted)\b[^.?!]*\bfrom\b")
_IN_ALL = re.compile(r"\b(?:in all|altogether|in total|total)\b")


def _moved_in_all(text: str, question: str) -> bool:
    """Whether some were moved from place to place, and all are asked for, or one of two places."""
    moved = _MOVED.search(text)
    if moved is None:
        return False
    before = re.findall(_NUMBER, text[: moved.start()])
    return _IN_ALL.search(question) is not None or len(before) > 1


_PLACE = re.compile(
    r"\b(?:in|on|at|inside) (?:the|an?|his|her|their|another|one) ((?:[a-z]+ )?[a-z]+)"
)
_NO_PLACE = TIMES | word_set("end start beginning first same other way total all store shop market")
_ADDED = re.compile(rf"{_NUMBER} (?:[a-z]+ )?(?:more|fewer|less|extra|additional|other)\b")


def _pools(story: str, question: str, terms: list[Expr]) -> bool:
    """Whether amounts of two places are joined where the question names only one of the places."""
    worths = set(map(_worth, terms))
    found = [*re.finditer(_NUMBER, story)]
    places: list[frozenset[str]] = []
    for at, number in enumerate(found):
        end = found[at + 1].start() if at + 1 < len(found) else len(story)
        told = re.split(r"[.?!;]\s", story[number.start() : end])[0]
        named = _places(told)
        if named and _read(number[0]) in worths and not _ADDED.match(told):
            places.append(named)
    asked = _places(question)
    return any((a - b) & asked and not (b - a) & asked for a, b in permutations(places, 2))


def _places(text: str) -> frozenset[str]:
    words = {word for found in _PLACE.finditer(text) for word in found[1].split()}
    return frozenset(words) - _NO_PLACE


def _worth(tree: Expr) -> Fraction | None:
    try:
        return value(tree)
    except ExactError:
        return None


def _read(number: str) -> Fraction:
    *whole, last = number.replace(",", "").split()
    return Fraction(last) + (Fraction(whole[0]) if whole else 0)
