"""Phrases that say work in words: 5 less than twice a number n, the product of 4 and the sum of 3
and 7. CCSSM (2010) 5.OA.A.2, 6.EE.A.2a.

A phrase is read only where its words allow one reading: all readings are made and compared.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Blank, Decimal, Expr, Frac, Group, Mixed, Op, Operation, Whole
from narrate.items.spelled import in_words

_JOINED: dict[str, Operation] = {
    "sum": "+", "total": "+", "product": "×", "quotient": "÷", "difference": "−",
}  # fmt: skip
_BETWEEN: tuple[tuple[str, Operation], ...] = (
    ("increased by", "+"), ("plus", "+"), ("decreased by", "−"), ("reduced by", "−"),
    ("minus", "−"), ("multiplied by", "×"), ("divided by", "÷"), ("times", "×"),
)  # fmt: skip
_TURNED: tuple[tuple[str, Operation], ...] = (
    ("more than", "+"), ("greater than", "+"), ("added to", "+"), ("less than", "−"),
    ("fewer than", "−"), ("subtracted from", "−"), ("taken from", "−"),
)  # fmt: skip
"""Said before what it is done to: 5 less than n is n − 5."""
_LETTER = r"(?:(?:a|an|the|some|any|another) (?:certain |unknown )?(?:number|quantity),? ?)?"
_MOST = 20
"""Words of a phrase that is read."""


def phrase(text: str) -> Expr | None:
    """The work that a phrase says, None where it says none or may say several."""
    words = re.sub(r"[\"“”‘’':.]|\bthe phrase\b", " ", text.lower()).replace(",", " , ").split()
    if not 2 < len(words) <= _MOST:
        return None
    found = set(_read(tuple(words)))
    return found.pop() if len(found) == 1 else None


def _read(words: tuple[str, ...]) -> Iterator[Expr]:
    """Every reading of all the words."""
    yield from _narrow(words)
    for sign_words, sign in _BETWEEN:
        for left, right in _split(words, sign_words):
            left = left[:-1] if left[-1:] == (",",) else left
            joins = sign in "+−"
            for a in _read(left) if joins else _simple(left):
                for b in _narrow(right) if joins else _simple(right):
                    yield Op(sign, _held(a, sign, left=True), _held(b, sign))


def _narrow(words: tuple[str, ...]) -> Iterator[Expr]:
    """Readings that are one thing: a number, so many times it, the sum of two, 5 less than it."""
    if (alone := _atom(words)) is not None:
        yield alone
        return
    yield from _prefixed(words)
    yield from _of_two(words)
    for turned, sign in _TURNED:
        for left, right in _split(words, turned):
            for a in _simple(left):
                for b in _narrow(right):
                    yield Op(sign, _held(b, sign, left=True), _held(a, sign))


def _simple(words: tuple[str, ...]) -> Iterator[Expr]:
    if (alone := _atom(words)) is not None:
        yield alone
    yield from _prefixed(words)
    yield from _of_two(words)


def _prefixed(words: tuple[str, ...]) -> Iterator[Expr]:
    """Twice a number, half of it, 3 times the sum."""
    if words[:1] in (("twice",), ("double",)):
        yield from (Op("×", Whole(2), _held(inner, "×")) for inner in _simple(words[1:]))
    if words[:1] == ("half",):
        rest = words[2:] if words[1:2] == ("of",) else words[1:]
        yield from (Op("÷", _held(inner, "÷", left=True), Whole(2)) for inner in _simple(rest))
    for left, right in _split(words, "times"):
        number = _atom(left)
        if number is not None and not isinstance(number, Blank):
            yield from (Op("×", number, _held(inner, "×")) for inner in _one_thing(right))


def _one_thing(words: tuple[str, ...]) -> Iterator[Expr]:
    if (alone := _atom(words)) is not None:
        yield alone
    yield from _of_two(words)


def _of_two(words: tuple[str, ...]) -> Iterator[Expr]:
    """The sum of 3 and 7; the difference between two is the first less the second."""
    if words[:1] in (("the",), ("a",)):
        words = words[1:]
    sign = _JOINED.get(words[0]) if words else None
    if sign is None or words[1:2] not in (("of",), ("between",)):
        return
    for left, right in _split(words[2:], "and"):
        left = left[:-1] if left[-1:] == (",",) else left
        for a in _simple(left):
            for b in _simple(right):
                yield Op(sign, _held(a, sign, left=True), _held(b, sign))


def _held(tree: Expr, sign: Operation, *, left: bool = False) -> Expr:
    """A part in brackets, where the operation that it goes into would pull it apart."""
    if not isinstance(tree, Op):
        return tree
    binds = {"+": 1, "−": 1, "×": 2, "÷": 2}
    loose = binds[tree.sign] < binds[sign]
    same = not left and binds[tree.sign] == binds[sign] and sign in "−÷"
    return Group(tree) if loose or same else tree


def _split(words: tuple[str, ...], at: str) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """The words before and after each place where some others stand."""
    mark = tuple(at.split())
    for k in range(1, len(words) - len(mark)):
        if words[k : k + len(mark)] == mark:
            yield words[:k], words[k + len(mark) :]


def _atom(words: Sequence[str]) -> Expr | None:
    """A number, or a letter that stands for one; a number without a letter is called n."""
    text = " ".join(word for word in words if word != ",")
    if found := re.fullmatch(rf"{_LETTER}([a-z])", text):
        return Blank(found[1]) if found[1] not in "aeio" else None
    if re.fullmatch(_LETTER.removesuffix("?"), f"{text} ") or text in ("a number", "the number"):
        return Blank(UNNAMED)
    number = in_words(text) if re.fullmatch(r"[a-z -]+", text) else None
    if number is not None:
        return number
    with suppress(ExactError):
        tree = parse_expr(text)
        return tree if isinstance(tree, Whole | Decimal | Frac | Mixed) else None
    return None


UNNAMED = "□"
"""The name of a number that the words give no letter."""
