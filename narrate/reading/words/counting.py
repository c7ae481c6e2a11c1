"""Numbers in words: runs of words made one number, ordinals told apart from fractions."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, takewhile

from narrate.exact.tree import Expr, Frac, Mixed, Whole
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

SMALL = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14,
    "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "fourth": 4, "fourths": 4, "quarter": 4,
    "quarters": 4, "fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "seventh": 7, "sevenths": 7,
    "eighth": 8, "eighths": 8, "ninth": 9, "ninths": 9, "tenth": 10, "tenths": 10,
    "twelfth": 12, "twelfths": 12, "hundredth": 100, "hundredths": 100,
}  # fmt: skip


_TIMES = {"twice": 2, "thrice": 3, "double": 2, "triple": 3}


_NO_PART_BEFORE = frozenset(
    {"the", "his", "her", "their", "this", "that", "every", "each", "first", "second"}
)


def with_counting(raw: list[Token]) -> Iterator[Token]:
    """The tokens with runs of number words made one number."""
    at = 0
    while at < len(raw):
        found = _in_words(raw, at)
        if found is None:
            yield raw[at]
            at += 1
            continue
        token, at = found
        yield token


def _in_words(raw: list[Token], at: int) -> tuple[Token, int] | None:
    word = raw[at]
    if (
        word.kind == "w"
        and word.low in _TIMES
        and _low(raw, at + 1) not in ("a", "per", "each", "every")
    ):
        return _joined(raw, at, at + 1, Whole(_TIMES[word.low]), "times")
    if word.kind == "n" and not word.joined:
        return _after_digits(raw, at)
    if word.kind != "w":
        return None
    counted, end = _cardinal(raw, at)
    if counted is not None:
        return _after_cardinal(raw, at, end, counted)
    if word.low in ("a", "an") and _low(raw, at + 1) in (
        "half",
        "third",
        "fourth",
        "quarter",
        "fifth",
        "sixth",
        "eighth",
        "tenth",
        "dozen",
        "hundred",
        "thousand",
    ):
        return _article(raw, at)
    if word.low == "half" and _low(raw, at - 1) not in _NO_PART_BEFORE:
        if _low(raw, at + 1) == "a" and _low(raw, at + 2) == "dozen":
            return _joined(raw, at, at + 3, Whole(6), "")
        if _low(raw, at + 1) == "dozen":
            return _joined(raw, at, at + 2, Whole(6), "")
        return _joined(raw, at, at + 1, Frac(1, 2), "part")
    return None


def _low(raw: list[Token], at: int) -> str:
    return raw[at].low if 0 <= at < len(raw) else ""


def _joined(raw: list[Token], at: int, end: int, tree: Expr, sort: str) -> tuple[Token, int]:
    first, last = raw[at], raw[end - 1]
    text = " ".join(token.text for token in raw[at:end])
    made = Token(
        kind="n",
        text=text,
        start=first.start,
        end=last.end,
        tree=tree,
        sort=sort,
        joined=last.joined,
    )
    return made, end


def _article(raw: list[Token], at: int) -> tuple[Token, int] | None:
    word = _low(raw, at + 1)
    if word in _PARTS:
        if word != "half" and _low(raw, at + 2) != "of":
            return None  # "a third boy came" counts in order
        return _joined(raw, at, at + 2, Frac(1, _PARTS[word]), "part")
    return _joined(
        raw, at, at + 2, Whole({"dozen": 12, "hundred": 100, "thousand": 1000}[word]), ""
    )


def _after_digits(raw: list[Token], at: int) -> tuple[Token, int] | None:
    word = raw[at]
    scale = {"dozen": 12, "dozens": 12, "thousand": 1000, "million": 1_000_000, "hundred": 100}.get(
        _low(raw, at + 1)
    )
    if scale and word.value.denominator == 1 and word.sort in ("", "money"):
        return _joined(raw, at, at + 2, Whole(int(word.value) * scale), word.sort)
    if _halved(raw, at + 1) and word.value.denominator == 1:
        return _joined(raw, at, at + 4, Mixed(int(word.value), 1, 2), word.sort)
    return None


def _halved(raw: list[Token], at: int) -> bool:
    return [_low(raw, at + i) for i in range(3)] == ["and", "a", "half"]


def _cardinal(raw: list[Token], at: int) -> tuple[int | None, int]:
    """The whole number that starts at a word, and where it ends."""
    total, part, seen, here = 0, 0, False, at
    while here < len(raw) and raw[here].kind == "w":
        low = raw[here].low
        if low in SMALL and ((part % 10 == 0 and part % 100 != 10) or not seen):
            part += SMALL[low]
        elif low in TENS and part % 100 == 0:
            part += TENS[low]
        elif low == "hundred" and seen and part < 10:
            part *= 100
        elif low == "thousand" and seen:
            total, part = 1000 * part, 0
        elif (
            low == "and"
            and seen
            and part % 100 == 0
            and part + total >= 100
            and (_low(raw, here + 1) in SMALL or _low(raw, here + 1) in TENS)
        ):
            here += 1
            continue
        else:
            break
        seen, here = True, here + 1
    return (total + part, here) if seen else (None, at)


def _after_cardinal(raw: list[Token], at: int, end: int, counted: int) -> tuple[Token, int] | None:
    after = _low(raw, end)
    if after == "o'clock":
        return None
    if counted == 1 and end == at + 1 and after not in _PARTS and _points(raw, at, after):
        return None
    ranked = counted > 1 and f"{after}s" in _PARTS and _low(raw, end + 1) in _GRADED
    if after in _PARTS and counted > 0 and not ranked:
        return _joined(raw, at, end + 1, Frac(counted, _PARTS[after]), "part")
    if after in ("dozen", "dozens"):
        return _joined(raw, at, end + 1, Whole(12 * counted), "")
    if _halved(raw, end):
        return _joined(raw, at, end + 3, Mixed(counted, 1, 2), "")
    if after == "and":
        top, place = _cardinal(raw, end + 1)
        if top is not None and _low(raw, place) in _PARTS:
            return _joined(raw, at, place + 1, Mixed(counted, top, _PARTS[_low(raw, place)]), "")
    return _joined(raw, at, end, Whole(counted), "")


_GRADED = word_set("grader graders grade graded year floor")
"""Words behind the name of a place in a row: eighteen fifth graders."""

_BEFORE_ONE = word_set("each every no which this that the last other any only in on for per")
_BEHIND_ONE = word_set("of another day by side")


def _points(raw: list[Token], at: int, after: str) -> bool:
    """Whether "one" points at a thing instead of counting: each one, one of them, one day."""
    told = raw[at].text == "One" and after in ("day", "morning", "evening")
    measured = (
        at + 1 < len(raw) and raw[at + 1].kind == "n" and not raw[at + 1].joined
    )  # one 3 feet long, one weighs 3 pounds
    stands = measured or after in _DOES_ONE or _is_of_two(raw, at)
    return _low(raw, at - 1) in _BEFORE_ONE or after in _BEHIND_ONE or told or stands


_DOES_ONE = word_set("is was weighs weighed holds held measures measured contains has had")
_WHICH_ONE = word_set("other another second")


def _is_of_two(raw: list[Token], at: int) -> bool:
    """Whether "one piece" is told from "another piece" of the same sentence."""
    thing = _low(raw, at + 1)
    behind = list(takewhile(lambda token: token.text not in ".?!", raw[at + 2 :]))
    pairs = pairwise(token.low for token in behind)
    return any(which in _WHICH_ONE and same == thing for which, same in pairs)
