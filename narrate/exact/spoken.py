"""Mathematics in words, as a teacher reads it aloud.

Sources: MathSpeak core rules (fractions as natural words, decimals digit by digit after "point",
"zero" for 0); NC DPI "Rules for Recording" (relations with "is"); common practice, no source, for
"over" where the name of the pieces would be heard as an ordinal (twenty-fifths).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from narrate.errors import ExactError
from narrate.exact._grouping import left_needs_brackets, opened, right_needs_brackets
from narrate.exact._language import Language
from narrate.exact._languages import words_of
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Group,
    InUnits,
    Mixed,
    Money,
    Neg,
    Op,
    Over,
    Piece,
    Ratio,
    Relation,
    Sayable,
    TimeOfDay,
    Whole,
    WithRest,
)


def say(pieces: Sequence[Piece], language: str = "en") -> str:
    """Words as they are, mathematics spoken; nothing is added between the pieces."""
    return "".join(piece if isinstance(piece, str) else speak(piece, language) for piece in pieces)


def speak(tree: Sayable, language: str = "en", *, blank: str | None = None) -> str:
    """The tree in words, without a digit.

    `blank` is what an unfilled □ is called outside fractions ("what number" where None).
    """
    words = words_of(language)
    return _phrase(tree, _Voice(words, words.unknown if blank is None else blank)).words


def cardinal(number: int, language: str = "en") -> str:
    """`twenty-one`, `one thousand two hundred four`, `negative five`."""
    return words_of(language).cardinal(number)


def ordinal(number: int, language: str = "en") -> str:
    """`third`, `twenty-first`."""
    return words_of(language).ordinal(number)


def pieces_name(denominator: int, count: int = 2, language: str = "en") -> str:
    """What pieces are called of which `denominator` make a whole: `half`, `fourths`, `wholes`."""
    _refuse_zero(denominator)
    return words_of(language).pieces(denominator, count)


def fraction_words(numerator: int, denominator: int, language: str = "en") -> str:
    """`three fourths`, `one half`, `seven over twenty-five`. Raises ExactError over zero."""
    return _fraction(numerator, denominator, words_of(language))


class _Voice(NamedTuple):
    """A language, and what a blank is called at this place."""

    words: Language
    blank: str


class _Phrase(NamedTuple):
    """Spoken words; `open` where a listener can't hear that they end, so that a pause must tell."""

    words: str
    open: bool = False


def _phrase(tree: Sayable, voice: _Voice) -> _Phrase:
    match tree:
        case Relation(sign, sides):
            return _joined([_phrase(side, voice) for side in sides], voice.words.relations[sign])
        case Op(left=left, right=Blank(name), close=True):
            return _Phrase(f"{_left(tree, left, voice).words} {name}")
        case Op(sign, left, right):
            said = [_left(tree, left, voice), _right(tree, right, voice)]
            return _joined(said, voice.words.operations[sign])
        case Group(inner):
            return _phrase(inner, voice)
        case Neg(inner):
            return _opposite(opened(inner), voice)
        case Money(amount):
            return _Phrase(_dollars(amount, voice.words))
        case Over(top, bottom):
            return _over(opened(top), opened(bottom), voice)
        case Blank(name):
            return _Phrase(voice.blank if name == "□" else name)
        case _:
            return _Phrase(_number(tree, voice.words))


def _joined(phrases: Sequence[_Phrase], word: str) -> _Phrase:
    said = phrases[0].words
    for before, after in pairwise(phrases):
        said += f"{',' if before.open else ''} {word} {after.words}"
    return _Phrase(said, phrases[-1].open)


def _number(
    tree: Whole | Frac | Mixed | Decimal | WithRest | Ratio | InUnits | TimeOfDay, words: Language
) -> str:
    match tree:
        case Whole(number):
            return words.cardinal(number)
        case Ratio(first, second):
            return f"{words.cardinal(first)} {words.to} {words.cardinal(second)}"
        case InUnits():
            return " ".join(f"{words.cardinal(count)} {unit}" for count, unit in tree.parts)
        case TimeOfDay(_, minute, half):
            return words.clock(tree.hour, minute, "pa"[tree.morning] if half else "")
        case Frac(numerator, denominator):
            return _fraction(numerator, denominator, words)
        case Mixed(whole, numerator, denominator):
            part = _fraction(numerator, denominator, words)
            return f"{words.cardinal(whole)} {words.mixed} {part}"
        case WithRest(quotient, rest, _):
            return f"{words.cardinal(quotient)} {words.remainder} {words.cardinal(rest)}"
        case Decimal(whole_digits, places):
            digits = " ".join(words.cardinal(int(digit)) for digit in places or "0")
            return f"{words.cardinal(int(whole_digits or '0'))} {words.point} {digits}"


def _dollars(amount: Whole | Decimal, words: Language) -> str:
    match amount:
        case Whole(number):
            return words.money(str(number), "")
        case Decimal(dollars, cents):
            return words.money(dollars or "0", cents.ljust(2, "0"))


def _fraction(numerator: int, denominator: int, words: Language) -> str:
    _refuse_zero(denominator)
    top = words.cardinal(numerator)
    if words.reads_as_pieces(denominator):
        return f"{top} {words.pieces(denominator, numerator)}"
    return f"{top} {words.over} {words.cardinal(denominator)}"


def _refuse_zero(denominator: int) -> None:
    if denominator < 1:
        raise ExactError("the denominator is zero" if denominator == 0 else "it is negative")


def _left(tree: Op, left: Expr, voice: _Voice) -> _Phrase:
    inner = opened(left)
    if left_needs_brackets(tree.sign, inner):
        return _as(voice.words.quantity, inner, voice)
    if tree.sign in ("×", "÷") and _is_long_fraction(inner):
        return _as(voice.words.fraction, inner, voice)
    return _phrase(inner, voice)


def _right(tree: Op, right: Expr, voice: _Voice) -> _Phrase:
    inner = opened(right)
    if right_needs_brackets(tree.sign, inner):
        return _as(voice.words.quantity, inner, voice)
    if _is_long_fraction(inner) or (tree.sign == "÷" and isinstance(inner, Over)):
        return _as(voice.words.fraction, inner, voice)
    return _phrase(inner, voice)


def _opposite(inner: Expr, voice: _Voice) -> _Phrase:
    """A number gets its sign; of anything longer the opposite is taken."""
    if isinstance(inner, Neg):
        return _as(voice.words.opposite, inner, voice, is_open=False)
    if isinstance(inner, Op) or _is_long_fraction(inner):
        pattern = voice.words.quantity if isinstance(inner, Op) else voice.words.fraction
        said = _as(pattern, inner, voice)
        return _Phrase(voice.words.opposite.format(said.words), said.open)
    return _as(voice.words.negative, inner, voice, is_open=False)


def _over(top: Expr, bottom: Expr, voice: _Voice) -> _Phrase:
    inside = voice._replace(blank=voice.words.blank)
    if isinstance(top, Whole) and isinstance(bottom, Whole):
        return _Phrase(_fraction(top.number, bottom.number, voice.words))
    long = not (_is_short(top) and _is_short(bottom))
    above, below = _phrase(top, inside).words, _phrase(bottom, inside).words
    return _Phrase(f"{above}{',' if long else ''} {voice.words.over} {below}", long)


def _is_long_fraction(tree: Expr) -> bool:
    return isinstance(tree, Over) and not (
        _is_short(opened(tree.top)) and _is_short(opened(tree.bottom))
    )


def _is_short(tree: Expr) -> bool:
    match tree:
        case Whole() | Decimal() | Blank():
            return True
        case Neg(inner) | Group(inner):
            return _is_short(inner)
        case _:
            return False


def _as(pattern: str, tree: Expr, voice: _Voice, *, is_open: bool = True) -> _Phrase:
    return _Phrase(pattern.format(_phrase(tree, voice).words), is_open)
